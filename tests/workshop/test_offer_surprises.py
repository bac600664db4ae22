from __future__ import annotations

from pathlib import Path

import pytest
from scipy import stats

from partsbin.stock.database import open_database
from partsbin.workshop.surprise_record import Record, Seen, surprise_record
from tests.conftest import Shop
from tests.workshop.offer_shops import LIKE, SADDLE, bike, build

pytestmark = pytest.mark.every_database


def record(shop: Shop, style: str = "mtb") -> Record:
    """Return the record of a style."""
    with open_database(shop.address, "tester") as database, database.reading() as session:
        return surprise_record(session, style)


def made(shop: Shop, folder: Path, condition: str = "sound") -> Shop:
    """Add to the demo a spare saddle and Ash with a sound one, or Birch with a dead one."""
    name = {"sound": "Ash", "dead": "Birch"}[condition]
    bikes = [{"name": name, "style": "mtb", "state": "bought", "price": "9.00"}]
    parts = [{"kind": "saddle", "attributes": "rails=round-7", "value": "1.00", "note": "spare"}]
    return build(shop, folder, parts=parts, mounted=bike(name, condition), bikes=bikes)


def spare(shop: Shop) -> str:
    """Return the number of the spare saddle."""
    found = shop.asked("find", "spare", "kind=saddle")["parts"]
    return str(next(part["number"] for part in found if part["place"].startswith("bin")))


def replace_saddle(shop: Shop, name: str) -> None:
    """Take the saddle off a bike and put the spare one on."""
    number = spare(shop)
    shop.told("unmount", name, "saddle", "Z9")
    shop.told("mount", number, name, "saddle", "--anyway")


def test_a_sound_part_that_was_replaced_is_a_surprise(shop: Shop, tmp_path: Path) -> None:
    """Of a finished bike the saddle surprised and the post did not; before it is done none counts.

    The chance is then SciPy's beta-binomial of one trial after one surprise in one bike.
    """
    made(shop, tmp_path / "more")
    replace_saddle(shop, "Ash")
    assert record(shop).bikes == 0
    shop.told("keep", "Ash")

    found = record(shop)

    assert found.bikes == 1
    assert found.slots == {"frame": Seen(0, 1), "seatpost": Seen(0, 1), "saddle": Seen(1, 1)}
    told = shop.asked("offer", *LIKE, "--expect", "100")["surprises"]
    chances = {slot["slot"]: slot["chance"] for slot in told["slots"]}
    for slot, seen in {"saddle": 1, "seatpost": 0, "chain": None}.items():
        a, b = (1, 9) if seen is None else (1 + seen, 9 + 1 - seen)
        assert chances[slot] == pytest.approx(stats.betabinom.pmf(1, 1, a, b), abs=1e-4)
    assert (told["style"], told["finished_bikes"], told["prior"]) == ("mtb", 1, ["1", "9"])


def test_a_need_seen_when_bought_is_none(shop: Shop, tmp_path: Path) -> None:
    """A saddle that was dead when the bike came, and an empty slot, were seen."""
    made(shop, tmp_path / "more", "dead")
    replace_saddle(shop, "Birch")
    shop.told("keep", "Birch")
    assert record(shop).slots == {"frame": Seen(0, 1), "seatpost": Seen(0, 1)}


def test_what_was_called_dead_later_is_a_surprise(shop: Shop, tmp_path: Path) -> None:
    """A saddle taken for sound and found dead afterwards was not seen when bought."""
    made(shop, tmp_path / "more")
    on_bike = shop.asked("bike", "show", "Ash")["parts"]
    number = next(part["number"] for part in on_bike if part["slot"] == "saddle")
    shop.told("part", "edit", number, "--condition", "dead")
    replace_saddle(shop, "Ash")
    shop.told("keep", "Ash")
    assert record(shop).slots["saddle"] == Seen(1, 1)


def test_what_was_undone_is_none(shop: Shop, tmp_path: Path) -> None:
    """A part that was put on by mistake and taken back does not count."""
    made(shop, tmp_path / "more")
    replace_saddle(shop, "Ash")
    shop.told("undo")
    shop.told("undo")
    shop.told("keep", "Ash")
    assert record(shop).slots["saddle"] == Seen(0, 1)


def test_another_style_has_its_own_record(shop: Shop, tmp_path: Path) -> None:
    """What mountain bikes hide says nothing of road bikes."""
    made(shop, tmp_path / "more")
    shop.told("keep", "Ash")
    assert record(shop, "MTB").bikes == 1
    assert record(shop, "road") == Record("road", 0, {})
    assert SADDLE["kind"] not in record(shop, "road").slots
