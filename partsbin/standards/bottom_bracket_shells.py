"""Bottom bracket shells: thread or bore, and which cranks with a spindle of their own go where."""

from __future__ import annotations

from typing import NamedTuple

SHELL_TABLE = "bikeraceinfo.com/tech/bottom-brackets.html"
BORES = "dansbikestuff.blogspot.com/2013/11"
DIRECTIONS = "velo.blogger.de/stories/530962"
BMX = "skatepro BMX bottom brackets"


class Shell(NamedTuple):
    """One shell: how the bearing is held, and the words that a mechanic knows it by."""

    held: str
    means: str
    source: str


SHELLS = {
    "english-1.370x24": Shell("thread", "1.370 in x 24, right cup left-hand", SHELL_TABLE),
    "italian-36x24": Shell("thread", "36 mm x 24, both cups right-hand", SHELL_TABLE),
    "french-35x1": Shell("thread", "35 x 1 mm, both cups right-hand", SHELL_TABLE),
    "swiss-35x1": Shell("thread", "35 x 1 mm, right cup left-hand", DIRECTIONS),
    "t47": Shell("thread", "47 x 1 mm, right cup left-hand", "from memory"),
    "pf41": Shell("press", "41 mm bore", BORES),
    "pf42": Shell("press", "42 mm bore with snap rings", BORES),
    "pf46": Shell("press", "46 mm bore", BORES),
    "pf37": Shell("press", "37 mm bore", "from memory"),
    "onepiece-51": Shell("press", "51.3 mm bore", BMX),
    "spanish-37": Shell("press", "37 mm bore of small frames", BMX),
    "mid-41": Shell("press", "41 mm bore of small frames", BMX),
}

SAME_BORE = (frozenset({"pf37", "spanish-37"}), frozenset({"pf41", "mid-41"}))
"""Shells of one bore but other depth and bearings."""
SAME_THREAD = frozenset({"french-35x1", "swiss-35x1"})
"""One thread, but the right cup turns the other way."""
SLEEVED = {
    ("english-1.370x24", "onepiece-51"): "plate adapter from 51.3 mm bore to 1.370 in thread"
}
"""Bearing, shell and the adapter between them; common practice, no source."""


class CrankInShell(NamedTuple):
    """How a crank with a spindle of its own goes in a shell: with which adapter or caution."""

    source: str
    adapter: str = ""
    caution: str = ""


REDUCERS = CrankInShell(
    "bike.bikegremlin.com/1652; accidentalrandonneur.wordpress.com/tag/bb92",
    adapter="bearings with reducers to a 24 mm spindle",
)
MADE_FOR = CrankInShell(BORES)
CRANKS_IN_SHELLS = {
    **{
        (spindle, shell): result
        for spindle in ("integrated-24", "integrated-24-22")
        for shell, result in {
            "english-1.370x24": MADE_FOR,
            "italian-36x24": MADE_FOR,
            "pf41": MADE_FOR,
            "pf42": REDUCERS,
            "pf46": REDUCERS,
        }.items()
    },
    ("integrated-30", "pf42"): MADE_FOR,
    ("integrated-30", "pf46"): MADE_FOR,
    ("integrated-30", "pf41"): CrankInShell(
        "byka.info BB86", caution="not advised: so thin a bearing does not last"
    ),
    ("onepiece", "onepiece-51"): CrankInShell(BMX),
}
"""Pairs that are published; of others nothing is said, except that a one-piece crank needs its
own shell."""
