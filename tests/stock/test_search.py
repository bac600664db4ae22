from __future__ import annotations

from typing import Any

import pytest

from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.spec import Spec
from partsbin.stock import terms
from partsbin.stock.database import Database
from partsbin.stock.ids import QUARANTINE, PlaceId
from partsbin.stock.lookup import (
    contents,
    usable_parts,
    usable_quantities,
    usable_specs,
    where_is,
)
from partsbin.stock.movements import move
from partsbin.stock.parts import edit_part, part_by_number
from partsbin.stock.places import add_bin
from partsbin.stock.search import find
from partsbin.stock.words import Grade, Unit
from tests.stock.making import add, shop

STOCK: tuple[tuple[str, str, dict[str, str], dict[str, Any]], ...] = (
    # name, kind, attributes, more
    ("rear 8", "shifter", {"side": "rear", "speeds": "8", "bar_mm": "22.2"}, {}),
    ("rear 7", "shifter", {"side": "rear", "speeds": "7"}, {"grade": Grade.FAIR}),
    ("front 3", "shifter", {"side": "front", "speeds": "3"}, {"note": "Lever a little LOOSE"}),
    ("post 27.2", "seatpost", {"diameter_mm": "27.2", "length_mm": "300"}, {}),
    ("post read 27.18", "seatpost", {"diameter_mm": "27.18"}, {"grade": Grade.NEW}),
    ("post read 27.1", "seatpost", {"diameter_mm": "27.1"}, {}),
    ("post 31.6", "seatpost", {"diameter_mm": "31.6", "material": "carbon"}, {}),
    ("pedals", "pedals", {"pedal_thread": "9/16x20"}, {}),
    ("frame", "frame", {"brake_mounts": "canti-boss, is-51", "material": "steel"}, {}),
    ("cassette", "cassette", {"speeds": "8", "cogs": "11-13-15-17-20-23-26-30"}, {}),
    ("rear derailleur", "rear_derailleur", {"speeds": "8", "ratio": "1.7"}, {}),
    ("front derailleur", "front_derailleur", {}, {}),
    ("basket", "accessory", {"colour": "dark red"}, {"note": "steel, from the shifter shelf"}),
)


@pytest.fixture
def names(database: Database) -> dict[str, str]:
    """Fill bin A1 and return the name of each part by its number; two more are elsewhere."""
    named: dict[str, str] = {}
    with database.changing("fill") as session:
        made = shop(session)
        for name, kind, attributes, more in STOCK:
            named[add(session, made.a1, Spec.read(kind, attributes), **more).number] = name
        spare = Spec.read("saddle", {"rails": "round-7"})
        named[add(session, made.slot, spare).number] = "mounted saddle"
        named[add(session, QUARANTINE, spare).number] = "saddle in quarantine"
        named[add(session, made.b2, spare, lot=True, quantity=3).number] = "saddles in B2"
    return named


