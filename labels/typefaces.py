"""The embedded fonts: which of them has a letter, and how large each of their glyphs is.

The fonts are DejaVu Sans Condensed, plain and bold; Droid Sans Fallback for Chinese characters and
kana; Nanum Square for Hangul; and of the Noto family one font for each other script. They are
unchanged copies from Debian 12 (fonts-dejavu-extra 2.37-6, fonts-droid-fallback 1:6.0.1r16-1.1,
fonts-nanum 20200506-1, fonts-noto-core 20201225-1); their licences stand beside them.
"""

from bisect import bisect_right
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import uharfbuzz
    from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).with_name("fonts")
PLAIN = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
FALLBACK = "DroidSansFallbackFull"

BLOCKS = (
    (0x0590, 0x05FF, "NotoSansHebrew-Regular"),
    (0x0600, 0x06FF, "NotoSansArabic-Regular"),
    (0x0700, 0x074F, "NotoSansSyriac-Regular"),
    (0x0750, 0x077F, "NotoSansArabic-Regular"),
    (0x0780, 0x07BF, "NotoSansThaana-Regular"),
    (0x08A0, 0x08FF, "NotoSansArabic-Regular"),
    (0x0900, 0x097F, "NotoSansDevanagari-Regular"),
    (0x0980, 0x09FF, "NotoSansBengali-Regular"),
    (0x0A00, 0x0A7F, "NotoSansGurmukhi-Regular"),
    (0x0A80, 0x0AFF, "NotoSansGujarati-Regular"),
    (0x0B00, 0x0B7F, "NotoSansOriya-Regular"),
    (0x0B80, 0x0BFF, "NotoSansTamil-Regular"),
    (0x0C00, 0x0C7F, "NotoSansTelugu-Regular"),
    (0x0C80, 0x0CFF, "NotoSansKannada-Regular"),
    (0x0D00, 0x0D7F, "NotoSansMalayalam-Regular"),
    (0x0D80, 0x0DFF, "NotoSansSinhala-Regular"),
    (0x0E00, 0x0E7F, "NotoSansThai-Regular"),
    (0x0F00, 0x0FFF, "NotoSerifTibetan-Regular"),
    (0x1000, 0x109F, "NotoSansMyanmar-Regular"),
    (0x10A0, 0x10FF, "NotoSansGeorgian-Regular"),
    (0x1200, 0x139F, "NotoSansEthiopic-Regular"),
    (0x13A0, 0x13FF, "NotoSansCherokee-Regular"),
    (0x1400, 0x167F, "NotoSansCanadianAboriginal-Regular"),
    (0x1700, 0x171F, "NotoSansTagalog-Regular"),
    (0x1720, 0x173F, "NotoSansHanunoo-Regular"),
    (0x1740, 0x175F, "NotoSansBuhid-Regular"),
    (0x1760, 0x177F, "NotoSansTagbanwa-Regular"),
    (0x1780, 0x17FF, "NotoSansKhmer-Regular"),
    (0x1800, 0x18AF, "NotoSansMongolian-Regular"),
    (0x18B0, 0x18FF, "NotoSansCanadianAboriginal-Regular"),
    (0x1900, 0x194F, "NotoSansLimbu-Regular"),
    (0x1950, 0x197F, "NotoSansTaiLe-Regular"),
    (0x1980, 0x19DF, "NotoSansNewTaiLue-Regular"),
    (0x19E0, 0x19FF, "NotoSansKhmer-Regular"),
    (0x1A00, 0x1A1F, "NotoSansBuginese-Regular"),
    (0x1A20, 0x1AAF, "NotoSansTaiTham-Regular"),
    (0x1B00, 0x1B7F, "NotoSansBalinese-Regular"),
    (0x1B80, 0x1BBF, "NotoSansSundanese-Regular"),
    (0x1BC0, 0x1BFF, "NotoSansBatak-Regular"),
    (0x1C00, 0x1C4F, "NotoSansLepcha-Regular"),
    (0x1C50, 0x1C7F, "NotoSansOlChiki-Regular"),
    (0x1C90, 0x1CBF, "NotoSansGeorgian-Regular"),
    (0x1CC0, 0x1CCF, "NotoSansSundanese-Regular"),
    (0x2D80, 0x2DDF, "NotoSansEthiopic-Regular"),
    (0xA000, 0xA4CF, "NotoSansYi-Regular"),
    (0xA500, 0xA63F, "NotoSansVai-Regular"),
    (0xA800, 0xA82F, "NotoSansSylotiNagri-Regular"),
    (0xA880, 0xA8DF, "NotoSansSaurashtra-Regular"),
    (0xA8E0, 0xA8FF, "NotoSansDevanagari-Regular"),
    (0xA900, 0xA92F, "NotoSansKayahLi-Regular"),
    (0xA930, 0xA95F, "NotoSansRejang-Regular"),
    (0xA980, 0xA9DF, "NotoSansJavanese-Regular"),
    (0xA9E0, 0xA9FF, "NotoSansMyanmar-Regular"),
    (0xAA00, 0xAA5F, "NotoSansCham-Regular"),
    (0xAA60, 0xAA7F, "NotoSansMyanmar-Regular"),
    (0xAA80, 0xAADF, "NotoSansTaiViet-Regular"),
    (0xAAE0, 0xAAFF, "NotoSansMeeteiMayek-Regular"),
    (0xAB00, 0xAB2F, "NotoSansEthiopic-Regular"),
    (0xAB70, 0xABBF, "NotoSansCherokee-Regular"),
    (0xABC0, 0xABFF, "NotoSansMeeteiMayek-Regular"),
    (0xAC00, 0xD7A3, "NanumSquareR"),
    (0xFB50, 0xFDFF, "NotoSansArabic-Regular"),
    (0xFE70, 0xFEFF, "NotoSansArabic-Regular"),
    (0x104B0, 0x104FF, "NotoSansOsage-Regular"),
    (0x10D00, 0x10D3F, "NotoSansHanifiRohingya-Regular"),
    (0x11100, 0x1114F, "NotoSansChakma-Regular"),
    (0x16A40, 0x16A6F, "NotoSansMro-Regular"),
    (0x16F00, 0x16F9F, "NotoSansMiao-Regular"),
    (0x1E2C0, 0x1E2FF, "NotoSansWancho-Regular"),
    (0x1E900, 0x1E95F, "NotoSansAdlam-Regular"),
)
"""First and last code point of each block of a script, and the font that is made for the script.
Source: Unicode 15, Blocks.txt (from memory); that each font has its letters is tested."""

