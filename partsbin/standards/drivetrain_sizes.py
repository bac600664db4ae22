"""Bolt circles, bottom bracket shell widths, derailleur bands, chain and housing widths."""

from partsbin.standards.sizes import sizes

BOLT_CIRCLES = sizes(
    "56 58 64 68 74 80 86 88 92 94 96 102 104 110 112 116 118 120 122 128 130 135 144 146 151",
    source="sheldonbrown.com/cribsheet-bcd.html and numbers.html; modernbike.com/help-117",
)
SHELL_WIDTHS = sizes(
    "65 68 70 71 73 76 79 83 86.5 90 92 95 100",
    source="bikeraceinfo.com/tech/bottom-brackets.html; dansbikestuff.blogspot.com 2013/11; "
    "sheldonbrown.com/cribsheet-unthreaded-bottombrackets.html; from memory: 71 90 95",
)
DERAILLEUR_BANDS = sizes(
    "28.6 31.8 34.9",
    source="bike.bikegremlin.com/1297; 35.0 = 34.9: bikeforums.net t-645002",
    same={"32.0": "31.8", "35.0": "34.9"},
)
DOWN_TUBES = sizes(
    "25.4 28.6 31.8 34.9",
    source="blackmtncycles.com/details (28.6, 31.8); 25.4 and 34.9 from memory",
)
CHAIN_INNERS = sizes(
    "2.18 2.38 3.175 4.0",
    source="bike.bikegremlin.com/1220 and 3555; cyclingboutique.in, Bicycle chain explained",
)
RINGS_BEHIND = sizes(
    "0 1.0",
    source="charigaku.com/16/2183; cyclabo.com/topics/shpw0w3wbb",
)
HOUSINGS = sizes(
    "4.0 5.0",
    source="bikeman.com cables and housing; bowman-cycles.com fit cables",
)
