"""The page of a part tells all that is known of it and does what the commands do."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

SHIFTER = "20000140"
"""A rear shifter with 7 speeds in bin A1, by the invented workshop."""


def lot_of(shop: Shop) -> str:
    """Return a lot's number: ten brake cables for 15.00 in B2."""
    told = ("brake_cable", "brake_cable_head=barrel", "--bin", "B2", "--grade", "new")
    return str(shop.asked("part", "add", *told, "--quantity", "10", "--cost", "15")["part"])


def waiting_in(shop: Shop) -> str:
    """Return the number of a used handlebar, which waits in quarantine."""
    return str(shop.asked("part", "add", "handlebar", "style=flat", "--bin", "D2")["part"])


def place_of(shop: Shop, number: str) -> list[str]:
    """Return where a part is."""
    return [place["place"] for place in shop.asked("part", "show", number)["places"]]


def test_all_that_is_known_is_shown(client: BenchClient) -> None:
    """Attributes, those that are assumed or unknown, place, grade, cost, value and history."""
    client.shop.told("part", "edit", SHIFTER, "bar_mm=22.2 (assumed)", "friction=")
    page = client.read(f"/stock/parts/{SHIFTER}/")
    for told in ("2000 0140", "index family", "ratio-1.7", "good", "8.00", "bin A1", "part edit"):
        assert told in page
    assert '22.2 mm <span class="assumed"' in page
    assert "Not known: pull per click, friction, front pull." in page


def test_readings_past_their_limit_are_told(client: BenchClient) -> None:
    """A chain that is worn out says so, with its limit, as `part show` does.

    Source of the limit: citycyclingtips.com/?p=748.
    """
    worn = ("chain", "speeds=11", "wear_percent=0.6", "--bin", "C1", "--grade", "poor")
    number = client.shop.asked("part", "add", *worn)["part"]
    page = client.read(f"/stock/parts/{number}/")
    assert "wear of the chain 0.6%, limit 0.5%" in page


def test_where_it_would_serve(client: BenchClient) -> None:
    """A saddle names the bike in work that has none, with a button that mounts it there."""
    number = client.shop.asked("find", "saddle", "rails=round-7")["parts"][0]["number"]
    page = client.read(f"/stock/parts/{number}/")
    assert 'href="/bikes/30000549/">Yarrow</a>, saddle (empty)' in page
    sent = {"bike": "30000549", "slot": "saddle"}
    assert client.post(f"/stock/parts/{number}/mount", data=sent).status_code == 302
    assert place_of(client.shop, number) == ["Yarrow's saddle slot"]


def test_move(client: BenchClient) -> None:
    """A part goes into the bin that is named, and the next page says so."""
    answer = client.post(f"/stock/parts/{SHIFTER}/move", data={"bin": "F1"}, follow_redirects=True)
    assert "bin A1 \N{RIGHTWARDS ARROW} bin F1" in answer.get_data(as_text=True)
    assert place_of(client.shop, SHIFTER) == ["bin F1"]


def test_the_inspection_lets_it_out_of_quarantine(client: BenchClient) -> None:
    """A part that waits goes into a bin with its inspection ticked, and not without."""
    number = waiting_in(client.shop)
    assert "It waits for its inspection" in client.read(f"/stock/parts/{number}/")
    refused = client.post(f"/stock/parts/{number}/move", data={"bin": "D2"})
    assert refused.status_code == 409
    assert "mark it as inspected" in refused.get_data(as_text=True)
    assert place_of(client.shop, number) == ["quarantine"]
    client.post(f"/stock/parts/{number}/move", data={"bin": "D2", "inspected": "yes"})
    assert place_of(client.shop, number) == ["bin D2"]


def test_a_clash_asks_once_more(client: BenchClient) -> None:
    """What clashes is refused with the reason; a second press with "anyway" mounts it."""
    client.shop.told("unmount", "Teasel", "rear shifter", "A1")
    sent = {"bike": "Teasel", "slot": "rear shifter"}
    refused = client.post(f"/stock/parts/{SHIFTER}/mount", data=sent)
    page = refused.get_data(as_text=True)
    assert refused.status_code == 409
    assert "clashes on Teasel" in page
    assert "--anyway" not in page
    assert 'name="anyway"' in page
    assert place_of(client.shop, SHIFTER) == ["bin A1"]
    client.post(f"/stock/parts/{SHIFTER}/mount", data={**sent, "anyway": "yes"})
    assert place_of(client.shop, SHIFTER) == ["Teasel's rear shifter slot"]


