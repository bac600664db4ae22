"""A workshop that is exported and taken into an empty database is the same workshop."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from sqlalchemy import select
from sqlalchemy.orm import aliased

from partsbin.errors import PartsbinError
from partsbin.kinds.spec import Spec
from partsbin.stock.balance import balance
from partsbin.stock.bikes import add_entry, bike_named, list_bikes, loose_place
from partsbin.stock.check import check
from partsbin.stock.count_tables import MinimumLevel
from partsbin.stock.database import open_database
from partsbin.stock.ids import QUARANTINE, SOLD, BikeId, PartId
from partsbin.stock.lookup import mounted
from partsbin.stock.models import Bike, BikeEntry, Holding, Part, Place, RecordedSpec
from partsbin.stock.money import Money
from partsbin.stock.movements import move
from partsbin.stock.numbers import last_numbers
from partsbin.stock.parts import NewPart, add_part, part_by_number
from partsbin.stock.places import add_bin, bin_named
from partsbin.stock.price_tables import Price
from partsbin.stock.words import BikeState, Condition, EntryType, Grade, Unit
from partsbin.workshop.assignments import read_spec, split, written
from partsbin.workshop.books import books
from partsbin.workshop.counter import sell_part
from partsbin.workshop.exporting import export_folder
from partsbin.workshop.importing import Imported, import_folder
from partsbin.workshop.mounting import unmount
from partsbin.workshop.name_files import import_names
from partsbin.workshop.names import list_names
from partsbin.workshop.reordering import Wanted, level_title, set_level
from partsbin.workshop.sale_files import sale_lines
from tests.conftest import Shop
from tests.kinds.test_round_trip import raw_parts

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LEVEL = ("unit", "minimum", "pack", "lead_days", "lead_spread_days")
NOTES = ("x; y=z", ' "quoted", and a comma', "two\nlines", "two\r\nlines", "=1+1", "Ünïcode ☂")


@pytest.fixture
def worked(shop: Shop, tmp_path: Path) -> str:
    """Return the address of a workshop in which a little of everything was done."""
    names = tmp_path / "names.csv"
    names.write_text("printed,kind,attributes,note\nLarkspur 7,shifter,speeds=7,red letters\n")
    shop.told("bike", "strip", "Bracken", "--into", "D1", "--inspected", "--keep", "fork")
    with open_database(shop.address, "ada") as database:
        with database.changing("work") as session:
            _work(session)
        with database.changing("names") as session:
            import_names(session, names)
    return shop.address


def _work(session: Session) -> None:
    unmount(session, "Teasel", "rear shifter", "A1", Grade.CORE)
    add_bin(session, "Empty", "  spaces around ", "shelf Z")
    d1, a1 = bin_named(session, "D1"), bin_named(session, "A1")
    for note in NOTES:
        spec = Spec.check("bell", {"colour": note}, ["colour"]) if note.isprintable() else None
        new = NewPart(
            spec=spec or Spec("bell"), place=d1.id, note=note, origin=note, value=Money(7)
        )
        add_part(session, new)
    housing = Spec.check("housing", {})
    lot = NewPart(
        spec=housing, place=d1.id, lot=True, unit=Unit.MM, quantity=10_001, cost=Money(1000)
    )
    roll = add_part(session, lot).id
    teasel = BikeId(bike_named(session, "Teasel").id)
    move(session, roll, 3_333, d1.id, a1.id)
    move(session, roll, 1_250, d1.id, loose_place(session, teasel))
    move(session, roll, 400, loose_place(session, teasel), SOLD)
    dead = NewPart(spec=Spec("saddle"), place=QUARANTINE, condition=Condition.DEAD, cost=Money(3))
    last = add_part(session, dead)
    for sold, quantity in ((replace(new, note="for the counter"), ""), (lot, "2 m")):
        number, day = add_part(session, sold).number, dt.date(2026, 10, 29)
        sell_part(
            session, number, Money(450), quantity=quantity, fee=Money(20), day=day, note="x,y"
        )
    on_yarrow = mounted(session, BikeId(bike_named(session, "Yarrow").id))
    for part in on_yarrow:
        move(session, part.part, part.quantity, part.place, SOLD)
    yarrow = bike_named(session, "Yarrow")
    yarrow.state = BikeState.SOLD
    day = dt.date(2026, 10, 30)
    add_entry(session, BikeId(yarrow.id), EntryType.SALE, Money(12_000), day, note="cash, in hand")
    add_entry(session, teasel, EntryType.FEE, Money(-250), day)
    add_entry(session, teasel, EntryType.LABOUR, Money(900), day, minutes=45, rate=Money(1200))
    set_level(session, Wanted("tube", ["bsd=622"], "6", 5, 2, "10"))
    set_level(session, Wanted("shift_cable", (), "", None, None, "30 m"))
    of_lot = session.get_one(Part, roll).number
    set_level(session, Wanted(of_lot, (), "2.5 m"))
    # The last number that was given out is that of a part which is gone.
    move(session, PartId(part_by_number(session, last.number).id), 1, QUARANTINE, SOLD)


def picture(session: Session) -> dict[str, Sequence[Any]]:
    """Return all that a workshop is, by the numbers of its labels instead of row ids."""
    held = select(
        *(Part.number, RecordedSpec.text, Part.grade, Part.condition, Part.lot, Part.unit),
        *(Part.value, Part.origin, Part.note, Part.in_bins, Place.type, Place.name, Place.number),
        *(Bike.name, Holding.quantity, Holding.cost),
    ).join_from(Part, RecordedSpec)
    held = held.join(Holding, Holding.part_id == Part.id).join(Place, Place.id == Holding.place_id)
    account = select(
        *(Bike.name, BikeEntry.type, BikeEntry.amount, BikeEntry.minutes, BikeEntry.rate),
        *(BikeEntry.day, BikeEntry.note),
    ).join_from(BikeEntry, Bike)
    bins = aliased(Place)
    return {
        "held": sorted(map(str, session.execute(held.outerjoin(Bike, Bike.id == Place.bike_id)))),
        "bins": sorted(
            map(
                str,
                session.execute(
                    select(bins.number, bins.name, bins.note, bins.location).where(
                        bins.number.is_not(None)
                    )
                ),
            )
        ),
        "bikes": sorted(
            str(session.execute(select(*_columns(Bike)).where(Bike.id == bike.id)).all())
            for bike in list_bikes(session)
        ),
        "account": sorted(map(str, session.execute(account))),
        "sales": list(sale_lines(session)),
        "names": list_names(session),
        "prices": sorted(
            map(
                str,
                session.execute(
                    select(
                        *(Price.named, RecordedSpec.text, Price.price, Price.lead_days, Price.note)
                    ).outerjoin(RecordedSpec, RecordedSpec.id == Price.spec_id)
                ),
            )
        ),
        "levels": sorted(
            str((level_title(session, row), [getattr(row, name) for name in LEVEL]))
            for row in session.scalars(select(MinimumLevel))
        ),
        "last numbers": last_numbers(session),
        "money": [balance(session)],
    }


def _columns(table: type[Bike]) -> list[Any]:
    return [column for column in table.__table__.columns if column.name not in ("id", "created")]


def exported(database: str, folder: Path) -> dict[str, int]:
    """Export a database."""
    with open_database(database, "ada") as opened, opened.reading() as session:
        return export_folder(session, folder)


def imported(folder: Path, database: str) -> Imported:
    """Take a folder into a database."""
    with open_database(database, "ada") as opened, opened.changing("import") as session:
        return import_folder(session, folder)


def seen(database: str) -> dict[str, Sequence[Any]]:
    """Return the picture of a database that must prove right."""
    with open_database(database, "ada") as opened, opened.reading() as session:
        assert check(session) == []
        return picture(session)


@pytest.mark.every_database
def test_export_and_import_give_an_equal_workshop(worked: str, tmp_path: Path) -> None:
    """Specs, quantities, costs, places, bikes, notes, values, numbers and accounts are equal."""
    exported(worked, tmp_path / "files")
    imported(tmp_path / "files", str(tmp_path / "new.db"))

    before, after = seen(worked), seen(str(tmp_path / "new.db"))

    for name, lines in before.items():
        assert lines == after[name], name
    assert len(before["held"]) > 300
    assert len(before["prices"]) > 10
    assert len(before["sales"]) == 2
    assert any("SCRAPPED" in line for line in before["held"])
    exported(str(tmp_path / "new.db"), tmp_path / "again")
    for file in (tmp_path / "files").iterdir():
        assert file.read_bytes() == (tmp_path / "again" / file.name).read_bytes(), file.name


def test_what_a_bike_cost_and_earned_is_equal(worked: str, tmp_path: Path) -> None:
    """Cost and profit of each bike that was not taken apart are those of before."""
    exported(worked, tmp_path / "files")
    imported(tmp_path / "files", str(tmp_path / "new.db"))

    def told(database: str) -> dict[str, Any]:
        with open_database(database, "ada") as opened, opened.reading() as session:
            names = [b.name for b in list_bikes(session) if b.state is not BikeState.STRIPPED]
            accounts = {name: books(session, name) for name in names}
            return {name: (account.cost, account.profit) for name, account in accounts.items()}

    assert told(str(tmp_path / "new.db")) == told(worked)
    assert told(worked)["Yarrow"][1] is not None


def test_new_numbers_follow_those_of_before(worked: str, tmp_path: Path) -> None:
    """A part that comes in afterwards gets the same number as it would have in the old record."""
    exported(worked, tmp_path / "files")
    imported(tmp_path / "files", str(tmp_path / "new.db"))

    def next_number(database: str) -> str:
        with open_database(database, "ada") as opened, opened.changing("add") as session:
            place = bin_named(session, "D1").id
            return add_part(session, NewPart(spec=Spec("bell"), place=place)).number

    assert next_number(str(tmp_path / "new.db")) == next_number(worked)


def test_without_numbers_new_ones_are_given_out(worked: str, tmp_path: Path) -> None:
    """A file without numbers takes the same parts in under new numbers."""
    import csv

    exported(worked, tmp_path / "files")
    parts = tmp_path / "files" / "parts.csv"
    with parts.open(newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["quantity"] in ("", "1")]
    (tmp_path / "bare").mkdir()
    (tmp_path / "files" / "bins.csv").rename(tmp_path / "bare" / "bins.csv")
    with (tmp_path / "bare" / "parts.csv").open("w", newline="") as file:
        heads = [name for name in rows[0] if name != "number"]
        writer = csv.DictWriter(file, heads, extrasaction="ignore")
        writer.writeheader()
        writer.writerows(rows)

    assert imported(tmp_path / "bare", str(tmp_path / "new.db")).parts == len(rows)
    with open_database(str(tmp_path / "new.db"), "ada") as opened, opened.reading() as session:
        assert check(session) == []


def test_files_that_are_there_are_not_replaced(worked: str, tmp_path: Path) -> None:
    """An export into a folder with files of an earlier one needs to be forced."""
    exported(worked, tmp_path / "files")

    with pytest.raises(PartsbinError, match=r"bins\.csv"):
        exported(worked, tmp_path / "files")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("20000237,,9,0,2026-10-29,", "there is no part"),
        ("20000140,,9,0,2026-10-29,", "did not leave in that quantity"),
        ("20000140,,nine,0,2026-10-29,", "amount"),
        ("20000140,,9,0,yesterday,", "day"),
        ("20000140,two,9,0,2026-10-29,", "quantity"),
        (",,9,0,2026-10-29,", "may not be empty"),
    ],
    ids=["unknown part", "not sold", "no amount", "no day", "no quantity", "no number"],
)
def test_faults_of_sales_are_told_by_line(tmp_path: Path, line: str, told: str) -> None:
    """A sale that cannot have been is told of by file and line, and nothing is taken in."""
    (tmp_path / "bins.csv").write_text("name\nD1\n")
    (tmp_path / "parts.csv").write_text("number,kind,bin\n20000140,bell,D1\n")
    (tmp_path / "sales.csv").write_text(f"number,quantity,amount,fee,day,note\n{line}\n")

    with pytest.raises(PartsbinError, match=rf"sales\.csv.*line 2.*{told}"):
        imported(tmp_path, str(tmp_path / "new.db"))


@given(raw_parts())
def test_written_attributes_are_read_again(raw: tuple[str, dict[str, object]]) -> None:
    """What the attributes' cell holds gives the same spec, also what is assumed."""
    kind, held = raw
    for assumed in ((), tuple(held)[::2]):
        spec = Spec.check(kind, held, assumed)
        assert read_spec(kind, split(written(spec))) == spec


def test_an_export_holds_one_moment(tmp_path: Path) -> None:
    """What changes while the files are written is not in them."""
    with open_database(str(tmp_path / "shop.db"), "ada") as database:
        with database.changing("fill") as session:
            add_bin(session, "A1")
        with database.reading() as session:
            session.execute(select(Place.id))
            with database.changing("later") as other:
                add_bin(other, "A2")
            counts = export_folder(session, tmp_path / "files")
    assert counts["bins"] == 1
