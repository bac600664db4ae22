"""Code 128, set C: the bars of a number, decoded back by a table of our own before use.

A symbol is a start character, one character for each pair of digits, a check character and the
stop pattern. A character is three bars and three spaces on 11 modules, the stop 13: a number of
8 digits takes 79 modules, one of 10 takes 90.

Source: barcodeisland.com/code128.phtml (characters, check character, start C 105); the standard,
ISO/IEC 15417, was not seen.

>>> bars = modules("20012362")
>>> len(bars), bars[:11], bars[-13:]
(79, '11010011100', '1100011101011')
>>> decode(bars)
'20012362'
"""

from functools import cache
from itertools import count
from operator import mul

CHARACTER = 11
"""Modules of a character."""
STOP = "1100011101011"
START_C = 105
QUIET = 10
"""Modules left white on each side (GS1 General Specifications, 5.4.4.2)."""
SHORTEST = 2 * CHARACTER + len(STOP)

WIDTHS = """
    212222 222122 222221 121223 121322 131222 122213 122312 132212 221213
    221312 231212 112232 122132 122231 113222 123122 123221 223211 221132
    221231 213212 223112 312131 311222 321122 321221 312212 322112 322211
    212123 212321 232121 111323 131123 131321 112313 132113 132311 211313
    231113 231311 112133 112331 132131 113123 113321 133121 313121 211331
    231131 213113 213311 213131 311123 311321 331121 312113 312311 332111
    314111 221411 431111 111224 111422 121124 121421 141122 141221 112214
    112412 122114 122411 142112 142211 241211 221114 413111 241112 134111
    111242 121142 121241 114212 124112 124211 411212 421112 421211 212141
    214121 412121 111143 111341 131141 114113 114311 411113 411311 113141
    114131 311141 411131 211412 211214 211232
"""
"""Widths of bar, space, bar ... of the characters 0 to 105."""


class BarsFault(ValueError):  # noqa: N818 - the fault is the name
    """Bars that do not say the number they were drawn for."""


@cache
def _values() -> dict[str, int]:
    """Return the value of each character by its modules."""
    return {
        "".join("10"[at % 2] * int(width) for at, width in enumerate(widths)): value
        for value, widths in enumerate(WIDTHS.split())
    }


def modules(digits: str) -> str:
    """Return the modules of `digits`, 1 for a bar and 0 for a space, without quiet zones.

    Raises BarsFault when the bars, decoded back, are not `digits` in set C: python-barcode loses
    a leading 99 and gives no sign of it (its issue #251), and goes to another set for odd digits.
    """
    from barcode.codex import Code128

    # A new object each time: the character set of the last call stays in an old one.
    bars: str = Code128(digits, writer=_writer()).build()[0]
    if decode(bars) != digits:
        raise BarsFault(f"The bars drawn for {digits!r} say something else: they are not used.")
    return bars


@cache
def _writer() -> object:
    """Return a writer that is never used: left to itself, every symbol makes a new one."""
    from barcode.writer import SVGWriter

    return SVGWriter()


def decode(bars: str) -> str:
    """Return the digits that the modules say.

    Raises BarsFault for anything but a whole symbol in set C with the right check character.
    """
    if len(bars) < SHORTEST or (len(bars) - SHORTEST) % CHARACTER or not bars.endswith(STOP):
        raise BarsFault(f"{len(bars)} modules are no whole Code 128 symbol with its stop pattern.")
    table = _values()
    try:
        start, *data, check = [
            table[bars[at : at + CHARACTER]] for at in range(0, len(bars) - len(STOP), CHARACTER)
        ]
    except KeyError as unknown:
        raise BarsFault(f"{unknown.args[0]} is no Code 128 character.") from None
    if start != START_C or max(data, default=0) > 99:
        raise BarsFault("The symbol is not wholly in Code 128 set C.")
    if check != (start + sum(map(mul, data, count(1)))) % 103:
        raise BarsFault("The check character of the Code 128 symbol is wrong.")
    return "%02d" * len(data) % tuple(data)