SEARCHES = [
    pytest.param("shifter", "", ["rear 8", "rear 7", "front 3"], id="kind"),
    pytest.param("shifters", "", ["rear 8", "rear 7", "front 3"], id="plural"),
    pytest.param("pedal", "", ["pedals"], id="singular"),
    pytest.param("rear derailleurs", "", ["rear derailleur"], id="kind of two words"),
    pytest.param("derailleur", "", ["rear derailleur", "front derailleur"], id="part of a name"),
    pytest.param("seat post", "", ["post 27.2", "post read 27.18", "post read 27.1", "post 31.6"]),
    pytest.param("seatpost carbon", "", ["post 31.6"], id="attribute word"),
    pytest.param("shifter rear", "", ["rear 8", "rear 7"], id="kind and attribute word"),
    pytest.param("loose", "", ["front 3"], id="word of a note"),
    pytest.param("steel", "", ["frame", "basket"], id="attribute or note"),
    pytest.param("seatpost new", "", ["post read 27.18"], id="grade as a word"),
    pytest.param("b2", "", ["saddles in B2"], id="bin as a word"),
    pytest.param("saddle", "", ["saddles in B2"], id="only what is in bins"),
    pytest.param("shifter seatpost", "speeds=8", ["rear 8"], id="either kind, one attribute"),
    pytest.param("", "speeds=8", ["rear 8", "cassette", "rear derailleur"], id="attribute alone"),
    pytest.param("shifter", "speeds=8 side=rear", ["rear 8"], id="two conditions"),
    pytest.param("shifter", "speeds=7..8", ["rear 8", "rear 7"], id="range of a count"),
    pytest.param("shifter", "speeds<=7", ["rear 7", "front 3"], id="at most"),
    pytest.param("shifter", "speeds>=8", ["rear 8"], id="at least"),
    pytest.param(
        "",
        "diameter=27.2",
        ["post 27.2", "post read 27.18", "post read 27.1"],
        id="readings that are or may be the size",
    ),
    pytest.param("", "diameter_mm=27,2|mm", ["post 27.2", "post read 27.18", "post read 27.1"]),
    pytest.param("", "diameter_mm=27.0", ["post read 27.1"], id="the other size it may be"),
    pytest.param("", "diameter=27.15..27.4", ["post 27.2", "post read 27.18"], id="plain range"),
    pytest.param("", "length>=25|cm", ["post 27.2"], id="unit in a range"),
    pytest.param("", "brake_mounts=is-51", ["frame"], id="member of a list"),
    pytest.param("", "cogs=30", ["cassette"], id="member of a list of counts"),
    pytest.param("", "cogs>=28", ["cassette"], id="range in a list"),
    pytest.param("", "ratio=1.7", ["rear derailleur"], id="decimal number"),
    pytest.param("", "colour=Dark|Red", ["basket"], id="free attribute"),
    pytest.param("", "grade=fair", ["rear 7"], id="grade"),
    pytest.param("", "bin=B2", ["saddles in B2"], id="bin"),
    pytest.param("", "kind=pedals", ["pedals"], id="kind as a condition"),
    pytest.param("9/16x20", "", ["pedals"], id="word with signs"),
    pytest.param("-", "", [], id="sign alone"),
    pytest.param("unobtainium", "", [], id="word that is nowhere"),
]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("loose", ["front 3"]),
        ("steel", ["frame", "basket"]),
        ("shelf basket", []),
        ("shifter loose", ["front 3"]),
        ("unobtainium", []),
    ],
)
def test_a_common_word_is_found_like_a_rare_one(
    database: Database,
    names: dict[str, str],
    monkeypatch: pytest.MonkeyPatch,
    words: str,
    expected: list[str],
) -> None:
    """A word that is in many notes is looked for in another way, and finds the same."""
    monkeypatch.setattr(terms, "COMMON", 1)
    with database.reading() as session:
        found = find(session, words.split())

    assert sorted(names[row.number] for row in found.rows) == sorted(expected)


@pytest.mark.parametrize(("words", "asked", "expected"), SEARCHES)
def test_find(
    database: Database, names: dict[str, str], words: str, asked: str, expected: list[str]
) -> None:
    """Words and conditions find exactly what they describe; `|` stands for a space here."""
    conditions = [condition.replace("|", " ") for condition in asked.split()]
    with database.reading() as session:
        found = find(session, words.split(), conditions)

    assert sorted(names[row.number] for row in found.rows) == sorted(expected)
    assert not found.more


FAULTS = [
    ("diametre=27.2", "'diametre' is no attribute; did you mean 'diameter'?"),
    (
        "carbon",
        "'carbon' is not a condition; type it like speeds=8, diameter=27..27.4 or width>=35",
    ),
    ("side=reer", "side: 'reer' is not one of front, rear; did you mean 'rear'?"),
    ("side>=rear", "side: it is one of front, rear and has no range; give one with '='"),
    ("speeds=many", "speeds: 'many' is not a number"),
    ("speeds=..", "speeds: a range needs a number at one end at least, as in 27..27.4"),
    (
        "grade=godo",
        "'godo' is not a grade (new, good, fair, poor, core, unsafe); did you mean 'good'?",
    ),
    ("grade>=good", "grade takes only '=', as in grade=good"),
    ("bin=B3", "there is no bin 'B3' in the record; did you mean 'B2'?"),
]


