"""Serves the bench page: on this machine only, or with `lan` to paired devices of the network."""

from __future__ import annotations

import socket
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from partsbin.bench.app import make_app
from partsbin.bench.devices import Devices
from partsbin.bench.guard import LARGEST_REQUEST
from partsbin.bench.shop import Shop
from partsbin.bench.watches import Watches
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from partsbin.stock.database import Database

THREADS = 8
EVERYWHERE, HERE = "0.0.0.0", "127.0.0.1"  # noqa: S104 - only asked for with --lan, and paired


@contextmanager
def serving(
    database: Database, port: int, devices_file: Path, *, lan: bool = False
) -> Iterator[tuple[Any, Shop]]:
    """Give a server that is bound to its port, and what it holds; call its `run` to serve.

    Port 0 takes a free one. Raises `PartsbinError` if the port is taken.
    """
    from waitress.server import create_server

    held = Shop(database, Devices(devices_file), Watches(), lan=lan)
    names = _names_here() if lan else []
    bound = _bound(EVERYWHERE if lan else HERE, port)
    # The stubs leave out what a server on one socket knows of its port.
    server: Any = create_server(
        make_app(held, names),
        sockets=[bound],
        threads=THREADS,
        max_request_body_size=LARGEST_REQUEST,
        ident="",
    )
    held.addresses = [f"http://{name}:{server.effective_port}/" for name in names]
    try:
        yield server, held
    finally:
        held.watches.close()
        server.close()


def _bound(host: str, port: int) -> socket.socket:
    """Return a socket on a port, before anything is started that would have to be ended again."""
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    # A page that is started again need not wait until the connections of the last one are gone.
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
    except OSError as fault:
        made.close()
        told = f"port {port} cannot be used ({fault.strerror}); choose another with --port"
        raise PartsbinError(told) from fault
    return made


def _names_here() -> list[str]:
    """Return the addresses by which other devices reach this machine, the likeliest first."""
    found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        # Nothing is sent: the system only chooses the address it would send from.
        probe.connect(("192.0.2.1", 9))
        found.append(str(probe.getsockname()[0]))
    name = socket.gethostname().lower()
    with suppress(OSError):
        found += [str(row[4][0]) for row in socket.getaddrinfo(name, None, socket.AF_INET)]
    known = [address for address in dict.fromkeys(found) if not address.startswith("127.")]
    return [*known, name, f"{name}.local"] if "." not in name else [*known, name]
