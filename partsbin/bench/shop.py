"""What a request works with: the record under the name of who sent it, and the open watches."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from flask import current_app, g, request

if TYPE_CHECKING:
    from partsbin.bench.devices import Devices
    from partsbin.bench.watches import Watches
    from partsbin.stock.database import Database

EXTENSION = "partsbin"


@dataclass(slots=True)
class Shop:
    """What one running bench page holds."""

    database: Database
    devices: Devices
    watches: Watches
    lan: bool = False
    """Whether other devices of the network may pair."""
    addresses: list[str] = field(default_factory=list)
    """Where other devices reach it."""

    def pairing_links(self, code: str) -> list[str]:
        """Return where a device pairs with a code, at each address."""
        return [f"{address}pair?code={code}" for address in self.addresses]


def shop() -> Shop:
    """Return what the running bench page holds."""
    held = current_app.extensions[EXTENSION]
    assert isinstance(held, Shop)
    return held


def record() -> Database:
    """Return the record; what is changed through it stands under the name of who sent the request.

    Each device has its own name, so that an undo on the phone takes back what the phone did.
    """
    return shop().database.under(g.who)


def wants_json() -> bool:
    """Return whether a script of the page asks, which shows the answer itself."""
    return request.accept_mimetypes.best == "application/json"
