"""Ways through the bikes room in a real browser: the drawing, the keyboard, the phone."""

from __future__ import annotations

import io

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from tests.bench_page.conftest import LAPTOP, PHONE, Served, page_in

TEASEL, SORREL = "/bikes/30000355/", "/bikes/30000258/"


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_from_the_drawing_to_a_mounted_part(
    size: tuple[int, int], browser: Browser, served: Served
) -> None:
    """A press on the seat clamp in the drawing leads to what fits; one more press mounts it."""
    with page_in(browser, served.url, size) as page:
        page.goto(SORREL)
        page.locator("svg a.is-seat-clamp path").first.click()
        expect(page.locator("h1")).to_have_text("Seat clamp of Sorrel")
        page.get_by_role("button", name="Mount").first.click()
        expect(page.locator(".told")).to_contain_text("Sorrel, seat clamp")
        expect(page.locator("#there")).to_contain_text("sound")
        page.get_by_role("button", name="Take the last act back").click()
        expect(page.locator("#there")).to_contain_text("empty")


def test_by_keyboard(tab: Page) -> None:
    """The drawing can be passed in one step, and each of its slots is reached and opened."""
    tab.goto(SORREL)
    past = tab.get_by_role("link", name="Past the drawing")
    past.focus()
    tab.keyboard.press("Tab")
    held = tab.evaluate("document.activeElement.querySelector('title').textContent")
    assert held == "rear tyre: worn, tyre, marking 26x1.95, bsd 559 mm, width 50 mm"
    tab.keyboard.press("Enter")
    expect(tab.locator("h1")).to_have_text("Rear tyre of Sorrel")
    tab.go_back()
    past.focus()
    tab.keyboard.press("Enter")
    tab.keyboard.press("Tab")
    assert tab.evaluate("document.activeElement.textContent") == "fork"


def test_a_state_is_more_than_a_colour(tab: Page) -> None:
    """Worn, dead and missing slots differ by pattern, line and sign, not by colour alone."""
    tab.goto(SORREL)
    fill = {
        name: tab.locator(f"svg a.is-{name}").get_attribute("fill")
        for name in ("fork", "rear-tyre", "seat-clamp")
    }
    assert fill == {"fork": "url(#p-dead)", "rear-tyre": "url(#p-worn)", "seat-clamp": None}
    dashes = "e => getComputedStyle(e).strokeDasharray"
    assert tab.locator("svg a.is-seat-clamp path").first.evaluate(dashes) != "none"
    assert tab.locator("svg a.is-fork path").first.evaluate(dashes) == "none"
    dead, worn = "\N{MULTIPLICATION SIGN}", "\N{ALMOST EQUAL TO}"
    signs = tab.locator(".bicycle > svg > .signs text").all_text_contents()
    assert sorted(signs) == sorted([dead, worn, worn, worn, "+", "+"])


def test_a_photo_from_the_phone(browser: Browser, served: Served) -> None:
    """A picture that the phone's camera took is kept, shown in small, and opens in full."""
    taken = io.BytesIO()
    Image.effect_noise((640, 480), 60).convert("RGB").save(taken, "JPEG")
    with page_in(browser, served.url, PHONE) as page:
        page.goto(f"{TEASEL}photos")
        assert page.get_by_label("Take one").get_attribute("capture") == "environment"
        page.get_by_label("Take one").set_input_files(
            {"name": "IMG_1.jpg", "mimeType": "image/jpeg", "buffer": taken.getvalue()}
        )
        page.get_by_label("What they show").fill("left side")
        page.get_by_role("button", name="Keep them").click()
        small = page.get_by_alt_text("left side")
        expect(small).to_be_visible()
        expect(small).to_have_js_property("complete", value=True)
        assert small.evaluate("e => e.naturalWidth") == 320


def test_planned_in_a_browser(tab: Page) -> None:
    """A plan is asked for by a press, shown with its bars, and laid aside by another."""
    tab.goto(f"{SORREL}plan")
    tab.get_by_role("button", name="Plan").click()
    expect(tab.locator(".bars svg")).to_be_visible()
    tab.get_by_role("button", name="Lay these aside").click()
    expect(tab.locator("#picks")).to_contain_text("laid aside")
