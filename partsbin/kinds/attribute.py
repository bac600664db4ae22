"""What an attribute of a kind is, and the short constructors that the kinds are written with."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from partsbin.kinds.forms.codes import CodeForm
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.numbers import CountForm, CountsForm, NumberForm
from partsbin.kinds.forms.text import TextForm
from partsbin.kinds.forms.words import WordForm, WordsForm
from partsbin.standards.length import mm
from partsbin.standards.sizes import Sizes

if TYPE_CHECKING:
    from partsbin.kinds.forms.form import Form
    from partsbin.kinds.kind import Kind


class UndecidedError(Exception):
    """A rule asked for an attribute that is unknown; the judge answers it."""

    def __init__(self, piece: Kind, attribute: str) -> None:
        super().__init__(piece, attribute)
        self.piece = piece
        self.attribute = attribute

    def __str__(self) -> str:
        """Return what is unknown."""
        return f"{self.attribute} of {self.piece.word} is unknown"


class Attribute:
    """One attribute of a kind: its form, and how to measure it.

    On a piece a known attribute is its value. Reading an unknown one raises `UndecidedError`, so
    that a rule is written as if all were known and never mistakes unknown for zero or no.
    """

    __slots__ = ("form", "measure", "name")

    def __init__(self, form: Form, measure: str) -> None:
        self.form = form
        self.measure = measure
        self.name = ""

    def __set_name__(self, owner: type, name: str) -> None:
        if self.name not in {"", name}:
            raise TypeError(f"one attribute cannot be both {self.name} and {name}")
        self.name = name

    def __get__(self, piece: Kind | None, owner: type) -> Attribute:
        if piece is None:
            return self
        raise UndecidedError(piece, self.name)


# The constructors return Any: on the class the attribute is an Attribute, on a piece its value,
# and the annotation beside it states the value's type, which is what the rules read.


def length(low: float, high: float, measure: str, sizes: Sizes | None = None) -> Any:
    """Return a length attribute with its limits in millimetres."""
    return Attribute(LengthForm(mm(low), mm(high), sizes), measure)


def word(
    words: str,
    measure: str,
    *,
    also: Mapping[str, str] | None = None,
    measured: Mapping[str, str] | None = None,
    source: str = "",
) -> Any:
    """Return an attribute that is one of a row of words, parted by spaces.

    `also` maps other spellings to the words. `measured` maps a size in millimetres to the word,
    or the words, that it may mean; `source` is where those sizes are published.
    """
    means = {mm(size): tuple(may_mean.split()) for size, may_mean in (measured or {}).items()}
    table = Sizes(tuple(sorted(means)), source) if means else None
    return Attribute(WordForm(tuple(words.split()), also or {}, means, table), measure)


def yes_no(measure: str) -> Any:
    """Return an attribute that is yes or no."""
    return word("yes no", measure)


def words(allowed: str, measure: str, *, also: Mapping[str, str] | None = None) -> Any:
    """Return an attribute that is several of a row of words, parted by spaces."""
    return Attribute(WordsForm(tuple(allowed.split()), also or {}), measure)


def code(
    pattern: str,
    usual: str,
    measure: str,
    *,
    shape: str,
    capitals: int = 0,
    also: Mapping[str, str] | None = None,
) -> Any:
    """Return an attribute that is a code of a shape; `usual` lists those that are common.

    The first `capitals` letters are kept as capitals; `also` maps other spellings to the usual.
    """
    form = CodeForm(pattern, shape, tuple(usual.split()), capitals, also or {})
    return Attribute(form, measure)


def count(low: int, high: int, measure: str, *, listed: str = "", unit: str = "") -> Any:
    """Return a whole-number attribute; `listed` names the numbers that are usual."""
    usual = tuple(int(figure) for figure in listed.split())
    return Attribute(CountForm(low, high, usual, unit), measure)


def counts(low: int, high: int, measure: str) -> Any:
    """Return an attribute that is a list of whole numbers."""
    return Attribute(CountsForm(low, high), measure)


def number(low: str, high: str, measure: str, unit: str = "") -> Any:
    """Return a decimal-number attribute."""
    return Attribute(NumberForm(Decimal(low), Decimal(high), unit), measure)


def text(measure: str) -> Any:
    """Return a text attribute."""
    return Attribute(TextForm(), measure)
