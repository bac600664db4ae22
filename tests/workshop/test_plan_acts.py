from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from labels.number import grouped
from tests.conftest import Shop

BINS = [{"name": "A1"}]
FRAME = "style=hybrid; wheel_bsd_mm=622; seat_tube_bore_mm=27.2; seat_tube_od_mm=28.6"
SHIFTER = "side=rear; mount=bar-clamp; bar_mm=22.2; friction=no; speeds={}; index_family=ratio-1.7"

Rows = list[dict[str, str]]
Built = Callable[..., Shop]


def write(path: Path, rows: Rows) -> None:
    """Write rows as a CSV file with all their columns."""
    heads = list(dict.fromkeys(name for row in rows for name in row))
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, heads)
        writer.writeheader()
        writer.writerows(rows)


@pytest.fixture
def built(tmp_path: Path, empty_shop: Shop) -> Built:
    """Return a function that makes a workshop of parts in bin A1, bikes and prices."""

    def make(parts: Rows, mounted: Rows, prices: Rows = []) -> Shop:  # noqa: B006 - only read
        folder = tmp_path / "shop"
        folder.mkdir()
        write(folder / "bins.csv", BINS)
        if parts:
            write(folder / "parts.csv", [{"bin": "A1", **row} for row in parts])
        bikes = dict.fromkeys(row["bike"] for row in mounted)
        write(folder / "bikes.csv", [{"name": name, "state": "in work"} for name in bikes])
        write(folder / "mounted.csv", mounted)
        empty_shop.told("import", str(folder))
        if prices:
            write(tmp_path / "prices.csv", prices)
            empty_shop.told("prices", "import", str(tmp_path / "prices.csv"))
        return empty_shop

    return make


def seat(bike: str) -> Rows:
    """Return a frame with a good post and a dead saddle."""
    return [
        {"bike": bike, "slot": "frame", "kind": "frame", "attributes": FRAME},
        {
            "bike": bike,
            "slot": "seatpost",
            "kind": "seatpost",
            "attributes": "diameter_mm=27.2; rails=round-7; length_mm=300",
        },
        {
            "bike": bike,
            "slot": "saddle",
            "kind": "saddle",
            "condition": "dead",
            "attributes": "rails=round-7",
        },
    ]


def saddle(value: str, **more: str) -> dict[str, str]:
    """Return a saddle on round rails."""
    return {"kind": "saddle", "attributes": "rails=round-7", "value": value, **more}


def in_bins(shop: Shop, *words: str) -> Any:
    """Return the parts in bins that a search finds."""
    found = shop.asked("find", *words)["parts"]
    return [part for part in found if part["place"].startswith("bin")]


def of_slot(told: Any, what: str, slot: str, bike: int = 0) -> Any:
    """Return the line of a plan for a slot, None if there is none."""
    return next((one for one in told["bikes"][bike][what] if one["slot"] == slot), None)


def test_the_last_part_goes_to_one_bike_and_the_other_buys(built: Built) -> None:
    """Two bikes want the last saddle: one takes it, the other buys, and both are told why."""
    shop = built(
        [saddle("4.00")],
        [*seat("Ash"), *seat("Birch")],
        [{"kind": "saddle", "attributes": "rails=round-7", "price": "12.00", "lead days": "2"}],
    )

    told = shop.asked("plan", "--all")

    assert told["proven"] is True
    assert told["money"] == "12.00"
    got = [[line["slot"] for line in bike["take"]] for bike in told["bikes"]]
    bought = [[line["slot"] for line in bike["buy"]] for bike in told["bikes"]]
    assert sorted(got) == [[], ["saddle"]]
    assert sorted(bought) == [[], ["saddle"]]
    buyer = next(bike for bike in told["bikes"] if bike["buy"])
    taker = next(bike for bike in told["bikes"] if bike["take"])
    assert buyer["buy"][0]["price"] == "12.00"
    assert buyer["buy"][0]["lead_days"] == 2
    assert buyer["buy"][0]["ranges"] == {"rails": "round-7"}
    assert buyer["buy"][0]["instead"].endswith(f"{taker['bike']} gets it")


