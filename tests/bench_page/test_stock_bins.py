"""The bins on the page: all of them, what is in each, new ones, and which are to be counted."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

A1 = "10000119"
"""The first bin, by the invented workshop."""


def test_all_bins(client: BenchClient) -> None:
    """Every bin is listed with where it stands, how much is in it and what that cost."""
    page = client.read("/stock/bins/")
    for held in client.shop.asked("bin", "list"):
        assert f'href="/stock/bins/{held["number"]}/">{held["bin"]}</a>' in page
        assert held["location"] in page
        assert f'<td class="amount">{held["parts"]}</td>' in page


def test_bins_are_found_by_their_words(client: BenchClient) -> None:
    """A bin is found by its name, its note and its place, whatever the capitals."""
    page = client.read("/stock/bins/?q=SHIFTERS")
    assert "1 bin<" in page
    assert A1 in page
    assert "No bin is like that." in client.read("/stock/bins/?q=nowhere")


def test_what_is_in_a_bin(client: BenchClient) -> None:
    """A bin shows what `bin show` tells, with its way to a count and to the scanner."""
    page = client.read(f"/stock/bins/{A1}/")
    parts = client.shop.asked("bin", "show", "A1")["parts"]
    assert f"{len(parts)} parts and lots" in page
    for part in parts:
        assert f'value="{part["number"]}"' in page
    assert f'href="/scan/?mode=count&amp;to={A1}"' in page
    assert f'href="/stock/labels?number={A1}"' in page


def test_a_bin_is_added(client: BenchClient) -> None:
    """A new bin gets the next number, and its page opens empty."""
    sent = {"name": "G1", "note": "lamps", "location": "window"}
    answer = client.post("/stock/bins/", data=sent, follow_redirects=True)
    assert "It is empty." in answer.get_data(as_text=True)
    assert client.shop.asked("bin", "show", "G1")["note"] == "lamps"


@pytest.mark.parametrize("name", ["a1", "", "quarantine", "1000 0119", "x" * 41])
def test_no_name_for_a_bin(client: BenchClient, snapshot: Callable[[Shop], str], name: str) -> None:
    """A name that is taken or cannot be one is refused; what was typed besides stays."""
    before = snapshot(client.shop)
    answer = client.post("/stock/bins/", data={"name": name, "note": "lamps"})
    assert answer.status_code == 422
    assert 'value="lamps"' in answer.get_data(as_text=True)
    assert snapshot(client.shop) == before


def test_counts_due(client: BenchClient) -> None:
    """The bins are those of `count --due`; a count that is kept takes its bin off the list."""
    due = client.shop.asked("count", "--due")["bins"]
    page = client.read("/stock/bins/due")
    assert f"{len(due)} bins are due" in page
    assert 'aria-label="Count bin A1"' in page
    numbers = [part["number"] for part in client.shop.asked("bin", "show", "A1")["parts"]]
    typed = "\n".join(numbers)
    assert client.shop.run("count", "A1", "--keys", "--yes", typed=typed).exit_code == 0
    assert 'aria-label="Count bin A1"' not in client.read("/stock/bins/due")


def test_no_such_bin(client: BenchClient) -> None:
    """The number of a part, or one that no bin has, is no bin's page."""
    for number in ("20000140", "19999946"):
        assert client.get(f"/stock/bins/{number}/").status_code in {400, 404}
