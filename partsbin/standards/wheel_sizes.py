"""Bead seat, hub, axle, valve hole and rotor sizes."""

from partsbin.standards.sizes import sizes

BEAD_SEATS = sizes(
    "93 94 110 137 152 194 203 222 239 248 251 254 279 288 298 305 317 330 337 340 349 355 369 390"
    " 400 406 419 428 432 438 440 451 457 484 489 490 498 501 507 520 534 540 541 547 559 565 571"
    " 584 587 590 597 599 609 622 630 635 642 686 787",
    source="sheldonbrown.com/26.html; schwalbetires.com size_markings; nicecurmudgeon.com decimal "
    "size table; bikefix.co.uk/tyre-and-wheel-sizes; dotbike.com tyre_size_reference; "
    "unicyclist.com 48311; lecyclo.com reifengroesse; from memory: 298 317 330 337 390 400 419 428 "
    "432 438 440 484 489 490 498 501 534 547 565 609",
)
OVER_LOCKNUT = sizes(
    "70 74 90 91 92 96 100 110 114 116 118 120 126 130 135 140 141 142 145 148 150 157 160 170 177"
    " 190 197",
    source="sheldonbrown.com/frame-spacing.html; mountainbike-magazin.de Lexikon 412768; "
    "moruyabicycles.com.au d1281; rovalcomponents.com; trial-bikes.com front hubs; "
    "from memory: 74 114 118 170 177 190 197",
)
"""Width of a hub between its locknuts, and of the fork or frame that takes it."""

AXLES = sizes(
    "7.94 9.0 9.52 10.0 12.0 14.0 15.0 20.0",
    source="wrenchfu.com axle-nut; hotvehs.com wheel axle",
)
"""Axle diameters; 5/16 in is 7.94 and 3/8 in is 9.52 mm."""

VALVE_HOLES = sizes(
    "6.5 8.5",
    source="urbanusmagnus.blogspot.com 2012/05 (6.4, 8.3); usual figures from memory",
)
ROTORS = sizes(
    "140 160 180 200 203 220",
    source="noahsark.co.uk disc mounts; forum.bikeradar.com t=1590919; gripandpedal.co rotors",
)
BALLS = sizes(
    "2.38 3.175 3.97 4.76 5.56 6.35",
    source="thevelocollective.com many-ball-bearings; 3/32 and 7/32 in by arithmetic",
)
"""Loose balls: 3/32, 1/8, 5/32, 3/16, 7/32 and 1/4 in."""
