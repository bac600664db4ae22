"""Adding and editing parts: the form of a kind, its controls, its faults."""

from __future__ import annotations

import html
import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from werkzeug.datastructures import MultiDict

from partsbin.bench.kind_form import Control, fields, of_spec, read
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec
from tests.bench_page.conftest import BenchClient, Served
from tests.conftest import Shop

POST = {"a.diameter_mm": "27,18", "a.rails": "round-7", "grade": "good", "bin": "D1", "cost": "3"}
HOSTILE = "<b>&amp; \"quotes\" 'single' =1+1"


def added(client: BenchClient, kind: str, **sent: object) -> str:
    """Return the number of a part that the form added."""
    answer = client.post(f"/stock/add/{kind}", data=sent)
    assert answer.status_code == 302, answer.get_data(as_text=True)
    found = re.search(r"/stock/parts/(\d+)/", answer.headers["Location"])
    assert found
    return found[1]


def test_every_kind_has_its_place_and_form(client: BenchClient) -> None:
    """All kinds can be chosen, area by area, and the form of each has a field per attribute."""
    page = client.read("/stock/add/")
    for word, kind in KINDS.items():
        assert f'href="/stock/add/{word}"' in page
        form = client.read(f"/stock/add/{word}")
        for name, attribute in kind.attributes.items():
            assert f'name="a.{name}"' in form
            assert attribute.measure in html.unescape(form)


@pytest.mark.parametrize(
    ("kind", "name", "control"),
    [
        ("frame", "rack_eyelets", Control.YES_NO),
        ("frame", "style", Control.CHOICE),
        ("frame", "brake_mounts", Control.SEVERAL),
        ("seatpost", "diameter_mm", Control.NUMBER),
        ("shifter", "speeds", Control.NUMBER),
        ("cassette", "cogs", Control.TEXT),
        ("frame", "serial_number", Control.TEXT),
        ("frame", "head_tube_upper", Control.TEXT),
    ],
)
def test_the_right_control(kind: str, name: str, control: Control) -> None:
    """Word lists are chosen from, numbers have a number's keys, yes or no is one press."""
    found = {field.name: field for field in fields(KINDS[kind])}
    assert found[name].control is control


def test_what_is_asked_first_stands_first() -> None:
    """What a mechanic asks for first is at the top, in that order."""
    for kind in KINDS.values():
        assert tuple(f.name for f in fields(kind) if f.first) == kind.first
        assert [f.first for f in fields(kind)] == sorted(
            (f.first for f in fields(kind)), reverse=True
        )


def test_a_part_is_added_as_the_command_adds_it(client: BenchClient) -> None:
    """A reading snaps, the part is where it belongs, and its page offers what comes next."""
    number = added(client, "seatpost", **POST, inspected="yes", note=HOSTILE, origin="donor")
    place = client.shop.asked("part", "show", number)["places"][0]
    assert place["attributes"] == {"diameter_mm": 27.18, "rails": "round-7"}
    assert (place["place"], place["grade"], place["cost"]) == ("bin D1", "good", "3.00")
    assert (place["note"], place["origin"]) == (HOSTILE, "donor")
    page = client.read(f"/stock/parts/{number}/?added=D1")
    assert "27.18 mm (taken for 27.2 mm)" in page
    assert f'href="/stock/labels?number={number}"' in page
    assert f'href="/stock/add/seatpost?like={number}&amp;bin=D1"' in page
    assert HOSTILE not in page


def test_without_inspection_it_waits(client: BenchClient) -> None:
    """A used part whose kind can hurt someone goes into quarantine, unless it was inspected."""
    number = added(client, "seatpost", **POST)
    assert client.shop.asked("part", "show", number)["places"][0]["place"] == "quarantine"


def test_a_lot_is_added(client: BenchClient) -> None:
    """With a quantity it is a lot: housing in metres."""
    number = added(client, "housing", **{"a.use": "brake", "quantity": "2,5 m", "bin": "B2"})
    assert number.startswith("4")
    assert client.shop.asked("part", "show", number)["places"][0]["quantity"] == "2.5 m"


def test_another_like_it(client: BenchClient) -> None:
    """The form for another one has what was known of the first, and its bin."""
    number = added(client, "seatpost", **POST)
    form = client.read(f"/stock/add/seatpost?like={number}&bin=D1")
    assert 'name="a.diameter_mm" value="27.18"' in form
    assert '<option value="round-7" selected>' in form
    assert re.search(r'id="bin"[^>]*value="D1"', form)
    assert client.get(f"/stock/add/saddle?like={number}").status_code == 400
    assert '<h2 id="last">' in client.read("/stock/add/")


