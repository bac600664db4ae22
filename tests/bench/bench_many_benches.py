"""Eight benches at once and 200 kills, on one SQLite file and on PostgreSQL, both durable.

Run by hand. Bars: 8 processes keep 2,000 acts each while all reach for the same few last parts,
and 200 programs are killed at random instants during their acts. Nothing is oversold, every act
that returned is in the record once and whole, no other is half there, `db check` finds nothing,
and a bench is told of nothing but that another one was first.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from partsbin.stock.database import open_database
from tests import at_work, cut_short
from tests.databases import Databases, Files, Server

BENCHES, ACTS = 8, 2000
KILLED_AT_ONCE, ROUNDS = 4, 50


def main() -> int:
    """Print the figures of both databases and return 1 if anything is wrong."""
    with tempfile.TemporaryDirectory() as folder, Server() as server:
        faults = work("SQLite", Files(Path(folder))) + work("PostgreSQL", server)
    for fault in faults:
        print("FAULT", fault)
    return bool(faults)


def work(name: str, databases: Databases) -> list[str]:
    """Print how one kind of database fares, and return its faults."""
    address = databases.new()
    last = at_work.fill_last_parts(address)
    start = time.perf_counter()
    told = at_work.everybody(at_work.reach, address, last, benches=BENCHES, acts=ACTS)
    took = time.perf_counter() - start
    with open_database(address, "owner") as database:
        faults = at_work.faults_of(database, told)
    kept = sum(len(one.kept) for one in told)
    refused = sum((one.refused for one in told), Counter[str]())
    print(
        f"{name}: {kept} acts of {BENCHES} benches kept in {took:.0f} s ({kept / took:.0f} a "
        f"second), {refused.total()} refused as another bench was first {dict(refused)}, "
        f"{len(faults)} faults",
        flush=True,
    )
    address = databases.new()
    benches = cut_short.fill_benches(address, KILLED_AT_ONCE)
    start = time.perf_counter()
    found = cut_short.kill(address, benches, ROUNDS, random.Random(20261003))
    print(
        f"{name}: {found.killed} programs killed in {time.perf_counter() - start:.0f} s; "
        f"{found.returned} acts had returned and {found.cut_short} more were kept whole, "
        f"{len(found.faults)} faults",
        flush=True,
    )
    return faults + found.faults


if __name__ == "__main__":
    sys.exit(main())
