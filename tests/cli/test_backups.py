"""Backups: whole, proven, made while others work, never in the way of what is there."""

from __future__ import annotations

import json
import shutil
import sqlite3
import threading
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from partsbin.stock.database import open_database
from partsbin.stock.places import add_bin
from tests.cli.test_photos import picture
from tests.conftest import Shop


@pytest.fixture
def backup(shop: Shop, tmp_path: Path) -> Path:
    """Return the backup of a workshop with a photo."""
    shop.told("photo", "add", "Teasel", str(picture(tmp_path / "front.jpg")))
    file = tmp_path / "friday.backup"
    assert shop.asked("db", "backup", str(file))["photos"] == 1
    return file


def test_a_restored_workshop_is_the_same(
    shop: Shop, backup: Path, tmp_path: Path, snapshot: Callable[[Shop], str]
) -> None:
    """Every row of every table comes back, and every photo with its thumbnail."""
    new = Shop(tmp_path / "elsewhere" / "new.db")

    told = new.asked("db", "restore", str(backup))

    assert (told["photos"], told["kept"]) == (1, None)
    assert snapshot(new) == snapshot(shop)
    assert new.run("db", "check").exit_code == 0
    assert all(Path(p["thumbnail"]).is_file() for p in new.asked("photo", "list"))


def test_nothing_is_replaced_unasked(
    shop: Shop, backup: Path, snapshot: Callable[[Shop], str]
) -> None:
    """Neither a backup nor a database is overwritten without --force."""
    shop.told("bin", "add", "Later")
    before, written = snapshot(shop), backup.read_bytes()

    for command in ("backup", "restore"):
        result = shop.run("db", command, str(backup))
        assert result.exit_code == 1
        assert "--force" in result.stderr

    assert snapshot(shop) == before
    assert backup.read_bytes() == written
    shop.told("db", "backup", str(backup), "--force")


def test_what_was_there_is_kept_aside(
    shop: Shop, backup: Path, snapshot: Callable[[Shop], str]
) -> None:
    """A forced restore keeps the database of before under another name, whole."""
    before = snapshot(shop)
    shop.told("bin", "add", "Later")
    later = snapshot(shop)

    told = shop.asked("db", "restore", str(backup), "--force")

    assert snapshot(shop) == before
    assert snapshot(Shop(Path(told["kept"]))) == later
    assert shop.asked("db", "restore", told["kept"], "--force")["photos"] == 0
    assert snapshot(shop) == later


def test_a_broken_database_is_replaced_and_kept(shop: Shop, backup: Path) -> None:
    """A database that cannot be read any more is moved aside as it is."""
    shop.database.write_bytes(b"broken" * 1000)

    told = shop.asked("db", "restore", str(backup), "--force")

    assert Path(told["kept"]).read_bytes() == b"broken" * 1000
    assert shop.run("db", "check").exit_code == 0


def test_who_has_it_open_sees_the_restored_one(shop: Shop, backup: Path) -> None:
    """A program that had the database open all the time goes on with the restored one."""
    with open_database(str(shop.database), "ada") as database:
        with database.changing("add") as session:
            add_bin(session, "Later")
        shop.told("db", "restore", str(backup), "--force")
        with database.changing("add") as session:
            add_bin(session, "Latest")
    names = {b["bin"] for b in shop.asked("bin", "list")}
    assert "Later" not in names
    assert "Latest" in names
    assert shop.run("db", "check").exit_code == 0


def test_a_backup_is_of_one_moment(shop: Shop, tmp_path: Path) -> None:
    """Backups that are made while another bench works hold whole acts only."""
    done = threading.Event()

    def work() -> None:
        with open_database(str(shop.database), "bo") as database:
            for count in range(60):
                with database.changing("two bins") as session:
                    add_bin(session, f"Left {count}")
                    add_bin(session, f"Right {count}")
        done.set()

    worker = threading.Thread(target=work)
    worker.start()
    sizes: list[int] = []
    while not done.is_set() or not sizes:
        number = len(sizes)
        shop.told("db", "backup", str(tmp_path / f"{number}.backup"))
        copy = Shop(tmp_path / f"{number}.db")
        copy.told("db", "restore", str(tmp_path / f"{number}.backup"))
        assert copy.run("db", "check").exit_code == 0
        sizes.append(len(copy.asked("bin", "list")))
        assert sizes[-1] % 2 == 0
    worker.join()
    assert sizes == sorted(sizes)