def test_scrap_keeps_the_reason(client: BenchClient) -> None:
    """A scrapped part is written off with its reason in the history."""
    client.post(f"/stock/parts/{SHIFTER}/scrap", data={"reason": "lever broken off"})
    page = client.read(f"/stock/parts/{SHIFTER}/")
    assert "lever broken off" in page
    assert place_of(client.shop, SHIFTER) == ["scrap"]
    assert "Do with it" not in page


@pytest.mark.parametrize(
    ("act", "sent", "left"),
    [
        pytest.param("buy", {"quantity": "5", "cost": "9"}, ("15", "24.00"), id="buy"),
        pytest.param("use", {"quantity": "4", "reason": "spare"}, ("6", "9.00"), id="use up"),
        pytest.param("scrap", {"quantity": "2", "reason": "rust"}, ("8", "12.00"), id="scrap some"),
    ],
)
def test_lots(client: BenchClient, act: str, sent: dict[str, str], left: tuple[str, str]) -> None:
    """More of a lot is bought and some is used or scrapped; cost follows by its average.

    Ten that cost 15.00 are 1.50 each (IAS 2, paragraph 27, weighted average).
    """
    number = lot_of(client.shop)
    assert client.post(f"/stock/parts/{number}/{act}", data=sent).status_code == 302
    place = client.shop.asked("lot", "show", number)["places"][0]
    assert (place["quantity"], place["cost"]) == left


def test_a_lot_moves_in_parts(client: BenchClient) -> None:
    """So much of a lot goes into another bin; it then is in two places, and both are shown."""
    number = lot_of(client.shop)
    client.post(f"/stock/parts/{number}/move", data={"bin": "A1", "quantity": "4"})
    page = client.read(f"/stock/parts/{number}/")
    assert sorted(place_of(client.shop, number)) == ["bin A1", "bin B2"]
    assert page.count("What each purchase left") == 1


def test_the_cost_formula_is_chosen(client: BenchClient) -> None:
    """The formula of a lot's kind is chosen on its page; an unknown one is refused."""
    number = lot_of(client.shop)
    client.post(f"/stock/parts/{number}/formula", data={"formula": "fifo"})
    assert client.shop.asked("lot", "show", number)["formula"] == "fifo"
    refused = client.post(f"/stock/parts/{number}/formula", data={"formula": "lifo"})
    assert refused.status_code == 400


@pytest.mark.parametrize(
    ("act", "sent", "told"),
    [
        ("move", {"bin": "Z9"}, "Z9"),
        ("move", {"bin": "A1"}, "already"),
        ("mount", {"bike": "Nobody"}, "Nobody"),
        ("mount", {"bike": "Teasel", "slot": "saddle"}, "does not go there"),
        ("use", {"quantity": "1"}, "single part"),
        ("buy", {"quantity": "1", "cost": "a lot"}, "not an amount"),
        ("buy", {"quantity": "1", "packs": "1"}, "single part"),
        ("scrap", {"quantity": "7"}, "shifter 2000 0140"),
        ("scrap", {"quantity": "seven"}, "number of pieces"),
    ],
)
def test_refusals_stand_at_their_form(
    client: BenchClient,
    snapshot: Callable[[Shop], str],
    act: str,
    sent: dict[str, str],
    told: str,
) -> None:
    """What is refused changes nothing; the part's page shows why, where it was asked."""
    before = snapshot(client.shop)
    answer = client.post(f"/stock/parts/{SHIFTER}/{act}", data=sent)
    page = answer.get_data(as_text=True)
    assert answer.status_code == 409
    assert page.count(f'id="refused-{act}"') == 1
    assert told in page
    assert snapshot(client.shop) == before


def test_no_part_of_that_number(client: BenchClient) -> None:
    """A number that nothing has, or with wrong check digits, is not found."""
    for number in ("29999967", "20000141"):
        assert client.get(f"/stock/parts/{number}/").status_code == 404


def test_a_long_history_is_cut(client: BenchClient) -> None:
    """Twenty lines of the history are shown, the newest first, and a link to all."""
    for bin_name in ["A2", "A1"] * 11:
        client.shop.told("part", "move", SHIFTER, bin_name)
    page = client.read(f"/stock/parts/{SHIFTER}/")
    assert page.count('<span class="when">') == 20
    assert "3 older lines" in page
    assert client.read(f"/stock/parts/{SHIFTER}/?history=all").count('<span class="when">') == 23
