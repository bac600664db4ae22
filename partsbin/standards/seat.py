"""Seatpost and collar sizes."""

from partsbin.standards.sizes import sizes

POSTS = sizes(
    "21.15 22.0 22.2 23.4 23.8 24.0 25.0 25.2 25.4 25.6 25.8 26.0 26.2 26.4 26.6 26.8 27.0 27.2"
    " 27.4 27.6 28.0 28.4 28.6 29.0 29.2 29.4 29.6 29.8 30.0 30.2 30.4 30.6 30.8 30.9 31.4 31.6"
    " 31.8 32.0 32.4 33.9 34.9",
    source="steps of 0.2 mm: bike.bikegremlin.com/3114, Seatpost diameter sizes; list from memory",
)
COLLARS = sizes(
    "25.4 28.6 31.8 34.9 38.5 40.0",
    source="25.4 to 31.8: compulsioncycles.com clamps; larger ones from memory",
    same={"32.0": "31.8", "35.0": "34.9", "39.0": "38.5"},
)
SEAT_TUBES = sizes(
    "25.4 28.0 28.6 31.8 34.9 38.5 40.0",
    source="25.4 to 28.6: bike.bikegremlin.com/3114; 31.8: compulsioncycles.com clamps; "
    "larger ones from memory",
    same={"32.0": "31.8", "35.0": "34.9", "39.0": "38.5"},
)
"""Outside of the seat tube, which collars and derailleur bands go round."""
