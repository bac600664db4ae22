"""The offer page tells what `partsbin offer` tells, and writes nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from partsbin.kinds.eras import names
from partsbin.stock.money import show_money
from tests.bench_page.conftest import PHONE, BenchClient, Served
from tests.conftest import Shop

HYBRID = "hybrid-8-speed-1998-2005"
ANSWERS = {
    "like": HYBRID,
    "expect": "120",
    "asked": "40",
    "f.rear shifter": "dead",
    "f.chain": "worn",
    "profit": "30%",
    "fee": "10%",
    "rate": "12",
    "hours": "2,5",
    "transport": "5",
    "sure": "80%",
    "stated": "chain: links=116",
}
AS_OPTIONS = (
    *("--like", HYBRID, "chain=links=116", "--expect", "120", "--asked", "40"),
    *("--fault", "rear shifter=dead", "--fault", "chain=worn", "--profit", "30%"),
    *("--fee", "10%", "--rate", "12", "--hours", "2.5", "--transport", "5", "--sure", "80%"),
)


def page_of(client: BenchClient, **changed: str) -> str:
    """Return the answer's page, with some answers changed."""
    answer = client.get("/offer/", query_string={**ANSWERS, **changed})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return answer.get_data(as_text=True)


def test_every_template_can_be_chosen(client: BenchClient) -> None:
    """All era templates are offered, and each has its form with a choice for each slot."""
    page = client.read("/offer/")
    for name in names():
        assert f'href="/offer/?like={name}"' in page
        assert 'name="f.frame" value="dead"' in client.read(f"/offer/?like={name}")


def test_the_same_figures_as_the_command(client: BenchClient) -> None:
    """Most to pay, cautious figure, part-out, what is better and the verdict are the command's."""
    told = client.shop.asked("offer", *AS_OPTIONS)
    page = page_of(client)
    assert f"<dt>most to pay</dt><dd>{told['amounts']['most']}</dd>" in page
    assert f"<dt>cautious</dt><dd>{told['cautious']}</dd>" in page
    assert f"<dt>to strip it</dt><dd>{told['part_out']['most']}</dd>" in page
    assert f"To buy {told['to_buy']}, from stock {told['from_stock']}" in page
    for name in ("fee", "profit", "parts", "labour", "transport"):
        taken = show_money(-round(100 * float(told["amounts"][name])))
        assert f'<th scope="row">{name}</th><td class="amount">{taken}</td>' in page
    better = "take it apart" if told["better"] == "strip" else "make it right"
    assert f"<dt>better</dt><dd>{better}</dd>" in page
    said = client.shop.told("offer", *AS_OPTIONS)
    verdict = next(line for line in said.splitlines() if line.startswith("asked is"))
    assert verdict.split(":")[0][:60] in page
    words = " ".join(said.split())
    counted = words[words.index("arts that nobody waits for") :].split(" better:")[0]
    assert f"<p>P{counted}.</p>" in page


def test_the_cautions_stand_with_it(client: BenchClient) -> None:
    """Every caution of the command is on the page, and the plot with its name."""
    page = page_of(client)
    for caution in client.shop.asked("offer", *AS_OPTIONS)["cautions"]:
        assert caution[:60] in page
    assert 'aria-label="Chance of a loss by the price that you pay"' in page
    assert " style=" not in page


def test_the_terms_are_remembered(client: BenchClient) -> None:
    """The next bike begins with the terms of the last one, but not with its price or faults."""
    page_of(client, fee="12%")
    form = client.read(f"/offer/?like={HYBRID}")
    assert 'name="fee" value="12%"' in form
    assert 'name="expect" value=""' in form
    assert 'value="dead" checked' not in form


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        pytest.param({"expect": ""}, "say what it will sell for", id="no price"),
        pytest.param({"expect": "much"}, "not an amount", id="no amount"),
        pytest.param({"asked": "-4"}, "not an amount", id="below nothing"),
        pytest.param({"fee": "110%"}, "is no share", id="more than all"),
        pytest.param({"profit": "a bit"}, "not an amount", id="no profit"),
        pytest.param({"hours": "some"}, "no number of hours", id="no hours"),
        pytest.param({"rate": ""}, "what an hour of work costs", id="hours without a rate"),
        pytest.param({"sure": "0%"}, "more than 0%", id="never sure"),
        pytest.param({"stated": "links=116"}, "names no slot", id="no slot stated"),
        pytest.param({"stated": "chian: links=116"}, "chain", id="unknown slot"),
        pytest.param({"stated": "chain: lynks=116"}, "links", id="unknown attribute"),
        pytest.param({"f.rear rotor": "dead"}, "rear rotor", id="fault of what it has not"),
    ],
)
def test_faults_are_told_on_the_form(
    client: BenchClient, snapshot: Callable[[Shop], str], changed: dict[str, str], told: str
) -> None:
    """An answer that is not understood is told on the form, which keeps all that was typed."""
    before = snapshot(client.shop)
    answer = client.get("/offer/", query_string={**ANSWERS, **changed})
    page = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert told in page
    assert 'name="f.rear shifter" value="dead" checked' in page
    assert snapshot(client.shop) == before


def test_nothing_is_written(client: BenchClient, snapshot: Callable[[Shop], str]) -> None:
    """An offer leaves the record as it was."""
    before = snapshot(client.shop)
    page_of(client)
    assert snapshot(client.shop) == before


def test_an_unknown_template(client: BenchClient) -> None:
    """A template that nobody knows is told with the nearest one."""
    answer = client.get("/offer/?like=hybird-8-speed-1998-2005")
    assert answer.status_code == 400
    assert HYBRID in answer.get_data(as_text=True)


def test_read_in_a_car_park(tab: Page, served: Served) -> None:
    """On a phone: the bike is chosen, a fault marked with a thumb, and the figure is in sight."""
    tab.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    tab.goto("/offer/")
    tab.get_by_role("link", name="hybrid with three rings").click()
    tab.get_by_label("sells for, made right").fill("120")
    tab.get_by_label("the seller asks").fill("20")
    tab.get_by_role("group", name="rear shifter").get_by_label("dead").check()
    tab.get_by_role("button", name="What is it worth?").click()
    figure = tab.locator(".figures .large dd")
    told = served.shop.asked(
        "offer",
        *("--like", HYBRID, "--expect", "120", "--fault", "rear shifter=dead", "--profit", "30%"),
    )
    expect(figure).to_have_text(told["amounts"]["most"])
    box = figure.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < PHONE[1]
