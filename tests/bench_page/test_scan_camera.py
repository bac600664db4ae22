"""The whole way before a camera, in a real browser: labels in view, parts moved, a bin counted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect

from tests.bench_page.axe import faults_in
from tests.bench_page.conftest import LAPTOP, PHONE, Served, page_in
from tests.bench_page.fake_camera import Scene, browser_with_camera, film
from tests.conftest import Shop

POST, THICK_POST = "20008482", "20008676"
SORREL_TAG, BIN_D1 = "30000258", "10000895"
SIZES = pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
Opened = Callable[[str, tuple[int, int]], Page]


@contextmanager
def before(
    playwright: Playwright, served: Served, folder: Path, size: tuple[int, int], *scenes: Scene
) -> Iterator[Page]:
    """Give a page whose camera sees these scenes again and again."""
    shown = film(folder / "film.mjpeg", *scenes)
    with (
        browser_with_camera(playwright, shown) as browser,
        page_in(browser, served.url, size) as tab,
    ):
        yield tab


def where(shop: Shop, number: str) -> list[str]:
    """Return where a part is."""
    return [place["place"] for place in shop.asked("part", "show", number)["places"]]


def time_to_answer(tab: Page) -> str:
    """Return the milliseconds from a frame to its answer on the page, as the page took them."""
    return str(tab.get_attribute("#scanner", "data-answered"))


@SIZES
def test_onto_a_bike_and_back(
    size: tuple[int, int], playwright: Playwright, served: Served, tmp_path: Path
) -> None:
    """The bike's tag is shown, then the part's label: it is mounted; one press takes it back."""
    served.shop.told("unmount", "Sorrel", "seatpost", "D1")
    scenes: tuple[Scene, ...] = ((1.5, [SORREL_TAG]), (1.0, []), (1.5, [POST]), (6.0, []))
    with before(playwright, served, tmp_path, size, *scenes) as tab:
        tab.goto("/scan/?mode=onto")
        expect(tab.locator("h1")).to_have_text("Onto Sorrel")
        assert tab.url.endswith("/scan/?mode=onto&to=Sorrel")
        done = tab.locator(".answer.done")
        expect(done).to_contain_text("Sorrel, seatpost")
        expect(done).to_contain_text("fits")
        print(f"from frame to answer: {time_to_answer(tab)} ms")
        assert where(served.shop, POST) == ["Sorrel's seatpost slot"]
        assert faults_in(tab) == []
        assert tab.evaluate("document.documentElement.scrollWidth") <= size[0]
        done.get_by_role("button", name="Undo").click()
        expect(tab.locator(".answer.done")).to_contain_text("taken back")
    assert where(served.shop, POST) == ["bin D1"]


@SIZES
def test_a_bin_is_counted(
    size: tuple[int, int], playwright: Playwright, served: Served, tmp_path: Path
) -> None:
    """Labels in view fill the list; the comparison shows what is missing; a yes writes it."""
    served.shop.told("part", "move", POST, "B2")
    with before(playwright, served, tmp_path, size, (1.5, []), (5, [POST, THICK_POST])) as tab:
        tab.goto("/scan/?mode=count&to=B2")
        expect(tab.locator("#seen li")).to_have_count(2)
        expect(tab.locator(".answer.counted").first).to_contain_text("seatpost")
        print(f"from frame to answer: {time_to_answer(tab)} ms")
        assert faults_in(tab) == []
        tab.get_by_role("button", name="Compare with the record").click()
        expect(tab.locator("h1")).to_have_text("Count of bin B2")
        moved = tab.locator("tr", has=tab.locator(".found.misplaced"))
        expect(moved).to_contain_text("2000 8676")
        expect(moved).to_contain_text("recorded: bin D1")
        assert faults_in(tab) == []
        tab.get_by_label("leave what is missing in the record").check()
        tab.get_by_role("button", name="Yes, set the record right").click()
        expect(tab.locator(".told .done")).to_have_text("the record is set right")
    assert where(served.shop, THICK_POST) == ["bin B2"]


def test_a_reload_loses_no_count(served: Served, tab: Page) -> None:
    """The list of a count is there again after a reload, and gone once it was compared."""
    served.shop.told("part", "move", POST, "B2")
    tab.goto("/scan/?mode=count&to=B2")
    tab.evaluate(TYPED_BY_A_SCANNER, POST)
    expect(tab.locator("#seen li")).to_contain_text("2000 8482")
    tab.reload()
    expect(tab.locator("#seen li")).to_have_count(1)
    tab.get_by_role("button", name="Compare with the record").click()
    tab.goto("/scan/?mode=count&to=B2")
    expect(tab.locator("#seen li")).to_have_count(0)


def test_two_labels_are_outlined_and_asked(
    playwright: Playwright, served: Served, tmp_path: Path
) -> None:
    """Both labels in view are outlined in the picture, and nothing moves until one is chosen."""
    with before(playwright, served, tmp_path, LAPTOP, (5, [POST, THICK_POST])) as tab:
        tab.goto("/scan/?mode=into&to=B2")
        asked = tab.locator(".answer.ask")
        expect(asked.get_by_role("button")).to_have_count(2)
        drawn = tab.evaluate(DRAWN_LEFT_AND_RIGHT)
        assert drawn == [True, True]
        assert where(served.shop, POST) == ["bin D1"]
        asked.get_by_role("button", name="2000 8482").click()
        expect(tab.locator(".answer.done")).to_contain_text("bin D1 → bin B2")
    assert where(served.shop, THICK_POST) == ["bin D1"]


def test_a_keyboard_scanner_needs_no_field(served: Served, tab: Page) -> None:
    """Digits that come fast outside a field act as a label does; a refusal is told in words."""
    tab.goto("/scan/?mode=into&to=B2")
    tab.evaluate(TYPED_BY_A_SCANNER, POST)
    expect(tab.locator(".answer.done")).to_contain_text("bin D1 → bin B2")
    tab.evaluate(TYPED_BY_A_SCANNER, POST)
    expect(tab.locator(".answer.refused")).to_contain_text("already")
    assert where(served.shop, POST) == ["bin B2"]


DRAWN_LEFT_AND_RIGHT = """() => {
  const { width, height } = document.getElementById("outlines");
  const pen = document.getElementById("outlines").getContext("2d");
  const drawn = (left) => pen.getImageData(left, 0, width / 2, height).data.some((dot) => dot > 0);
  return [drawn(0), drawn(width / 2)];
}"""
TYPED_BY_A_SCANNER = """(number) => {
  const pressed = { bubbles: true, cancelable: true };
  // Each script is read at its first event, which may take longer than a scanner's whole number.
  for (const key of ["Shift", ...number, "Enter"]) {
    document.body.dispatchEvent(new KeyboardEvent("keydown", { key, ...pressed }));
  }
}"""
FAILING = """(name) => {
  navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("", name));
}"""
FREEZING = """(pictures) => {
  const canvas = document.createElement("canvas");
  const pen = canvas.getContext("2d");
  navigator.mediaDevices.getUserMedia = async () => canvas.captureStream();
  const draw = () => { pen.fillRect(0, 0, pictures, 9); if (pictures-- > 0) setTimeout(draw, 50); };
  if (pictures) draw();
}"""
FAULTS = {
    "NotAllowedError": "is not allowed. Allow it",
    "NotFoundError": "No camera is connected",
    "NotReadableError": "Another program holds the camera",
    "AbortError": "did not start",
    "StrangeError": "does not start (StrangeError)",
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_camera_that_gives_nothing_is_told(name: str, tab: Page) -> None:
    """Why there is no picture is said in words, with what to do; the button tries again.

    Source: the names are those of developer.mozilla.org, MediaDevices: getUserMedia(), Exceptions.
    """
    tab.goto("/scan/")
    tab.evaluate(FAILING, name)
    tab.get_by_role("button", name="Start the camera").click()
    expect(tab.locator("#camera-told.fault")).to_contain_text(FAULTS[name])
    expect(tab.get_by_role("button", name="Start the camera")).to_be_visible()


@pytest.mark.parametrize(
    ("pictures", "told"), [(0, "gives no picture"), (20, "frozen")], ids=["from the start", "later"]
)
def test_a_frozen_camera_is_told(pictures: int, told: str, tab: Page) -> None:
    """A camera that never gives a picture, and one that stops, are told of in words."""
    tab.goto("/scan/")
    tab.evaluate(FREEZING, pictures)
    tab.get_by_role("button", name="Start the camera").click()
    expect(tab.locator("#camera-told.fault")).to_contain_text(told, timeout=10_000)


def test_without_a_secure_address_the_photograph_is_offered(
    browser: Browser, served: Served
) -> None:
    """Where the browser gives no camera, as on a phone without HTTPS, the page says what to do."""
    with page_in(browser, served.url, PHONE) as tab:
        tab.add_init_script(
            "Object.defineProperty(navigator, 'mediaDevices', { value: undefined })"
        )
        tab.goto("/scan/")
        expect(tab.locator("#camera-told.fault")).to_contain_text("Take a photograph")


def test_without_scripts_numbers_and_photographs_do(browser: Browser, served: Served) -> None:
    """With JavaScript off a number is typed, its refusal shown, and a bin counted from a list."""
    context = browser.new_context(base_url=served.url, java_script_enabled=False)
    tab = context.new_page()
    tab.goto("/scan/?mode=into&to=B2")
    tab.get_by_label("Number under the bars").fill("2000 8482")
    tab.get_by_role("button", name="Put in").click()
    expect(tab.locator(".told .done")).to_contain_text("bin D1 → bin B2")
    tab.goto("/scan/?mode=count&to=B2")
    tab.locator("#lines").fill("20008482")
    tab.get_by_role("button", name="Compare with the record").click()
    expect(tab.locator("h1")).to_have_text("Count of bin B2")
    context.close()


def test_the_sound_can_be_muted(playwright: Playwright, served: Served, tmp_path: Path) -> None:
    """The button by the picture says whether sound is off, and a new page remembers it."""
    with before(playwright, served, tmp_path, PHONE, (2, [])) as tab:
        for was in ("false", "true"):
            tab.goto("/scan/")
            mute = tab.get_by_role("button", name="Mute")
            expect(mute).to_have_attribute("aria-pressed", was)
            mute.click()
        expect(mute).to_have_attribute("aria-pressed", "false")
