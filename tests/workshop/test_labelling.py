"""Which words stand on the label of a part, a lot, a bin or a bike."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from labels.label import Label, Shape
from labels.number import Thing, make
from partsbin.errors import NotFoundError, UsageError
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec
from partsbin.stock.database import Database, open_database
from partsbin.stock.ids import QUARANTINE, SCRAPPED, PlaceId
from partsbin.stock.parts import NewPart, add_part
from partsbin.stock.places import add_bin
from partsbin.stock.words import Grade
from partsbin.workshop.labelling import all_labels, first_lines, label_of
from partsbin.workshop.print_jobs import label_with, words_of

WORDS = {
    "a listed size for a reading": (
        "seatpost",
        {"diameter_mm": 27.18, "length_mm": 300},
        ("diameter 27.2 mm", "length 300 mm"),
    ),
    "a side needs no name": ("shifter", {"side": "rear", "speeds": 8}, ("rear", "speeds 8")),
    "what is asked for first goes first": (
        "shifter",
        {"speeds": 9, "index_family": "ratio-1.7", "side": "rear", "mount": "bar-clamp"},
        ("rear", "speeds 9", "index family ratio-1.7"),
    ),
    "no word twice": ("chainring", {"teeth": 42}, ("42 teeth",)),
    "others stand in": ("seatpost", {"material": "steel"}, ("material steel",)),
    "nothing is known": ("seatpost", {}, ()),
}


@pytest.mark.parametrize(("kind", "known", "lines"), WORDS.values(), ids=WORDS)
def test_lines_of_a_part(kind: str, known: dict[str, object], lines: tuple[str, ...]) -> None:
    """A label says first what a mechanic asks for first, in few words."""
    assert first_lines(Spec.check(kind, known)) == lines


@pytest.fixture
def database(tmp_path: Path) -> Iterator[Database]:
    """Give a database with the bins A1 and B2."""
    with open_database(str(tmp_path / "w.db"), "tester") as opened:
        with opened.changing("bins") as session:
            add_bin(session, "A1", "Seatposts", "shelf A")
            add_bin(session, "B2")
        yield opened


def added(database: Database, place: int | str, kind: str = "saddle", **known: object) -> str:
    """Return the number of a new part in a place or in a bin."""
    from partsbin.stock.places import bin_named

    with database.changing("add") as session:
        at = PlaceId(place) if isinstance(place, int) else PlaceId(bin_named(session, place).id)
        spec = Spec.check(kind, known)
        return add_part(session, NewPart(spec=spec, place=at, grade=Grade.FAIR)).number


def test_label_of_a_part(database: Database) -> None:
    """Kind, attributes, grade and bin; the caution mark is on kinds that need an inspection."""
    number = added(database, "A1", "fork", steerer_mm=28.6)
    bell = added(database, "B2", "chain", speeds=8)
    with database.reading() as session:
        fork = label_of(session, f" {number[:4]} {number[4:]}")
        chain = label_of(session, bell)
    assert fork.title == "fork"
    assert [line.split()[-2:] for line in fork.lines] == [["28.6", "mm"]]
    assert (fork.grade, fork.bin_name, fork.shape) == ("fair", "A1", Shape.PART)
    assert fork.caution is bool(KINDS["fork"].inspection) is True
    assert chain.caution is bool(KINDS["chain"].inspection)


def test_label_of_a_part_in_no_bin(database: Database) -> None:
    """A part in quarantine has a label without a bin."""
    number = added(database, QUARANTINE)
    with database.reading() as session:
        assert label_of(session, number).bin_name == ""


def test_label_of_a_bin(database: Database) -> None:
    """A bin's label has its name, what goes into it and where it stands, however it is typed."""
    with database.reading() as session:
        label = label_of(session, " a1 ")
    assert (label.title, label.lines, label.shape) == ("A1", ("Seatposts", "shelf A"), Shape.BIN)
    assert not label.caution


def test_nothing_is_called_that(database: Database) -> None:
    """A wrong name gets the nearest one; a wrong digit is told."""
    with database.reading() as session:
        with pytest.raises(NotFoundError, match="did you mean 'A1'"):
            label_of(session, "A11")
        with pytest.raises(NotFoundError, match="no part"):
            label_of(session, make(Thing.PART, 77))
        with pytest.raises(UsageError, match="check digits"):
            label_of(session, make(Thing.PART, 77)[:-1] + "0")


def test_all_that_carries_a_label(database: Database) -> None:
    """Bins first, then parts by their bins; what was scrapped carries none."""
    in_b, in_a = added(database, "B2"), added(database, "A1")
    waiting = added(database, QUARANTINE)
    gone = added(database, SCRAPPED)
    with database.reading() as session:
        labels = [
            label.title if label.shape is Shape.BIN else label.number
            for label in all_labels(session)
        ]
    assert labels == ["A1", "B2", waiting, in_a, in_b]
    assert gone not in labels


def test_words_of_a_job_make_the_same_label() -> None:
    """What a job keeps of a label is all of it, in any script."""
    label = Label(
        number=make(Thing.BIKE, 100_000),
        shape=Shape.BIKE,
        title="Laufrad \N{CJK UNIFIED IDEOGRAPH-8ECA}",
        lines=("28 \u2033", '"quoted"'),
        grade="good",
        bin_name="A\N{MIDDLE DOT}1",
        caution=True,
    )
    assert label_with(label.number, words_of(label)) == label
