"""The check before a sale on the page: marked, recorded by a name, and what it refuses."""

from __future__ import annotations

import re
from html import unescape

import pytest

from partsbin.standards.presale_items import ITEMS
from tests.bench_page.conftest import WHO, BenchClient

TEASEL, JUNIPER = "/bikes/30000355", "/bikes/30000452"
ALL_OK = {f"{item.word}.result": "ok" for item in ITEMS}


def states(client: BenchClient) -> dict[str, str]:
    """Return how each item of Teasel's check stands."""
    return {
        one["item"]: one["state"] for one in client.shop.asked("bike", "check", "Teasel")["items"]
    }


def test_every_item_has_its_rule(client: BenchClient) -> None:
    """Each item shows what to look at and the rules behind it with where they were seen."""
    page = unescape(client.read(f"{TEASEL}/presale"))
    for item in ITEMS:
        assert item.look in page
        for rule in item.rules:
            assert rule.asks in page
            assert f"[{rule.source}]" in page
    assert f'value="{WHO}"' in page


def test_what_is_marked_is_recorded(client: BenchClient) -> None:
    """Marked items are recorded with note and name; the others stay open."""
    sent = {
        "brakes.result": "ok",
        "brakes.note": "new pads",
        "tyres.result": "fail",
        "tyres.note": "rear one cut",
        "by": "Ada Quill",
    }
    assert client.post(f"{TEASEL}/presale", data=sent).status_code == 302
    found = states(client)
    assert (found["brakes"], found["tyres"], found["steering"]) == ("ok", "fail", "open")
    page = client.read(f"{TEASEL}/presale")
    assert "Ada Quill" in page
    assert "rear one cut" in page


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        ({"by": "Ada"}, "mark what was looked at"),
        ({"by": " ", "brakes.result": "ok"}, "say who looked at the bike"),
        ({"by": "Ada", "brakes.result": "fail", "tyres.result": "ok"}, "say what is wrong"),
        ({"by": "Ada", "brakes.result": "perhaps"}, "says nothing"),
    ],
    ids=["nothing", "nobody", "no reason", "no result"],
)
def test_refusals_keep_the_marks(client: BenchClient, sent: dict[str, str], told: str) -> None:
    """A refused check says why, shows what was marked, and records nothing."""
    answer = client.post(f"{TEASEL}/presale", data=sent)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 409
    refused = re.findall(r'<p class="refused" role="alert">([^<]*)</p>', page)
    assert told in refused[0]
    assert "--" not in refused[0]
    if sent.get("tyres.result"):
        assert 'name="tyres.result" value="ok" checked' in page
    assert set(states(client).values()) == {"open"}


def test_ready_only_when_nothing_is_in_the_way(client: BenchClient) -> None:
    """A bike is ready when every item is ok and no need is open; else all of it is told."""
    page = unescape(client.post(f"{TEASEL}/ready").get_data(as_text=True))
    assert "rear shifter dead" in page
    assert "is not ready" in page
    client.shop.told("unmount", "Teasel", "rear shifter", "A1")
    client.shop.told("mount", "20000625", "Teasel", "rear shifter")
    client.post(f"{TEASEL}/presale", data={**ALL_OK, "by": "Ada"})
    assert client.post(f"{TEASEL}/ready").status_code == 302
    assert client.shop.asked("bike", "show", "Teasel")["state"] == "ready"


def test_listing(client: BenchClient) -> None:
    """The text of the listing is that of the command line."""
    told = client.shop.asked("bike", "listing", "Juniper")["text"]
    page = unescape(client.read(f"{JUNIPER}/listing"))
    assert told.splitlines()[0] in page
    assert told in page.replace("\r\n", "\n")