def test_least_value_then_the_oldest_is_used(built: Built) -> None:
    """Of parts that do, the one of least value is taken, and of equal ones the oldest."""
    shop = built([saddle("6.00"), saddle("4.00", note="older"), saddle("4.00")], seat("Ash"))
    parts = {part["note"]: part["number"] for part in in_bins(shop, "saddle")}

    told = shop.asked("plan", "Ash")

    assert of_slot(told, "take", "saddle")["number"] == parts["older"]


@pytest.mark.parametrize("grade", ["unsafe", "core"])
def test_what_is_unfit_never_appears(built: Built, grade: str) -> None:
    """Parts that are unsafe or kept for their pieces are not planned: the need stays open."""
    shop = built([saddle("4.00", grade=grade)], seat("Ash"))

    told = shop.asked("plan", "Ash")

    assert told["bikes"][0]["take"] == []
    assert of_slot(told, "open", "saddle")["none"] is True


def test_a_part_in_quarantine_never_appears(built: Built) -> None:
    """What waits for its inspection is not planned."""
    shop = built([], seat("Ash"))
    added = shop.asked("part", "add", "saddle", "rails=round-7", "--bin", "A1")

    assert added["to"] == "quarantine"
    assert shop.asked("plan", "Ash")["bikes"][0]["take"] == []


def test_an_open_need_tells_what_to_buy(built: Built) -> None:
    """A need with neither stock nor price is shown with the specification of the part."""
    shop = built([], seat("Ash"))

    found = of_slot(shop.asked("plan", "Ash"), "open", "saddle")

    assert found["why"] == "dead"
    assert found["buy"] == {"kind": "saddle", "attributes": {"rails": "round-7"}}


def test_a_need_that_nothing_could_meet_is_counted(built: Built) -> None:
    """Needs with neither stock nor price count among those left open, and that is proven."""
    told = built([], seat("Ash")).asked("plan", "Ash")

    (unmet,) = [one for one in told["objectives"] if one["objective"] == "unmet"]
    left_open = told["bikes"][0]["open"]
    assert of_slot(told, "open", "saddle")["none"] is True
    assert unmet["value"] == unmet["bound"] == str(len(left_open))
    assert told["proven"] is True


def test_an_impossible_need_tells_the_least_conflict(built: Built) -> None:
    """The interface that excludes all that is there is named, and no other."""
    shop = built(
        [{"kind": "saddle", "attributes": "rails=oval-7x9"}],
        seat("Ash"),
    )

    found = of_slot(shop.asked("plan", "Ash", "--keep", "seatpost"), "open", "saddle")

    assert found["none"] is False
    assert [(one["interface"], sorted(one["places"])) for one in found["conflicts"]] == [
        ("saddle on seatpost", ["saddle", "seatpost"])
    ]


def gears(bike: str) -> Rows:
    """Return a bike whose 8-speed shifter is dead, with derailleur and cassette that work."""
    parts = {
        "frame": ("frame", FRAME),
        "handlebar": ("handlebar", "style=flat; clamp_mm=25.4; grip_mm=22.2"),
        "rear shifter": ("shifter", SHIFTER.format(8)),
        "rear derailleur": (
            "rear_derailleur",
            "index_family=ratio-1.7; speeds=8; max_cog=34; capacity_teeth=43; mount=hanger",
        ),
        "sprockets": (
            "cassette",
            "speeds=8; spacing=standard; spline=one-wide-spline-35; cogs=11-13-15-17-20-23-26-30",
        ),
    }
    return [
        {
            "bike": bike,
            "slot": slot,
            "kind": kind,
            "attributes": attributes,
            "condition": "dead" if slot == "rear shifter" else "sound",
        }
        for slot, (kind, attributes) in parts.items()
    ]


OTHER = [
    {"kind": "shifter", "attributes": SHIFTER.format(8).replace("1.7", "1.1"), "value": "5.00"},
    {
        "kind": "rear_derailleur",
        "attributes": "index_family=ratio-1.1; speeds=8; max_cog=34; capacity_teeth=43",
        "value": "6.00",
    },
]
NEW_SHIFTER = {"kind": "shifter", "attributes": SHIFTER.format(8), "price": "16.00"}


