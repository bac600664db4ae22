"""The QR of a number: version 1, numeric, the highest error correction.

Version 1 has 21 x 21 modules and holds 17 digits at level H (30 % correction), so both lengths of
number go in. Source: ISO/IEC 18004, capacities from memory; segno refuses what does not fit.

For a given length and mask the modules are linear over GF(2) in the data bits: padding, error
correction and mask are all exclusive-ors. So segno draws one symbol for each data bit once, and
every number's symbol is the exclusive-or of those: the same modules at a hundredth of the time.
"""

from functools import cache

SIDE = 21
ROW_BITS = 24
QUIET = 4
"""Modules left white on each side (ISO/IEC 18004; keyence.com, "QR code")."""

MASK = 3
"""The pattern that segno picks most often for these numbers; readers take any."""

GROUP = 3
"""Digits that numeric mode packs together, in 10 bits; two take 7 bits, one takes 4."""
GROUP_BITS = {3: 10, 2: 7, 1: 4}


def rows(digits: str) -> tuple[str, ...]:
    """Return the 21 rows of the symbol, top to bottom, 1 for dark, without the quiet zone."""
    text = f"{_symbol(digits):0{SIDE * ROW_BITS}b}"
    return tuple(text[at : at + SIDE] for at in range(0, len(text), ROW_BITS))


def packed(digits: str) -> str:
    """Return the rows in hexadecimal, each filled up to whole bytes with light modules."""
    return f"{_symbol(digits):0{SIDE * ROW_BITS // 4}X}"


def _symbol(digits: str) -> int:
    """Return the symbol as one number, row by row, the modules of a row as whole bytes."""
    symbol = _drawn("0" * len(digits))
    for at in range(0, len(digits), GROUP):
        symbol ^= _change(len(digits), at, digits[at : at + GROUP])
    return symbol


@cache
def _change(length: int, at: int, group: str) -> int:
    """Return the modules that change when `group` stands at `at` where noughts stood."""
    change = 0
    for bit in range(GROUP_BITS[len(group)]):
        if int(group) >> bit & 1:
            change ^= _bit_change(length, at, len(group), bit)
    return change


@cache
def _bit_change(length: int, at: int, size: int, bit: int) -> int:
    """Return the modules that one data bit changes."""
    noughts = "0" * length
    one = f"{noughts[:at]}{1 << bit:0{size}d}{noughts[at + size :]}"
    return _drawn(one) ^ _drawn(noughts)


@cache
def _drawn(digits: str) -> int:
    """Return segno's symbol as `_symbol` returns it."""
    import segno

    symbol = segno.make(
        digits, version=1, error="h", mode="numeric", mask=MASK, micro=False, boost_error=False
    )
    filling = "0" * (ROW_BITS - SIDE)
    return int("".join("".join("01"[dark] for dark in row) + filling for row in symbol.matrix), 2)
