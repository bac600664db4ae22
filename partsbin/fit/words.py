"""The one writer that turns findings into sentences: the cause, the values, then what helps."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from partsbin.fit.judge import SHARE_NOTHING, Judged, Judgement, outcomes
from partsbin.fit.verdict import Amount, Finding, Trial, Verdict
from partsbin.kinds.forms.numbers import CountForm
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import FREE, in_words
from partsbin.standards.length import in_mm

if TYPE_CHECKING:
    from partsbin.fit.verdict import About
    from partsbin.kinds.forms.form import Value
    from partsbin.kinds.kind import Kind

MOST_SIZES = 6
"""How many possible sizes are named before the rest is cut off."""


def why(finding: Finding, *, brief: bool = False) -> str:
    """Return why a finding is what it is: the decisive cause, the values, then what to try.

    `brief` leaves out how to measure and what each possible value would mean.
    """
    if finding.verdict is Verdict.MEASURE:
        return _measure(finding, brief=brief)
    parts = [("dangerous: " if finding.dangerous else "") + finding.because]
    values = [_value(about, finding) for about in finding.about]
    if values:
        parts.append(f"({', '.join(values)})")
    text = " ".join(filter(None, parts))
    text += _difference(finding)
    if finding.through is not None:
        text = f"through the {finding.through.spec}; without it {text}"
    elif finding.adapter is not None:
        text += f"; needs: {finding.adapter.what}"
    # What is through an adapter already needs no remedy any more.
    for more in (finding.change, "" if finding.through else finding.remedy):
        text += f"; {more}" if more else ""
    return text


def headline(judgement: Judgement) -> str:
    """Return the decisive cause of a judgement in one sentence."""
    if not judgement.interfaces:
        return SHARE_NOTHING
    first = judgement.interfaces[0]
    return f"{first.rule.name}: {why(first.finding, brief=True)}"


def source(judged: Judged) -> str:
    """Return where the rule behind a finding is published."""
    return judged.finding.source or judged.rule.source


def as_data(judgement: Judgement) -> dict[str, object]:
    """Return a judgement as JSON holds it."""
    held: dict[str, object] = {
        "verdict": str(judgement.verdict),
        "interfaces": [
            {
                "interface": judged.rule.name,
                "verdict": str(judged.finding.verdict),
                "why": why(judged.finding),
                "source": source(judged),
                "parts": list(judged.parts),
                **_extras(judged.finding),
            }
            for judged in judgement.interfaces
        ],
    }
    if not judgement.interfaces:
        held["why"] = SHARE_NOTHING
    if judgement.unchecked:
        held["unchecked"] = list(judgement.unchecked)
    return held


def _extras(finding: Finding) -> dict[str, object]:
    extras: dict[str, object] = {}
    if finding.adapter is not None:
        extras["adapter"] = finding.adapter.what
    if finding.change:
        extras["change"] = finding.change
    if finding.makeshift:
        extras["makeshift"] = True
    if finding.open:
        extras["measure"] = [
            {"kind": t.piece.word, "attribute": t.attribute, "how": how_to_measure(t)}
            for t in finding.open
        ]
    return extras


def how_to_measure(trial: Trial) -> str:
    """Return how to measure the unknown that decides."""
    attribute = trial.piece.attributes.get(trial.attribute)
    return attribute.measure if attribute else "look at the part"


def _measure(finding: Finding, *, brief: bool) -> str:
    told = []
    for trial in finding.open:
        name = f"{in_words(trial.attribute)} of the {in_words(trial.piece.word)}"
        reading = trial.piece.spec.get(trial.attribute)
        if trial.attribute in trial.piece.likely:
            told.append(f"{name} is only assumed")
        elif reading is not None:
            told.append(f"{name} was read as {_shown(trial.piece, trial.attribute, reading)}")
        else:
            told.append(f"{name} {'are' if _several_of(trial.attribute) else 'is'} not known")
    text = " and ".join(told) + (", which decides" if len(told) == 1 else ", which decide")
    if finding.likely is not None:
        text += f"; likely {finding.likely.verdict}: {why(finding.likely)}"
    if brief:
        return text
    for trial in finding.open:
        text += f"; measure {trial.attribute}: {how_to_measure(trial)}"
    return text + _meanings(finding.open[0])


def _several_of(attribute: str) -> bool:
    """Return whether an attribute is called by a plural, as `rails` and `teeth` are."""
    return attribute == "teeth" or (attribute.endswith("s") and not attribute.endswith("ss"))


def _meanings(trial: Trial) -> str:
    """Return which possible values lead to which verdict, best first."""
    if trial.rule.parameters and len(trial.pieces) != len(trial.rule.parameters):
        return ""
    by_verdict: dict[Verdict, list[Value]] = {}
    for value, finding in outcomes(trial):
        verdict = finding.verdict if finding else Verdict.FITS
        by_verdict.setdefault(verdict, []).append(value)
    told = [
        f"{verdict} if {_several(trial, by_verdict[verdict])}"
        for verdict in Verdict
        if verdict in by_verdict and verdict is not Verdict.MEASURE
    ]
    return f"; {', '.join(told)}" if told else ""


def _several(trial: Trial, values: list[Value]) -> str:
    shown = [_shown(trial.piece, trial.attribute, value) for value in values[:MOST_SIZES]]
    return " or ".join(shown) + (" or others" if len(values) > MOST_SIZES else "")


def _value(about: About, finding: Finding) -> str:
    piece, name = about
    kind, told = in_words(piece.word), in_words(name)
    label = told if told.startswith(kind) else f"{kind} {told}"
    form = KINDS[piece.word].attributes[name].form if name in piece.attributes else FREE
    if isinstance(form, CountForm) and told == form.unit:
        label = kind
    recorded = piece.spec.get(name)
    if recorded is None and piece.known(name):
        recorded = piece.__dict__[name]
    idle = any(name == n and piece.word == p.word for p, n in finding.whatever)
    if recorded is None or (idle and piece.spec.get(name) is None):
        return f"{label} unknown" + (" but no matter" if idle else "")
    return f"{label} {_shown(piece, name, recorded)}" + (" no matter which" if idle else "")


def _shown(piece: Kind, name: str, value: Value) -> str:
    attribute = KINDS[piece.word].attributes.get(name)
    form = attribute.form if attribute else FREE
    return form.show(value)


def _difference(finding: Finding) -> str:
    have, need = finding.have, finding.need
    if have is None or need is None:
        return "".join(f"; {a.what} {_amount(a)}" for a in (have, need) if a is not None)
    told = [piece.__dict__.get(name) for piece, name in finding.about]
    texts = [] if have.value in told and need.value in told else [have, need]
    shown = [f"{amount.what} {_amount(amount)}" for amount in texts]
    if have.unit == need.unit and have.value != need.value:
        off = abs(Decimal(str(have.value)) - Decimal(str(need.value)))
        shown.append(f"difference {_amount(Amount('', off, have.unit))}")
    return f"; {', '.join(shown)}" if shown else ""


def _amount(amount: Amount) -> str:
    if amount.unit == "mm":
        return f"{in_mm(int(amount.value))} mm"
    return f"{round(Decimal(str(amount.value)), 3).normalize():f} {amount.unit}".rstrip()
