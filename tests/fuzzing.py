"""Tries wrong files and wrong commands on a workshop, and proves that nothing breaks.

The suite tries a few of each; `tests/bench/bench_mutations.py` tries many.
"""

from __future__ import annotations

import csv
import io
import random
import shlex
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from click.testing import CliRunner

from partsbin.cli.main import main
from partsbin.errors import PartsbinError
from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.workshop.exporting import export_folder
from partsbin.workshop.importing import import_folder
from tests.conftest import Shop
from tests.mutating import mutated, mutated_words

ROWS = 7
"""Rows of each file that are taken for mutated ones: few, so that many can be tried."""
PROVE_EACH = 50
"""How often all of the record is proven."""
COMMANDS = """
part add seatpost diameter=27,2 length=300 --bin D1 --value 8 --inspected --note "a scratch"
part add brake_cable brake_cable_head=barrel --bin B2 --quantity 10 --cost 15 --grade new
part add housing --bin B2 --quantity 2.5 --json
part add chain --bike Teasel --slot chain --like mtb-rigid-1990-1994 --condition worn
part add shifter speeds=8 side=rear --named "Larkspur 7" --bin A1
part show 20000140
part edit 20000140 speeds=7 --grade fair --value 5,50 --note dusty
part move 20000140 A2 --inspected
part sell 20000140 --price 9 --note cash
part scrap 20000140 --reason "crack at the clamp"
bin add E9 --note "small things" --location "shelf E"
bin list --json
bin show A1
bike add Tansy --style mtb --price 30 --bought 2026-10-03 --like mtb-rigid-1990-1994 rear_axle=qr
bike edit Teasel --serial W123 --serial-checked --seller-note "a flea market" --bought 2026-10-03
bike list
bike show Teasel --json
bike strip Bracken --inspected --into D1 --grade saddle=fair --value frame=10 --keep fork
find seatpost diameter=26.8..27.4 grade=good bin=D1
find shifter speeds>=7 --most 3 --json
fit Teasel "rear shifter" --most 3
mount 20000140 Teasel "rear shifter" --anyway
unmount Teasel "rear shifter" A1 --grade core
books Teasel --json
kinds seatpost
kinds --era mtb-rigid-1990-1994
names find "Larkspur 7"
names list --json
photo list Teasel
history 20000140
history Teasel --json
undo
db check
"""


def small_files(shop: Shop, folder: Path) -> dict[str, str]:
    """Return the text of a few rows of each file of a workshop, by the file's name."""
    with open_database(shop.address, "ada") as database, database.reading() as session:
        export_folder(session, folder)
    texts = {}
    for file in sorted(folder.glob("*.csv")):
        with file.open(newline="") as opened:
            rows = list(csv.DictReader(opened))
        texts[file.name] = file.read_text().splitlines(keepends=True)[0]
        written = io.StringIO(newline="")
        kept = rows if file.stem == "bins" else rows[:ROWS]
        for row in kept:
            if file.stem == "bikes":
                # Only some of what is on them comes along.
                row |= {"price": "", "parts cost": ""}
            csv.writer(written).writerow(row.values())
        texts[file.name] += written.getvalue()
    texts["names.csv"] += 'Larkspur 7,shifter,"speeds=7; side=rear (assumed)",red\n'
    texts["account.csv"] += "Bracken,labour,2026-10-30,9.00,45,12.00,wheels\n"
    return texts


class _TakenBackError(Exception):
    """Ends an import that went well, so that the next one finds the same record."""


@contextmanager
def nothing_changes(file: Path) -> Iterator[None]:
    """Prove that nothing in an SQLite file changes meanwhile."""
    with closing(sqlite3.connect(file)) as watching:
        before = watching.execute("PRAGMA data_version").fetchone()
        yield
        assert watching.execute("PRAGMA data_version").fetchone() == before


def try_files(shop: Shop, folder: Path, count: int, start: int = 0) -> dict[str, int]:
    """Take in mutated files and return how many were refused and how many were good after all.

    Any exception but a refusal comes out, and so does a record that does not prove right.
    """
    texts = small_files(shop, folder / "right")
    wrong = folder / "wrong"
    wrong.mkdir()
    empty = Shop(folder / "empty.db")
    counts = {"refused": 0, "taken in": 0}
    with open_database(empty.address, "ada") as database, nothing_changes(empty.database):
        for name, text in texts.items():
            (wrong / name).write_text(text)
        assert _took(database, wrong, prove=True)
        for at in range(start, start + count):
            chance = random.Random(at)
            name = chance.choice(sorted(texts))
            raw = mutated(texts[name], chance).encode()
            if not at % 20:
                cut = chance.randint(0, len(raw))
                raw = raw[:cut] + chance.randbytes(3) + raw[cut:]
            (wrong / name).write_bytes(raw)
            try:
                good = _took(database, wrong, prove=not at % PROVE_EACH)
            except BaseException:
                print(f"mutation {at} of {name}: {raw!r}")
                raise
            (wrong / name).write_text(texts[name])
            counts["taken in" if good else "refused"] += 1
    return counts


def _took(database: Database, folder: Path, *, prove: bool) -> bool:
    """Return whether a folder is taken in; it is taken back then."""
    try:
        with suppress(_TakenBackError), database.changing("import") as session:
            import_folder(session, folder)
            if prove:
                assert check(session) == []
            raise _TakenBackError
    except PartsbinError:
        return False
    return True


def try_commands(shop: Shop, count: int, start: int = 0) -> dict[int, int]:
    """Run mutated commands and return how many ended with each exit code.

    Any exception but a refusal comes out; what is refused has changed nothing; and the record
    proves right all along.
    """
    right = [shlex.split(line) for line in COMMANDS.strip().splitlines()]
    codes = {0: 0, 1: 0, 2: 0}
    runner = CliRunner()
    with closing(sqlite3.connect(shop.database)) as watching:
        for at in range(start, start + count):
            chance = random.Random(at)
            words = mutated_words(chance.choice(right), chance)
            before = watching.execute("PRAGMA data_version").fetchone()
            done = runner.invoke(main, ["--db", shop.address, *words], input="")
            told = f"command {at}: {words!r} ended with {done.exit_code}\n{done.output}"
            if done.exception is not None and not isinstance(done.exception, SystemExit):
                print(told)
                raise done.exception
            assert done.exit_code in codes, told
            assert "Traceback" not in done.output, told
            if done.exit_code:
                assert done.stderr.strip(), told
                assert watching.execute("PRAGMA data_version").fetchone() == before, told
            codes[done.exit_code] += 1
            if not at % PROVE_EACH:
                with open_database(shop.address, "ada") as database, database.reading() as session:
                    assert check(session) == [], told
    return codes
