"""The QR of a number against segno drawing it at once, and two readers."""

import numpy as np
import pytest
import segno
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from pyzbar import pyzbar

from labels import number, qr
from labels.number import LARGEST_RUNNING, LabelNumber, Thing

numbers = st.builds(
    number.make,
    st.sampled_from(Thing),
    st.one_of(st.integers(1, 99_999), st.integers(1, LARGEST_RUNNING)),
)


@given(numbers)
def test_modules_are_segnos(made: LabelNumber) -> None:
    """The exclusive-or of single bits gives what segno draws for the whole number.

    segno is told only the mask; version 1, numeric mode and level H it chooses by itself.
    """
    symbol = segno.make(made, error="h", mask=qr.MASK, micro=False)

    assert (symbol.designator, symbol.mode) == ("1-H", "numeric")
    assert qr.rows(made) == tuple("".join(map(str, row)) for row in symbol.matrix)


@given(numbers)
def test_packed_rows_are_the_rows(made: LabelNumber) -> None:
    """In hexadecimal each row takes three bytes, its last three bits light."""
    bits = f"{int(qr.packed(made), 16):0504b}"

    assert len(qr.packed(made)) == 126
    assert tuple(bits[at : at + 21] for at in range(0, 504, 24)) == qr.rows(made)
    assert {bits[at + 21 : at + 24] for at in range(0, 504, 24)} == {"000"}


@pytest.mark.parametrize(
    "made",
    [number.make(thing, running) for thing in Thing for running in (1, 98_765, LARGEST_RUNNING)],
)
def test_two_readers_read_it(made: LabelNumber) -> None:
    """Zbar and zxing-cpp both read it, 4 dots a module with 4 modules of white."""
    dark = np.array([[module == "1" for module in row] for row in qr.rows(made)])
    picture = np.where(np.kron(np.pad(dark, 4), np.ones((4, 4))) > 0, 0, 255).astype(np.uint8)

    assert [found.data.decode() for found in pyzbar.decode(picture)] == [made]
    assert [found.text for found in zxingcpp.read_barcodes(picture)] == [made]
