"""Scripts that need shaping: the printed glyphs against another program's, HarfBuzz through raqm.

Pillow draws the same word in the same font through raqm, FriBidi and FreeType; the label goes
through ReportLab's subset of the font and pdfium. Both pictures have to be the same.
"""

import unicodedata
from itertools import pairwise
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont, features

from labels import sheet, typefaces
from labels.column import Row
from labels.drawing import Pen
from labels.lettering import Line, line, tidy
from labels.printer import Printer
from labels.shaping import clusters
from labels.stock import load
from labels.typefaces import BLOCKS, BOLD, FALLBACK, FOLDER, PLAIN

SIZE = 120
PRINTER = Printer(dpi=300)

WORDS = {
    "Latin with a mark": "q\N{COMBINING ACUTE ACCENT}m\N{COMBINING TILDE}",
    "Hebrew": "שַׁרְשֶׁרֶת",
    "Arabic": "سِلسِلة",
    "Persian": "زنجیر",
    "Pashto": "ځنځير",
    "Uyghur": "زەنجىر",
    "Urdu": "زنجیرٹ",
    "Syriac": "ܫܫܠܬܐ",
    "Thaana": "ޗޭނު",
    "Devanagari": "क्षत्रिय",
    "Hindi": "हैंडल",
    "Bengali": "স্প্রকেট",
    "Gurmukhi": "ਚੇਨ੍ਹ",
    "Gujarati": "ક્રેન્ક",
    "Oriya": "ଶୃଙ୍ଖଳ",
    "Tamil": "சங்கிலி",
    "Telugu": "స్ప్రాకెట్",
    "Kannada": "ಸ್ಪ್ರಾಕೆಟ್",
    "Malayalam": "ചങ്ങലയ്ക്ക്",
    "Sinhala": "ශ්\N{ZERO WIDTH JOINER}රී",
    "Thai": "ที่นั่ง",
    "Lao": "ໂສ້ນີ້",
    "Tibetan": "ལྕགས་ཐག",
    "Myanmar": "ကြိုးတွေ",
    "Georgian": "ჯაჭვი",
    "Armenian": "Շղթա",
    "Ethiopic": "ሰንሰለት",
    "Cherokee": "ᎠᎦᏌ",
    "Canadian": "ᐃᓄᒃᑎᑐᑦ",
    "Khmer": "ខ្សែច្រវាក់",
    "Mongolian": "ᠭᠢᠨᠵᠢ",
    "Tai Tham": "ᩃᩣ᩠ᨶᨶᩣ",
    "Balinese": "ᬭᬦ᭄ᬢᬾ",
    "Javanese": "ꦫꦤ꧀ꦠꦺ",
    "Sundanese": "ᮛᮔ᮪ᮒᮦ",
    "Adlam": "𞤀𞤣𞤤𞤢𞤥",
    "Chakma": "𑄌𑄋𑄴𑄟𑄳𑄦",
    "Tifinagh": "ⵜⴰⵎⴰⵣⵉⵖⵜ",
    "Hangul": "자전거",
    "Greek": "Αλυσίδα",
    "Cyrillic": "Цепь",
    "Chinese": "自行车",
}


def one_font(text: str) -> str:
    """Return the only font of a text that is drawn without a box."""
    drawn = line(tidy(text), bold=False)
    assert not drawn.missing
    (name,) = {piece.font for piece in drawn.pieces}
    return name


