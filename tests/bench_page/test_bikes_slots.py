"""A slot of a bike: what is there, what fits in the order of `fit`, and what is done to it."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

TEASEL, SORREL = "/bikes/30000355", "/bikes/30000258"
SHIFTER = f"{TEASEL}/slots/rear-shifter"
FITS, CLASHES, OLD = "20002177", "20000431", "20020995"
"""A combined lever that fits Teasel, a shifter that clashes there, and the dead one on it."""


def on(shop: Shop, bike: str, slot: str) -> dict[str, str]:
    """Return what is in a slot, nothing if it is empty."""
    parts = shop.asked("bike", "show", bike)["parts"]
    return next((part for part in parts if part["slot"] == slot), {})


@pytest.mark.parametrize(
    ("bike", "slot"),
    [
        ("Teasel", "rear shifter"),
        ("Sorrel", "fork"),
        ("Sorrel", "seat clamp"),
        ("Juniper", "rear tyre"),
        ("Clover", "headset"),
        ("Yarrow", "saddle"),
    ],
)
def test_same_answer_as_the_command_line(client: BenchClient, bike: str, slot: str) -> None:
    """The page offers the same parts in the same order as `fit`, with its verdicts and reasons."""
    told = client.shop.asked("fit", bike, slot)
    number = client.shop.asked("bike", "show", bike)["number"]
    page = unescape(client.read(f"/bikes/{number}/slots/{slot.replace(' ', '-')}?all=yes"))
    first = [one["parts"][0]["number"] for one in told["suggestions"]]
    assert re.findall(r'name="part" value="(\d+)"', page) == first
    offered = page.split('<ol class="offered">')
    verdicts = [re.findall(r'class="verdict (\w+)"', c)[0] for c in offered[1].split("</li>")[:-1]]
    assert verdicts == [one["verdict"] for one in told["suggestions"]]
    for one in told["suggestions"]:
        if one["interfaces"]:
            assert one["interfaces"][0]["why"] in page
        for adapter in one["adapters"]:
            assert adapter["needed"] in page
    for miss in told["near_misses"]:
        assert miss["interfaces"][0]["interface"] in offered[2]
    assert ("To buy:" in page) == ("buy" in told)


def test_a_part_takes_the_place_of_another(client: BenchClient) -> None:
    """One press takes the old part off into its bin and puts the new one on, as one act."""
    client.shop.told("part", "add", "shifter", "side=rear", "speeds=8", "index_family=ratio-1.7",
                     "mount=bar-clamp", "bar_mm=22.2", "--bin", "A1")  # fmt: skip
    new = client.shop.asked("fit", "Teasel", "rear shifter")["suggestions"][0]["parts"][0]["number"]
    sent = {"part": new, "bin": "A1", "grade": "core"}
    answer = client.post(f"{SHIFTER}/mount", data=sent)
    assert answer.status_code == 302
    assert on(client.shop, "Teasel", "rear shifter")["number"] == new
    old = client.shop.asked("part", "show", OLD)["places"][0]
    assert (old["place"], old["grade"]) == ("bin A1", "core")
    client.post("/undo")
    assert on(client.shop, "Teasel", "rear shifter")["number"] == OLD


def test_what_clashes_asks_for_a_second_press(client: BenchClient) -> None:
    """A part that clashes is refused with the reason and a button; the second press puts it on."""
    sent = {"part": CLASHES, "bin": "A1"}
    answer = client.post(f"{SHIFTER}/mount", data=sent)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 409
    assert "tuned at the middle sprocket" in page
    assert "--anyway" not in page
    assert 'name="anyway" value="yes"' in page
    assert on(client.shop, "Teasel", "rear shifter")["number"] == OLD
    client.post(f"{SHIFTER}/mount", data={**sent, "anyway": "yes"})
    assert on(client.shop, "Teasel", "rear shifter")["number"] == CLASHES


def test_a_hand_is_filled_by_one_body(client: BenchClient) -> None:
    """A combined lever is refused while its hand's brake lever is there; no second press helps."""
    answer = client.post(f"{SHIFTER}/mount", data={"part": FITS, "bin": "A1"})
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 409
    assert "a combined lever fills" in page
    assert 'name="anyway"' not in page
    assert on(client.shop, "Teasel", "rear shifter")["number"] == OLD


