"""The free words of a search: kinds of part, words of attributes and notes, grades, bins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import and_, false, func, or_, select, union

from partsbin.kinds import KINDS
from partsbin.kinds.names import OTHER_NAMES
from partsbin.stock.clause import Clause
from partsbin.stock.models import Holding, NoteWord, Part, Place, RecordedSpec, SpecValue
from partsbin.stock.parts import note_words
from partsbin.stock.words import Grade, PlaceType

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Subquery
    from sqlalchemy.orm import Session

LONGEST_KIND = max(word.count("_") for word in (*KINDS, *OTHER_NAMES)) + 1
"""Words in the longest name of a kind."""
COMMON = 2000
"""A word in the notes of so many parts is common."""


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


def clause(session: Session, word: str) -> Clause:
    """Return the condition that a part has to do with a word that names no kind by itself.

    It is in the name of its kind, a value of an attribute, in its note, its grade, or its bin.
    """
    specs = _specs_with(word)
    means = _of_part(session, word)
    # What nothing is found by is left out: a single list of specs is read in the answer's order.
    found = session.scalar(select(specs.c.id).limit(1)) is not None
    if found and not means:
        return Clause(RecordedSpec.id.in_(select(specs.c.id)), of_spec=True)
    if found:
        means.append(Part.spec_id.in_(select(specs.c.id)))
    return Clause(or_(false(), *means), of_spec=False)


def _of_part(session: Session, word: str) -> list[ColumnElement[bool]]:
    """Return what a word may say of a part besides its spec."""
    means: list[ColumnElement[bool]] = []
    noted = [_noting(session, piece) for piece in note_words(word)]
    if noted and all(test is not None for test in noted):
        means.append(and_(*(test for test in noted if test is not None)))
    if word in {grade.value for grade in Grade}:
        means.append(Part.grade == Grade(word))
    named = (Place.type == PlaceType.BIN) & (func.lower(Place.name) == func.lower(word))
    bin_ = session.scalar(select(Place.id).where(named))
    if bin_ is not None:
        means.append(Part.id.in_(select(Holding.part_id).where(Holding.place_id == bin_)))
    return means


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


def _noting(session: Session, word: str) -> ColumnElement[bool] | None:
    """Return the condition that a word is in a part's note, None if it is in no note.

    The parts of a rare word are listed and sorted. Those of a common one would be too many: the
    parts are gone through in the answer's order, and a full answer ends that soon.
    """
    parts = select(NoteWord.part_id).where(NoteWord.word == word)
    few = select(func.count()).select_from(parts.limit(COMMON).subquery())
    found = session.scalar(few) or 0
    if not found:
        return false()
    return (
        Part.id.in_(parts) if found < COMMON else parts.where(NoteWord.part_id == Part.id).exists()
    )
