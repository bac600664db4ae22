"""zxing-cpp restricted to Code 128 and QR (model 2), every call guarded."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from labels.reading.look import Decoder, RawLook, Symbol

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@cache
def _formats(only: Symbol | None) -> tuple[Any, dict[Any, Symbol]]:
    import zxingcpp

    kinds = zxingcpp.BarcodeFormat
    wanted = {Symbol.CODE_128: kinds.Code128, Symbol.QR: kinds.QRCodeModel2}
    # A QR of model 2 is returned under the name of its family; other members have their own.
    symbols = {kinds.Code128: Symbol.CODE_128, kinds.QRCode: Symbol.QR}
    asked = list(wanted.values()) if only is None else [wanted[only]]
    return zxingcpp.BarcodeFormats(asked), symbols


def read(
    grey: NDArray[np.uint8], *, thorough: bool = True, only: Symbol | None = None
) -> list[RawLook]:
    """Return everything zxing sees in a grey 8 bit picture, or its symbols of one kind only.

    Not `thorough` is for a patch that stands upright: no quarter turns, no smaller copies.
    """
    import zxingcpp

    formats, symbols = _formats(only)
    try:
        found = zxingcpp.read_barcodes(
            grey,
            formats=formats,
            try_rotate=thorough,
            try_downscale=thorough,
            try_invert=False,
            text_mode=zxingcpp.TextMode.Plain,
        )
    except (ValueError, TypeError, RuntimeError, MemoryError):
        return []
    # A Micro QR can come back although it was not asked for.
    return [_look(item, symbols[item.format]) for item in found if item.format in symbols]


def _look(item: Any, symbol: Symbol) -> RawLook:
    place = item.position
    corners = (place.top_left, place.top_right, place.bottom_right, place.bottom_left)
    a, b, c, d = ((float(point.x), float(point.y)) for point in corners)
    return RawLook(item.text, (a, b, c, d), symbol, Decoder.ZXING)
