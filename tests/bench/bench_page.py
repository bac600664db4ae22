"""How long the bench page takes, beside a page that only says hello on the same server.

Run by hand: `.venv/bin/python tests/bench/bench_page.py`. Bars: each page answers under 100 ms at
the median on a shop of 100,000 parts; a frame is answered within a third of a second of its label.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from labels.number import Thing, make
from partsbin.bench.app import make_app
from partsbin.bench.devices import Devices
from partsbin.bench.shop import Shop as Held
from partsbin.bench.watches import Watches
from partsbin.stock.database import open_database
from tests.bench.big_shop import make_shop
from tests.bench_page.conftest import BenchClient
from tests.bench_page.fake_camera import picture
from tests.bench_page.pages import PAGES
from tests.conftest import Shop

PARTS = 100_000
ROUNDS = 15
PAGE_BAR, FRAME_BAR = 100, 333
"""Milliseconds."""
PART, BIN, BIKE = make(Thing.PART, 77), make(Thing.BIN, 7), make(Thing.BIKE, 1)
SEARCHES = {
    "search: one kind": "/stock/?q=seatpost",
    "search: a size": "/stock/?q=seatpost+diameter%3D27.2",
    "search: a word": "/stock/?q=rusty",
    "search: filters": "/stock/?kind=shifter&f.side=rear",
}
OF_THE_SHOP = {
    "part": f"/stock/parts/{PART}/",
    "bin": f"/stock/bins/{BIN}/",
    "bike": f"/bikes/{BIKE}/",
    "slot": f"/bikes/{BIKE}/slots/seatpost",
    "scanner, count a bin": f"/scan/?mode=count&to={BIN}",
    "scanner, onto a bike": f"/scan/?mode=onto&to={BIKE}",
}


def main() -> None:
    """Print each page's median time and its ratio to hello's, then those of frames."""
    with tempfile.TemporaryDirectory() as folder:
        shop = Shop(Path(folder) / "big.db")
        make_shop(shop.database, PARTS)
        bike = ("--style", "mtb", "--price", "30", "--like", "mtb-rigid-1990-1994")
        shop.told("bike", "add", "Sorrel", *bike)
        with open_database(shop.address, "ada") as database:
            held = Held(database, Devices(Path(folder) / "devices.json"), Watches())
            app = make_app(held)
            app.add_url_rule("/hello", "static_hello", lambda: "hello")
            app.test_client_class = BenchClient
            client = app.test_client()
            assert isinstance(client, BenchClient)
            client.learn_token()
            pages(client, shop, sys.argv[1:])
            frames(client)
            held.watches.close()


def pages(client: BenchClient, shop: Shop, only: list[str]) -> None:
    """Print how long each page takes."""
    fixed = {name: path for name in PAGES if (path := here(client, shop, name))}
    for name, path in {**fixed, **SEARCHES, **OF_THE_SHOP}.items():
        if only and not any(word in name for word in only):
            continue
        ours, hello = in_turns(partial(get, client, path), partial(get, client, "/hello"))
        shown = f"{ours:6.1f} ms, hello {hello:.1f} ms, ratio {ours / hello:5.1f}"
        print(f"{name:28} {shown} (bar {PAGE_BAR} ms){'' if ours < PAGE_BAR else '  OVER'}")


def here(client: BenchClient, shop: Shop, name: str) -> str:
    """Return a page's path; nothing if it names what only the invented workshop has."""
    if name in OF_THE_SHOP:
        return ""
    try:
        path = PAGES[name](shop)
    except AssertionError:
        return ""
    return "" if client.get(path).status_code == 404 else path


def get(client: BenchClient, path: str) -> None:
    """Ask for a page, which must be there; one that shows a fault in a form is a page too."""
    answer = client.get(path)
    if answer.status_code == 404 or answer.status_code >= 500:
        raise SystemExit(f"{path}: {answer.status_code}")
    answer.close()


def frames(client: BenchClient) -> None:
    """Print how long frames take: with nothing in view, and until labels are told of."""
    for labels in ((), (PART,), (PART, BIN, make(Thing.PART, 78), make(Thing.PART, 79))):
        sent = picture(labels)
        watch, took, until = "", [], 0.0
        for _ in range(ROUNDS):
            start = time.perf_counter()
            answer = client.post(
                f"/scan/frame?mode=look&watch={watch}", data=sent, content_type="image/jpeg"
            )
            took.append((time.perf_counter() - start) * 1000)
            came = json.loads(answer.get_data())
            watch = came["watch"]
            if came["answer"] and not until:
                until = sum(took)
        told = f", told after {until:.0f} ms (bar {FRAME_BAR} ms)" if labels else ""
        print(f"frame with {len(labels)} labels: {statistics.median(took):.0f} ms{told}")


def in_turns(one: Callable[[], None], other: Callable[[], None]) -> tuple[float, float]:
    """Return the median milliseconds of two ways, measured in turns."""
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(ROUNDS):
        for way, kept in zip((one, other), times, strict=True):
            start = time.perf_counter()
            way()
            kept.append((time.perf_counter() - start) * 1000)
    return statistics.median(times[0]), statistics.median(times[1])


if __name__ == "__main__":
    main()
