"""Every page is fit for a screen reader, for the keyboard, for weak eyes and for a small screen."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from demo_db.loader import build
from tests.bench_page.axe import faults_in
from tests.bench_page.conftest import LAPTOP, PHONE, page_in, served_on
from tests.bench_page.pages import PAGES
from tests.conftest import Shop
from tests.databases import Databases

COLOURS = ("color-contrast", "link-in-text-block")
"""Only these may differ between light and dark."""
Looked = tuple[Shop, Page]


@pytest.fixture(scope="module")
def looked_at(
    browser: Browser, files: Databases, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Looked]:
    """Give one workshop and one page of a browser for all that is only looked at."""
    shop = Shop(Path(files.copy_of("demo", build)))
    with (
        served_on(shop, tmp_path_factory.mktemp("state")) as served,
        page_in(browser, served.url) as page,
    ):
        yield shop, page


@pytest.mark.parametrize("name", PAGES)
def test_no_serious_fault(name: str, looked_at: Looked) -> None:
    """A page has no serious fault by axe-core, on a phone and a laptop, in light and in dark.

    Nor is it wider than a phone. Source: axe-core's rules, after the Web Content Accessibility
    Guidelines 2.2, A and AA; there 1.4.10, Reflow.
    """
    shop, page = looked_at
    page.emulate_media(color_scheme="light")
    page.goto(PAGES[name](shop))
    assert page.locator("h1").count() == 1
    for width, height in (LAPTOP, PHONE):
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme="light")
        assert faults_in(page) == []
        page.emulate_media(color_scheme="dark")
        assert faults_in(page, COLOURS) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE[0]


def test_a_fault_is_found(tab: Page) -> None:
    """The checker itself finds a field without a name and text that is too faint."""
    tab.goto("/pair")
    tab.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend',"
        " '<input><p id=\"faint\">words that are too faint</p>')"
    )
    tab.evaluate("document.getElementById('faint').style.color = '#ddd'")
    found = " ".join(faults_in(tab))
    assert "label" in found
    assert "color-contrast" in found
