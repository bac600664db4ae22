"""Drawings of where to measure: each belongs to an attribute, is whole, and stays in its frame."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from partsbin.bench.drawing.measure import EVERYWHERE, OF_KIND, drawings_of
from partsbin.bench.drawing.pen import HIGH, WIDE, Pen
from partsbin.kinds.kind import KINDS

CLASSES = {"part", "far", "lead", "dim", "head", "gap"}
"""What the style sheet of the stock room colours."""
DRAWINGS = {draw.__name__: draw for draw in (*EVERYWHERE.values(), *OF_KIND.values())}


def test_every_drawing_belongs_to_an_attribute() -> None:
    """Every row of the tables names an attribute that some kind, or that kind, has."""
    known = {name for kind in KINDS.values() for name in kind.attributes}
    assert set(EVERYWHERE) <= known
    for kind, name in OF_KIND:
        assert name in KINDS[kind].attributes


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_is_whole(name: str) -> None:
    """A drawing is well-formed, has a name for who cannot see it, and only known classes."""
    svg = DRAWINGS[name]().svg()
    root = ET.fromstring(svg)
    assert len(root.attrib["aria-label"]) > 20
    assert set(re.findall(r'class="(\w+)"', svg)) <= CLASSES
    assert "style" not in svg


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_stays_in_its_frame(name: str) -> None:
    """No corner of a drawing, and no base line of its words, lies outside its frame."""
    root = ET.fromstring(DRAWINGS[name]().svg())
    for shape in root:
        across = [float(shape.attrib[key]) for key in ("x", "cx") if key in shape.attrib]
        down = [float(shape.attrib[key]) for key in ("y", "cy") if key in shape.attrib]
        course = re.sub(r"A[^A-Z]*", "", shape.attrib.get("d", ""))
        for command, figures in re.findall(r"([MLHV])([^A-Z]*)", course):
            found = [float(figure) for figure in re.findall(r"-?\d+(?:\.\d+)?", figures)]
            across += found if command == "H" else found[::2] if command in "ML" else []
            down += found if command == "V" else found[1::2] if command in "ML" else []
        assert all(0 <= x <= WIDE for x in across)
        assert all(0 <= y <= HIGH for y in down)


def test_kinds_have_their_own() -> None:
    """A wheel's width is measured at its hub, a fork's between its dropouts."""
    assert "locknuts" in drawings_of("wheel")["spacing_mm"]
    assert "dropouts" in drawings_of("fork")["spacing_mm"]
    assert drawings_of("bell") == {}


def test_a_dimension_has_two_arrows() -> None:
    """A dimension is a line with a head at each end, its words beside an upright one."""
    pen = Pen("a box")
    pen.across(10, 20, 10, 90, "high & low")
    svg = pen.svg()
    assert svg.count('class="head"') == 2
    assert "high &amp; low" in svg
    assert 'text-anchor="start"' in svg
