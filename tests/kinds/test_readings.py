"""What people type and files hold, the value that it becomes, and the size it is taken for."""

from __future__ import annotations

import pytest

from partsbin.kinds import KINDS
from partsbin.kinds.attribute import UndecidedError
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec, SpecError
from partsbin.kinds.typed import read_length
from partsbin.standards.length import mm

# An inch is 25.4 mm.
LENGTHS = [
    ("27.2", 27_200),
    ("27,2 mm", 27_200),
    (" 27.2MM ", 27_200),
    ("2.72 cm", 27_200),
    ("1.5 m", 1_500_000),
    ("1 1/8 in", 28_575),
    ("1-1/8", 28_575),
    ('1 1/8"', 28_575),
    ("9/16", 14_288),
    ("1/2 in", 12_700),
    ("1.375 in", 34_925),
    ("-5", -5_000),
]


@pytest.mark.parametrize(("typed", "wanted"), LENGTHS, ids=[typed for typed, _ in LENGTHS])
def test_length_as_typed(typed: str, wanted: int) -> None:
    """A length is read with point or comma, unit or none, and as a fraction of an inch."""
    assert read_length(typed) == wanted


@pytest.mark.parametrize("typed", ["", "about 27", "27.2 ft", "1/0", "26x1.75", "27.2.3", "mm"])
def test_what_is_no_length(typed: str) -> None:
    """What is no length is refused with a sentence that quotes it."""
    with pytest.raises(ValueError, match=r"is not a length|unknown unit|divides by zero"):
        read_length(typed)


@pytest.mark.parametrize("marking", ["26x1.75", "37-622", "700x28C", "28 x 1 5/8 x 1 3/8", "26"])
def test_tyre_marking_stays_as_printed(marking: str) -> None:
    """A tyre's marking is text, however much it looks like a number."""
    assert Spec.read("tyre", {"marking": marking}).get("marking") == marking


