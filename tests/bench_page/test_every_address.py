"""Every address of the page: what only shows changes nothing, and no form breaks it."""

from __future__ import annotations

import random
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from io import BytesIO
from pathlib import Path
from typing import Any

from partsbin.bench.app import ROOMS
from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop
from tests.mutating import STRANGE

TEMPLATES = Path(__file__).parents[2] / "partsbin/bench/templates"
FIELD = re.compile(r'name="([a-z_.]+)"')
FORMS_EACH = 14
"""Random forms that each address gets; more would find the same."""
WORDS = (
    *STRANGE,
    *("Teasel", "Bracken", "A1", "D1", "rear shifter", "saddle", "wheel", "good", "unsafe"),
    *("ready", "sold", "12", "12,50", "1h15", "10000119", "2026-10-03", "look", "onto", "into"),
)
PICTURE = b"\x89PNG\r\n\x1a\n not really"
MEANT = {
    "bikes": ("30000161", "30000258", "30000355"),
    "stock.bin": ("10000119", "10000216"),
    "stock.part": ("20000140", "20009743"),
    "acts": ("20000140", "10000119", "30000161"),
}
"""Numbers of the invented workshop that addresses of a room may name."""
TEXTS = ("rear shifter", "saddle", "shifter", "a" * 64, "0", "x", "bore", "1")


def rules(client: BenchClient, method: str) -> Iterator[Any]:
    """Yield the addresses that take a method, apart from the static files."""
    for rule in client.application.url_map.iter_rules():
        if method in (rule.methods or set()) and rule.endpoint != "static":
            yield rule


def path_of(client: BenchClient, rule: Any, chance: random.Random) -> str:
    """Return a path of an address, its numbers and words chosen by chance."""
    numbers = [n for room, some in MEANT.items() if rule.endpoint.startswith(room) for n in some]
    everything = [n for some in MEANT.values() for n in some]
    chosen: dict[str, Any] = {}
    for argument in rule.arguments:
        converter = rule._converters[argument]
        if type(converter).__name__ == "LabelConverter":
            chosen[argument] = chance.choice(numbers or everything)
        elif type(converter).__name__ == "IntegerConverter":
            chosen[argument] = chance.choice((0, 1, 7, 10**12))
        else:
            chosen[argument] = chance.choice(TEXTS)
    with client.application.test_request_context():
        return client.application.url_for(rule.endpoint, **chosen)


def broken(told: str) -> bool:
    """Return whether an answer shows the program's insides."""
    return "Traceback (most recent" in told or "sqlalchemy" in told or "site-packages" in told


def test_every_room_is_tried(client: BenchClient) -> None:
    """The addresses that are tried are those of all rooms."""
    tried = {rule.endpoint.split(".")[0] for rule in rules(client, "GET")}
    assert tried >= set(ROOMS) - {"photos"}
    assert {"number", "mode", "to", "lines"} <= set(fields_of("scan"))
    assert {rule.rule for rule in rules(client, "POST")} >= {"/undo", "/scan/number", "/scan/frame"}


def test_what_shows_changes_nothing(client: BenchClient, snapshot: Callable[[Shop], str]) -> None:
    """Opening any address, with any question, leaves all tables as they were and never fails.

    Source: RFC 9110, 9.2.1: GET is safe.
    """
    before, chance = snapshot(client.shop), random.Random(7)
    seen = set()
    for rule in rules(client, "GET"):
        fields = fields_of(rule.endpoint.split(".")[0])
        for turn in range(3):
            asked = (
                {f: chance.choice(WORDS) for f in chance.sample(fields, min(3, len(fields)))}
                if turn
                else {}
            )
            path = path_of(client, rule, chance)
            answer = client.get(path, query_string=asked)
            told = (
                answer.get_data(as_text=True)
                if answer.is_json or "text" in (answer.mimetype or "")
                else ""
            )
            assert answer.status_code < 500, (path, asked, told)
            assert not broken(told), (path, asked)
            seen.add(answer.status_code)
            answer.close()
    assert snapshot(client.shop) == before
    assert 200 in seen


def fields_of(room: str) -> list[str]:
    """Return the names of all fields in the forms of a room."""
    texts = [file.read_text() for file in (TEMPLATES / room).rglob("*.html")]
    return sorted({name for text in texts for name in FIELD.findall(text)} - {"csrf_token"})


def random_form(fields: list[str], chance: random.Random) -> dict[str, Any]:
    """Return a form with some fields, each with something strange or something that means much."""
    form: dict[str, Any] = {
        name: chance.choice(WORDS)
        for name in chance.sample(fields, chance.randint(0, min(9, len(fields))))
    }
    if chance.random() < 0.2:
        form[chance.choice(("picture", "photo", "file"))] = (BytesIO(PICTURE), "../../x.png")
    return form


def test_no_form_breaks_the_page(client: BenchClient) -> None:
    """Whatever a form holds, the page answers it; what it refuses has changed nothing."""
    chance = random.Random(20261003)
    refused = done = 0
    with closing(sqlite3.connect(client.shop.database)) as watching:
        for rule in rules(client, "POST"):
            fields = fields_of(rule.endpoint.split(".")[0])
            for _ in range(FORMS_EACH):
                path, form = path_of(client, rule, chance), random_form(fields, chance)
                was = watching.execute("PRAGMA data_version").fetchone()
                answer = client.post(path, data=form)
                told = answer.get_data(as_text=True) if "text" in (answer.mimetype or "") else ""
                assert answer.status_code < 500, (path, form, told)
                assert not broken(told), (path, form)
                if answer.status_code >= 400:
                    refused += 1
                    is_ = watching.execute("PRAGMA data_version").fetchone()
                    assert is_ == was, (path, form)
                else:
                    done += 1
    assert refused > done > 0
    assert client.shop.run("db", "check").exit_code == 0


def test_only_posts_change(client: BenchClient) -> None:
    """Every address takes either what shows or what changes, by the methods for that."""
    for rule in client.application.url_map.iter_rules():
        assert (rule.methods or set()) <= {"GET", "HEAD", "OPTIONS", "POST"}
    for path in ("/undo", "/scan/number", "/scan/frame", "/scan/count/write", "/devices/code"):
        assert client.get(path).status_code == 405
