"""How `find`, `part show` and `mount` fare in a shop of 1,000,000 parts and 5,000,000 movements.

Run by hand; `bench_scale.py FOLDER` keeps the shops there for the next time. Bars: each takes
under 3 times a bare `sqlite3` program that sends the same statements and fetches the same rows, and
at most twice what it takes in a shop of 100,000 parts. The list of bins, of which both shops have
as many, is held to the same growth.

Both programs run and have the file open, and both print JSON. The bare one replays our statements,
so it need not know which to send, and dumps the rows as they come, but for the text of a spec, of
which the attributes are printed. Times are the best of some rounds, taken in turns, because other
programs may be running.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unittest import mock

from sqlalchemy import event

from labels.number import Thing, make
from partsbin.cli.telling import bin_as_data, done_as_data, stocked_as_data
from partsbin.stock.bikes import NewBike
from partsbin.stock.database import Database, open_database
from partsbin.stock.lookup import shown
from partsbin.stock.places import list_bins
from partsbin.stock.search import find
from partsbin.stock.sending import _Compiled
from partsbin.workshop.buying import buy_bike
from partsbin.workshop.intake import Intake, by_readings, take_in
from partsbin.workshop.mounting import mount, unmount
from tests.bench.big_shop import make_shop

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

SIZES = (100_000, 1_000_000)
ROUNDS = 30
SHOWN = make(Thing.PART, 54_321)
Act = Callable[["Session"], object]


def _found(*terms: str) -> Act:
    words, asked = [t for t in terms if "=" not in t], [t for t in terms if "=" in t]
    return lambda session: [stocked_as_data(row) for row in find(session, words, asked).rows]


def _show(session: Session) -> object:
    part = shown(session, SHOWN)
    by_readings(part.spec, part.grade)
    return [stocked_as_data(place) for place in part.places]


def _bins(session: Session) -> object:
    return [bin_as_data(bin_) for bin_ in list_bins(session)]


READS: dict[str, Act] = {
    "find shifter speeds=8 side=rear": _found("shifter", "speeds=8", "side=rear"),
    "find seatpost diameter=27.2 grade=good": _found("seatpost", "diameter=27.2", "grade=good"),
    "find rusty (10 % of all notes)": _found("rusty"),
    "find seatpost rusty": _found("seatpost", "rusty"),
    "find nothing (everything)": _found(),
    "part show": _show,
    "bin list": _bins,
}


@dataclass(frozen=True, slots=True)
class Taken:
    """Best times in milliseconds."""

    ours: float
    bare: float


def main(folder: Path) -> None:
    """Print the times of each act in both shops and their ratios."""
    taken = {}
    for size in SIZES:
        file = folder / f"shop-{size}.db"
        if not file.exists():
            start = time.perf_counter()
            make_shop(file, size)
            print(f"made {size} parts in {time.perf_counter() - start:.0f} s", flush=True)
        with open_database(str(file), "bench") as database:
            taken[size] = {name: reading(database, act) for name, act in READS.items()}
            taken[size]["mount and unmount"] = mounting(database)
    small, large = SIZES
    print(f"{'':42}{'ours':>10}{'bare':>10}{'ratio':>8}{'growth':>8}")
    for name, there in taken[large].items():
        growth = there.ours / taken[small][name].ours
        print(
            f"{name:42}{there.ours:8.2f}ms{there.bare:8.2f}ms{there.ours / there.bare:8.1f}"
            f"{growth:8.1f}"
        )


def reading(database: Database, act: Act) -> Taken:
    """Return how long a question takes, and how long a bare program takes to send the same."""

    def ours(database: Database) -> None:
        with database.reading() as session:
            printed(act(session))

    return compared(database, ours, "BEGIN")


def mounting(database: Database) -> Taken:
    """Return how long it takes to put a part onto a bike, and to take it off again."""
    name = f"Bike {time.time_ns()}"
    told = Intake(kind="seatpost", attributes=["diameter=27.2"], bin="bin 1", inspected=True)
    with database.changing("set up") as session:
        buy_bike(session, NewBike(name=name, style="mtb"), ["seat_tube_bore=27.2"])
        number = take_in(session, told).number

    def ours(database: Database) -> None:
        with database.changing("mount") as session:
            done = mount(session, number, name)
        printed(done_as_data(done))
        with database.changing("unmount") as session:
            done = unmount(session, name, "seatpost", "bin 2")
        printed(done_as_data(done))

    return compared(database, ours, "BEGIN IMMEDIATE")


def compared(database: Database, ours: Callable[[Database], None], begin: str) -> Taken:
    """Time ours and the bare replay in turns, after a first time of each.

    Recorded is on a connection of its own, because one that is listened to is slower ever after.
    """
    ours(database)
    with open_database(database.where, "bench") as other:
        sent = recorded(other, lambda: ours(other), begin)
    with sqlite3.connect(database.where, isolation_level=None) as bare:
        bare.execute("PRAGMA foreign_keys = ON")
        bare.execute("PRAGMA synchronous = FULL")
        times: dict[str, list[float]] = {"ours": [], "bare": []}
        replay(bare, sent)
        for _ in range(ROUNDS):
            times["ours"].append(timed(lambda: ours(database)))
            times["bare"].append(timed(lambda: replay(bare, sent)))
    bare.close()
    return Taken(min(times["ours"]), min(times["bare"]))


def recorded(
    database: Database, act: Callable[[], None], begin: str
) -> list[tuple[str, Any, bool]]:
    """Return the statements that an act sends with their values, and whether it sends a batch."""
    sent: list[tuple[str, Any, bool]] = []

    def before(_c: Any, _cur: Any, statement: str, values: Any, _ctx: Any, many: bool) -> None:
        sent.append((statement, values, many))

    def mark(statement: str) -> Callable[[Any], None]:
        return lambda _: sent.append((statement, (), False))

    def send(compiled: _Compiled, cursor: Any, values: Any) -> None:
        sent.append((compiled._text, compiled._written(values), False))
        cursor.execute(*sent[-1][:2])

    for name, listener in (
        ("begin", mark(begin)),
        ("before_cursor_execute", before),
        ("commit", mark("COMMIT")),
        ("rollback", mark("COMMIT")),
    ):
        event.listen(database._engine, name, listener)
    with mock.patch.object(_Compiled, "send", send):
        act()
    return sent


def replay(bare: sqlite3.Connection, sent: list[tuple[str, Any, bool]]) -> None:
    """Send statements, and print all rows that come back."""
    for statement, values, many in sent:
        if many:
            bare.executemany(statement, values)
            continue
        asked = bare.execute(statement, values)
        rows = asked.fetchall()
        if rows:
            names = [column[0] for column in asked.description]
            found = [dict(zip(names, row, strict=True)) for row in rows]
            for row in found:
                if "text" in row:
                    row["text"] = json.loads(row["text"])
            printed(found)


def printed(told: object) -> str:
    """Return what a program prints of an answer."""
    return json.dumps(told, indent=1, ensure_ascii=False)


def timed(act: Callable[[], None]) -> float:
    """Return how many milliseconds an act takes."""
    start = time.perf_counter()
    act()
    return (time.perf_counter() - start) * 1000


if __name__ == "__main__":
    if len(sys.argv) > 1:
        main(Path(sys.argv[1]))
    else:
        with tempfile.TemporaryDirectory() as folder:
            main(Path(folder))