def test_a_dead_shifter_is_answered_by_shifter_and_derailleur(built: Built) -> None:
    """A working derailleur is replaced with the shifter where that saves buying a shifter."""
    shop = built(OTHER, gears("Ash"), [NEW_SHIFTER])

    told = shop.asked("plan", "Ash")

    assert told["money"] == "0.00"
    assert of_slot(told, "take", "rear shifter")
    assert of_slot(told, "take", "rear derailleur")["replaced_works"] is True


def test_keep_leaves_a_working_part_alone(built: Built) -> None:
    """With `--keep` the derailleur stays, and the shifter that goes with it is bought."""
    shop = built(OTHER, gears("Ash"), [NEW_SHIFTER])

    told = shop.asked("plan", "Ash", "--keep", "rear derailleur")

    assert told["money"] == "16.00"
    assert of_slot(told, "take", "rear derailleur") is None
    assert of_slot(told, "buy", "rear shifter")["price"] == "16.00"
    assert "ratio-1.1" in of_slot(told, "buy", "rear shifter")["instead"]


def test_what_is_to_be_measured_comes_with_the_other_plan(built: Built) -> None:
    """An unknown that decides is told with how to measure it, and what follows if it is otherwise.

    The post without known rails saves its price, if its clamp takes round rails.
    """
    mounted = seat("Ash")
    mounted[1] = {**mounted[1], "condition": "dead"}
    mounted[2] = {**mounted[2], "condition": "sound"}
    shop = built(
        [{"kind": "seatpost", "attributes": "diameter_mm=27.2; length_mm=300", "value": "3.00"}],
        mounted,
        [
            {
                "kind": "seatpost",
                "attributes": "diameter_mm=27.2; length_mm=300; rails=round-7",
                "price": "13.00",
            }
        ],
    )

    told = shop.asked("plan", "Ash", "--keep", "saddle")

    (measure,) = [m for m in told["bikes"][0]["measure"] if m["attribute"] == "rails"]
    assert measure["kind"] == "seatpost"
    assert measure["how"]
    assert measure["costs_more"] == "13.00"
    assert [swap["slot"] for swap in measure["otherwise"]] == ["seatpost"]
    assert measure["otherwise"][0]["after"].startswith("new seatpost")


def test_a_sleeve_makes_a_thinner_post_fit(built: Built) -> None:
    """A post that is too thin is taken with the sleeve that is in stock, and both are told."""
    mounted = seat("Ash")
    mounted[1] = {**mounted[1], "condition": "dead"}
    mounted[2] = {**mounted[2], "condition": "sound"}
    shop = built(
        [
            {"kind": "seatpost", "attributes": "diameter_mm=25.4; length_mm=300; rails=round-7"},
            {"kind": "seatpost_shim", "attributes": "inner_mm=25.4; outer_mm=27.2"},
        ],
        mounted,
    )

    told = shop.asked("plan", "Ash")

    kinds = {line["kind"]: line["adapter"] for line in told["bikes"][0]["take"]}
    assert kinds == {"seatpost": False, "seatpost_shim": True}


def test_what_is_laid_aside_is_for_its_bike_alone(built: Built) -> None:
    """After `--apply` no other bike is offered the part, in `plan` or `fit`, nor may mount it."""
    shop = built([saddle("4.00")], [*seat("Ash"), *seat("Birch")])
    shop.told("plan", "Ash", "--apply")
    (part,) = in_bins(shop, "saddle")

    assert shop.asked("plan", "Birch")["bikes"][0]["take"] == []
    assert shop.asked("fit", "Birch", "saddle")["suggestions"] == []
    assert of_slot(shop.asked("plan", "Ash"), "take", "saddle")["number"] == part["number"]
    shop.told("unmount", "Birch", "saddle", "A1", "--grade", "core")
    refused = shop.run("mount", part["number"], "Birch", "saddle")
    assert refused.exit_code == 1
    assert "laid aside for Ash" in refused.stderr


