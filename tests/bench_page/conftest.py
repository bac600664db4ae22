"""The bench page for tests: without a network, on a free port, and in a real browser."""

from __future__ import annotations

import re
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from flask.testing import FlaskClient

from partsbin.bench.app import make_app
from partsbin.bench.devices import Devices
from partsbin.bench.server import serving
from partsbin.bench.shop import EXTENSION
from partsbin.bench.shop import Shop as Held
from partsbin.bench.watches import Watches
from partsbin.stock.database import open_database
from tests.conftest import Shop

if TYPE_CHECKING:
    from playwright.sync_api import Browser, ConsoleMessage, Page, Playwright
    from werkzeug.test import TestResponse

WHO = "ada"
"""Who works at the laptop."""
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
"""Chromium without a screen, and without asking anybody for anything."""
PHONE, LAPTOP = (360, 740), (1366, 768)
TOKEN = re.compile(r'name="csrf-token" content="([^"]+)"')
LAN = "192.168.7.5"
"""The laptop's address in the network."""
CHANGING = {"POST", "PUT", "PATCH", "DELETE"}


class BenchClient(FlaskClient):
    """Sends requests as a browser on the laptop does: with its cookie, and the token in a POST."""

    shop: Shop
    token = ""
    origin = "http://localhost"

    def open(self, *arguments: Any, **options: Any) -> TestResponse:
        """Send a request; one that changes has the page's token, unless `X-CSRFToken` is given."""
        if not isinstance(arguments[0], str):
            return super().open(*arguments, **options)  # a redirect that is followed
        headers = dict(options.pop("headers", None) or {})
        if options.get("method") in CHANGING and "X-CSRFToken" not in headers:
            headers["X-CSRFToken"] = self.token or self.learn_token()
        headers.setdefault("Accept", "text/html")
        options.setdefault("base_url", self.origin)
        return super().open(*arguments, headers=headers, **options)

    def learn_token(self) -> str:
        """Return the token that pages give this browser; a device must pair before it needs one."""
        found = TOKEN.search(self.get("/pair").get_data(as_text=True))
        assert found
        self.token = found[1]
        return self.token

    def read(self, path: str) -> str:
        """Return the text of a page that must answer."""
        answer = self.get(path)
        assert answer.status_code == 200, answer.get_data(as_text=True)
        return answer.get_data(as_text=True)

    def device(self, address: str) -> BenchClient:
        """Return a browser at another address of the network, which knows the laptop as `LAN`."""
        made = self.application.test_client()
        assert isinstance(made, BenchClient)
        made.shop, made.origin = self.shop, f"http://{LAN}:8372"
        made.environ_base["REMOTE_ADDR"] = address
        return made

    @property
    def held(self) -> Held:
        """Return what the bench page holds."""
        held = self.application.extensions[EXTENSION]
        assert isinstance(held, Held)
        return held


@contextmanager
def client_of(shop: Shop, state: Path) -> Iterator[BenchClient]:
    """Give a browser without a screen on a workshop; `state` is the folder of its devices."""
    with open_database(shop.address, WHO) as database:
        held = Held(database, Devices(state / "bench-devices.json"), Watches(), lan=True)
        held.addresses = [f"http://{LAN}:8372/"]
        app = make_app(held, [LAN])
        app.test_client_class = BenchClient
        made = app.test_client()
        assert isinstance(made, BenchClient)
        made.shop = shop
        try:
            yield made
        finally:
            held.watches.close()


@pytest.fixture
def client(shop: Shop, tmp_path: Path) -> Iterator[BenchClient]:
    """Give a browser without a screen on the invented workshop, which is `client.shop`."""
    with client_of(shop, tmp_path / "state") as made:
        yield made


@dataclass(frozen=True)
class Served:
    """A bench page that runs on a free port."""

    url: str
    """Its address, without a slash at the end."""
    shop: Shop
    held: Held


@contextmanager
def served_on(shop: Shop, state: Path, *, lan: bool = False) -> Iterator[Served]:
    """Give a running bench page on a workshop."""
    file = state / "bench-devices.json"
    with (
        open_database(shop.address, WHO) as database,
        serving(database, 0, file, lan=lan) as (server, held),
    ):
        ended = threading.Event()
        runner = threading.Thread(target=_run_until, args=(server, ended))
        runner.start()
        try:
            yield Served(f"http://localhost:{server.effective_port}", shop, held)
        finally:
            ended.set()
            server.pull_trigger()
            runner.join()


def _run_until(server: Any, ended: threading.Event) -> None:
    """Run a server as its `run` does, but only until it is told to end."""
    while not ended.is_set():
        server.asyncore.loop(timeout=1, map=server._map, count=1)
    server.task_dispatcher.shutdown()
    server.asyncore.close_all(server._map)


@pytest.fixture
def served(shop: Shop, tmp_path: Path) -> Iterator[Served]:
    """Give a running bench page on the invented workshop."""
    with served_on(shop, tmp_path / "state") as running:
        yield running


def chromium() -> str:
    """Return the browser's program; `RuntimeError` says what to do where there is none."""
    found = shutil.which("chromium")
    if not found:
        raise RuntimeError("the tests need Chromium; install it with: bash .ci/setup test")
    return found


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Give what drives browsers, until the tests end."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """Give one browser for all tests; each opens pages of its own in it."""
    with playwright.chromium.launch(executable_path=chromium(), args=QUIET) as launched:
        yield launched


@contextmanager
def page_in(browser: Browser, url: str, size: tuple[int, int] = LAPTOP) -> Iterator[Page]:
    """Give an empty page of a browser; no script may fail in it, and nothing be forbidden."""
    faults: list[str] = []

    def heard(message: ConsoleMessage) -> None:
        if "Content Security Policy" in message.text:
            faults.append(f"{page.url}: {message.text}")

    context = browser.new_context(
        base_url=url, viewport={"width": size[0], "height": size[1]}, reduced_motion="reduce"
    )
    context.set_default_timeout(15_000)
    page = context.new_page()
    page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
    page.on("console", heard)
    try:
        yield page
    finally:
        context.close()
    assert not faults


@pytest.fixture
def tab(browser: Browser, served: Served) -> Iterator[Page]:
    """Give a page of a browser, as large as a laptop's; paths lead into the `served` bench page."""
    with page_in(browser, served.url) as page:
        yield page