# kind, attribute, millimetres in a file, the sizes or words that it may be.
# Sources: the size tables in partsbin/standards name theirs; the rule of half the gap and 0.05 mm
# to the midpoint is checked on 27.0 27.2 27.4.
TAKEN_FOR = [
    ("seatpost", "diameter_mm", 27.18, "27.2"),
    ("seatpost", "diameter_mm", 27.10, "27.0 27.2"),
    ("seatpost", "diameter_mm", 27.14, "27.0 27.2"),
    ("seatpost", "diameter_mm", 27.15, "27.2"),
    ("seatpost", "diameter_mm", 27.05, "27.0"),
    ("seatpost", "diameter_mm", 27.06, "27.0 27.2"),
    ("seatpost", "diameter_mm", 30.85, "30.8 30.9"),
    ("seatpost", "diameter_mm", 36, "36"),
    ("frame", "seat_tube_bore_mm", 26.79, "26.8"),
    ("handlebar", "grip_mm", 24.0, "23.8"),
    ("handlebar", "grip_mm", 23.95, "23.8"),
    ("handlebar", "grip_mm", 22.18, "22.2"),
    ("handlebar", "clamp_mm", 31.7, "31.8"),
    ("handlebar", "clamp_mm", 31.75, "31.8"),
    ("handlebar", "clamp_mm", 25.6, "25.4 25.8"),
    ("brake_lever", "bar_mm", 24, "23.8"),
    ("stem", "quill_mm", 22.1, "22.0 22.2"),
    ("stem", "quill_mm", 21.84, "22.0"),
    ("stem", "quill_mm", 21.15, "21.1"),
    ("fork", "crown_race_mm", 40, "39.8"),
    ("front_derailleur", "clamp_mm", 35, "34.9"),
    ("seat_clamp", "diameter_mm", 32, "31.8"),
    ("wheel", "spacing_mm", 134.6, "135"),
    ("wheel", "spacing_mm", 132.5, "130 135"),
    ("wheel", "bsd_mm", 621, "622"),
    ("rotor", "diameter_mm", 203, "203"),
    ("rotor", "diameter_mm", 201.5, "200 203"),
    ("wheel", "valve_hole_mm", 8.3, "8.5"),
    ("wheel", "valve_hole_mm", 6.2, "6.5"),
    ("chainset", "bcd_mm", 129.6, "130"),
    # bike.bikegremlin.com/1402: levers of 7 and 8 mm are one family, 15 mm the other
    ("brake_lever", "brake_pull", 6, "short"),
    ("brake_lever", "brake_pull", 7, "short"),
    ("brake_lever", "brake_pull", 7.5, "short"),
    ("brake_lever", "brake_pull", 9, "short"),
    ("brake_lever", "brake_pull", 11, "short long"),
    ("brake_lever", "brake_pull", 13.5, "long"),
    ("rim_brake", "brake_pull", 15, "long"),
    ("disc_calliper", "brake_pull", 16.5, "long"),
    # accidentalrandonneur.wordpress.com bb92; skatepro BMX; moultoneer.wordpress.com 2022/03/17
    ("chainset", "spindle", 24, "integrated-24 integrated-24-22"),
    ("chainset", "spindle", 30, "integrated-30"),
    ("chainset", "spindle", 28.99, "integrated-28.99"),
    ("bottom_bracket", "spindle", 19, "bmx-19"),
    ("bottom_bracket", "spindle", 22, "splined-8x22-short splined-8x22-long bmx-22"),
    ("bottom_bracket", "spindle", 12.7, "taper-jis"),
    # en.wikipedia.org Dunlop_valve
    ("tube", "valve", 6, "presta"),
    ("tube", "valve", 5.92, "presta"),
    ("pump_head", "valve", 8, "schrader dunlop"),
    ("tube", "valve", 7.83, "schrader dunlop"),
    # dansbikestuff.blogspot.com 2013/11
    ("frame", "bb_shell", 34.8, "english-1.370x24"),
    ("frame", "bb_shell", 35, "french-35x1 swiss-35x1"),
    ("frame", "bb_shell", 36, "italian-36x24"),
    ("frame", "bb_shell", 41, "pf41 mid-41"),
    ("frame", "bb_shell", 41.96, "pf42"),
    ("bottom_bracket", "shell", 46, "pf46"),
    ("bottom_bracket", "shell", 51, "onepiece-51"),
    # charigaku.com/16/2183; koovacomponents.com
    ("wheel", "driver", 35, "one-wide-spline-35"),
    ("hub", "driver", 36.8, "one-wide-spline-36.8"),
    ("hub", "driver", 36.85, "one-wide-spline-36.8"),
    ("rotor", "rotor_mount", 44, "six-bolt-44"),
    ("disc_calliper", "mount", 74.2, "post-74"),
    ("brake_adapter", "from_mount", 51, "is-51"),
    # lfgss.com/comments/8473736; smontanaro.net/CR/2003/05/0420
    ("pedals", "pedal_thread", 14.3, "9/16x20"),
    ("chainset", "pedal_thread", 12.7, "1/2x20"),
    ("pedals", "pedal_thread", 14, "14x1.25"),
    # sheldonbrown.com/freewheels.html
    ("freewheel", "thread", 34.92, "iso-1.375x24"),
    ("freewheel", "thread", 34.80, "british-1.370x24"),
    ("freewheel", "thread", 35, "italian-35x24tpi"),
    ("freewheel", "thread", 34.7, "french-34.7x1"),
    ("freewheel", "thread", 30, "bmx-30x1"),
    ("freewheel", "thread", 34.88, "british-1.370x24 iso-1.375x24"),
    ("frame", "fd_mount", 42.7, "direct-42.7"),
    ("saddle", "rails", 7.1, "round-7"),
    ("fork", "axle", 15, "thru-15"),
    ("fork", "axle", 9, "qr nutted"),
    ("sprocket", "width_in", 3.1, "1/8"),
]


@pytest.mark.parametrize(
    ("kind", "name", "reading", "wanted"),
    TAKEN_FOR,
    ids=[f"{kind}.{name} {reading}" for kind, name, reading, _ in TAKEN_FOR],
)
def test_reading_is_taken_for(kind: str, name: str, reading: float, wanted: str) -> None:
    """A reading is taken for one listed size or word; between two it stays open for both."""
    piece = Spec.check(kind, {name: reading}).piece
    form = KINDS[kind].attributes[name].form
    means = [mm(w) if isinstance(form, LengthForm) else w for w in wanted.split()]

    assert [*piece.open_values.get(name, ())] == (means if len(means) > 1 else [])
    if len(means) == 1:
        assert getattr(piece, name) == means[0]
    else:
        with pytest.raises(UndecidedError, match=f"{name} of {kind}"):
            getattr(piece, name)


