"""Steerer, quill and crown race diameters."""

from partsbin.standards.sizes import sizes

STEERERS = sizes(
    "25.0 25.4 28.6 31.8 38.1",
    source="bicycle-forum.net quill measurements 2007; rennrad-news.de thread 92675 (25.0); "
    "federalprism.com steerer; brainybiker.com tapered forks",
)
STEERER_CLAMPS = sizes(
    "25.4 28.6 31.8 38.1",
    source="federalprism.com steerer; brainybiker.com tapered forks",
)
LOWER_STEERERS = sizes(
    "28.6 31.8 38.1",
    source="brainybiker.com tapered forks",
)
"""Lower end of a tapered steerer."""

QUILLS = sizes(
    "21.1 22.0 22.2 25.4 28.6",
    source="motorbicycling.com p=105482; velo-orange.blogspot.com 2008/02; "
    "bicycle-forum.net quill measurements 2007",
    same={"21.15": "21.1"},
)
"""Quill stems, and the bore of the steerer that takes them."""

CROWN_RACES = sizes(
    "26.4 27.0 30.0 33.0 39.8",
    source="overwheel.net column 2022-10-02 (26.4, 27.0); Bicycles Stack Exchange 'straight 1 1/8' "
    "(30.0); 33.0 and 39.8 from memory",
    same={"40.0": "39.8"},
)
"""Seat of the crown race on the fork; the codes round 39.8 to 40."""
