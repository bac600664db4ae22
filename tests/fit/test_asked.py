"""What a rule can ask for, as its code says."""

from __future__ import annotations

import random

import pytest

from partsbin.fit.asked import asked_by
from partsbin.fit.judge import evaluate
from partsbin.fit.rule import Rule
from partsbin.fit.rules import RULES
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec
from tests.bench.plan_shop import demo_specs, varied

TRIES = 60


def _seen(spec: Spec, rule: Rule) -> Spec:
    """Return the spec with only what the rule can ask for, and what that is read from."""
    read_from = {"marking"} if spec.kind == "tyre" else set()
    names = asked_by(rule) | read_from
    return Spec(spec.kind, tuple(v for v in spec.values if v[0] in names), spec.assumed)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_asks_for_nothing_else(rule: Rule) -> None:
    """A rule finds the same of parts that lack all but the attributes that it is said to ask for.

    Plans rely on it: parts that are equal in these are judged as one.
    """
    rng = random.Random(rule.name)
    for _ in range(TRIES):
        specs = []
        for parameter in rule.parameters:
            kind = rng.choice([word for word in KINDS if parameter.takes(word)])
            specs.append(
                rng.choice(demo_specs().get(kind, [Spec(kind)]))
                if rng.random() < 0.5
                else varied(rng, kind)
            )
        whole = evaluate(rule, tuple(spec.piece for spec in specs))
        bare = evaluate(rule, tuple(_seen(spec, rule).piece for spec in specs))

        assert (whole and (whole.verdict, whole.adapter, whole.change)) == (
            bare and (bare.verdict, bare.adapter, bare.change)
        ), specs
