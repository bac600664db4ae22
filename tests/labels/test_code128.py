"""Bars against reportlab's Code 128, an encoder that the project does not use, and two readers."""

from typing import Any

import numpy as np
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from pyzbar import pyzbar
from reportlab.graphics.barcode import code128 as reportlab_code128

from labels import code128, number
from labels.code128 import BarsFault
from labels.number import LARGEST_RUNNING, LabelNumber, Thing

numbers = st.builds(
    number.make,
    st.sampled_from(Thing),
    st.one_of(st.integers(1, 99_999), st.integers(1, LARGEST_RUNNING)),
)


def by_reportlab(digits: str) -> str:
    """Return the modules as reportlab draws them."""
    code: Any = reportlab_code128.Code128(digits, quiet=0)
    code.validate()
    code.encode()
    code.decompose()
    return "".join(
        ("0" if letter.islower() else "1") * ("abcd".index(letter.lower()) + 1)
        for letter in code.decomposed
    )


@given(numbers)
def test_every_number_comes_back(made: LabelNumber) -> None:
    """Encoded, drawn as modules and decoded, a number is itself; reportlab draws the same bars."""
    bars = code128.modules(made)

    assert code128.decode(bars) == made
    assert bars == by_reportlab(made)
    assert len(bars) == (79 if len(made) == 8 else 90)


@pytest.mark.parametrize("value", range(100))
def test_table_agrees_with_reportlab(value: int) -> None:
    """Each pair of digits has the widths that reportlab gives it; so has the check character."""
    digits = f"12{value:02d}"

    assert code128.decode(by_reportlab(digits)) == digits


def test_characters_are_well_made() -> None:
    """A character has 11 modules, an even number of them dark, and no two are alike.

    Source: barcodeisland.com/code128.phtml; parity: wenglor.com, Code 128.
    """
    characters = code128.WIDTHS.split()

    assert len(set(characters)) == 106
    assert {sum(map(int, widths)) for widths in characters} == {11}
    assert {sum(map(int, widths[::2])) % 2 for widths in characters} == {0}


@pytest.mark.parametrize("digits", ["99912695", "99999999", "991234567890"])
def test_a_lost_99_is_refused(digits: str) -> None:
    """python-barcode draws these without their leading 99 (its issue #251): they are refused."""
    with pytest.raises(BarsFault, match="say something else"):
        code128.modules(digits)


@pytest.mark.parametrize("digits", ["1234567", "12AB5678"], ids=["odd", "letters"])
def test_other_sets_are_refused(digits: str) -> None:
    """What does not go into set C alone is refused rather than drawn with wider symbols."""
    with pytest.raises(BarsFault):
        code128.modules(digits)


@given(numbers, st.data())
def test_a_damaged_module_is_found(made: LabelNumber, data: st.DataObject) -> None:
    """Bars with any one module turned over are refused: none says another number."""
    bars = code128.modules(made)
    at = data.draw(st.integers(0, len(bars) - 1))
    damaged = bars[:at] + "10"[int(bars[at])] + bars[at + 1 :]

    with pytest.raises(BarsFault):
        code128.decode(damaged)


@pytest.mark.parametrize(
    ("bars", "sentence"),
    [
        ("", "0 modules are no whole Code 128 symbol with its stop pattern."),
        ("10" * 40, "80 modules are no whole Code 128 symbol with its stop pattern."),
        ("1" * 22 + code128.STOP, "11111111111 is no Code 128 character."),
    ],
    ids=["nothing", "no stop", "no character"],
)
def test_what_is_no_symbol(bars: str, sentence: str) -> None:
    """Modules that are no symbol are named as such."""
    with pytest.raises(BarsFault) as fault:
        code128.decode(bars)

    assert str(fault.value) == sentence


@pytest.mark.parametrize("made", [number.make(thing, 4_711) for thing in Thing])
def test_two_readers_read_them(made: LabelNumber) -> None:
    """Zbar and zxing-cpp both read the modules, drawn 3 dots wide with 10 modules of white."""
    line = np.array([255 * (module == "0") for module in code128.modules(made)], np.uint8)
    picture = np.repeat(np.repeat(np.pad(line, 10, constant_values=255), 3)[None], 60, axis=0)
    picture = np.pad(picture, ((10, 10), (0, 0)), constant_values=255)

    assert [found.data.decode() for found in pyzbar.decode(picture)] == [made]
    assert [found.text for found in zxingcpp.read_barcodes(picture)] == [made]
