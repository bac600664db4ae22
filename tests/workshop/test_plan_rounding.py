from __future__ import annotations

import highspy
import pytest

from partsbin.workshop.planning.programme import Programme
from partsbin.workshop.planning.solving import solve


def test_a_stage_that_comes_back_empty_is_solved_without_presolve(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What an earlier stage has found satisfies the rows of the next; only rounding can hide it.

    Then the stage is solved as it stands, so that the plan is still proven in every objective.
    """
    programme = Programme()
    new, old, dear = (programme.column(value=v, age=a) for v, a in ((5, 9), (5, 2), (6, 1)))
    programme.row([(new, 1), (old, 1), (dear, 1)], 1, 1)
    ways: list[str] = []
    run = highspy.Highs.run

    def hiding(highs: highspy.Highs) -> object:
        ways.append(str(highs.getOptionValue("presolve")[1]))
        return None if ways == ["choose", "choose"] else run(highs)

    monkeypatch.setattr(highspy.Highs, "run", hiding)

    found = solve(programme)

    assert ways == ["choose", "choose", "off"]
    assert found is not None
    assert found.proven
    assert [found.values[column] for column in (new, old, dear)] == [0, 1, 0]
