"""The bikes room: cards, a bike's page, its money, and what becomes of it."""

from __future__ import annotations

import re
from decimal import Decimal
from html import unescape

import pytest

from partsbin.kinds.slots import SLOTS
from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

TEASEL, SORREL, BRACKEN, CLOVER = "30000355", "30000258", "30000161", "30000646"
HOSTILE = "<script>alert(1)</script>"


def state_of(shop: Shop, bike: str) -> str:
    """Return the state of a bike."""
    return str(shop.asked("bike", "show", bike)["state"])


@pytest.mark.parametrize(
    ("asked", "shown", "hidden"),
    [
        ("", {"Teasel", "Sorrel", "Bracken"}, set()),
        ("?state=in work", {"Teasel", "Clover"}, {"Sorrel", "Bracken"}),
        ("?state=bought", {"Sorrel", "Bracken"}, {"Teasel"}),
        ("?state=sold", set(), {"Teasel", "Sorrel"}),
        ("?state=nonsense&from=x", {"Teasel"}, set()),
        (f"?from={10**30}", set(), {"Teasel"}),
    ],
    ids=["here", "in work", "bought", "sold", "nonsense", "far down"],
)
def test_filter(client: BenchClient, asked: str, shown: set[str], hidden: set[str]) -> None:
    """The filter shows the bikes of a state, with their needs."""
    page = client.read(f"/bikes/{asked}")
    assert {name for name in shown if f">{name}<" in page} == shown
    assert not any(f">{name}<" in page for name in hidden)


def test_many_bikes_come_in_pages(client: BenchClient) -> None:
    """No page shows more than its share of the bikes, and the rest is one press away."""
    for at in range(30):
        client.shop.told("bike", "add", f"Extra {at:02}")
    first, rest = client.read("/bikes/?state=bought"), client.read("/bikes/?state=bought&from=24")
    names = set(re.findall(r">(Extra \d\d)<", first + rest))
    assert first.count("bike-card") == 24
    assert "8 more" in first
    assert rest.count("bike-card") == 8
    assert len(names) == 30


def test_every_slot_is_a_link(client: BenchClient) -> None:
    """Each slot is a shape that is a link with a title, and a row below; needs come first.

    Source: `partsbin bike show`, which tells the needs of the same bike.
    """
    page = client.read(f"/bikes/{SORREL}/")
    drawn = dict(re.findall(r'<a class="slot [^"]*" href="[^"]*/slots/([a-z-]+)"[^>]*>'
                            r"<title>([^<]*)</title>", page))  # fmt: skip
    named = {slot.name.replace(" ", "-") for slot in SLOTS}
    assert set(drawn) == named - {"front-rotor", "rear-rotor"}
    needs = client.shop.asked("bike", "show", "Sorrel")["needs"]
    for need in needs:
        assert drawn[need["slot"].replace(" ", "-")].startswith(f"{need['slot']}: {need['why']}")
    rows = re.findall(r'<th scope="row"><a href="[^"]*/slots/([a-z-]+)">', page)
    first = {slot.replace("-", " ") for slot in rows[: len(needs)]}
    assert first == {need["slot"] for need in needs}
    assert {*rows} == named


def test_a_bike_comes_in(client: BenchClient) -> None:
    """A new bike has its price on its frame, and what was typed is shown as text, never as code."""
    sent = {
        "name": "Bramble",
        "price": "32,50",
        "style": "touring",
        "seller_note": HOSTILE,
        "serial": "W1",
        "frame": "seat_tube_bore=27.2\nrear_spacing=130",
    }
    answer = client.post("/bikes/add", data=sent)
    assert answer.status_code == 302
    page = client.read(answer.headers["Location"])
    assert HOSTILE not in page
    assert HOSTILE in unescape(page)
    assert "register of stolen bikes" in page
    shown = client.shop.asked("bike", "show", "Bramble")
    assert shown["parts"][0]["attributes"] == {"rear_spacing_mm": 130, "seat_tube_bore_mm": 27.2}
    assert shown["parts"][0]["cost"] == "32.50"


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("name", "Teasel", "there is a bike"),
        ("name", "", "is no name"),
        ("price", "much", "is not an amount of money"),
        ("bought", "yesterday", "is no day"),
        ("frame", "seat_tube_bore=huge", "seat_tube_bore_mm"),
        ("like", "steam-1850", "unknown era template"),
    ],
)
def test_a_refused_bike_is_asked_again(
    client: BenchClient, field: str, value: str, told: str
) -> None:
    """A fault is told beside what was typed, and nothing is recorded."""
    sent = {"name": "Bramble", "note": "kept words", field: value}
    answer = client.post("/bikes/add", data=sent)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 422
    assert told in page
    assert 'value="kept words"' in page
    assert len(client.shop.asked("bike", "list")) == 6


def test_what_is_known_is_put_right(client: BenchClient) -> None:
    """A new frame number is not looked up yet unless that is said; the other words stay."""
    sent = {"name": "Teasel", "serial": "W9", "note": "for the fair", "style": "hybrid"}
    assert client.post(f"/bikes/{TEASEL}/edit", data=sent).status_code == 302
    known = client.shop.asked("bike", "show", "Teasel")["provenance"]
    assert (known["serial_number"], known["serial_checked"]) == ("W9", "no")
    assert known["note"] == "for the fair"
    assert known["bought"] == "2026-10-17"


