"""How long 100,000 rows take to come in and go out, beside a bare program that inserts as many.

Run by hand: python tests/bench/bench_import.py [ROWS]
"""

from __future__ import annotations

import csv
import sqlite3
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from partsbin.stock.check import check
from partsbin.stock.database import open_database
from partsbin.workshop.exporting import export_folder
from partsbin.workshop.importing import import_folder

BINS = 200
SPEC = "side={}; speeds={}; mount=bar-clamp; bar_mm=22.2; index_family=ratio-1.7"


def write_files(folder: Path, rows: int) -> None:
    """Write a workshop of so many parts."""
    with (folder / "bins.csv").open("w", newline="") as file:
        csv.writer(file).writerows([["name"], *([f"Bin {at}"] for at in range(BINS))])
    with (folder / "parts.csv").open("w", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["kind", "bin", "grade", "cost", "value", "attributes", "note"])
        for at in range(rows):
            place, cost = f"Bin {at % BINS}", f"{at % 500}.50"
            if at % 2:
                told = SPEC.format("rear" if at % 4 == 1 else "front", 5 + at // 4 % 8)
                writer.writerow(["shifter", place, "good", cost, "8", told, f"box {at % 977}"])
            else:
                length = f"diameter=27.2; length={100 + at % 3000 / 10}"
                writer.writerow(["seatpost", place, "fair", cost, "", length, "stored dry"])


@contextmanager
def timed(what: str) -> Iterator[None]:
    """Print how long a block took, by the clock and of this process alone."""
    clock, own = time.perf_counter(), time.process_time()
    yield
    clock, own = time.perf_counter() - clock, time.process_time() - own
    print(f"{what}: {clock:.1f} s, of which the processor worked on it for {own:.1f} s")


def bare(folder: Path) -> None:
    """Read the file and insert two rows for each of its, without any of our work."""
    with sqlite3.connect(folder / "bare.db") as connection:
        connection.execute("CREATE TABLE part (id INTEGER PRIMARY KEY, a, b, c, d, e, f, g)")
        connection.execute("CREATE TABLE movement (id INTEGER PRIMARY KEY, part, place, cost)")
        with (folder / "parts.csv").open(newline="") as file:
            rows = list(csv.reader(file))[1:]
        connection.executemany(
            "INSERT INTO part (a, b, c, d, e, f, g) VALUES (?,?,?,?,?,?,?)", rows
        )
        moved = [(at, row[1], row[3]) for at, row in enumerate(rows)]
        connection.executemany("INSERT INTO movement (part, place, cost) VALUES (?,?,?)", moved)
    connection.close()


def main(rows: int) -> None:
    """Print the times."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_files(folder, rows)
        print(f"{rows} rows")
        with timed("bare program"):
            bare(folder)
        with open_database(str(folder / "shop.db"), "bench") as database:
            with timed("import"), database.changing("import") as session:
                import_folder(session, folder)
            with timed("export"), database.reading() as session:
                export_folder(session, folder / "out")
            with database.reading() as session:
                assert check(session) == []
        with (
            timed("import of the export, with numbers"),
            open_database(str(folder / "again.db"), "bench") as database,
            database.changing("import") as session,
        ):
            import_folder(session, folder / "out")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
