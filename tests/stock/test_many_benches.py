from __future__ import annotations

import os
import random

from sqlalchemy import func, select

from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.stock.errors import NotThereError
from partsbin.stock.ids import PartId, PlaceId
from partsbin.stock.models import Movement, Part
from partsbin.stock.movements import move
from tests import at_work, cut_short
from tests.at_work import PROCESSES
from tests.databases import Databases
from tests.stock.making import BALLS, add, shop, stocked_shop

BENCHES = 4


def _reach(address: str, part: PartId, source: PlaceId, target: PlaceId, ready: object) -> str:
    ready.wait()  # type: ignore[attr-defined] # a barrier of another process
    with open_database(address, f"bench {os.getpid()}") as database:
        try:
            with database.changing("take") as session:
                move(session, part, 1, source, target)
        except NotThereError as refused:
            return str(refused)
    return "mine"


def test_the_last_part_goes_to_one_bench(database: Database, address: str) -> None:
    """Of several benches that reach for the last part one gets it, the others are told why not."""
    made, part = stocked_shop(database)
    with PROCESSES.Manager() as manager, PROCESSES.Pool(BENCHES) as pool:
        ready = manager.Barrier(BENCHES)
        asked = (address, part, made.a1, made.b2, ready)
        told = pool.starmap(_reach, [asked] * BENCHES)

    refused = (
        "cannot take 1 of seatpost 2000 0140 from bin A1: it is not there, it is in bin B2; "
        "nothing was changed"
    )
    assert sorted(told) == [*[refused] * (BENCHES - 1), "mine"]


def _use(address: str, lot: PartId, source: PlaceId, target: PlaceId, times: int) -> int:
    got = 0
    with open_database(address, f"bench {os.getpid()}") as database:
        for _ in range(times):
            try:
                with database.changing("use") as session:
                    move(session, lot, 1, source, target)
            except NotThereError:
                continue
            got += 1
    return got


def test_benches_never_oversell_a_lot(database: Database, address: str) -> None:
    """Benches that use up one lot together get exactly what there was, and none is kept waiting."""
    with database.changing("buy") as session:
        made = shop(session)
        lot = add(session, made.a1, BALLS, cost=997, lot=True, quantity=60).id
    with PROCESSES.Pool(BENCHES) as pool:
        got = pool.starmap(_use, [(address, lot, made.a1, made.b2, 25)] * BENCHES)

    assert sum(got) == 60
    with database.reading() as session:
        assert check(session) == []


def test_benches_get_different_numbers(database: Database, address: str) -> None:
    """Numbers that several benches take at once are all different and leave no gap."""
    with database.changing("set up") as session:
        made = shop(session)
    with PROCESSES.Pool(BENCHES) as pool:
        pool.starmap(_add_some, [(address, made.a1, 10)] * BENCHES)

    with database.reading() as session:
        numbers = session.scalars(select(Part.number)).all()
        assert check(session) == []
    assert sorted(int(n[1:6]) for n in numbers) == list(range(1, 10 * BENCHES + 1))


def _add_some(address: str, place: PlaceId, times: int) -> None:
    with open_database(address, f"bench {os.getpid()}") as database:
        for _ in range(times):
            with database.changing("add") as session:
                add(session, place)


def test_benches_may_open_a_new_database_at_once(new_address: str) -> None:
    """Whoever comes first makes the database, and the others find it made."""
    with PROCESSES.Pool(BENCHES) as pool:
        pool.starmap(_open, [(new_address,)] * BENCHES)

    with open_database(new_address, "tester") as database, database.reading() as session:
        assert check(session) == []


def _open(address: str) -> None:
    open_database(address, "bench").close()


def test_the_last_parts_are_never_oversold(databases: Databases) -> None:
    """Eight benches reach for the same last parts: each act that returned is there once, no other.

    The full size, 2,000 acts a bench, is in `tests/bench/bench_many_benches.py`.
    """
    address = databases.new()
    last = at_work.fill_last_parts(address)
    told = at_work.everybody(at_work.reach, address, last, benches=8, acts=10)

    assert [len(one.kept) for one in told] == [10] * 8
    with open_database(address, "owner") as database:
        assert at_work.faults_of(database, told) == []
    databases.drop(address)


def test_a_killed_program_leaves_nothing_half_done(databases: Databases) -> None:
    """Every act that returned is there, and an act cut short is there whole or not at all.

    The full size, 200 kills, is in `tests/bench/bench_many_benches.py`.
    """
    address = databases.new()
    benches = cut_short.fill_benches(address, 3)
    found = cut_short.kill(address, benches, rounds=3, chance=random.Random(20261003))

    assert found.faults == []
    assert found.killed == 9
    databases.drop(address)


def test_a_reader_does_not_wait_for_a_change(database: Database, address: str) -> None:
    """A reader sees one moment, and is not kept waiting by a change that is under way."""
    made, part = stocked_shop(database)
    with open_database(address, "reader") as other, database.changing("move") as session:
        move(session, part, 1, made.a1, made.b2)
        with other.reading() as reader:
            assert reader.scalar(select(func.count()).select_from(Movement)) == 1