def rewritten(backup: Path, change: Callable[[dict[str, bytes]], None]) -> None:
    """Write a backup anew with other contents."""
    with zipfile.ZipFile(backup) as archive:
        held = {name: archive.read(name) for name in archive.namelist()}
    change(held)
    with zipfile.ZipFile(backup, "w") as archive:
        for name, content in held.items():
            archive.writestr(name, content)


def other_list(**changed: object) -> Callable[[dict[str, bytes]], None]:
    """Return a change of what the list in a backup says."""

    def change(held: dict[str, bytes]) -> None:
        listed = {**json.loads(held["backup.json"]), **changed}
        held["backup.json"] = json.dumps(listed).encode()

    return change


def other_content(part: str) -> Callable[[dict[str, bytes]], None]:
    """Return a change of one byte in a file of a backup."""

    def change(held: dict[str, bytes]) -> None:
        name = next(name for name in held if name.startswith(part))
        content = bytearray(held[name])
        content[len(content) // 2] ^= 1
        held[name] = bytes(content)

    return change


def without(part: str) -> Callable[[dict[str, bytes]], None]:
    """Return a change that leaves a file out."""

    def change(held: dict[str, bytes]) -> None:
        del held[next(name for name in held if name.startswith(part))]

    return change


DAMAGES = {
    "one bit of the database": (other_content("workshop.db"), "damaged"),
    "one bit of a photo": (other_content("photos/"), "damaged"),
    "no database": (without("workshop.db"), "damaged"),
    "no photo": (without("photos/"), "damaged"),
    "no list": (without("backup.json"), "no backup of partsbin"),
    "newer format": (other_list(format=2), "newer partsbin"),
    "a photo with a path for a name": (other_list(photos=["../../etc/passwd"]), "damaged"),
    "a list of something else": (other_list(photos=7), "damaged"),
}


@pytest.mark.parametrize(("change", "told"), DAMAGES.values(), ids=DAMAGES)
def test_damaged_and_newer_backups_are_refused(
    shop: Shop,
    backup: Path,
    snapshot: Callable[[Shop], str],
    change: Callable[[dict[str, bytes]], None],
    told: str,
) -> None:
    """What is not as it was written is refused with why, and the database stays as it is."""
    rewritten(backup, change)
    before = snapshot(shop)

    result = shop.run("db", "restore", str(backup), "--force")

    assert result.exit_code == 1
    assert told in result.stderr
    assert "Traceback" not in result.output
    assert snapshot(shop) == before


@pytest.mark.parametrize("kept", [0, 1, 100, 5000, -1], ids=lambda kept: f"{kept} bytes")
def test_backups_that_were_cut_off(backup: Path, tmp_path: Path, kept: int) -> None:
    """A backup that did not arrive whole is refused, wherever it ends."""
    backup.write_bytes(backup.read_bytes()[:kept])

    result = Shop(tmp_path / "new.db").run("db", "restore", str(backup))

    assert result.exit_code == 1
    assert "friday.backup is damaged" in result.stderr
    assert not (tmp_path / "new.db").exists()
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


def test_a_newer_database_in_a_backup(shop: Shop, tmp_path: Path) -> None:
    """A copy that a newer program made is refused as such."""
    newer = tmp_path / "newer.db"
    shutil.copy(shop.database, newer)
    with sqlite3.connect(newer) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()

    result = shop.run("db", "restore", str(newer), "--force")

    assert result.exit_code == 1
    assert "made by a newer partsbin (schema 9999)" in result.stderr


@pytest.mark.parametrize("command", ["backup", "restore"])
def test_postgresql_has_its_own_tool(backup: Path, command: str, postgresql_shop: Shop) -> None:
    """On PostgreSQL the sentence says what to use."""
    words = [str(backup)] if command == "restore" else [str(backup.with_name("other"))]

    result = postgresql_shop.run("db", command, *words)

    assert result.exit_code == 1
    assert "pg_" in result.stderr


@pytest.fixture
def postgresql_shop(request: pytest.FixtureRequest, tmp_path: Path) -> Shop:
    """Return an empty workshop on PostgreSQL."""
    databases = request.getfixturevalue("postgresql")
    return Shop(tmp_path / "none.db", databases.new())


def test_missing_photos_are_told(shop: Shop, tmp_path: Path) -> None:
    """A backup is written even if a photo is gone, and says which."""
    added = shop.asked("photo", "add", "Teasel", str(picture(tmp_path / "front.jpg")))
    Path(added[0]["file"]).unlink()

    result = shop.run("db", "backup", str(tmp_path / "friday.backup"))

    assert result.exit_code == 0
    assert added[0]["photo"] in result.stderr
