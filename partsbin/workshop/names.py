"""The user's own list of names: what is printed on a part says what it is.

The program ships no list. An entry maps a text, as it is printed, to a kind and its attributes; a
text may stand for parts of several kinds, as the name of a group of parts does.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.errors import NotFoundError, UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.spec import Spec, in_words
from partsbin.stock.name_tables import PrintedName
from partsbin.stock.specs import spec_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LONGEST = 120
"""Characters that a printed name may have."""
MOST_OFFERED = 8


@dataclass(frozen=True, slots=True)
class Named:
    """An entry of the list."""

    printed: str
    spec: Spec
    note: str


def key_of(printed: str) -> str:
    """Return the words of a printed name for looking it up; a number parts from its letters.

    Raises `UsageError` for a text without words, or that is too long.

    >>> key_of("Larkspur  RD7 (long)"), key_of("larkspur rd-7, Long")
    ('larkspur rd 7 long', 'larkspur rd 7 long')
    """
    words = re.findall(r"[^\W\d_]+|\d+", printed.casefold())
    if not words or len(printed) > LONGEST or not printed.isprintable():
        raise UsageError(
            f"{printed!r} is no name: give the 1 to {LONGEST} characters that the part shows"
        )
    return " ".join(words)


def list_names(session: Session) -> list[Named]:
    """Return the whole list, by name."""
    return [entry for _, entry in sorted(entries_of(session).items())]


def find_names(session: Session, text: str) -> list[Named]:
    """Return the entries that a text may mean, of any kind: equal ones, else those with its words.

    An entry matches if it has all words of the text, or the text all of its words.
    """
    return _matching(entries_of(session), key_of(text))


def named(session: Session, kind: str, text: str) -> Named:
    """Return the entry of a kind that a printed text means.

    Raises `NotFoundError` if there is none, with the nearest; `UsageError` if there are several
    that say different things.
    """
    entries = {at: entry for at, entry in entries_of(session).items() if at[1] == kind}
    found = _matching(entries, key_of(text))
    if not found:
        hint = nearest(text, [entry.printed for entry in entries.values()])
        raise NotFoundError(f"your list of names has no {in_words(kind)} {text.strip()!r}{hint}")
    if len({entry.spec for entry in found}) > 1:
        offered = ", ".join(repr(entry.printed) for entry in found[:MOST_OFFERED])
        raise UsageError(
            f"{text.strip()!r} may be any of {len(found)} in your list of names: {offered}; "
            "type more of what is printed"
        )
    return found[0]


def entries_of(session: Session) -> dict[tuple[str, str], Named]:
    """Return the list by the key and the kind of each entry."""
    query = select(PrintedName).order_by(PrintedName.key, PrintedName.kind)
    return {
        (row.key, row.kind): Named(row.printed, spec_of(row.spec), row.note)
        for row in session.scalars(query)
    }


def _matching(entries: dict[tuple[str, str], Named], key: str) -> list[Named]:
    exact = [entry for at, entry in entries.items() if at[0] == key]
    if exact:
        return exact
    asked = set(key.split())
    held = [(set(at[0].split()), entry) for at, entry in entries.items()]
    return [entry for words, entry in held if asked <= words or words <= asked]