def test_scanning_mounts_what_was_laid_aside(built: Built) -> None:
    """A scan puts the part into the slot that was planned, and it is laid aside no more."""
    shop = built([saddle("4.00"), saddle("5.00")], [*seat("Ash"), *seat("Birch")])
    told = shop.asked("plan", "Ash", "--apply")
    number = of_slot(told, "take", "saddle")["number"]
    shop.told("unmount", "Ash", "saddle", "A1", "--grade", "core")

    result = shop.run("scan", "--keys", "--onto", "Ash", typed=f"{number}\n")

    assert result.exit_code == 0, result.output
    assert "Ash, saddle" in result.stdout
    shop.told("unmount", "Ash", "saddle", "A1")
    assert of_slot(shop.asked("plan", "Birch"), "take", "saddle")["number"] == number


def test_both_halves_of_a_swap_are_scanned_on(built: Built) -> None:
    """The planned shifter clashes with the derailleur that is still on; it is mounted anyway."""
    shop = built(OTHER, gears("Ash"), [NEW_SHIFTER])
    told = shop.asked("plan", "Ash", "--apply")
    shop.told("unmount", "Ash", "rear shifter", "A1", "--grade", "core")

    shop.told("mount", of_slot(told, "take", "rear shifter")["number"], "Ash")
    shop.told("unmount", "Ash", "rear derailleur", "A1")
    shop.told("mount", of_slot(told, "take", "rear derailleur")["number"], "Ash")

    assert shop.asked("plan", "Ash", "--keep", "sprockets")["bikes"][0]["take"] == []


def test_a_sleeve_that_was_laid_aside_goes_onto_its_bike(built: Built) -> None:
    """An adapter has no slot; scanned onto its bike it is there, and the plan has no need of it."""
    mounted = seat("Ash")
    mounted[1] = {**mounted[1], "condition": "dead"}
    mounted[2] = {**mounted[2], "condition": "sound"}
    shop = built(
        [
            {"kind": "seatpost", "attributes": "diameter_mm=25.4; length_mm=300; rails=round-7"},
            {"kind": "seatpost_shim", "attributes": "inner_mm=25.4; outer_mm=27.2"},
        ],
        mounted,
    )
    told = shop.asked("plan", "Ash", "--apply")
    shop.told("unmount", "Ash", "seatpost", "A1", "--grade", "core")

    for line in told["bikes"][0]["take"]:
        shop.told("mount", line["number"], "Ash")

    assert shop.asked("plan", "Ash")["bikes"][0]["take"] == []


def test_the_pick_list_has_a_barcode_for_each_part(shop: Shop, tmp_path: Path) -> None:
    """Read back from the page, the bars are the numbers of all parts to take, and of no others.

    The decoder is zxing-cpp.
    """
    import pypdfium2
    import zxingcpp

    file = tmp_path / "picks.pdf"
    told = shop.asked("plan", "--all", "--pick-list", str(file))
    planned = {line["number"] for bike in told["bikes"] for line in bike["take"]}

    document = pypdfium2.PdfDocument(file)
    read = set()
    text = ""
    for page in document:
        picture = page.render(scale=300 / 72).to_pil()
        read |= {found.text for found in zxingcpp.read_barcodes(picture)}
        text += page.get_textpage().get_text_range()
    document.close()

    assert read == planned
    assert all(grouped(number) in text for number in planned)


def test_with_no_time_the_gap_is_shown(shop: Shop) -> None:
    """A plan that was cut short says that it is not proven, and by how much it may be off."""
    told = shop.asked("plan", "Teasel", "--time-limit", "0.01")
    text = shop.told("plan", "Teasel", "--time-limit", "0.01")

    if not told["proven"]:
        assert any(not stage["proven"] for stage in told["objectives"])
        assert "not proven" in text


@pytest.mark.parametrize(
    ("words", "said"),
    [
        pytest.param(["plan"], "name the bikes, or give --all", id="no bike"),
        pytest.param(["plan", "Teasel", "--all"], "name the bikes, or give --all", id="both"),
        pytest.param(["plan", "Teasl"], "Teasel", id="a wrong name"),
        pytest.param(["plan", "Teasel", "--keep", "sadle"], "saddle", id="a wrong slot"),
    ],
)
def test_a_wrong_question_is_refused(shop: Shop, words: list[str], said: str) -> None:
    """What is not understood is said in one sentence."""
    refused = shop.run(*words)

    assert refused.exit_code in (1, 2)
    assert said in refused.stderr
    assert "Traceback" not in refused.output
