"""Makes a shop of any size in an SQLite file, past the acts but as the acts would have made it.

Every part came from the supplier, went through four bins, and is then in a bin, sold or scrapped:
five movements for each part. `partsbin db check` passes on it.
"""

from __future__ import annotations

import datetime as dt
import random
import sqlite3
from collections.abc import Iterator
from itertools import islice, product
from pathlib import Path
from typing import Any

from labels.number import Thing, make
from partsbin.kinds.spec import Spec
from partsbin.stock.database import open_database
from partsbin.stock.ids import SCRAPPED, SOLD, SUPPLIER
from partsbin.stock.parts import note_words
from partsbin.stock.places import add_bin
from partsbin.stock.specs import record_specs

BINS = 2000
"""In a shop of 20,000 parts or more, so that what grows does so with the parts."""
MOVEMENTS_PER_ACT = 20
AT_ONCE = 50_000
NOTES = ("rusty rail", "cable cut short", "from the fair", "second shelf", "light scratches")
"""Every second part has a note, in turns: each of these words is in 10 % of all parts' notes."""
GRADES = ("new", "good", "good", "good", "fair", "fair", "poor", "core", "unsafe", "good")


def specs() -> list[Spec]:
    """Return some hundred specs of kinds that a workshop has many of."""
    found = [
        Spec.read("seatpost", {"diameter_mm": f"{25 + i / 5:.1f}", "length_mm": str(length)})
        for i, length in product(range(40), (300, 350, 400))
    ]
    for kind, speeds in product(("cassette", "chain"), range(6, 12)):
        found.append(Spec.read(kind, {"speeds": str(speeds)}))
    for side, speeds in product(("rear", "front"), range(2, 12)):
        found.append(Spec.read("shifter", {"speeds": str(speeds), "side": side}))
    return found


def make_shop(file: Path, parts: int, seed: int = 20261003) -> None:
    """Make a shop with so many parts in a file that does not exist yet."""
    bins = min(BINS, max(parts // 10, 10))
    with open_database(str(file), "owner") as database, database.changing("set up") as session:
        ids = record_specs(session, specs())
        first = add_bin(session, "bin 1").id
        for number in range(2, bins + 1):
            add_bin(session, f"bin {number}")
    connection = sqlite3.connect(file, isolation_level=None)
    connection.execute("PRAGMA synchronous = OFF")
    connection.execute("PRAGMA cache_size = -500000")
    put_back = _set_aside(connection)
    connection.execute("BEGIN")
    made = list(_parts(parts, ids, range(first, first + bins), random.Random(seed)))
    _insert(connection, "part", 11, (row for row, _ in made))
    noted = ((w, row[0]) for row, _ in made for w in note_words(row[9]))
    _insert(connection, "note_word", 2, sorted(noted))
    now = dt.datetime(2026, 1, 1, tzinfo=dt.UTC).replace(tzinfo=None).isoformat(" ") + ".000000"
    acts = 5 * parts // MOVEMENTS_PER_ACT
    _insert(connection, "act", 5, ((10 + i, now, "owner", "bulk", "") for i in range(acts)))
    _insert(connection, "movement", 7, _movements(made))
    held = ((row[0], path[-1], 1, cost) for row, (path, cost) in made)
    _insert(connection, "holding", 4, held)
    last = parts + 1
    connection.execute("UPDATE running_number SET last = ? WHERE thing = '2'", (last,))
    connection.execute("COMMIT")
    for statement in put_back:
        connection.execute(statement)
    connection.execute(
        "UPDATE bin_sum SET (parts, cost) = (SELECT count(*), coalesce(sum(cost), 0) FROM holding "
        "WHERE holding.place_id = bin_sum.place_id)"
    )
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()


def _set_aside(connection: sqlite3.Connection) -> list[str]:
    """Drop the indexes and triggers, and return the statements that make them again."""
    query = "SELECT type, name, sql FROM sqlite_master WHERE type IN ('index', 'trigger')"
    kept = [row for row in connection.execute(query).fetchall() if row[2]]
    for type_, name, _ in kept:
        connection.execute(f"DROP {type_} {name}")
    return [sql for _, _, sql in kept]


Made = tuple[tuple[Any, ...], tuple[list[int], int]]


def _parts(count: int, specs: list[Any], bins: range, chance: random.Random) -> Iterator[Made]:
    """Yield each part's row, the places that it went through, and its cost."""
    for i in range(1, count + 1):
        at = chance.randrange(len(bins))
        path = [bins[(at + step * 3) % len(bins)] for step in range(5)]
        end = chance.random()
        if end < 0.3:
            path[-1] = SOLD if end < 0.2 else SCRAPPED
        note = NOTES[i // 2 % len(NOTES)] if i % 2 else ""
        row = (
            i,
            make(Thing.PART, i),
            specs[chance.randrange(len(specs))],
            GRADES[chance.randrange(len(GRADES))],
            0,
            "piece",
            "sound",
            chance.randrange(2000),
            "",
            note,
            int(end >= 0.3),
        )
        yield row, (path, chance.randrange(1000))


def _movements(made: list[Made]) -> Iterator[tuple[int, ...]]:
    id_ = 0
    for step in range(5):
        for row, (path, cost) in made:
            source = path[step - 1] if step else SUPPLIER
            yield (id_ + 1, 10 + id_ // MOVEMENTS_PER_ACT, row[0], 1, source, path[step], cost)
            id_ += 1


def _insert(connection: sqlite3.Connection, table: str, width: int, rows: Any) -> None:
    statement = f"INSERT INTO {table} VALUES ({', '.join('?' * width)})"
    rows = iter(rows)
    while some := list(islice(rows, AT_ONCE)):
        connection.executemany(statement, some)