def test_typed_size_of_a_word() -> None:
    """A person too may type the size where a word is wanted."""
    assert Spec.read("tube", {"valve": "6 mm"}).get("valve") == "presta"
    assert Spec.read("pedals", {"pedal_thread": "9/16"}).get("pedal_thread") == "9/16x20"


def test_open_reading_is_shown_with_what_it_may_be() -> None:
    """A reading is shown together with the size that it was taken for, or both."""
    assert Spec.check("seatpost", {"diameter_mm": 27.18}).shown() == {
        "diameter_mm": "27.18 mm (taken for 27.2 mm)"
    }
    assert Spec.check("seatpost", {"diameter_mm": 27.1}).shown() == {
        "diameter_mm": "27.1 mm (taken for 27 or 27.2 mm)"
    }
    assert Spec.check("tube", {"valve": 8}).shown() == {"valve": "8 mm (schrader or dunlop)"}


# kind, attribute, as typed, canonical word
SPELLINGS = [
    ("rim_brake", "type", "V-Brake", "linear-pull"),
    ("rim_brake", "type", "linear pull", "linear-pull"),
    ("rim_brake", "type", "center-pull", "centre-pull"),
    ("frame", "material", "Aluminum", "aluminium"),
    ("shifter", "side", "right", "rear"),
    ("combined_lever", "side", "left", "front"),
    ("brake_lever", "fluid", "DOT 4", "dot"),
    ("brake_fluid", "fluid", "DOT 5.1", "dot-5.1"),
    ("frame", "head_tube_upper", "ec34", "EC34"),
    ("frame", "head_tube_upper", "EC 30.2-ISO", "EC30.2-iso"),
    ("frame", "head_tube_lower", "zs56/40", "ZS56/40"),
    ("headset", "upper", "ec34/28.6", "EC34/28.6"),
    ("fork", "thread", "M25 x 1", "m25x1"),
    ("axle", "thread", "M12x1.75", "m12x1.75"),
    ("axle", "thread", "3/8 x 26", "3/8x26"),
    ("axle_nut", "thread", "M12x1", "m12x1.0"),
    ("axle_nut", "thread", "M10 x 1", "10x1"),
    ("frame", "bottle_bosses", "Yes", "yes"),
]


@pytest.mark.parametrize(
    ("kind", "name", "typed", "wanted"), SPELLINGS, ids=[f"{s[1]} {s[2]}" for s in SPELLINGS]
)
def test_other_spellings(kind: str, name: str, typed: str, wanted: str) -> None:
    """Other usual spellings of a word become the one that is kept."""
    assert Spec.read(kind, {name: typed}).get(name) == wanted
    assert Spec.check(kind, {name: typed}).get(name) == wanted


LISTS = [
    ("cassette", "cogs", "11-13-15", (11, 13, 15)),
    ("chainset", "rings", "44, 32, 22", (22, 32, 44)),
    ("frame", "brake_mounts", "is-51, canti-boss", ("canti-boss", "is-51")),
    ("frame", "brake_mounts", "Caliper-Hole", ("calliper-hole",)),
    ("fork", "brake_mounts", "none", ()),
]


@pytest.mark.parametrize(
    ("kind", "name", "typed", "wanted"), LISTS, ids=[f"{row[1]} {row[2]}" for row in LISTS]
)
def test_lists_as_typed(kind: str, name: str, typed: str, wanted: tuple[object, ...]) -> None:
    """Several values are typed with commas, spaces or hyphens and kept in a fixed order."""
    spec = Spec.read(kind, {name: typed})

    assert spec.get(name) == wanted
    assert Spec.check(kind, spec.plain()) == spec


KIND_NAMES = [
    ("disc_caliper", "disc_calliper"),
    ("Rear Derailleur", "rear_derailleur"),
    ("rear-derailleur", "rear_derailleur"),
    ("tire", "tyre"),
    ("crankset", "chainset"),
    ("inner tube", "tube"),
]