@pytest.mark.parametrize(
    ("sent", "fault"),
    [
        pytest.param({"a.diameter_mm": "thick"}, "diameter_mm", id="no length"),
        pytest.param({"a.diameter_mm": "99"}, "diameter_mm", id="out of limits"),
        pytest.param({"a.rails": "square"}, "rails", id="no word of the list"),
        pytest.param({"a.rails.reading": "thin"}, "rails", id="no measured size"),
        pytest.param({"cost": "cheap"}, "cost", id="no amount"),
        pytest.param({"value": "-3"}, "value", id="amount below nothing"),
        pytest.param({"grade": "superb"}, "grade", id="no grade"),
        pytest.param({"bin": ""}, "bin", id="no bin"),
        pytest.param({"quantity": "some"}, "quantity", id="no quantity"),
    ],
)
def test_faults_stand_at_their_fields(
    client: BenchClient, snapshot: Callable[[Shop], str], sent: dict[str, str], fault: str
) -> None:
    """A form with a fault is shown again as it was typed, with the fault at its field."""
    before = snapshot(client.shop)
    answer = client.post("/stock/add/seatpost", data={**POST, "note": HOSTILE, **sent})
    page = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert f'id="fault-{fault}"' in page
    assert html.escape(HOSTILE).replace("&#x27;", "&#39;").replace("&quot;", "&#34;") in page
    assert snapshot(client.shop) == before


def test_the_bin_goes_along(client: BenchClient) -> None:
    """From a bin's page the form of any kind has that bin filled in."""
    assert 'href="/stock/add/?bin=A1"' in client.read("/stock/bins/10000119/")
    assert 'href="/stock/add/chain?bin=A1"' in client.read("/stock/add/?bin=A1")
    assert re.search(r'id="bin"[^>]*value="A1"', client.read("/stock/add/chain?bin=A1"))


def test_all_faults_at_once(client: BenchClient) -> None:
    """Several faults are told together, not one after the other."""
    sent = {**POST, "a.diameter_mm": "x", "a.length_mm": "y", "cost": "z", "bin": ""}
    page = client.post("/stock/add/seatpost", data=sent).get_data(as_text=True)
    for name in ("diameter_mm", "length_mm", "cost", "bin"):
        assert f'id="fault-{name}"' in page


def test_an_unknown_bin_is_refused_on_the_form(client: BenchClient) -> None:
    """A bin that does not exist is told on the form, which keeps what was typed."""
    answer = client.post("/stock/add/seatpost", data={**POST, "bin": "Z9"})
    assert answer.status_code == 422
    assert "Z9" in answer.get_data(as_text=True)
    assert 'value="27,18"' in answer.get_data(as_text=True)


def test_an_unknown_kind(client: BenchClient) -> None:
    """A kind that nobody knows is told, with the nearest one."""
    answer = client.get("/stock/add/seatpots")
    assert answer.status_code == 400
    assert "seatpost" in answer.get_data(as_text=True)


@pytest.mark.parametrize(
    ("kind", "attributes"),
    [
        pytest.param("frame", {"brake_mounts": ["canti-boss", "post-74"]}, id="several words"),
        pytest.param("frame", {"brake_mounts": []}, id="none of the words"),
        pytest.param("cassette", {"cogs": [11, 13, 15]}, id="several counts"),
        pytest.param("bell", {"colour": 'red; "faded"'}, id="free text with marks"),
        pytest.param("wheel", {"driver": "none", "valve_hole_mm": 6.5}, id="wheel"),
    ],
)
def test_what_is_known_survives_the_form(kind: str, attributes: dict[str, object]) -> None:
    """A form that is filled from a part and sent unchanged means the same part."""
    spec = Spec.check(kind, attributes)
    held = of_spec(spec)
    sent: MultiDict[str, str] = MultiDict()
    several = {f.name for f in fields(KINDS[kind]) if f.control is Control.SEVERAL}
    for name, text in held.typed.items():
        for word in text.split(",") if name in several else [text]:
            sent.add(f"a.{name}", word)
    sent.add("others", held.others)
    assert read(KINDS[kind], sent).spec == spec


def test_every_part_in_stock_survives_its_edit_form(client: BenchClient) -> None:
    """Editing changes only what is edited: of every spec in the invented workshop."""
    for part in client.shop.asked("find", "--everywhere", "--most", "1000")["parts"]:
        spec = Spec.check(part["kind"], part["attributes"], part["assumed"])
        held = of_spec(spec)
        sent: MultiDict[str, str] = MultiDict({"others": held.others})
        several = {f.name for f in fields(KINDS[spec.kind]) if f.control is Control.SEVERAL}
        for name, text in held.typed.items():
            for word in text.split(",") if name in several else [text]:
                sent.add(f"a.{name}", word)
        for name in held.assumed:
            sent.add(f"a.{name}.assumed", "yes")
        assert read(KINDS[spec.kind], sent).spec == spec