def test_a_part_comes_off(client: BenchClient) -> None:
    """A part goes into the bin and grade that were said; an unknown bin changes nothing."""
    answer = client.post(f"{SHIFTER}/unmount", data={"bin": "Z9"})
    assert answer.status_code == 409
    assert "there is no bin" in unescape(answer.get_data(as_text=True))
    client.post(f"{SHIFTER}/unmount", data={"bin": "A1", "grade": "core"})
    assert not on(client.shop, "Teasel", "rear shifter")
    assert "nothing is there" in client.read(SHIFTER)


def test_a_part_is_scrapped(client: BenchClient) -> None:
    """What is scrapped leaves the bike, and the history says why."""
    client.post(f"{SHIFTER}/scrap", data={"reason": "pawl gone"})
    assert not on(client.shop, "Teasel", "rear shifter")
    assert "pawl gone" in client.read(f"{TEASEL}/history")


@pytest.mark.parametrize(
    ("sent", "status", "found"),
    [
        ({"condition": "worn", "note": "sticks"}, 302, ("worn", "fair", "sticks")),
        ({"condition": "sound", "grade": "good"}, 302, ("sound", "good", "")),
        ({"condition": "so so"}, 409, ("dead", "core", "pawl broken, will not index")),
        ({"condition": "worn", "grade": "super"}, 409,
         ("dead", "core", "pawl broken, will not index")),
    ],
    ids=["worn", "sound", "no condition", "no grade"],
)  # fmt: skip
def test_how_it_is(
    client: BenchClient, sent: dict[str, str], status: int, found: tuple[str, str, str]
) -> None:
    """Condition, grade and note are kept; a word that is none changes nothing."""
    if found[1] == "fair":
        sent = {**sent, "grade": "fair"}
    assert client.post(f"{SHIFTER}/part", data=sent).status_code == status
    part = on(client.shop, "Teasel", "rear shifter")
    assert (part["condition"], part["grade"], part["note"]) == found


def test_a_part_on_the_bike_is_recorded(client: BenchClient) -> None:
    """What is on a bike and was not recorded is taken in at its slot, with its condition."""
    path = f"{SORREL}/slots/grips/add/grips"
    faulty = client.post(path, data={"a.inner_mm": "wide", "condition": "sound"})
    assert faulty.status_code == 422
    client.post(path, data={"a.inner_mm": "22.2", "condition": "worn", "grade": "poor"})
    part = on(client.shop, "Sorrel", "grips")
    assert (part["kind"], part["condition"], part["grade"]) == ("grips", "worn", "poor")


@pytest.mark.parametrize(
    ("slot", "state", "bike"),
    [
        ("rear shifter", "dead", TEASEL),
        ("chain", "sound", TEASEL),
        ("rack", "not fitted", TEASEL),
        ("seat clamp", "empty", SORREL),
        ("front tyre", "worn", SORREL),
    ],
)
def test_states(client: BenchClient, slot: str, state: str, bike: str) -> None:
    """A slot says in a word how it stands."""
    page = client.read(f"{bike}/slots/{slot.replace(' ', '-')}")
    assert re.search(rf'<h2 id="there"><span class="state [a-z-]+">{state}</span>', page)


def test_one_body_and_not_described(client: BenchClient) -> None:
    """A brake lever's slot says that a combined lever fills it; a part of no known size says so."""
    shop = client.shop
    shop.told("unmount", "Teasel", "rear shifter", "A1")
    shop.told("unmount", "Teasel", "right brake lever", "A2")
    shop.told("mount", FITS, "Teasel", "rear shifter")
    assert "the combined lever fills it" in client.read(f"{TEASEL}/slots/right-brake-lever")
    shop.told("part", "add", "seat_clamp", "--bike", "Sorrel", "--slot", "seat clamp")
    assert 'class="state unknown"' in client.read(f"{SORREL}/slots/seat-clamp")