@pytest.mark.parametrize(("typed", "wanted"), KIND_NAMES)
def test_kind_as_typed(typed: str, wanted: str) -> None:
    """A kind is found under its other usual names too."""
    assert Spec.check(typed, {}).kind == wanted


# kind, attributes of a file, the whole message
FAULTS: list[tuple[str, dict[str, object], str]] = [
    ("seatpots", {}, "unknown kind 'seatpots'; did you mean 'seatpost'?"),
    ("zzz", {}, "unknown kind 'zzz'"),
    (
        "seatpost",
        {"diametr_mm": 27.2},
        "seatpost: diametr_mm: unknown attribute; did you mean 'diameter_mm'?",
    ),
    (
        "seatpost",
        {"diameter_mm": 272},
        "seatpost: diameter_mm: 272 is not a length from 20 to 36 mm",
    ),
    (
        "seatpost",
        {"diameter_mm": "27.2"},
        "seatpost: diameter_mm: '27.2' is not a length from 20 to 36 mm",
    ),
    (
        "seatpost",
        {"diameter_mm": True},
        "seatpost: diameter_mm: True is not a length from 20 to 36 mm",
    ),
    (
        "seatpost",
        {"diameter_mm": float("nan")},
        "seatpost: diameter_mm: nan is not a length from 20 to 36 mm",
    ),
    (
        "seatpost",
        {"diameter_mm": 1e300},
        "seatpost: diameter_mm: 1e+300 is not a length from 20 to 36 mm",
    ),
    (
        "rim_brake",
        {"brake_pull": "lnog"},
        "rim_brake: brake_pull: 'lnog' is not one of long, short; did you mean 'long'?",
    ),
    (
        "rim_brake",
        {"brake_pull": 40},
        "rim_brake: brake_pull: 40 mm is not a size of one of long, short",
    ),
    (
        "tube",
        {"valve": ["presta"]},
        "tube: valve: ['presta'] is not one of schrader, presta, dunlop",
    ),
    (
        "handlebar",
        {"style": 5},
        "handlebar: style: 5 is not one of flat, riser, swept, drop, bullhorn",
    ),
    (
        "frame",
        {"brake_mounts": ["post74"]},
        (
            "frame: brake_mounts: 'post74' is not one of canti-boss, u-brake-boss, calliper-hole, "
            "calliper-recessed, is-51, post-74, post-68, flat-34; did you mean 'post-74'?"
        ),
    ),
    (
        "chain",
        {"speeds": 9.5},
        "chain: speeds: 9.5 is not a whole number from 1 to 14",
    ),
    (
        "cassette",
        {"cogs": [11, 130]},
        (
            "cassette: cogs: 130 is not a whole number from 8 to 60; "
            "wanted is a list of whole numbers from 8 to 60"
        ),
    ),
    (
        "rear_derailleur",
        {"ratio": 17},
        "rear_derailleur: ratio: 17 is not a number from 0.7 to 3",
    ),
    ("bell", {"not a name": 1}, "bell: not a name: unknown attribute"),
]


@pytest.mark.parametrize(
    ("kind", "held", "message"), FAULTS, ids=[f"{kind} {held}" for kind, held, _ in FAULTS]
)
def test_fault_says_where_and_what_is_allowed(
    kind: str, held: dict[str, object], message: str
) -> None:
    """A wrong word, type or range names kind and attribute, what is allowed and the nearest."""
    with pytest.raises(SpecError) as fault:
        Spec.check(kind, held)

    assert str(fault.value) == message


def test_wrong_code_offers_the_nearest() -> None:
    """A headset code of no known shape is refused, and the nearest usual one offered."""
    with pytest.raises(SpecError, match=r"'ZX44' is not a headset code .*; did you mean 'ZS44'\?"):
        Spec.check("frame", {"head_tube_upper": "ZX44"})


def test_attribute_has_one_name() -> None:
    """An attribute that two kinds share under different names is refused, not renamed."""
    shared = KINDS["seatpost"].attributes["length_mm"]

    with pytest.raises(TypeError, match="cannot be both length_mm and height_mm"):
        shared.__set_name__(Kind, "height_mm")
