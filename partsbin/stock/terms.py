"""The free words of a search: kinds of part, words of attributes and notes, grades, bins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import and_, false, func, or_, select, union

from partsbin.kinds import KINDS
from partsbin.kinds.names import OTHER_NAMES
from partsbin.stock.models import Holding, NoteWord, Part, Place, RecordedSpec, SpecValue
from partsbin.stock.parts import note_words
from partsbin.stock.words import Grade, PlaceType

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Select, Subquery
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import PartId

LONGEST_KIND = max(word.count("_") for word in (*KINDS, *OTHER_NAMES)) + 1
"""Words in the longest name of a kind."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What free words mean: any of the kinds, and all of the other words."""

    kinds: tuple[str, ...]
    words: tuple[str, ...]


def read_terms(words: Sequence[str]) -> Terms:
    """Return which of the words name kinds, one or more words a kind, in singular or plural.

    >>> read_terms(["rear", "derailleurs", "long"])
    Terms(kinds=('rear_derailleur',), words=('long',))
    """
    left = [part for word in words for part in word.lower().replace("_", " ").split()]
    kinds: dict[str, None] = {}
    others = []
    while left:
        length, kind = _leading_kind(left)
        if kind:
            kinds[kind] = None
        else:
            others.append(left[0])
        del left[:length]
    return Terms(tuple(kinds), tuple(others))


def _leading_kind(words: Sequence[str]) -> tuple[int, str]:
    """Return the longest kind's name that the words begin with and its length, else 1 and ''."""
    for length in range(min(LONGEST_KIND, len(words)), 0, -1):
        for name in numbers_of("_".join(words[:length]).replace("-", "_")):
            if name in KINDS or name in OTHER_NAMES:
                return length, OTHER_NAMES.get(name, name)
    return 1, ""


def numbers_of(word: str) -> list[str]:
    """Return a word as it is, and in what may be its singular and plural.

    >>> numbers_of("pedal")
    ['pedal', 'pedals', 'pedales']
    """
    forms = [word]
    if word.endswith("ies"):
        forms.append(word[:-3] + "y")
    forms += [word.removesuffix(end) for end in ("s", "es") if word.endswith(end)]
    forms += [word + "s", word + "es"]
    return forms


def clause(session: Session, word: str) -> ColumnElement[bool]:
    """Return the condition that a part has to do with a word that names no kind by itself.

    It is in the name of its kind, a value of an attribute, in its note, its grade, or its bin.
    """
    specs = _specs_with(word)
    means: list[ColumnElement[bool]] = []
    # What nothing is found by is left out: a single list of specs is read in the answer's order.
    if session.scalar(select(specs.c.id).limit(1)) is not None:
        means.append(Part.spec_id.in_(select(specs.c.id)))
    noted = [_noting(piece) for piece in note_words(word)]
    if noted and all(session.scalar(query.limit(1)) for query in noted):
        means.append(and_(*(Part.id.in_(query) for query in noted)))
    if word in {grade.value for grade in Grade}:
        means.append(Part.grade == Grade(word))
    named = (Place.type == PlaceType.BIN) & (func.lower(Place.name) == func.lower(word))
    bin_ = session.scalar(select(Place.id).where(named))
    if bin_ is not None:
        means.append(Part.id.in_(select(Holding.part_id).where(Holding.place_id == bin_)))
    return or_(*means) if means else false()


def _specs_with(word: str) -> Subquery:
    """Return the specs whose kind has the word in its name, or that have it as a value."""
    forms = set(numbers_of(word))
    kinds = [kind for kind in KINDS if forms & set(kind.split("_"))]
    valued = select(SpecValue.spec_id.label("id")).where(SpecValue.word == word)
    if not kinds:
        return valued.subquery()
    return union(
        select(RecordedSpec.id).where(RecordedSpec.kind.in_(kinds)),
        valued,
    ).subquery()


def _noting(word: str) -> Select[PartId]:
    return select(NoteWord.part_id).where(NoteWord.word == word)
