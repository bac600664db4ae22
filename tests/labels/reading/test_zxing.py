"""zxing-cpp restricted to the two symbols of a label."""

import numpy as np
import pytest
import segno
import zxingcpp
from numpy.typing import NDArray

from labels.number import Thing, make
from labels.reading import zxing
from labels.reading.look import Symbol
from tests.labels.reading.label_faces import draw

NUMBER = make(Thing.BIN, 12)


def picture(matrix: object) -> NDArray[np.uint8]:
    """Return the modules of a symbol as a grey picture with a wide margin."""
    dark = np.pad(np.array(matrix, dtype=bool), 6)
    return np.kron(np.where(dark, 0, 255), np.ones((6, 6))).astype(np.uint8)


def test_both_symbols_are_read() -> None:
    """Bars and QR of one label come back with the symbol's name."""
    face = (np.pad(draw(NUMBER).reflectance, 40, constant_values=1) * 255).astype(np.uint8)

    assert {(look.text, look.symbol) for look in zxing.read(face)} == {
        (NUMBER, Symbol.CODE_128),
        (NUMBER, Symbol.QR),
    }


def test_a_micro_qr_is_no_label() -> None:
    """Zxing returns Micro QR phantoms to who asks for QR; the reader lets none through."""
    micro = picture(segno.make("20012", micro=True).matrix)
    anything = zxingcpp.read_barcodes(micro)

    assert [item.format for item in anything] == [zxingcpp.BarcodeFormat.MicroQRCode]
    assert zxing.read(micro) == []


@pytest.mark.parametrize(
    "broken",
    [np.zeros((0, 0), np.uint8), np.zeros((40, 40), np.float32), np.zeros((40, 40), np.uint16)],
    ids=["empty", "float", "16 bit"],
)
def test_what_zxing_refuses_is_an_empty_answer(broken: NDArray[np.uint8]) -> None:
    """A picture that zxing raises on gives nothing."""
    assert zxing.read(broken) == []
