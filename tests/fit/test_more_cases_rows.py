"""One case for each row and each verdict that the other tables of cases do not reach."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import judged

PRACTICE = "common practice, no source"
CASES: tuple[tuple[str, str, str, str], ...] = (
    # verdict, two or three parts, source
    # axle threads: wrenchfu.com axle-nut; hotvehs.com wheel axle; modernbike.com/help-1446
    *(
        ("fits", f"axle_nut thread={thread}", f"wheel axle_thread={thread}", "wrenchfu.com")
        for thread in ("9x1", "10x1", "5/16x24", "5/16x26", "3/8x24", "3/8x26")
    ),
    *(
        ("fits", f"axle thread={thread}", f"hub axle_thread={thread}", "modernbike.com/help-1446")
        for thread in ("m12x1.0", "m12x1.5", "m12x1.75", "m14x1.5", "m15x1.5")
    ),
    ("clash", "axle thread=10x1", "hub axle_thread=3/8x26", "wrenchfu.com axle-nut"),
    # bolt circles that are listed without a smallest ring: modernbike.com/help-117
    *(
        ("clash", "chainring bcd_mm=151", f"chainset bcd_mm={circle}", "modernbike.com/help-117")
        for circle in (92, 86, 146, 102, 120, 80, 88)
    ),
    *(
        (
            "fits",
            f"chainring bcd_mm={inner}",
            f"chainset bcd_mm={outer} rings=[30,42,52]",
            "modernbike.com/help-117",
        )
        for outer, inner in (
            (130, 74),
            (135, 74),
            (144, 74),
            (94, 58),
            (112, 68),
            (104, 64),
            (146, 102),
            (120, 80),
        )
    ),
    ("fits", "bottom_bracket shell=pf37", "frame bb_shell=pf37", "from memory"),
    ("adapts", "bottom_bracket shell=english-1.370x24", "frame bb_shell=onepiece-51", PRACTICE),
    ("fits", "bottom_bracket shell_width_mm=68", "frame bb_shell_width_mm=68", "bikeraceinfo.com"),
    (
        "adapts",
        "bottom_bracket shell_width_mm=73 spindle=integrated-24",
        "frame bb_shell_width_mm=68",
        PRACTICE,
    ),
    ("clash", "bottom_bracket shell_width_mm=68", "frame bb_shell_width_mm=73", "bikeraceinfo.com"),
    *(
        ("fits", f"chainset spindle={spindle}", f"frame bb_shell={shell}", "dansbikestuff 2013/11")
        for spindle, shell in (
            ("integrated-24", "english-1.370x24"),
            ("integrated-24", "italian-36x24"),
            ("integrated-24", "pf41"),
            ("integrated-24-22", "english-1.370x24"),
            ("integrated-24-22", "italian-36x24"),
            ("integrated-24-22", "pf41"),
            ("integrated-30", "pf42"),
            ("integrated-30", "pf46"),
            ("onepiece", "onepiece-51"),
        )
    ),
    *(
        ("adapts", f"chainset spindle={spindle}", f"frame bb_shell={shell}", "bikegremlin.com/1652")
        for spindle, shell in (
            ("integrated-24", "pf42"),
            ("integrated-24-22", "pf42"),
            ("integrated-24-22", "pf46"),
        )
    ),
    *(
        (
            verdict,
            "chainset spindle_length_mm=113",
            f"bottom_bracket spindle_length_mm={length}",
            "roadbikereview.com, Bottom bracket sizing",
        )
        for verdict, length in (("fits", 113), ("adapts", 116), ("clash", 127.5))
    ),
    *(
        (
            verdict,
            f"chainset chainline_mm={line}",
            "wheel side=rear spacing_mm=130",
            "renehersecycles.com; ru-facts.com chainline",
        )
        for verdict, line in (("fits", 43.5), ("adapts", 49), ("clash", 56))
    ),
    ("fits", "chainring speeds=9", "chainset speeds=10", "brainybiker 10-speed chain"),
    ("adapts", "chainring speeds=8", "chainset speeds=11", "brainybiker 10-speed chain"),
    ("fits", "front_derailleur rings=2", "chainset rings=[34,50]", "defietssite.nl capacity"),
    ("fits", "front_derailleur rings=3", "chainset rings=[22,32,42]", "defietssite.nl capacity"),
    ("fits", "brake_lever brake_pull=short", "rim_brake brake_pull=short", "bikegremlin.com/1402"),
    ("adapts", "front_derailleur max_ring=53", "chainset rings=[36,46]", PRACTICE),
    ("fits", "front_derailleur capacity_teeth=16", "chainset rings=[34,50]", "defietssite.nl"),
    ("clash", "front_derailleur capacity_teeth=14", "chainset rings=[34,50]", "defietssite.nl"),
    ("measure", "front_derailleur", "chainset rings=[30,50]", "defietssite.nl capacity"),
    ("measure", "front_derailleur", "chainset rings=[24,36,48]", "defietssite.nl capacity"),
    ("fits", "rear_derailleur mount=hanger", "frame hanger=integral", PRACTICE),
    ("adapts", "rear_derailleur mount=claw", "frame hanger=replaceable", PRACTICE),
    ("clash", "rear_derailleur mount=direct", "frame hanger=none", PRACTICE),
    # chains: cyclingboutique.in; bike.bikegremlin.com/1220
    ("fits", "chain speeds=5", "freewheel speeds=5", "bike.bikegremlin.com/1220"),
    ("fits", "chain speeds=13", "cassette speeds=11", "cyclingboutique.in"),
    ("clash", "chain outer_mm=5.2", "cassette speeds=13", "cyclingboutique.in"),
    ("adapts", "chain speeds=9", "sprocket width_in=3/32", "en.wikibooks.org Chain_sizes"),
    ("clash", "chain speeds=1", "chainset speeds=9", "en.wikibooks.org Chain_sizes"),
    ("adapts", "chain speeds=11", "chainset speeds=8", "brainybiker 10-speed chain"),
    ("fits", "chain speeds=8", "cassette speeds=8 spacing=uneven-old", "gaps down to 4.7"),
    ("fits", "chain speeds=7", "cassette speeds=7 spacing=uneven-old", "gaps down to 4.7"),
    ("fits", "chain speeds=6", "cassette speeds=6 spacing=uneven-old", "mtb-news.de 132022"),
    ("fits", "chain speeds=10", "cassette speeds=10 spacing=flat-bar", "spaced as standard"),
    # crown races
    ("adapts", "headset crown_race_mm=39.8", "fork crown_race_mm=30", "bikeradar.com 12956029"),
    ("adapts", "headset crown_race_mm=33", "fork crown_race_mm=30", "from memory"),
    ("adapts", "headset crown_race_mm=39.8", "fork crown_race_mm=33", "from memory"),
    ("fits", "fork crown_race_mm=26.4", "frame head_tube_lower=EC30.2-iso", "overwheel.net"),
    ("fits", "fork crown_race_mm=27", "frame head_tube_lower=EC30.0-jis", "overwheel.net"),
    ("fits", "fork crown_race_mm=30", "frame head_tube_lower=EC34", "transwikia.com copy"),
    ("fits", "fork crown_race_mm=33", "frame head_tube_lower=EC37", "from memory"),
    ("fits", "fork crown_race_mm=39.8", "frame head_tube_lower=ZS56", "bike-advisor.com"),
    (
        "adapts",
        "fork steerer_mm=28.6 steerer_lower_mm=28.6",
        "frame head_tube_lower=ZS56 head_tube_upper=ZS44",
        "a straight fork in a wide tube: forum.bikeradar.com 12956029",
    ),
    (
        "fits",
        "fork steerer_mm=28.6 steerer_lower_mm=38.1",
        "frame head_tube_length_mm=120 head_tube_upper=ZS44 head_tube_lower=ZS56",
        "brainybiker.com tapered forks",
    ),
    (
        "adapts",
        "fork steerer_mm=28.6 steerer_lower_mm=38.1",
        "frame head_tube_length_mm=80 head_tube_upper=ZS44 head_tube_lower=ZS56",
        "brainybiker.com tapered forks",
    ),
    ("fits", "headset upper=EC34/28.6", "fork steerer_mm=28.6", "canecreek.com finder"),
    ("clash", "headset upper=EC34/28.6", "fork steerer_mm=38.1", "canecreek.com finder"),
    (
        "adapts",
        "fork axle_to_crown_mm=410 travel_mm=0",
        "frame fork_axle_to_crown_mm=395",
        "limits from memory",
    ),
    (
        "clash",
        "fork axle_to_crown_mm=440 travel_mm=0",
        "frame fork_axle_to_crown_mm=395",
        "limits from memory",
    ),
    (
        "measure",
        "fork axle_to_crown_mm=440",
        "frame fork_axle_to_crown_mm=395",
        "sag decides: carboncycles.cc viewtopic 4551",
    ),
    ("adapts", "disc_calliper mount=post-74", "frame brake_mounts=[flat-34]", "special bracket"),
    ("clash", "disc_calliper mount=flat-34", "brake_adapter to_mount=post-74", "bikeman.com 1638"),
    (
        "fits",
        "rotor diameter_mm=160",
        "disc_calliper rotor_mm=160",
        "forum.bikeradar.com t=1590919",
    ),
    ("adapts", "rotor diameter_mm=180", "disc_calliper rotor_mm=160", "bikeradar.com t=1590919"),
    ("clash", "rotor diameter_mm=160", "disc_calliper rotor_mm=203", "bikeradar.com t=1590919"),
    (
        "fits",
        "rotor rotor_mount=six-bolt-44",
        "hub rotor_mount=six-bolt-44",
        "bike-advisor.com centerlock-or-six-bolts",
    ),
    ("fits", "disc_calliper side=rear", "wheel side=rear rotor_mount=six-bolt", "fitro.info"),
    ("clash", "disc_calliper side=rear", "wheel side=rear rotor_mount=none", "fitro.info"),
    ("fits", "rim_brake side=rear", "wheel side=rear brake_track=yes", "fitro.info"),
    ("fits", "rim_brake type=mini-v", "frame brake_mounts=[canti-boss]", "bikebuilding.blogspot"),
    ("fits", "rim_brake type=center-pull", "fork brake_mounts=[calliper-hole]", "bikebuilding"),
    (
        "adapts",
        "frame brake_mounts=[canti-boss] wheel_bsd_mm=622",
        "rim bsd_mm=630",
        "4 mm of slot: fixed.org.au 42786",
    ),
    ("clash", "brake_fluid fluid=mineral", "brake_fluid fluid=dot-4", "trustysources.com"),
    ("fits", "brake_fluid fluid=dot-4", "brake_fluid fluid=dot-5.1", "trustysources.com"),
    ("fits", "shift_cable shift_cable_head=large", "shifter shift_cable_head=large", "bikeman.com"),
    ("fits", "brake_cable diameter_mm=1.5", "brake_lever", "bikeman.com cables and housing"),
    ("fits", "shift_cable diameter_mm=1.2", "shifter", "bikeman.com cables and housing"),
    ("clash", "shift_cable diameter_mm=1.6", "shifter", "bikeman.com cables and housing"),
    ("fits", "brake_pads for_brake=disc thickness_mm=3", "disc_calliper", "whafi.com disc pads"),
    ("adapts", "brake_pads for_brake=disc thickness_mm=1", "disc_calliper", "bikeforums.net"),
    # sizes and families that no table pairs must not stop the judge
    (
        "clash",
        "fork steerer_mm=28.6 steerer_lower_mm=26.5",
        "frame head_tube_upper=ZS44 head_tube_lower=ZS44",
        "canecreek.com headset-fit-finder has no headset for it",
    ),
    (
        "measure",
        "shifter side=rear index_family=uneven-old speeds=10",
        "rear_derailleur index_family=uneven-old",
        "mtb-news.de/forum/showthread.php?t=132022",
    ),
    (
        "adapts",
        "rear_derailleur index_family=ratio-1.2",
        "cassette speeds=7 spline=short-spline-thread",
        "no family but its own ten speeds: brainybiker.com",
    ),
    # an unknown that does not change the verdict may change the spacer
    ("adapts", "cassette speeds=10 spacing=standard", "hub driver=one-wide-spline-36.8", "2183"),
    # hubs, freewheels and drivers
    ("clash", "cassette speeds=10 spacing=standard", "hub driver=one-wide-spline-short", "1259"),
    (
        "clash",
        "cassette speeds=10 spacing=standard ring_behind_mm=0",
        "hub driver=one-wide-spline-short",
        "bike.bikegremlin.com/1259",
    ),
    ("clash", "cassette speeds=11 spacing=flat-bar", "hub driver=one-wide-spline-short", "1259"),
    ("clash", "cassette speeds=11 spacing=standard", "hub driver=one-wide-spline-short", "2183"),
    ("clash", "cassette speeds=11 spacing=standard", "hub driver=tall-spline-10", "2183"),
    ("fits", "freewheel speeds=4", "frame rear_spacing_mm=114", "sheldonbrown.com crib sheet"),
    ("fits", "freewheel speeds=8", "frame rear_spacing_mm=130", "sheldonbrown.com crib sheet"),
    ("adapts", "wheel spacing_mm=148 end_caps=changeable", "frame rear_spacing_mm=141", "memory"),
    (
        "adapts",
        "hub side=rear axle=qr end_caps=changeable",
        "frame rear_axle=thru-12",
        "blog.flocycling.com QR and thru axle",
    ),
    ("fits", "hub side=front axle=thru-15", "fork axle=thru-15", "hotvehs.com wheel axle"),
    ("adapts", "hub side=front axle_mm=9", "fork dropout_slot_mm=10", PRACTICE),
    ("fits", "skewer spacing_mm=100", "hub axle=qr spacing_mm=100", PRACTICE),
    ("adapts", "skewer spacing_mm=135", "hub axle=qr spacing_mm=126", PRACTICE),
    ("clash", "skewer spacing_mm=100", "hub axle=qr spacing_mm=135", PRACTICE),
    ("fits", "tyre width_mm=28", "fork tyre_clearance_mm=32", "16 CFR 1512.11"),
    ("fits", "wheel side=rear bsd_mm=622", "frame wheel_bsd_mm=622", "raceface.com"),
    ("fits", "wheel side=front bsd_mm=622", "fork wheel_bsd_mm=622", "raceface.com"),
    ("adapts", "wheel side=rear bsd_mm=630", "frame wheel_bsd_mm=622", "from memory"),
    ("clash", "wheel side=rear bsd_mm=622", "frame wheel_bsd_mm=406", "raceface.com"),
    ("fits", "rim_tape bsd_mm=622", "rim bsd_mm=622", PRACTICE),
    ("adapts", "rim_tape bsd_mm=622", "rim bsd_mm=630", PRACTICE),
    ("clash", "rim_tape bsd_mm=559", "rim bsd_mm=622", PRACTICE),
    ("fits", "rim_tape width_mm=18", "rim rim_inner_mm=19", PRACTICE),
    ("adapts", "rim_tape width_mm=21", "rim rim_inner_mm=19", PRACTICE),
    ("clash", "rim_tape width_mm=30", "rim rim_inner_mm=19", PRACTICE),
    ("fits", "tube bsd_mm=540", "tyre bsd_mm=541", "bikefix.co.uk"),
    # steering and seat
    ("adapts", "stem quill_mm=22.0", "fork steerer=threaded steerer_bore_mm=22.2", "105482"),
    ("adapts", "stem quill_mm=25.4", "fork steerer=threaded steerer_mm=31.8", "105482"),
    (
        "adapts",
        "stem type=threadless steerer_clamp_mm=28.6",
        "fork steerer=threaded steerer_mm=28.6",
        "from memory",
    ),
    *(
        (
            "adapts",
            f"stem type=threadless steerer_clamp_mm={clamp}",
            f"fork steerer=threadless steerer_mm={steerer}",
            "from memory",
        )
        for steerer, clamp in ((28.6, 31.8), (28.6, 38.1), (31.8, 38.1))
    ),
    ("fits", "shifter mount=stem bar_mm=22.2", "stem type=quill quill_mm=22.2", PRACTICE),
    ("adapts", "shifter mount=stem bar_mm=25.4", "stem type=quill quill_mm=22.2", PRACTICE),
    ("clash", "shifter mount=stem", "stem type=threadless", PRACTICE),
    ("clash", "bar_shim outer_mm=26", "stem bar_clamp_mm=31.8", "bikeforums.net 985045"),
    (
        "clash",
        "brake_lever mount=tops bar_mm=22.2",
        "handlebar clamp_mm=25.4 grip_mm=23.8",
        "645002",
    ),
    ("fits", "bar_plug inner_mm=19", "handlebar bore_mm=19", PRACTICE),
    ("clash", "bar_plug inner_mm=16", "handlebar bore_mm=20", PRACTICE),
    ("clash", "seatpost diameter_mm=27.2", "seatpost_shim inner_mm=25.4", "bikegremlin.com/3114"),
    ("clash", "seatpost diameter_mm=27.2 length_mm=50", "frame seat_tube_bore_mm=27.2", "1512.15"),
    ("clash", "seat_clamp diameter_mm=25.4", "seatpost diameter_mm=27.2", "by geometry"),
    *(
        (verdict, part, f"frame {eyes}={word}", PRACTICE)
        for part, eyes in (
            ("rack", "rack_eyelets"),
            ("mudguards", "mudguard_eyelets"),
            ("bottle_cage", "bottle_bosses"),
        )
        for verdict, word in (("fits", "yes"), ("adapts", "no"))
    ),
)


@pytest.mark.parametrize(("verdict", "one", "other", "source"), CASES)
def test_row(verdict: str, one: str, other: str, source: str) -> None:
    """The verdict is that of the table's row."""
    assert judged(one, other).verdict == verdict, source