STARTS = [first for first, _last, _name in BLOCKS]


class Ink(NamedTuple):
    """What a glyph or a line of type covers with ink, from where it starts, in ems."""

    left: float
    right: float
    top: float
    bottom: float


NO_INK = Ink(0, 0, 0, 0)


@cache
def font(name: str) -> "TTFont":
    """Return the embedded font of that name, known to ReportLab from then on."""
    from reportlab.pdfbase import pdfmetrics, ttfonts

    # Text is shaped by `labels.shaping`, which ReportLab is not to do once more.
    face = ttfonts.TTFont(name, str(FOLDER / f"{name}.ttf"), shapable=False)
    pdfmetrics.registerFont(face)
    return face


@cache
def shaper(name: str) -> "uharfbuzz.Font":
    """Return the font of that name as HarfBuzz reads it, lengths in its own units."""
    import uharfbuzz

    return uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob.from_file_path(FOLDER / f"{name}.ttf")))


def has(name: str, letter: str) -> bool:
    """Return whether the font of that name has the letter."""
    return ord(letter) in font(name).face.charToGlyph


def family(letter: str) -> str | None:
    """Return the font that is made for the letter's script, or None: Latin, Chinese, signs ...

    >>> family("ก"), family("a")
    ('NotoSansThai-Regular', None)
    """
    at = bisect_right(STARTS, ord(letter)) - 1
    return BLOCKS[at][2] if at >= 0 and ord(letter) <= BLOCKS[at][1] else None


@cache
def home(letter: str, *, bold: bool) -> str | None:
    """Return the name of the font that has the letter, or None."""
    ours = family(letter)
    for name in (BOLD if bold else PLAIN, PLAIN, *([ours] if ours else []), FALLBACK):
        if has(name, letter):
            return name
    return None


@cache
def ink(name: str, glyph: int) -> Ink:
    """Return what the glyph of that index covers in the font of that name."""
    face = shaper(name)
    em = face.face.upem
    box = face.get_glyph_extents(glyph)
    if box is None or not (box.width and box.height):
        return NO_INK
    return Ink(
        box.x_bearing / em,
        (box.x_bearing + box.width) / em,
        box.y_bearing / em,
        (box.y_bearing + box.height) / em,
    )


@cache
def glyph_of(name: str, letter: str) -> tuple[float, Ink]:
    """Return the width and the ink of a letter that is drawn as it is, in ems."""
    face = font(name).face
    code = ord(letter)
    wide: float = face.charWidths.get(code, face.defaultWidth) / 1000
    return wide, ink(name, face.charToGlyph[code])