def test_edit(client: BenchClient) -> None:
    """What is changed is kept, what is emptied is unknown, and the assumed can be confirmed."""
    number = added(client, "seatpost", **POST, inspected="yes")
    client.shop.told("part", "edit", number, "length_mm=300 (assumed)", "material=steel (assumed)")
    form = client.read(f"/stock/parts/{number}/edit")
    assert 'name="a.length_mm.assumed" value="yes" checked' in form
    sent = {
        "a.diameter_mm": "27.2",
        "a.length_mm": "300",
        "a.material": "steel",
        "a.material.assumed": "yes",
        "grade": "fair",
        "condition": "sound",
        "value": "7",
        "note": "polished",
    }
    assert client.post(f"/stock/parts/{number}/edit", data=sent).status_code == 302
    place = client.shop.asked("part", "show", number)["places"][0]
    assert place["attributes"] == {"diameter_mm": 27.2, "length_mm": 300, "material": "steel"}
    assert place["assumed"] == ["material"]
    assert (place["grade"], place["value"], place["note"]) == ("fair", "7.00", "polished")


def test_a_reading_sets_the_grade(client: BenchClient) -> None:
    """A reading past its limit makes the grade what the limits leave, and the page says why.

    Source of the limit: citycyclingtips.com/?p=748.
    """
    number = added(client, "chain", **{"a.speeds": "11", "grade": "good", "bin": "C1"})
    sent = {"a.speeds": "11", "a.wear_percent": "0.6", "grade": "good"}
    page = client.post(f"/stock/parts/{number}/edit", data=sent, follow_redirects=True).get_data(
        as_text=True
    )
    assert "limit 0.5%" in page
    assert client.shop.asked("part", "show", number)["places"][0]["grade"] != "good"


@pytest.mark.parametrize(
    "sent", [{"value": "much"}, {"grade": "superb"}, {"condition": "tired"}, {"a.speeds": "x"}]
)
def test_a_faulty_edit_changes_nothing(
    client: BenchClient, snapshot: Callable[[Shop], str], sent: dict[str, str]
) -> None:
    """An edit with a fault is shown again with the fault at its field."""
    before = snapshot(client.shop)
    answer = client.post("/stock/parts/20000140/edit", data=sent)
    assert answer.status_code == 422
    name = next(iter(sent)).removeprefix("a.")
    assert f'id="fault-{name}"' in answer.get_data(as_text=True)
    assert snapshot(client.shop) == before


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("27.18", {"shown": "27.18 mm (taken for 27.2 mm)"}),
        ("27.1", {"shown": "27.1 mm (taken for 27 or 27.2 mm)"}),
        ("27,2 mm", {"shown": "27.2 mm"}),
        ("", {"shown": ""}),
        ("thick", {"fault": "'thick' is not a length; type it like 27.2 or 1 1/8 in"}),
    ],
)
def test_a_reading_is_told_at_once(client: BenchClient, value: str, told: dict[str, str]) -> None:
    """While it is typed, a reading is answered by the size that it is taken for, or its fault."""
    answer = client.get(f"/stock/add/seatpost/reading?name=diameter_mm&value={value}")
    found = answer.get_json()
    assert set(found) == set(told)
    if "shown" in told:
        assert found == told


def test_added_in_a_browser(tab: Page, served: Served) -> None:
    """A part is added with thumb and keyboard: kind, reading, bin, and its page opens."""
    tab.goto("/stock/add/")
    tab.get_by_role("link", name="seatpost", exact=False).first.click()
    reading = tab.get_by_label("diameter, mm")
    reading.fill("27.18")
    expect(tab.locator('[data-name="diameter_mm"] .taken')).to_have_text(
        "27.18 mm (taken for 27.2 mm)"
    )
    reading.fill("thick")
    expect(tab.locator('[data-name="diameter_mm"].wrong')).to_be_visible()
    reading.fill("27.2")
    tab.get_by_label("bin", exact=True).fill("D1")
    tab.get_by_label("inspected, and sound").check()
    tab.get_by_role("button", name="Add it").click()
    expect(tab.locator("h1")).to_have_text("seatpost, diameter 27.2 mm")
    assert "bin D1" in served.shop.told("find", "seatpost", "diameter=27.2")