def test_money_is_entered(client: BenchClient) -> None:
    """Work, a fee, transport and the expected price stand in the bike's account.

    Source: by hand, 45 minutes at 12.00 an hour are 9.00; 30.00 + 9.00 + 2.50 + 5.00 = 46.50.
    """
    for where, sent in (
        ("work", {"time": "45min", "rate": "12", "note": "trued both wheels"}),
        ("pay", {"type": "fee", "amount": "2.50"}),
        ("pay", {"type": "transport", "amount": "5"}),
        ("expect", {"price": "140", "to_complete": "15"}),
    ):
        assert client.post(f"/bikes/{TEASEL}/{where}", data=sent).status_code == 302
    page = client.read(f"/bikes/{TEASEL}/")
    amounts = dict(re.findall(r'<th scope="row">([^<]*)</th><td class="amount">([^<]*)</td>', page))
    assert amounts["cost so far"] == "46.50"
    assert amounts["work, 45 minutes"] == "9.00"
    assert amounts["expected to sell for"] == "140.00"
    assert "trued both wheels" in client.read(f"/bikes/{TEASEL}/history")


@pytest.mark.parametrize(
    ("where", "sent", "told"),
    [
        ("work", {"time": "soon", "rate": "12"}, "is no time of work"),
        ("work", {"time": "45"}, "say what an hour of work costs"),
        ("pay", {"amount": "-3"}, "is not an amount"),
        ("expect", {"price": ""}, "is not an amount"),
        ("sell", {"price": "140"}, "is not ready"),
        ("return", {}, "not sold"),
    ],
    ids=["time", "rate", "payment", "price", "not ready", "not sold"],
)
def test_refusals_stand_beside_their_form(
    client: BenchClient, where: str, sent: dict[str, str], told: str
) -> None:
    """A refused form says why, without the command line's words, and changes nothing."""
    answer = client.post(f"/bikes/{TEASEL}/{where}", data=sent)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 409
    refused = re.findall(r'<p class="refused" role="alert">([^<]*)</p>', page)
    assert told in refused[0]
    assert "--" not in "".join(refused)
    assert state_of(client.shop, "Teasel") == "in work"


def test_a_sale_is_overruled_and_taken_back(client: BenchClient) -> None:
    """What is not ready is sold only with a reason, which the history keeps; a sale comes back."""
    client.post(f"/bikes/{TEASEL}/sell", data={"price": "90", "anyway": "sold as a donor"})
    assert state_of(client.shop, "Teasel") == "sold"
    page = client.read(f"/bikes/{TEASEL}/")
    assert "90.00" in page
    assert "Take the sale back" in page
    assert "sold as a donor" in client.read(f"/bikes/{TEASEL}/history")
    client.post(f"/bikes/{TEASEL}/return", data={"note": "too tall"})
    assert state_of(client.shop, "Teasel") == "in work"


def test_a_bike_is_kept(client: BenchClient) -> None:
    """A bike joins the workshop's own fleet, and is not asked to again."""
    client.post(f"/bikes/{CLOVER}/keep")
    assert state_of(client.shop, "Clover") == "kept"
    assert "Keep it" not in client.read(f"/bikes/{CLOVER}/")


def test_a_donor_is_taken_apart(client: BenchClient) -> None:
    """Each part goes where its form says; what came off is listed with its labels to print.

    Source: the whole price, 25.00, is carried by what is left, as IAS 2, paragraph 14, splits it.
    """
    sent = {
        "split": "value",
        "inspected": "yes",
        "saddle.grade": "fair",
        "saddle.bin": "F1",
        "saddle.note": "torn cover",
        "keep": "fork",
    }
    answer = client.post(f"/bikes/{BRACKEN}/strip", data=sent)
    assert answer.status_code == 302
    page = client.read(answer.headers["Location"])
    assert page.count('name="number"') == 27
    carried = re.findall(r'<td class="amount">([^<]*)</td>', page)
    assert sum(map(Decimal, carried)) == Decimal("25.00")
    on_bike = client.shop.asked("bike", "show", "Bracken")["parts"]
    assert [part["slot"] for part in on_bike] == ["fork"]
    (saddle,) = client.shop.asked("find", "saddle", "bin=F1")["parts"]
    assert (saddle["grade"], saddle["note"]) == ("fair", "torn cover")


def test_a_refused_teardown_keeps_what_was_typed(client: BenchClient) -> None:
    """An unknown bin is told, the form shows what was typed, and all is still on the bike."""
    sent = {"split": "value", "inspected": "yes", "into": "Z9", "saddle.note": "torn cover"}
    answer = client.post(f"/bikes/{BRACKEN}/strip", data=sent)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 409
    assert "there is no bin 'Z9'" in page
    assert 'value="torn cover"' in page
    assert len(client.shop.asked("bike", "show", "Bracken")["parts"]) == 29


@pytest.mark.parametrize(
    "path",
    ["/bikes/30000999/", "/bikes/10000119/", f"/bikes/{TEASEL}/slots/wings", "/bikes/x/"],
)
def test_what_is_not_there(client: BenchClient, path: str) -> None:
    """A bike, or a slot, that is not there is told so."""
    assert client.get(path).status_code in {400, 404}