def trimmed(dark: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return the part of a picture that has ink."""
    rows, columns = np.nonzero(dark)
    return dark[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]


def printed(text: str, folder: Path) -> NDArray[np.bool_]:
    """Return a row of type as a label has it, a pixel to a dot of the printer."""
    path = folder / "row.pdf"
    with sheet.document(load("roll-102x51"), PRINTER, path) as canvas:
        sheet.open_page(canvas, PRINTER)
        canvas.addLiteral(Pen(canvas).row(Row(100, 250, SIZE, text, bold=False)))
        canvas.showPage()
    with pypdfium2.PdfDocument(path) as document:
        scale = float(PRINTER.dots_per_inch) / 72
        grey = document[0].render(scale=scale, grayscale=True).to_numpy()
    return trimmed(grey.reshape(grey.shape[:2]) < 128)


def by_raqm(text: str, name: str) -> NDArray[np.bool_]:
    """Return the same row as Pillow draws it through raqm."""
    face = ImageFont.truetype(
        str(FOLDER / f"{name}.ttf"), SIZE, layout_engine=ImageFont.Layout.RAQM
    )
    picture = Image.new("L", (1200, 600), 255)
    ImageDraw.Draw(picture).text((100, 200), text, font=face, fill=0)
    return trimmed(np.asarray(picture) < 128)


def likeness(one: NDArray[np.bool_], other: NDArray[np.bool_]) -> float:
    """Return the share of the ink that two pictures have in common, at best by a pixel aside."""
    room = np.maximum(one.shape, other.shape) + 4
    held = np.zeros(room, bool)
    held[2 : 2 + one.shape[0], 2 : 2 + one.shape[1]] = one
    shares = []
    for down in (1, 2, 3):
        for right in (1, 2, 3):
            moved = np.zeros(room, bool)
            moved[down : down + other.shape[0], right : right + other.shape[1]] = other
            shares.append(float((held & moved).sum() / (held | moved).sum()))
    return max(shares)


@pytest.mark.parametrize("script", WORDS)
def test_words_are_drawn_as_harfbuzz_shapes_them(script: str, tmp_path: Path) -> None:
    """A word in that script is the picture that raqm and FreeType make of it, to a pixel of edge.

    Hinting and subsetting move edges by a pixel; a letter that is not joined, a mark or a vowel
    sign in the wrong place, moves far more.
    """
    assert features.check("raqm")
    text = tidy(WORDS[script])
    ours, theirs = printed(text, tmp_path), by_raqm(text, one_font(text))

    assert np.abs(np.subtract(ours.shape, theirs.shape)).max() <= 3
    assert likeness(ours, theirs) > 0.85


def test_unshaped_text_would_be_found_out(tmp_path: Path) -> None:
    """The comparison fails for letters that are merely set side by side."""
    text = WORDS["Devanagari"]
    name = one_font(text)
    face = ImageFont.truetype(
        str(FOLDER / f"{name}.ttf"), SIZE, layout_engine=ImageFont.Layout.BASIC
    )
    picture = Image.new("L", (1200, 600), 255)
    ImageDraw.Draw(picture).text((100, 200), text, font=face, fill=0)
    basic = trimmed(np.asarray(picture) < 128)

    assert abs(basic.shape[1] - printed(text, tmp_path).shape[1]) > 20


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: f"{block[0]:04X}-{block[2]}")
def test_each_block_has_its_font(block: tuple[int, int, str]) -> None:
    """The font of a block has most of the block's letters that Unicode assigns."""
    first, last, name = block
    letters = [chr(code) for code in range(first, last + 1) if tidy(chr(code))]
    held = [letter for letter in letters if typefaces.has(name, letter)]

    assert len(held) >= 0.75 * len(letters)
    assert typefaces.family(held[0]) == name


def test_blocks_are_in_order_and_apart() -> None:
    """Each block ends before the next one starts, as the search for a letter's block needs it."""
    for (_, last, _), (first, _, _) in pairwise(BLOCKS):
        assert last < first


def test_each_font_is_used_and_licensed() -> None:
    """Every font file is one that some letter asks for, and has a licence beside it."""
    used = {PLAIN, BOLD, FALLBACK, *(name for _, _, name in BLOCKS)}
    licences = [path.name.removesuffix("-LICENCE.txt") for path in FOLDER.glob("*-LICENCE.txt")]

    assert {path.stem for path in FOLDER.glob("*.ttf")} == used
    for name in used:
        assert any(name.startswith(known) for known in licences), name


@pytest.mark.parametrize("script", WORDS)
def test_no_cut_leaves_half_a_letter(script: str) -> None:
    """Clusters are the text, and none of them starts with a mark."""
    pieces = clusters(tidy(WORDS[script]))

    assert "".join(pieces) == tidy(WORDS[script])
    assert all(line(piece, bold=False).width > 0 for piece in pieces)


def test_ink_is_told_to_its_edges(tmp_path: Path) -> None:
    """Width, top and bottom of a line are those of its ink as pdfium paints it, to 2 pixels."""
    for text in ("ÅÉjg", "ที่นั่ง", "ལྕགས", "ځنځير"):
        drawn: Line = line(text, bold=False)
        high, wide = printed(text, tmp_path).shape

        assert abs((drawn.top - drawn.bottom) * SIZE - high) <= 2
        assert wide <= drawn.width * SIZE + 2


@pytest.mark.parametrize("script", ["Devanagari", "Uyghur", "Khmer", "Thai", "Greek"])
def test_words_can_be_found_in_the_file(script: str, tmp_path: Path) -> None:
    """A program that reads the file's text finds the letters that were typed, not their glyphs.

    ISO 32000-1, 14.9.4: ActualText stands for what is drawn; pdfium heeds it.
    """
    text = tidy(WORDS[script])
    printed(text, tmp_path)
    with pypdfium2.PdfDocument(tmp_path / "row.pdf") as document:
        told = document[0].get_textpage().get_text_bounded()

    assert sorted(unicodedata.normalize("NFKD", told).strip()) == sorted(
        unicodedata.normalize("NFKD", text)
    )
