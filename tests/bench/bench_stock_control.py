"""How long a count, the list of bins that are due and the reorder list take in a large shop.

Run by hand on a shop that `bench_scale.py FOLDER` keeps: `bench_stock_control.py SHOP.db`. A lot
that was bought and used ten thousand times shows what layers of first in, first out cost.
"""

from __future__ import annotations

import datetime as dt
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from partsbin.kinds.spec import Spec
from partsbin.stock.cost_layers import FOR_ALL, choose_formula
from partsbin.stock.count_tables import CostFormula
from partsbin.stock.database import Database, open_database
from partsbin.stock.ids import SCRAPPED, SUPPLIER, PlaceId
from partsbin.stock.money import Money
from partsbin.stock.movements import move
from partsbin.stock.parts import NewPart, add_part
from partsbin.stock.places import list_bins
from partsbin.workshop.abc import classes_now
from partsbin.workshop.counting import compare
from partsbin.workshop.counts_due import bins_due
from partsbin.workshop.reordering import Wanted, levels, set_level

MOVEMENTS = 10_000
TODAY = dt.datetime.now(dt.UTC).date()


def timed(what: str, act: Callable[[], object]) -> None:
    """Print how long an act takes, the best of three."""
    times = []
    for _ in range(3):
        start = time.perf_counter()
        act()
        times.append(time.perf_counter() - start)
    print(f"{what:<44}{min(times) * 1000:10.1f} ms")


def questions(database: Database) -> None:
    """Time the questions of stock control."""
    with database.changing("reorder set") as session:
        for kind in ("chain", "cassette", "seatpost"):
            set_level(session, Wanted(kind, minimum="5", lead_days=7))
    with database.reading() as session:
        some = list_bins(session)[0]
        print(f"bin {some.name}: {some.parts} items")
        timed("classes of the kinds", lambda: classes_now(session, TODAY))
        timed("count of a bin", lambda: compare(session, some.name, [], {}))
        timed("bins that are due", lambda: bins_due(session, TODAY))
        timed("reorder list of three kinds", lambda: levels(session, TODAY))


def layers(database: Database) -> None:
    """Time a use of a lot with many movements, by each formula."""
    with database.changing("fill") as session:
        place = PlaceId(list_bins(session)[0].id)
        spec = Spec.read("bearing_balls", {"diameter_mm": "6.35"})
        part = add_part(session, NewPart(spec=spec, place=place, lot=True, quantity=9)).id
        for bought in range(MOVEMENTS // 2):
            move(session, part, 9, SUPPLIER, place, cost=Money(bought))
            move(session, part, 8, place, SCRAPPED)
    for formula in CostFormula:
        with database.changing("use") as session:
            choose_formula(session, FOR_ALL, formula)
            timed(
                f"use of a lot of {MOVEMENTS} movements, {formula}",
                lambda session=session: move(session, part, 1, place, SCRAPPED),  # type: ignore[misc] # timed calls it with nothing
            )


def main() -> None:
    """Run all on a copy of the shop that is named."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "shop.db"
        shutil.copy(sys.argv[1], copy)
        with open_database(str(copy), "bench") as database:
            questions(database)
            layers(database)


if __name__ == "__main__":
    main()
