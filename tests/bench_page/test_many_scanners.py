"""Several cameras at once on one SQLite file: each act is there once, and none is lost."""

from __future__ import annotations

import json
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from http.cookiejar import CookieJar
from typing import Any
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, Request, build_opener

from sqlalchemy import select

from partsbin.stock.database import open_database
from partsbin.stock.models import Act, Movement, Part
from tests.bench_page.conftest import TOKEN, Served
from tests.bench_page.fake_camera import picture

CAMERAS = 4
OWN, SHARED = 3, 2
"""Labels that only one camera sees, and labels that all of them see."""


class Scanning:
    """A browser that sends frames, as `scan.js` does: one after the other, to its own watch."""

    def __init__(self, url: str) -> None:
        self._url = url
        self._opener = build_opener(HTTPCookieProcessor(CookieJar()))
        with self._opener.open(f"{url}/scan/") as page:
            found = TOKEN.search(page.read().decode())
        assert found
        self._headers = {"X-CSRFToken": found[1], "Accept": "application/json"}
        self._watch = ""

    def look(self, *numbers: str) -> Any:
        """Return what a frame with these labels brings, on the way into bin B2."""
        asked = urlencode({"watch": self._watch, "mode": "into", "to": "B2"})
        headers = {**self._headers, "Content-Type": "image/jpeg"}
        request = Request(f"{self._url}/scan/frame?{asked}", picture(numbers), headers)
        with self._opener.open(request, timeout=60) as answer:
            came = json.load(answer)
        self._watch = came["watch"]
        return came["answer"]

    def scan(self, numbers: list[str]) -> Counter[str]:
        """Return how often each answer came when labels are shown one after the other."""
        states: Counter[str] = Counter()
        for number in numbers:
            answer = next(filter(None, (self.look(number) for _ in range(12))))
            states[answer["state"]] += 1
            for _ in range(5):  # the next one is taken once this one is out of the picture
                self.look()
        return states


def test_nothing_is_lost(served: Served) -> None:
    """Four cameras move 14 parts, for 2 of which all reach at once: 14 acts, one for each part."""
    found = served.shop.asked("find", "bin=A1", "--most", "100")["parts"]
    found += served.shop.asked("find", "bin=D1", "--most", "100")["parts"]
    numbers = [part["number"] for part in found][: CAMERAS * OWN + SHARED]
    shared, own = numbers[:SHARED], numbers[SHARED:]
    lists = [own[at::CAMERAS] + shared for at in range(CAMERAS)]
    with ThreadPoolExecutor(CAMERAS) as pool:
        told = sum(pool.map(lambda some: Scanning(served.url).scan(some), lists), Counter())
    assert told == {"done": len(numbers), "refused": (CAMERAS - 1) * SHARED}
    moves = (
        select(Part.number)
        .join(Movement, Movement.part_id == Part.id)
        .join(Act, Act.id == Movement.act_id)
        .where(Act.what == "scan")
    )
    with open_database(served.shop.address, "ada") as database, database.reading() as session:
        assert Counter(session.scalars(moves)) == Counter(numbers)
    served.shop.told("db", "check")
