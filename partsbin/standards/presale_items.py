"""What is looked at before a bike is handed over, and the rule behind each item.

The rules are written for new bicycles. Whether they bind somebody who sells a used one is a
question of local law; here they say what a safe bicycle has.
"""

from __future__ import annotations

from typing import NamedTuple


class Rule(NamedTuple):
    """A rule behind an item: its name, what it asks in our words, where its text was seen."""

    name: str
    asks: str
    source: str
    """Where its text was seen, or `from memory`."""


class Item(NamedTuple):
    """One item of the check; `slots` are those whose change makes an older check void."""

    word: str
    look: str
    rules: tuple[Rule, ...]
    slots: tuple[str, ...]


MEMORY = "from memory"
EXTRACT = "ISO 4210-2:2014, an extract at ulstandardspdf.com"
REPRINT = "TBIS 4210-2:2018, which states ISO 4210-2:2015; chctest.tbnet.org.tw"
EPAC = "TBIS 15194:2019, an edition of EN 15194 for assisted bicycles"

ITEMS = (
    Item(
        "brakes",
        "both brakes stop the bike, levers do not reach the bar, pads hit the rim or rotor only, "
        "pads and cables not worn or frayed, end caps on, every anchor bolt tight",
        (
            Rule(
                "16 CFR 1512.5",
                "hand brakes stop a rider of at least 68.1 kg within 4.57 m; "
                "levers are gripped within 89 mm",
                "law.cornell.edu and CPSC texts of 16 CFR 1512",
            ),
            Rule("ISO 4210-2, 4.6.1", "two brakes that work without each other", REPRINT),
            Rule("check sheet", "no frayed inner cable, no missing cable end", "londonbmx.co.uk"),
        ),
        (
            "left brake lever",
            "right brake lever",
            "front brake",
            "rear brake",
            "front rotor",
            "rear rotor",
            "front shifter",
            "rear shifter",
            "front wheel",
            "rear wheel",
        ),
    ),
    Item(
        "steering",
        "turns freely without a notch or play; stem in line with the wheel and tight in the fork; "
        "bar tight in the stem; minimum-insertion mark out of sight",
        (
            Rule("16 CFR 1512.6", "stem inserted at least 2.5 of its diameters", MEMORY),
            Rule(
                "ISO 4210-2",
                "gap under the stem at most 5 mm, clamped length of the steerer without thread",
                "TBIS reprint of ISO 4210-2, page 19; chctest.tbnet.org.tw",
            ),
            Rule("EN 15194", "turns freely by at least 60 degrees to each side", EPAC),
        ),
        ("fork", "headset", "stem", "handlebar"),
    ),
    Item(
        "wheels",
        "true and centred, no spoke missing or loose, no play in the hubs, rim walls not worn or "
        "bulging, tyre clears frame and fork all the way round",
        (
            Rule(
                "16 CFR 1512.11",
                "no spoke missing; at least 1.6 mm between tyre and frame or fork at every angle",
                "casetext.com and lexbuild.dev copies",
            ),
            Rule("rim wear", "a rim wall of 1.0 mm or less is worn out", "wheellab.cc/rim-wear"),
            Rule("check sheet", "play of more than 3 mm at the rim fails", "docsbay.net M-check"),
        ),
        ("front wheel", "rear wheel", "fork", "frame", "front tyre", "rear tyre"),
    ),
    Item(
        "wheel fastening",
        "axles seated in both dropouts, nuts or levers tight, levers close hard and mark the "
        "dropout, retention washers or tabs of a nutted front wheel there",
        (
            Rule(
                "16 CFR 1512.12",
                "rear axle holds 1,780 N; front nuts hold 17 N m; quick releases are adjustable, "
                "show open and closed and mark the frame; other front hubs have a second hold",
                "ecfr.io and lexbuild.dev copies",
            ),
            Rule(
                "EN 15194",
                "the front wheel stays under 100 N with its fastening open",
                f"{EPAC}, page 87",
            ),
        ),
        ("front wheel", "rear wheel", "fork", "frame"),
    ),
    Item(
        "tyres",
        "no cords showing, no cut, bulge or cracked sidewall; beads seated evenly; hold the "
        "pressure that is on the sidewall; rolling direction right",
        (
            Rule("tyre wear", "cords, deep cuts, bulges and cracks end a tyre", "bikewrench wiki"),
            Rule("16 CFR 1512.10", "the pressure is moulded on the tyre", MEMORY),
        ),
        ("front tyre", "rear tyre", "front tube", "rear tube", "front wheel", "rear wheel"),
    ),
    Item(
        "drivetrain",
        "chain not worn and joined right, does not skip under load or come off at either end; "
        "derailleurs cannot reach the spokes; cranks tight, bottom bracket without play",
        (
            Rule(
                "chain wear",
                "0.75 % longer ends a chain for 5 to 10 speeds, 0.5 % for more, 1 % for one",
                "citycyclingtips.com/?p=748",
            ),
            Rule("16 CFR 1512.8", "the chain holds its load without breaking", MEMORY),
        ),
        (
            "bottom bracket",
            "chainset",
            "chain",
            "sprockets",
            "front derailleur",
            "rear derailleur",
            "front shifter",
            "rear shifter",
            "rear wheel",
        ),
    ),
    Item(
        "pedals",
        "turn freely, no play, tight in the cranks; no crack at a crank's eye; treads not slippery",
        (
            Rule("16 CFR 1512.7", "treads on both sides, or a clear right way up", MEMORY),
            Rule(
                "16 CFR 1512.17",
                "89 mm between pedal and front tyre without toe clips; no grounding at 25 degrees",
                "law.cornell.edu",
            ),
        ),
        ("pedals", "chainset"),
    ),
    Item(
        "bar ends",
        "both ends of the bar closed by grips or plugs that do not pull off by hand",
        (
            Rule("16 CFR 1512.6", "ends are capped or plugged", MEMORY),
            Rule(
                "ISO 4210-2, 4.7.2",
                "grips or plugs hold a pull (70 N from memory)",
                f"clause: {REPRINT}",
            ),
        ),
        ("handlebar", "grips"),
    ),
    Item(
        "saddle and post",
        "post straight, tight and not above its mark; saddle and rails tight and not cracked",
        (
            Rule("16 CFR 1512.15", "seat and post hold, the post has its mark", "self-law.org"),
            Rule("post mark", "post inserted at least two of its diameters", MEMORY),
        ),
        ("seatpost", "seat clamp", "saddle"),
    ),
    Item(
        "reflectors",
        "clear one in front, red one behind, on both pedals and in both wheels or tyres; "
        "lights as local law asks",
        (
            Rule(
                "16 CFR 1512.16",
                "colourless in front, red behind and at least 76 mm below the saddle, colourless "
                "or amber on the pedals, and at the sides; spoke reflectors within 76 mm of the "
                "rim",
                "qastack copies of the text in translation",
            ),
        ),
        ("reflectors", "pedals", "front wheel", "rear wheel", "saddle"),
    ),
    Item(
        "frame and fork",
        "cleaned and seen in good light: no crack at a weld, lug, dropout or crown; no ripple or "
        "dent; fork straight; frame number there and looked up",
        (
            Rule("16 CFR 1512.14", "fork and frame take 890 N or 39.5 J", "ecfr.io"),
            Rule(
                "inspection",
                "crash damage, dents, ripples, hairline cracks at each weld",
                "croftonbikedoctor.com, 2016; londonbmx.co.uk",
            ),
        ),
        ("frame", "fork"),
    ),
    Item(
        "fasteners",
        "every bolt at its maker's torque, nothing loose; screws of brakes, mudguards, rack and "
        "saddle locked; no thread sticks out further than its diameter",
        (
            Rule("ISO 4210-2, 4.3.1", "screws that matter have a locking device", EXTRACT),
            Rule("ISO 4210-2, 4.5", "at most one diameter of thread stands out", REPRINT),
        ),
        ("rack", "mudguards", "stem", "seat clamp", "seatpost"),
    ),
    Item(
        "test ride",
        "ridden with every gear and both brakes used hard, then all fastenings felt again",
        (
            Rule(
                "16 CFR 1512.17",
                "a ride of 6.4 km with at least 68.1 kg shows no fault",
                "law.cornell.edu",
            ),
        ),
        (),
    ),
)
"""Every item must be recorded as ok before a bike is ready."""
BY_WORD = {item.word: item for item in ITEMS}

REMINDER = (
    "This list does not replace an inspection and says nothing of what nobody looked at. Local "
    "law, the makers' instructions and a qualified mechanic come first."
)
