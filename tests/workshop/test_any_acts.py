"""Whatever is done in a workshop, its stock and its money add up."""

from __future__ import annotations

from hypothesis import settings
from hypothesis.stateful import run_state_machine_as_test

from tests.databases import Databases
from tests.workshop.any_acts import machine

SMALL = settings(max_examples=8, stateful_step_count=12, deadline=None, derandomize=True)
"""The full size, 1,000 runs, is in `tests/bench/bench_any_acts.py`."""


def test_any_acts_add_up(databases: Databases) -> None:
    """After any acts, refused or not, the record is sound, and undoing one restores what was."""
    run_state_machine_as_test(machine(databases), settings=SMALL)
