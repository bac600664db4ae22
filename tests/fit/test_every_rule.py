"""Every rule is documented, published and shown at work; every row of its tables matters."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from typing import Any

import pytest

from partsbin import standards
from partsbin.fit.judge import judge
from partsbin.fit.rule import Rule, _names
from partsbin.fit.rules import RULES
from partsbin.kinds.kind import Kind
from tests.fit import (
    test_more_cases_brakes,
    test_more_cases_drivetrain,
    test_more_cases_frame,
    test_more_cases_rows,
    test_more_cases_wheels,
)
from tests.fit.written_parts import piece

VERDICTS = frozenset({"fits", "adapts", "clash"})
TABLES_OF_CASES = (
    test_more_cases_brakes.PULLS,
    test_more_cases_brakes.FLUID,
    test_more_cases_brakes.DISCS,
    test_more_cases_drivetrain.REAR,
    test_more_cases_drivetrain.MEASURED,
    test_more_cases_drivetrain.CHAINS,
    test_more_cases_drivetrain.WORN,
    test_more_cases_drivetrain.LENGTHS,
    test_more_cases_drivetrain.DRIVERS,
    test_more_cases_drivetrain.CRANKS,
    test_more_cases_frame.SEATS,
    test_more_cases_frame.BARS,
    test_more_cases_frame.STEERING,
    test_more_cases_wheels.ROWS,
    test_more_cases_wheels.TUBES,
    test_more_cases_wheels.WIDTHS,
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
    missing = {
        rule.name: lacking
        for rule in RULES
        if (lacking := (VERDICTS & set(_names(rule.function, set()))) - given[rule.name])
    }
    assert missing == {}


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
