"""How long a plan takes, beside CP-SAT on the same programme; figures are printed, not asserted.

python tests/bench/bench_plan.py [parts] [specs]
"""

from __future__ import annotations

import csv
import random
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from partsbin.kinds.slots import BY_NAME
from partsbin.stock.bikes import NewBike, add_bike, bike_named, slot_place
from partsbin.stock.database import Database, open_database
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.money import Money
from partsbin.stock.parts import NewPart, add_parts
from partsbin.stock.places import add_bin
from partsbin.stock.words import BikeState, Condition
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.most_to_pay import Terms as Wanted
from partsbin.workshop.offering import Asked, offering
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.drawing import Terms
from partsbin.workshop.planning.making import plan, shelf_of
from partsbin.workshop.planning.modelling import model_of
from partsbin.workshop.planning.places import site
from partsbin.workshop.planning.pruning import kind_demand, pruned
from partsbin.workshop.planning.solving import solve
from tests.bench.plan_shop import DEMO, many_specs
from tests.workshop.cp_sat import solved_by_cp_sat
from tests.workshop.small_shops import large_shop

NEEDS = 16
BIKES = 30


def filled(database: Database, parts: int, specs: int, bikes: int) -> None:
    """Fill a workshop with parts, and with bikes like one of the demo's that have many needs."""
    random_ = random.Random(20)
    made = many_specs(random_, specs)
    with (DEMO / "mounted.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    names = sorted({row["bike"] for row in rows} - {"Bracken", "Sorrel"})
    with database.changing("fill") as session:
        place = add_bin(session, "A1").id
        # Parts that are alike are worth about the same.
        worth = [random_.randrange(200, 4000) for _ in made]
        new = [
            NewPart(
                spec=made[n % specs],
                place=place,
                value=Money(round(worth[n % specs] * random_.uniform(0.8, 1.2))),
            )
            for n in range(parts)
        ]
        add_parts(session, new)
        for n in range(bikes):
            like = "Teasel" if n == 0 else random_.choice(names)
            bike = add_bike(
                session, NewBike(name=f"Bike {n}", style="hybrid", state=BikeState.IN_WORK)
            )
            own = [row for row in rows if row["bike"] == like and row["slot"] in BY_NAME]
            needed = [row["slot"] for row in own if row["slot"] != "frame"]
            bad = set(random_.sample(needed, min(NEEDS, len(needed))))
            add_parts(
                session,
                [
                    NewPart(
                        spec=read_spec(row["kind"], split(row["attributes"])),
                        place=slot_place(session, bike.id, row["slot"]),
                        condition=Condition.DEAD if row["slot"] in bad else Condition.SOUND,
                    )
                    for row in own
                ],
            )


def timed(database: Database, names: list[str]) -> float:
    """Return the seconds that a plan takes."""
    with database.reading() as session:
        started = time.perf_counter()
        made = plan(session, names)
        seconds = time.perf_counter() - started
    needs = sum(len(bike.needs) for bike in made.bikes)
    print(
        f"  {len(made.bikes)} bikes, {needs} needs: {seconds:.2f} s (solver {made.seconds:.2f} s),"
        f" proven {made.proven}, "
        + ", ".join(f"{stage.objective} {stage.value}" for stage in made.stages)
    )
    return seconds


def beside_cp_sat(database: Database, seconds: float) -> None:
    """Print how long a plan takes, and HiGHS and CP-SAT for the whole programme of its bike.

    The programme has every choice that no rule tells is worse, as if no plan were known yet.
    """
    with database.reading() as session:
        bike = bike_named(session, "Bike 0")
        shelf = shelf_of(session, [BikeId(bike.id)])
        one = site(0, BikeId(bike.id), bike.name, mounted(session, BikeId(bike.id)), shelf)
        found = plan(session, ["Bike 0"])
    bench = Bench(shelf)
    demand = kind_demand([one.places])
    model = pruned(bench, one.places, demand, strict=True)
    endless = Terms(lambda _: {}).endless
    programme = model_of(bench, shelf, [model], endless).programme
    started = time.perf_counter()
    ours = solve(programme)
    between = time.perf_counter()
    theirs = solved_by_cp_sat(programme)
    other = time.perf_counter() - between
    agree = ours is not None and [stage.value for stage in ours.stages] == theirs
    print(
        f"  {len(programme.upper)} columns: HiGHS {between - started:.2f} s, CP-SAT {other:.2f} s,"
        f" agree {agree}; the plan's own solver took {found.seconds:.2f} s,"
        f" {found.seconds / other:.2f} times CP-SAT; the whole plan {seconds / other:.2f} times"
    )


def offered(database: Database) -> None:
    """Print how long an offer for a bike takes, with all the others in work."""
    asked = Asked(like="mtb 1992", terms=Wanted(price=Money(30000)))
    with database.reading() as session:
        started = time.perf_counter()
        offering(session, asked)
        print(f"  an offer: {time.perf_counter() - started:.2f} s")


def agreement(shops: int = 50) -> None:
    """Print on how many larger workshops HiGHS and CP-SAT find the same optimum."""
    same = 0
    for seed in range(shops):
        shop = large_shop(seed)
        bench = Bench(shop.shelf)
        demand = kind_demand([one.places for one in shop.sites])
        models = [pruned(bench, one.places, demand, unmet=True) for one in shop.sites]
        programme = model_of(bench, shop.shelf, models).programme
        ours = solve(programme)
        figures = [stage.value for stage in ours.stages] if ours else None
        same += solved_by_cp_sat(programme) == figures
    print(f"HiGHS and CP-SAT agree on {same} of {shops} workshops")


def main() -> None:
    """Print the figures."""
    parts = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    specs = int(sys.argv[2]) if len(sys.argv) > 2 else 3_000
    agreement()
    with tempfile.TemporaryDirectory() as folder:
        figures = []
        for count in (parts, 10 * parts):
            with open_database(str(Path(folder) / f"{count}.db"), "bench") as database:
                filled(database, count, specs, BIKES)
                print(f"{count} parts, {specs} specs")
                figures.append(min(timed(database, ["Bike 0"]) for _ in range(3)))
                if count == parts:
                    beside_cp_sat(database, figures[0])
                    timed(database, [])
                    offered(database)
        print(f"ten times the parts: {figures[1] / figures[0]:.2f} times as long")


if __name__ == "__main__":
    main()
