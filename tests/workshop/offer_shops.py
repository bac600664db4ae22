"""Small workshops for offers: a few parts in a bin, bikes that need a saddle, a price list."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path

from tests.conftest import Shop

Rows = Sequence[dict[str, str]]
FRAME = "style=mtb; wheel_bsd_mm=622; seat_tube_bore_mm=27.2; seat_tube_od_mm=28.6"
POST = "diameter_mm=27.2; rails=round-7; length_mm=300"
SADDLE = {"kind": "saddle", "attributes": "rails=round-7"}
LIKE = ("--like", "mtb-rigid-1990-1994")


def bike(name: str, saddle: str) -> Rows:
    """Return a frame with a good post and a saddle in some condition."""
    return [
        {"bike": name, "slot": "frame", "kind": "frame", "attributes": FRAME},
        {"bike": name, "slot": "seatpost", "kind": "seatpost", "attributes": POST},
        {"bike": name, "slot": "saddle", "condition": saddle, "value": "4.00", **SADDLE},
    ]


def build(
    shop: Shop,
    folder: Path,
    *,
    parts: Rows = (),
    bikes: Rows = (),
    prices: Rows = (),
    mounted: Rows = (),
) -> Shop:
    """Take bin Z9 with some parts, bikes and prices into a workshop and return it."""
    folder.mkdir()
    files = {
        "bins": [{"name": "Z9"}],
        "parts": [{"bin": "Z9", **row} for row in parts],
        "bikes": bikes,
        "mounted": mounted,
        "prices": prices,
    }
    for name, rows in files.items():
        if rows:
            heads = list(dict.fromkeys(head for row in rows for head in row))
            with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
                writer = csv.DictWriter(file, heads)
                writer.writeheader()
                writer.writerows(rows)
    shop.told("import", str(folder))
    return shop
