"""Fresh databases for tests and benchmarks: SQLite files, and a PostgreSQL server of one's own."""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Self

DEBIAN = Path("/usr/lib/postgresql")
"""Where Debian and its kin keep each version's programs, which are not on the PATH."""
SERVICE_USER = "postgres"
"""Who runs the server for root, which PostgreSQL refuses; Debian's package makes this user."""
OWNER = "partsbin"
START_S = 60
QUICK = {"fsync": "off", "synchronous_commit": "off", "full_page_writes": "off"}
"""Settings for tests: nobody wants their databases back after a power cut."""


class Databases(ABC):
    """Makes fresh databases of one kind, empty ones or copies of one that was filled once."""

    def __init__(self) -> None:
        self._filled: dict[str, str] = {}
        self._count = 0

    def copy_of(self, name: str, fill: Callable[[str], object]) -> str:
        """Return the address of a copy of the database `name`, which `fill` fills at first use."""
        if name not in self._filled:
            address = self.new()
            fill(address)
            self._filled[name] = address
        return self.new(self._filled[name])

    @abstractmethod
    def new(self, original: str = "") -> str:
        """Return the address of a fresh database: an empty one, or a copy of another."""

    @abstractmethod
    def drop(self, address: str) -> None:
        """Remove a database."""

    def _next(self) -> int:
        self._count += 1
        return self._count


class Files(Databases):
    """SQLite files, each in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder

    def new(self, original: str = "") -> str:
        """Return the name of a file that does not exist yet, or is a copy of another."""
        file = self.folder / str(self._next()) / "record.db"
        file.parent.mkdir()
        if original:
            shutil.copy(original, file)
        return str(file)

    def drop(self, address: str) -> None:
        """Remove a file with its folder."""
        shutil.rmtree(Path(address).parent)


class Server(Databases):
    """A PostgreSQL server that listens on a socket in a folder of its own; use it with `with`.

    Raises `RuntimeError` with one sentence if the server is not installed or does not start.
    """

    def __init__(self, settings: Mapping[str, str] | None = None) -> None:
        super().__init__()
        self._settings = {
            "listen_addresses": "",
            "max_connections": "60",
            "timezone": "UTC",
            **(settings or {}),
        }
        self._programs = programs()
        self._as = _other_user() if os.geteuid() == 0 else {}
        self._folder = Path(tempfile.mkdtemp(prefix="partsbin-pg-"))
        self._process: subprocess.Popen[Any] | None = None
        self._admin: Any = None

    def __enter__(self) -> Self:
        try:
            self._start()
        except BaseException:
            self.stop()
            raise
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def new(self, original: str = "") -> str:
        """Return the address of a new database, empty or a copy of one that nobody is using."""
        name = f"record_{self._next()}"
        template = _name_of(original) if original else "template0"
        self._admin.execute(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
        return self._address(name)

    def drop(self, address: str) -> None:
        """Remove a database, whoever is still connected."""
        self._admin.execute(f'DROP DATABASE "{_name_of(address)}" WITH (FORCE)')

    def stop(self) -> None:
        """Stop the server and remove all that it wrote."""
        if self._admin is not None:
            self._admin.close()
        if self._process is not None:
            # "Immediate": it writes nothing any more that is removed in the next step.
            self._process.send_signal(signal.SIGQUIT)
            self._process.wait()
        shutil.rmtree(self._folder)

    def _address(self, name: str) -> str:
        return f"postgresql://{OWNER}@/{name}?host={self._folder}"

    def _start(self) -> None:
        if self._as:
            shutil.chown(self._folder, self._as["user"], self._as["group"])
        data = self._folder / "data"
        self._run_initdb(data)
        options = [part for item in self._settings.items() for part in ("-c", "=".join(item))]
        program, folder = str(self._programs / "postgres"), str(self._folder)
        command = [*_mortal(), program, "-D", str(data), "-k", folder, *options]
        with (self._folder / "log").open("wb") as log:
            self._process = subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=log, stderr=log, cwd="/", **self._as
            )
        self._admin = self._connect()

    def _run_initdb(self, data: Path) -> None:
        options = ["--auth=trust", f"--username={OWNER}", "--encoding=UTF8", "--no-sync"]
        program = str(self._programs / "initdb")
        command = [program, "-D", str(data), "--locale=C.UTF-8", *options]
        done = subprocess.run(
            command, capture_output=True, text=True, check=False, cwd="/", **self._as
        )
        if done.returncode:
            raise RuntimeError(f"PostgreSQL's initdb failed: {done.stderr.strip()}")

    def _connect(self) -> Any:
        """Return a connection to the server, as soon as it accepts one."""
        import psycopg

        until = time.monotonic() + START_S
        while True:
            try:
                return psycopg.connect(self._address("postgres"), autocommit=True)
            except psycopg.OperationalError:
                assert self._process is not None
                if self._process.poll() is not None or time.monotonic() > until:
                    log = (self._folder / "log").read_text()
                    raise RuntimeError(f"the PostgreSQL server does not start: {log}") from None
            time.sleep(0.02)


def programs() -> Path:
    """Return the folder of PostgreSQL's newest programs.

    Raises `RuntimeError` that says what to install if there is none.
    """
    found = shutil.which("initdb")
    if found:
        return Path(found).resolve().parent
    versions = [file.parent for file in DEBIAN.glob("*/bin/initdb")]
    if not versions:
        raise RuntimeError(
            "the tests need a PostgreSQL server and found no initdb; "
            "install it with: bash .ci/setup test"
        )
    return max(versions, key=lambda folder: int(folder.parent.name))


def _other_user() -> dict[str, Any]:
    """Return how root starts a process as the service user."""
    try:
        user = pwd.getpwnam(SERVICE_USER)
    except KeyError:
        raise RuntimeError(
            f"PostgreSQL does not run as root and there is no user {SERVICE_USER!r}; "
            "run the tests as another user, or install it with: bash .ci/setup test"
        ) from None
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}


def _mortal() -> list[str]:
    """Return the words before a command that end it when the tests are killed, where there are."""
    found = shutil.which("setpriv")
    return [found, "--pdeathsig", "QUIT"] if found else []


def _name_of(address: str) -> str:
    return address.partition("@/")[2].partition("?")[0]
