"""The plan of a bike: the same as the command line's, laid aside only as it was shown."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

from tests.bench_page.conftest import BenchClient, client_of
from tests.conftest import Shop
from tests.workshop.offer_shops import build
from tests.workshop.test_plan_makeshift import PILLAR, ROUND, pillar

SORREL = "/bikes/30000258"
ASKED = f"{SORREL}/plan?seconds=15"


def act_in(page: str) -> str:
    """Return the act that a shown plan knows of."""
    found = re.search(r'name="act" value="(\d+)"', page)
    assert found
    return found[1]


def waiting(shop: Shop) -> set[str]:
    """Return the numbers of the parts that are laid aside."""
    from partsbin.stock.database import open_database
    from partsbin.stock.models import Part
    from partsbin.stock.reserving import laid_aside

    with open_database(shop.address, "tester") as database, database.reading() as session:
        return {session.get_one(Part, one.part).number for one in laid_aside(session)}


def test_nothing_is_planned_unasked(client: BenchClient) -> None:
    """Opening the page shows the needs and asks how long; it does not begin to solve."""
    page = client.read(f"{SORREL}/plan")
    assert "fork" in page
    assert "To spend" not in page
    assert "Find the best plan" in page


@pytest.mark.parametrize("keep", [(), ("rear tyre", "saddle")], ids=["all", "some kept"])
def test_same_plan_as_the_command_line(client: BenchClient, keep: tuple[str, ...]) -> None:
    """The page takes, buys and proves what `partsbin plan` does, with the reasons."""
    options = [word for slot in keep for word in ("--keep", slot)]
    told = client.shop.asked("plan", "Sorrel", *options)
    page = unescape(client.read(ASKED + "".join(f"&keep={slot}" for slot in keep)))
    (bike,) = told["bikes"]
    assert f"To spend: {told['money']}" in page
    assert ("proven: no plan is better" in page) == told["proven"]
    for take in bike["take"]:
        grouped = f"{take['number'][:4]} {take['number'][4:]}"
        assert f">{grouped}</a> " in page
        if take["instead"]:
            assert take["instead"] in page
    for buy in bike["buy"]:
        assert buy["what"] in page
    for change in bike["changes"]:
        assert change["why"] in page
    bars = re.findall(r'aria-label="Money by slot: ([^"]*)"', page)[0].split("; ")
    for take in bike["take"]:
        if take["value"] != "0.00":
            assert any(one.endswith(f" {take['value']}") for one in bars)
    for caution in bike["cautions"]:
        assert caution in page


def test_shown_then_laid_aside(client: BenchClient) -> None:
    """What was shown is laid aside, listed by its bins, and leaves the list when it is mounted."""
    page = client.read(ASKED)
    shown = set(re.findall(r'<td><a class="number" href="/n/(\d+)"', page))
    answer = client.post(f"{SORREL}/plan", data={"seconds": "15", "act": act_in(page)})
    assert answer.status_code == 302
    assert waiting(client.shop) == shown
    page = client.read(answer.headers["Location"])
    assert f"To pick: {len(shown)} laid aside" in page
    assert "/scan/?mode=onto&amp;to=Sorrel" in page
    bins = re.findall(r'<th scope="row" class="bin"><a [^>]*>([^<]*)</a>', page)
    assert bins == sorted(bins)
    clamp = next(t for t in client.shop.asked("plan", "Sorrel")["bikes"][0]["take"]
                 if t["slot"] == "seat clamp")  # fmt: skip
    client.shop.told("mount", clamp["number"], "Sorrel", "seat clamp", "--anyway")
    assert f"To pick: {len(shown) - 1} laid aside" in client.read(f"{SORREL}/plan")


@pytest.mark.parametrize("between", ["another act", "no plan"])
def test_what_changed_since_is_looked_at_again(client: BenchClient, between: str) -> None:
    """A plan is refused if anything was recorded since it was shown, or if it was never shown."""
    act = act_in(client.read(ASKED))
    if between == "another act":
        client.shop.told("part", "add", "saddle", "--bin", "D1", "--inspected")
    else:
        act = "0"
    answer = client.post(f"{SORREL}/plan", data={"seconds": "15", "act": act})
    assert answer.status_code == 409
    assert "has changed since this plan was shown" in answer.get_data(as_text=True)
    assert waiting(client.shop) == set()


def test_time_is_limited(client: BenchClient) -> None:
    """Nobody can ask the page to solve for longer than it offers, or for slots that are none."""
    assert "To spend" not in client.read(f"{SORREL}/plan?seconds=100000")
    assert "To spend" in client.read(f"{ASKED}&keep=wings&keep=../x")


def test_pick_list(client: BenchClient) -> None:
    """The pick list is a PDF with the words of what is taken."""
    import pypdfium2

    answer = client.get(f"{SORREL}/plan/picks.pdf?seconds=15")
    assert answer.mimetype == "application/pdf"
    text = "".join(
        page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(answer.data)
    )
    for take in client.shop.asked("plan", "Sorrel")["bikes"][0]["take"]:
        assert f"{take['number'][:4]} {take['number'][4:]}" in text


def test_what_has_no_price_stands_beside_the_money(empty_shop: Shop, tmp_path: Path) -> None:
    """An adapter that the price list does not know is named under the money, which lacks it."""
    bikes = [{"name": "Ash", "state": "in work"}]
    build(empty_shop, tmp_path / "more", parts=[ROUND], bikes=bikes, mounted=pillar("Ash"))
    number = empty_shop.asked("bike", "show", "Ash")["number"]

    with client_of(empty_shop, tmp_path / "state") as client:
        page = client.read(f"/bikes/{number}/plan?seconds=15&keep=seatpost")

    assert f"On top of that 1 without a known price: {PILLAR}." in unescape(page)
