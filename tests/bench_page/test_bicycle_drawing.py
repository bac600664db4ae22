"""The drawing of a bicycle: its geometry, every slot, whatever is recorded."""

from __future__ import annotations

import re
from math import atan2, cos, degrees, hypot, radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partsbin.bench.drawing.bicycle import picture
from partsbin.bench.drawing.lengths import LIMITS, USUAL, Lengths, lengths_of, places_of
from partsbin.kinds.slots import SLOTS
from partsbin.kinds.spec import Spec

NUMBERS = re.compile(r"-?\d+")


@pytest.mark.parametrize("style", ["", *USUAL])
def test_geometry(style: str) -> None:
    """Both wheels stand on the floor, and lengths and angles are those that were asked for.

    Source: the trade's plain geometry; level top tube, chainstay, fork and rake by Pythagoras.
    """
    lengths = USUAL.get(style, Lengths())
    at = places_of(lengths)
    assert at.rear.y == at.front.y == pytest.approx(-(lengths.bsd / 2 + lengths.tyre))
    stay = hypot(at.bottom.x - at.rear.x, at.bottom.y - at.rear.y)
    assert stay == pytest.approx(lengths.chainstay)
    assert at.bottom.y - at.rear.y == pytest.approx(lengths.drop)
    fork = hypot(at.crown.x - at.front.x, at.crown.y - at.front.y)
    assert fork == pytest.approx(lengths.fork)
    leaning = degrees(atan2(at.head_low.y - at.head_top.y, at.head_low.x - at.head_top.x))
    assert leaning == pytest.approx(lengths.head_angle)
    up, lean = radians(lengths.seat_angle), radians(lengths.head_angle)
    # The top tube meets the head tube 26 mm below its end.
    level, on_head = at.head_top.y + 26 * sin(lean), at.head_top.x + 26 * cos(lean)
    on_seat = at.bottom.x - (at.bottom.y - level) / tan(up)
    assert on_head - on_seat == pytest.approx(lengths.top_tube)


def test_what_is_recorded_is_drawn() -> None:
    """Recorded lengths, wheel, tyre and teeth go before the usual ones; wild ones are held in."""
    on_bike = {
        "frame": Spec.check("frame", {"style": "mtb", "seat_tube_length_mm": 430}),
        "rear wheel": Spec.check("wheel", {"bsd_mm": 559}),
        "rear tyre": Spec.check("tyre", {"width_mm": 57}),
        "chainset": Spec.check("chainset", {"rings": [22, 32, 44]}),
        "stem": Spec.check("stem", {"length_mm": 10}),
    }
    lengths = lengths_of(on_bike)
    assert (lengths.seat_tube, lengths.bsd, lengths.tyre) == (430, 559, 57)
    assert lengths.ring == pytest.approx(44 * 12.7 / (2 * 3.1416))
    assert lengths.stem == LIMITS["stem"][0]
    assert lengths.fork == USUAL["mtb"].fork


@pytest.mark.parametrize("style", list(USUAL))
def test_every_slot_has_a_shape(style: str) -> None:
    """Each slot is drawn once, inside the window; rotors only where one is."""
    bare = picture({}, style)
    discs = {f"{end} rotor": Spec("rotor") for end in ("front", "rear")}
    full = picture(discs, style)
    names = [shape.slot for shape in full.shapes]
    assert sorted(names) == sorted(slot.name for slot in SLOTS)
    assert {*names} - {shape.slot for shape in bare.shapes} == set(discs)
    left, top, wide, high = full.window
    for shape in full.shapes:
        assert shape.outlines
        assert left <= shape.mark.x <= left + wide
        assert top <= shape.mark.y <= top + high


STYLES = st.sampled_from(["road", "mtb", "folding", "kids", "bmx", "touring", "city", "hybrid"])


@given(
    style=STYLES,
    seat_tube=st.integers(100, 750),
    width=st.integers(18, 120),
    bar=st.sampled_from(["flat", "riser", "swept", "drop", "bullhorn"]),
    kind=st.sampled_from(["rim_brake", "disc_calliper"]),
)
def test_any_bike_can_be_drawn(style: str, seat_tube: int, width: int, bar: str, kind: str) -> None:
    """Whatever lengths are recorded, the outlines are plain numbers and lie in the window."""
    on_bike = {
        "frame": Spec.check("frame", {"style": style, "seat_tube_length_mm": seat_tube}),
        "rear tyre": Spec.check("tyre", {"width_mm": width}),
        "handlebar": Spec.check("handlebar", {"style": bar}),
        "front brake": Spec(kind),
    }
    drawn = picture(on_bike)
    left, top, wide, high = drawn.window
    for shape in drawn.shapes:
        for outline in shape.outlines:
            assert re.fullmatch(r"[MLAZ0-9 -]+", outline)
            for point in re.findall(r"[ML](-?\d+) (-?\d+)", outline):
                x, y = map(int, point)
                assert left <= x <= left + wide
                assert top <= y <= top + high
