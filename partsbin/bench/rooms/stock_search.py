"""Search the stock by words, conditions and what the parts of a kind in stock have."""

from __future__ import annotations

import shlex
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from partsbin.bench.shop import record
from partsbin.bench.telling import back_to, tell_done
from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.catalogue import unit_of
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import in_words
from partsbin.stock.words import Grade

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy.orm import Session
    from werkzeug.datastructures import MultiDict

    from labels.number import LabelNumber
    from partsbin.stock.held_values import HeldValues
    from partsbin.stock.search import Found

A_PAGE = 50
"""Rows that are shown at first, and that each "more" adds."""
MOST = 1000
LONGEST_LIST = 14
"""Values that one can still choose from at a glance; of more numbers a range is asked."""
OF_ATTRIBUTE = "a."
"""What the fields of attributes begin with, so that none is taken for a field of the page."""
MOST_ALIKE = 6
LONGEST_QUESTION = 200
"""Characters of a question that are read; nobody types more."""
MOST_CHOSEN = 40
"""Fields of attributes that are read; no kind has more."""


@dataclass(frozen=True, slots=True)
class Question:
    """What is searched for, as it was typed and chosen."""

    text: str = ""
    kind: str = ""
    grade: str = ""
    everywhere: bool = False
    most: int = A_PAGE
    chosen: Mapping[str, str] = field(default_factory=dict)
    """By attribute: a value, or with `.from` and `.to` behind its name an end of a range."""

    @classmethod
    def of(cls, args: MultiDict[str, str]) -> Question:
        """Return the question of an address; what is not understood there is left out."""
        kind = args.get("kind", "")
        named = {
            name.removeprefix(OF_ATTRIBUTE): value.strip()
            for name, value in list(args.items())[:MOST_CHOSEN]
            if name.startswith(OF_ATTRIBUTE)
        }
        return cls(
            text=args.get("q", "").strip()[:LONGEST_QUESTION],
            kind=kind if kind in KINDS else "",
            grade=args.get("grade", ""),
            everywhere=args.get("everywhere") == "yes",
            most=min(max(args.get("most", A_PAGE, int), A_PAGE), MOST),
            chosen={name: value for name, value in named.items() if value},
        )

    @property
    def pieces(self) -> list[str]:
        """Return what was typed, piece by piece; quotation marks keep a piece together."""
        try:
            return shlex.split(self.text)
        except ValueError:
            return self.text.split()

    @property
    def conditions(self) -> list[str]:
        """Return what was chosen as conditions of a search."""
        asked = [f"kind={self.kind}"] if self.kind else []
        asked += [f"grade={self.grade}"] if self.grade else []
        for name in dict.fromkeys(n.removesuffix(".from").removesuffix(".to") for n in self.chosen):
            ends = self.chosen.get(f"{name}.from", ""), self.chosen.get(f"{name}.to", "")
            if name in self.chosen:
                asked.append(f"{name}={self.chosen[name]}")
            if any(ends):
                asked.append(f"{name}={ends[0]}..{ends[1]}")
        return asked

    @property
    def address(self) -> dict[str, str]:
        """Return the question as an address holds it, without how many rows."""
        held = {"q": self.text, "kind": self.kind, "grade": self.grade}
        held["everywhere"] = "yes" if self.everywhere else ""
        held.update({OF_ATTRIBUTE + name: value for name, value in self.chosen.items()})
        return {name: value for name, value in held.items() if value}


@dataclass(frozen=True, slots=True)
class Filter:
    """What can be chosen of one attribute: a value of a list, or the ends of a range."""

    name: str
    values: tuple[str, ...]
    """Empty for a range."""
    unit: str
    first: bool
    """Whether a mechanic asks for it first."""


def search() -> ResponseReturnValue:
    """Show what is in stock; a label number goes to the page of what it names."""
    from partsbin.stock.places import looks_like_number

    question = Question.of(request.args)
    fragment = request.args.get("only") == "results"
    if looks_like_number(question.text):
        return _by_number(question, fragment=fragment)
    with record().reading() as session:
        found, fault = _found(session, question)
        bins = bin_numbers(session)
        filters = [] if fragment else _filters(session, _one_kind(question))
    page = {
        "question": question,
        "found": found,
        "fault": fault,
        "bin_numbers": bins,
        "alike": _alike(question) if not (found and found.rows) else [],
        "next_most": min(question.most + A_PAGE, MOST),
    }
    if fragment:
        return render_template("stock/results.html", **page)
    return render_template(
        "stock/search.html",
        **page,
        filters=filters,
        kinds=sorted(KINDS, key=in_words),
        grades=[grade.value for grade in Grade],
    )


def _by_number(question: Question, *, fragment: bool) -> ResponseReturnValue:
    """Go to what the number names; of what is typed still, only say that Enter would."""
    from labels.number import Thing
    from partsbin.stock.places import read_number

    if not fragment:
        number = read_number(question.text, *Thing)
        return redirect(url_for("acts.number", number=number))
    answer: dict[str, str] = {}
    try:
        answer["number"] = read_number(question.text, *Thing)
    except UsageError as fault:
        answer["fault"] = str(fault)
    return render_template("stock/results.html", question=question, **answer)


def _found(session: Session, question: Question) -> tuple[Found | None, str]:
    """Return what was found, or why the question is not understood."""
    from partsbin.stock.conditions import is_condition
    from partsbin.stock.search import find

    words = [piece for piece in question.pieces if not is_condition(piece)]
    asked = [piece for piece in question.pieces if is_condition(piece)] + question.conditions
    try:
        found = find(session, words, asked, everywhere=question.everywhere, limit=question.most)
    except PartsbinError as fault:
        return None, str(fault)
    return found, ""


def _one_kind(question: Question) -> str:
    """Return the kind that was chosen, or the only one that the words name; empty if neither."""
    from partsbin.stock.terms import read_terms

    if question.kind:
        return question.kind
    named = read_terms(question.pieces).kinds
    return named[0] if len(named) == 1 else ""


def _filters(session: Session, kind: str) -> list[Filter]:
    """Return what can be chosen of a kind, what a mechanic asks for first in front."""
    from partsbin.stock.held_values import values_held

    if not kind:
        return []
    first = KINDS[kind].first
    held = sorted(values_held(session, kind), key=lambda one: one.name not in first)
    return [_filter(one, first) for one in held]


def _filter(held: HeldValues, first: tuple[str, ...]) -> Filter:
    ranged = held.ranged and len(held.typed) > LONGEST_LIST
    values = () if ranged else held.typed
    return Filter(held.name, values, unit_of(held.name), held.name in first)


def _alike(question: Question) -> list[str]:
    """Return kinds one of whose words begins like the last word that was typed."""
    last = question.text.lower().split()[-1:]
    begun = [k for k in KINDS if last and any(w.startswith(last[0]) for w in k.split("_"))]
    return begun[:MOST_ALIKE]


def bin_numbers(session: Session) -> dict[str, LabelNumber]:
    """Return the number of every bin by its name, in the order of names."""
    from partsbin.stock.places import list_bins

    return {one.name: one.number for one in list_bins(session)}


def move_marked() -> ResponseReturnValue:
    """Move the marked parts into a bin, all of them or none."""
    from partsbin.workshop.intake import put

    numbers = request.form.getlist("number")
    bin_name = request.form.get("bin", "").strip()
    if not numbers or not bin_name:
        raise UsageError("mark the parts and name the bin; nothing was changed")
    with record().changing("part move") as session:
        done = [put(session, number, bin_name) for number in numbers]
    for one in done[:A_PAGE]:
        tell_done(one)
    return redirect(back_to("stock.search"))
