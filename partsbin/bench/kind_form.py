"""The form of a kind of part: the right control for each attribute, and what was typed read.

Each attribute is read by its own form, as the command line reads it, so that a fault can stand
beside its field; all of them are told at once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.catalogue import unit_of
from partsbin.kinds.forms.codes import CodeForm
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.numbers import CountForm, NumberForm
from partsbin.kinds.forms.words import WordForm, WordsForm
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec, SpecError, in_words
from partsbin.workshop.assignments import as_typed, read_spec, split, written

if TYPE_CHECKING:
    from werkzeug.datastructures import MultiDict

    from partsbin.kinds.attribute import Attribute
    from partsbin.kinds.forms.form import Form
    from partsbin.kinds.kind import Kind

OF_ATTRIBUTE = "a."
"""What the fields of attributes begin with."""
READING, ASSUMED = ".reading", ".assumed"
"""What the names of the second fields of an attribute end with."""
OTHERS = "others"
"""The field in which a kind that takes any attributes has those of no name of its own."""
YES_NO = {"yes", "no"}
NONE = "none"


class Control(StrEnum):
    """How an attribute is asked for."""

    YES_NO = "yes or no"
    CHOICE = "choice"
    SEVERAL = "several"
    NUMBER = "number"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Field:
    """One attribute as a form asks for it."""

    name: str
    label: str
    control: Control
    measure: str
    limits: str
    """What may be typed, empty where one chooses."""
    unit: str
    options: tuple[str, ...]
    """The words to choose from, or the usual values of what is typed."""
    measured: bool
    """Whether a measured size will do instead of a word."""
    first: bool
    """Whether a mechanic asks for it first."""


@dataclass(frozen=True, slots=True)
class Filled:
    """What was typed into the form of a kind, and what that means."""

    typed: Mapping[str, str] = field(default_factory=dict)
    """By attribute, as the command line would take it."""
    assumed: frozenset[str] = frozenset()
    others: str = ""
    faults: Mapping[str, str] = field(default_factory=dict)
    spec: Spec | None = None
    """None where there are faults."""

    @property
    def assignments(self) -> list[str]:
        """Return the attributes as the workshop takes them. Asked for only without faults."""
        assert self.spec is not None
        return split(written(self.spec))


def fields(kind: type[Kind]) -> list[Field]:
    """Return the fields of a kind's form, what a mechanic asks for first in front."""
    attributes = sorted(kind.attributes.values(), key=lambda one: _rank(kind, one.name))
    return [_field(one, first=one.name in kind.first) for one in attributes]


def _rank(kind: type[Kind], name: str) -> int:
    return kind.first.index(name) if name in kind.first else len(kind.first)


def _field(attribute: Attribute, *, first: bool) -> Field:
    form = attribute.form
    control = _control(form)
    chosen = control in (Control.YES_NO, Control.CHOICE, Control.SEVERAL)
    return Field(
        name=attribute.name,
        label=in_words(attribute.name),
        control=control,
        measure=attribute.measure,
        limits="" if chosen else _limits(form),
        unit=unit_of(attribute.name),
        options=_options(form),
        measured=isinstance(form, WordForm) and bool(form.measured),
        first=first,
    )


def _control(form: Form) -> Control:
    if isinstance(form, WordForm):
        return Control.YES_NO if set(form.words) == YES_NO else Control.CHOICE
    if isinstance(form, WordsForm):
        return Control.SEVERAL
    if isinstance(form, LengthForm | CountForm | NumberForm):
        return Control.NUMBER
    return Control.TEXT


def _limits(form: Form) -> str:
    """Return what may be typed, without the list that the field offers itself."""
    return form.shape if isinstance(form, CodeForm) else form.allowed


def _options(form: Form) -> tuple[str, ...]:
    if isinstance(form, WordForm | WordsForm):
        return form.words
    return tuple(str(form.plain(value)) for value in form.candidates())


def read(kind: type[Kind], sent: MultiDict[str, str]) -> Filled:
    """Return what was sent of a kind's form; every fault stands beside its attribute."""
    typed = {
        one.name: text for one in kind.attributes.values() if (text := _sent(one, sent).strip())
    }
    faults: dict[str, str] = {}
    for name, text in typed.items():
        try:
            Spec.read(kind.word, {name: text})
        except SpecError as fault:
            faults[name] = fault.reason
    others = sent.get(OTHERS, "").strip() if kind.free else ""
    loose = Spec(kind.word)
    try:
        loose = _loose(kind, others, typed)
    except UsageError as fault:
        faults[OTHERS] = str(fault)
    assumed = frozenset(name for name in typed if sent.get(OF_ATTRIBUTE + name + ASSUMED))
    whole = None if faults else Spec.read(kind.word, typed, assumed).with_values(loose)
    return Filled(typed, assumed, others, faults, whole)


def _loose(kind: type[Kind], lines: str, typed: Mapping[str, str]) -> Spec:
    """Return what the lines of other attributes say. Raises `UsageError` for one typed twice."""
    loose = read_spec(kind.word, (line for line in lines.splitlines() if line.strip()))
    twice = next((name for name, _ in loose.values if name in typed), None)
    if twice is not None:
        raise UsageError(f"{twice} is given twice")
    return loose


def _sent(attribute: Attribute, sent: MultiDict[str, str]) -> str:
    """Return what was sent of one attribute; a measured size goes before a word."""
    name = OF_ATTRIBUTE + attribute.name
    if isinstance(attribute.form, WordsForm):
        words = sent.getlist(name)
        return " ".join(word for word in words if word != NONE) or (NONE if words else "")
    return sent.get(name + READING, "").strip() or sent.get(name, "")


def of_spec(spec: Spec) -> Filled:
    """Return the form of a kind as it is filled with what is known of a part."""
    own = KINDS[spec.kind].attributes
    typed = {name: as_typed(value) for name, value in spec.plain().items() if name in own}
    rest = tuple((name, value) for name, value in spec.values if name not in own)
    others = "\n".join(split(written(Spec(spec.kind, rest, spec.assumed))))
    return Filled(typed, spec.assumed, others, {}, spec)


def taken_for(kind: type[Kind], name: str, text: str) -> str:
    """Return what a typed value of an attribute is taken for. Raises `SpecError`."""
    return Spec.read(kind.word, {name: text}).shown()[name]
