"""The stock page finds what `partsbin find` finds, and acts on what is marked."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.bench_page.conftest import BenchClient, Served
from tests.conftest import Shop

ROW = re.compile(r'<tr id="row-\d+">.*?value="(\d+)"', re.DOTALL)


def numbers(page: str) -> list[str]:
    """Return the numbers of the rows of a page."""
    return ROW.findall(page)


@pytest.mark.parametrize(
    ("query", "words"),
    [
        pytest.param("q=shifter", ["shifter"], id="a kind"),
        pytest.param("q=shifter+speeds=8", ["shifter", "speeds=8"], id="a condition"),
        pytest.param("q=loose", ["loose"], id="a note"),
        pytest.param("q=A2", ["A2"], id="a bin"),
        pytest.param(
            "kind=seatpost&a.diameter_mm=27.2", ["seatpost", "diameter=27.2"], id="chosen"
        ),
        pytest.param(
            "kind=tyre&a.width_mm.from=35&a.width_mm.to=40", ["tyre", "width=35..40"], id="range"
        ),
        pytest.param("kind=chain&a.links.from=100", ["chain", "links>=100"], id="open range"),
        pytest.param("grade=fair", ["grade=fair"], id="grade"),
        pytest.param("q=saddle&everywhere=yes", ["saddle", "--everywhere"], id="everywhere"),
        pytest.param('q="rear+derailleur"', ["rear derailleur"], id="in quotation marks"),
        pytest.param('q=shifter+"', ["shifter", '"'], id="a mark left open"),
    ],
)
def test_finds_what_the_command_finds(client: BenchClient, query: str, words: list[str]) -> None:
    """The page shows the rows of `partsbin find` in its order, the first fifty of them."""
    found = [part["number"] for part in client.shop.asked("find", *words)["parts"]]
    assert numbers(client.read(f"/stock/?{query}")) == found[:50]


def test_more_than_a_page(client: BenchClient) -> None:
    """Fifty rows are shown; "more" adds fifty, and keeps the question."""
    page = client.read("/stock/")
    assert len(numbers(page)) == 50
    assert "The first 50; there are more." in page
    assert 'href="/stock/?most=100#row-50"' in page
    assert len(numbers(client.read("/stock/?most=100"))) == 100


@pytest.mark.parametrize("most", ["-3", "many", "", "99999999999999999999"])
def test_a_strange_number_of_rows_is_kept_in_bounds(client: BenchClient, most: str) -> None:
    """However many rows an address asks for, between fifty and a thousand are shown."""
    assert 50 <= len(numbers(client.read(f"/stock/?most={most}"))) <= 1000


def test_filters_are_those_of_the_kind(client: BenchClient) -> None:
    """The words of a kind bring the filters of that kind, with the values that are in stock."""
    page = client.read("/stock/?q=seatpost")
    assert '<select id="a.diameter_mm"' in page
    assert '<option value="27.2">27.2</option>' in page
    assert "a.speeds" not in page
    assert "a.diameter_mm" not in client.read("/stock/?q=seatpost+saddle")


def test_a_number_goes_to_its_page(client: BenchClient) -> None:
    """A label number in any grouping leads to what it names; a wrong one is refused in words."""
    assert client.get("/stock/?q=2000 0140").headers["Location"] == "/n/20000140"
    assert client.get("/n/20000140").headers["Location"] == "/stock/parts/20000140/"
    wrong = client.get("/stock/?q=20000141")
    assert wrong.status_code == 400
    assert "20000141" in wrong.get_data(as_text=True)


def test_while_a_number_is_typed_nothing_is_left(client: BenchClient) -> None:
    """In the list that shows while typing, a number only says where Enter would go."""
    assert "Enter" in client.read("/stock/?only=results&q=20000140")
    assert "check" in client.read("/stock/?only=results&q=20000141")


@pytest.mark.parametrize(
    ("query", "told"),
    [
        pytest.param("sedpost=27", "no attribute", id="unknown attribute"),
        pytest.param("speeds=", "not a condition", id="half a condition"),
        pytest.param("speeds=fast", "speeds", id="no number"),
        pytest.param("bin=Z9", "Z9", id="unknown bin"),
    ],
)
def test_what_is_not_understood_is_told(client: BenchClient, query: str, told: str) -> None:
    """A question that is not understood is answered in words on the page, not by a fault."""
    assert told in client.read(f"/stock/?q={query}")


def test_the_beginning_of_a_kind_offers_kinds(client: BenchClient) -> None:
    """Where nothing is found the kinds that begin like the word are offered."""
    page = client.read("/stock/?only=results&q=sadd")
    assert "Nothing in stock is like that." in page
    assert 'href="/stock/?kind=saddle"' in page


def test_marked_parts_move_together(client: BenchClient) -> None:
    """The marked parts go into a bin in one act, which one undo takes back."""
    moved = {"number": ["20000140", "20000237"], "bin": "F1"}
    answer = client.post("/stock/move", data=moved, headers={"Referer": "http://localhost/stock/"})
    assert answer.headers["Location"] == "/stock/"
    there = {part["number"] for part in client.shop.asked("find", "bin=F1")["parts"]}
    assert there >= set(moved["number"])
    client.post("/undo")
    back = {part["number"] for part in client.shop.asked("find", "bin=F1")["parts"]}
    assert not back & set(moved["number"])


@pytest.mark.parametrize(
    "sent",
    [
        pytest.param({"bin": "F1"}, id="nothing marked"),
        pytest.param({"number": ["20000140"]}, id="no bin"),
        pytest.param({"number": ["20000140", "20000334"], "bin": "Z9"}, id="unknown bin"),
        pytest.param({"number": ["20000140", "29999999"], "bin": "F1"}, id="one of no part"),
    ],
)
def test_a_refused_move_moves_nothing(
    client: BenchClient, snapshot: Callable[[Shop], str], sent: dict[str, object]
) -> None:
    """If one of the marked parts cannot move, none does, and the reason is told."""
    before = snapshot(client.shop)
    answer = client.post("/stock/move", data=sent)
    assert answer.status_code in {400, 404, 409}
    assert snapshot(client.shop) == before


def test_found_while_typing(tab: Page, served: Served) -> None:
    """In a browser the rows follow what is typed and chosen, without a press of a button."""
    tab.goto("/stock/")
    tab.get_by_role("searchbox", name="Words, conditions").fill("shifter speeds=10")
    expect(tab.locator("#results tbody tr")).to_have_count(
        len(served.shop.asked("find", "shifter", "speeds=10")["parts"])
    )
    assert "speeds" in tab.url
    tab.get_by_label("kind").select_option("seatpost")
    tab.wait_for_url("**kind=seatpost**")
    tab.get_by_role("searchbox", name="Words, conditions").fill("")
    tab.get_by_label("diameter, mm").select_option("27.2")
    expect(tab.locator("#results tbody tr")).to_have_count(
        len(served.shop.asked("find", "seatpost", "diameter=27.2")["parts"])
    )


def test_marked_and_moved_in_a_browser(tab: Page, served: Served) -> None:
    """Two parts are marked by the keyboard alone and moved into another bin."""
    tab.goto("/stock/?q=saddle")
    for row in (0, 1):
        tab.locator("td.mark input").nth(row).focus()
        tab.keyboard.press("Space")
    tab.get_by_label("into bin").fill("F1")
    tab.keyboard.press("Tab")
    tab.keyboard.press("Enter")
    expect(tab.locator(".told .done")).to_have_count(2)
    assert len(served.shop.asked("find", "saddle", "bin=F1")["parts"]) == 2