@pytest.mark.parametrize(("asked", "told"), FAULTS)
def test_faults_of_conditions(
    database: Database, names: dict[str, str], asked: str, told: str
) -> None:
    """What is not understood is told with what is nearest to it."""
    assert names
    words = ["shifter"] if asked.startswith(("side", "speeds")) else []

    with pytest.raises(PartsbinError) as refused, database.reading() as session:
        find(session, words, [asked])

    assert str(refused.value) == told


def test_the_attributes_of_the_kind_are_asked_for(database: Database) -> None:
    """An attribute that the named kind does not have is refused, though another kind has it."""
    with (
        pytest.raises(UsageError, match="'cogs' is no attribute of seatpost"),
        database.reading() as session,
    ):
        find(session, ["seatpost"], ["cogs=11"])


def test_everywhere(database: Database, names: dict[str, str]) -> None:
    """On request a search also finds what is on bikes and in quarantine."""
    with database.reading() as session:
        found = find(session, ["saddle"], everywhere=True)

    assert {names[row.number]: row.place_name for row in found.rows} == {
        "mounted saddle": "seatpost",
        "saddle in quarantine": "quarantine",
        "saddles in B2": "B2",
    }


def test_more_than_asked_for(database: Database, names: dict[str, str]) -> None:
    """An answer that was cut short says that there is more."""
    assert names
    with database.reading() as session:
        found = find(session, ["shifter"], limit=2)

    assert (len(found.rows), found.more) == (2, True)


def test_what_can_be_suggested(database: Database) -> None:
    """Specs are suggested only for what is in a bin and not unsafe, with how much there is."""
    with database.changing("fill") as session:
        made = shop(session)
        post = Spec.read("seatpost", {"diameter_mm": "27.2"})
        bent = Spec.read("seatpost", {"diameter_mm": "26.8"})
        apart = Spec.read("seatpost", {"diameter_mm": "31.6"})
        cable = Spec.read("brake_cable", {})
        add(session, made.a1, post, grade=Grade.POOR)
        add(session, made.b2, post)
        add(session, made.a1, bent, grade=Grade.UNSAFE)
        add(session, QUARANTINE, apart)
        add(session, made.a1, cable, lot=True, unit=Unit.MM, quantity=5000)

    with database.reading() as session:
        posts = usable_specs(session, ["seatpost"])
        assert [row.spec for row in posts] == [post]
        assert [row.spec for row in usable_specs(session)] == [post, cable]
        amounts = usable_quantities(session, [row.id for row in usable_specs(session)])
        assert list(amounts.values()) == [2, 5000]
        best_first = [row.grade for row in usable_parts(session, posts[0].id)]
    assert best_first == [Grade.GOOD, Grade.POOR]


def test_an_edited_part_is_found_anew(database: Database) -> None:
    """New attributes, grade and note are found, the old ones no more."""
    with database.changing("fill") as session:
        made = shop(session)
        added = add(session, made.a1, Spec.read("shifter", {}), note="which speed?")
    with database.changing("measured") as session:
        eight = Spec.read("shifter", {"speeds": "8"})
        edit_part(session, added.id, spec=eight, grade=Grade.POOR, note="counted clicks")

    with database.reading() as session:
        assert part_by_number(session, added.number).grade is Grade.POOR
        found = [len(find(session, [word]).rows) for word in ("clicks", "which", "good")]
        assert len(find(session, asked=["speeds=8"]).rows) == 1
    assert found == [1, 0, 0]


def test_what_is_in_a_place(database: Database) -> None:
    """A place's contents and a part's places are the two views of what is held."""
    with database.changing("fill") as session:
        made = shop(session)
        lot = add(session, made.a1, lot=True, quantity=5, cost=500).id
        move(session, lot, 2, made.a1, made.b2)

    with database.reading() as session:
        places: list[PlaceId] = [row.place for row in where_is(session, lot)]
        assert places == [made.a1, made.b2]
        assert [(row.quantity, row.cost) for row in contents(session, made.b2)] == [(2, 200)]


@pytest.mark.parametrize("name", ["", "sold", "1000 0119", "x" * 41, "a\tb\x00"])
def test_names_that_are_none(database: Database, name: str) -> None:
    """A bin is not called what a label number or a place of every workshop is called."""
    with pytest.raises(UsageError, match="is no name for a bin"), database.changing("add") as made:
        add_bin(made, name)
