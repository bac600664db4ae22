"""Every rule is documented, published and shown at work; every row of its tables matters."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from typing import Any

import pytest

from partsbin import standards
from partsbin.fit.asked import names_behind
from partsbin.fit.judge import judge
from partsbin.fit.rule import Rule
from partsbin.fit.rules import RULES
from partsbin.kinds.kind import Kind
from tests.fit import (
    test_more_cases_brake_levers,
    test_more_cases_chains,
    test_more_cases_cockpit,
    test_more_cases_cranks,
    test_more_cases_derailleurs,
    test_more_cases_discs,
    test_more_cases_rear_indexing,
    test_more_cases_rim_brakes,
    test_more_cases_rows,
    test_more_cases_seats,
    test_more_cases_sprockets_on_hubs,
    test_more_cases_steering,
    test_more_cases_tubes,
    test_more_cases_tyres,
    test_more_cases_wheels_in_frames,
)
from tests.fit.written_parts import piece

VERDICTS = frozenset({"fits", "adapts", "clash"})
TABLES_OF_CASES = (
    test_more_cases_brake_levers.PULLS,
    test_more_cases_brake_levers.FLUID,
    test_more_cases_brake_levers.CABLES,
    test_more_cases_discs.DISCS,
    test_more_cases_rim_brakes.RIM_BRAKES,
    test_more_cases_rear_indexing.REAR,
    test_more_cases_rear_indexing.MEASURED,
    test_more_cases_chains.CHAINS,
    test_more_cases_chains.WORN,
    test_more_cases_chains.LENGTHS,
    test_more_cases_sprockets_on_hubs.DRIVERS,
    test_more_cases_derailleurs.DERAILLEURS,
    test_more_cases_cranks.CRANKS,
    test_more_cases_seats.SEATS,
    test_more_cases_cockpit.BARS,
    test_more_cases_steering.STEERING,
    test_more_cases_tyres.ROWS,
    test_more_cases_tubes.TUBES,
    test_more_cases_wheels_in_frames.WIDTHS,
)
ELSEWHERE = frozenset({"axle_threads", "bead_seats", "tyre_marking", "damage", "presale_items"})
"""Tables that no rule looks up by row: of threads, whose figures are in their names, of markings,
which a tyre reads when it is made, and of the inspection. Their own tests go through their rows."""


def cases() -> Iterator[tuple[str, ...]]:
    """Yield the parts of all cases."""
    for table in TABLES_OF_CASES:
        yield from (parts for _, parts, _ in table.values())
    yield from ((one, other) for _, one, other, _ in test_more_cases_rows.CASES)


PIECES = [tuple(map(piece, parts)) for parts in cases()]


def found(pieces: tuple[Kind, ...]) -> list[tuple[Any, ...]]:
    """Return what is found of each interface; a missing row may stop the judge."""
    try:
        judgement = judge(pieces)
    except (KeyError, StopIteration, TypeError, AttributeError, AssertionError) as fault:
        return [(type(fault),)]
    told = [(j.rule.name, j.finding) for j in judgement.interfaces]
    return [
        judgement.unchecked,
        *((name, f.verdict, f.source, f.because, f.change, f.remedy) for name, f in told),
        *((f.adapter and f.adapter.what, f.have, f.need) for _, f in told),
    ]


def forget() -> None:
    """Forget what the tables' functions have kept of earlier answers."""
    for module in modules():
        for kept in vars(module).values():
            if callable(getattr(kept, "cache_clear", None)):
                kept.cache_clear()


def modules() -> list[Any]:
    """Return the modules of tables."""
    names = [module.name for module in pkgutil.iter_modules(standards.__path__)]
    return [importlib.import_module(f"partsbin.standards.{name}") for name in names]


def tables() -> dict[str, dict[Any, Any]]:
    """Return the tables that are looked up by a key, by module and name."""
    return {
        f"{module.__name__.rpartition('.')[2]}.{name}": table
        for module in modules()
        for name, table in vars(module).items()
        if isinstance(table, dict) and table and name.isupper()
        if module.__name__.rpartition(".")[2] not in ELSEWHERE
    }


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_rule_is_documented_and_published(rule: Rule) -> None:
    """Each rule says in a sentence what it wants, names its source and joins two kinds or more."""
    assert (rule.function.__doc__ or "").strip().endswith(".")
    assert rule.source.strip()
    assert len(rule.parameters) > 1


def test_names_of_rules_differ() -> None:
    """No two rules have one name, since findings are kept by it."""
    assert len({rule.name for rule in RULES}) == len(RULES)


def test_each_rule_returns_each_verdict_of_its_code() -> None:
    """Each verdict that a rule's code can give is given in some case."""
    given: dict[str, set[str]] = {rule.name: set() for rule in RULES}
    for pieces in PIECES:
        for judged in judge(pieces).interfaces:
            given[judged.rule.name].add(str(judged.finding.verdict))
    missing = {}
    for rule in RULES:
        # What another rule finds that it asks is that one's to give.
        others = {other.function for other in RULES if other is not rule}
        missing[rule.name] = VERDICTS.intersection(names_behind(rule, others)) - given[rule.name]
    assert not any(missing.values()), missing


@pytest.mark.parametrize("name", tables())
def test_each_row_matters(name: str) -> None:
    """Without any one row of a table some case comes out otherwise."""
    table = tables()[name]
    forget()
    before = list(map(found, PIECES))
    idle = []
    for key in list(table):
        rows = dict(table)
        del table[key]
        forget()
        try:
            if all(found(p) == was for p, was in zip(PIECES, before, strict=True)):
                idle.append(key)
        finally:
            table.clear()
            table.update(rows)
            forget()
    assert idle == []
