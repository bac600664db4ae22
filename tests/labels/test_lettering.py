"""Letters on labels: wrapping, shortening, and right-to-left scripts."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.lettering import (
    BOX,
    ELLIPSIS,
    flowed,
    line,
    shortened,
    tidy,
    whole,
    width,
    wrapped,
)
from labels.script import turned
from labels.typefaces import BOLD, PLAIN

texts = st.text(st.sampled_from("abc WiЖ車א1-…éहकि्ที"), max_size=40).map(tidy)


def drawn_as(text: str) -> str:
    """Return the letters of a text from left to right, those that stand alone as plain ones."""
    return plain("".join(piece.text for piece in line(text, bold=False).pieces))


def plain(text: str) -> str:
    """Return the text with isolated forms of Arabic letters as the letters, which look so."""
    return "".join(
        unicodedata.normalize("NFKC", letter)
        if unicodedata.decomposition(letter).startswith("<isolated>")
        else letter
        for letter in text
    )


@given(texts, st.floats(1.5, 30), st.booleans())
def test_shortened_text_fits(text: str, room: float, bold: bool) -> None:
    """A text is whole if it fits, and else the start of it with an ellipsis, which fits."""
    short = shortened(text, room, bold=bold)

    assert width(short, bold=bold) <= room
    if short != text:
        assert width(text, bold=bold) > room
        assert text.startswith(short.removesuffix(ELLIPSIS))


@given(texts, st.floats(3, 30), st.integers(1, 5))
def test_wrapped_text_fits_and_loses_nothing_unsaid(text: str, room: float, rows: int) -> None:
    """Rows fit; together they are the text, or end with an ellipsis where some is left out."""
    made = wrapped(text, room, rows, bold=True)
    together = "".join(made).replace(" ", "")

    assert len(made) <= rows
    assert all(width(row, bold=True) <= room for row in made)
    if together != text.replace(" ", ""):
        assert made[-1].endswith(ELLIPSIS)
        assert text.replace(" ", "").startswith(together[:-1])


@pytest.mark.parametrize(
    ("text", "rows", "expected"),
    [
        ("Rear derailleur", 2, ["Rear", "derailleur"]),
        ("Rear derailleur", 1, ["Rear de…"]),
        ("Freilaufnabe", 2, ["Freilaufn", "abe"]),
        ("", 2, []),
        ("one two three four", 2, ["one two", "three fo…"]),
    ],
    ids=["at a space", "no row left", "a long word", "nothing", "too much"],
)
def test_wrapping(text: str, rows: int, expected: list[str]) -> None:
    """Rows of 5 ems break at spaces, and inside a word only if it is wider than a row."""
    assert wrapped(text, 5, rows, bold=True) == expected


@pytest.mark.parametrize(
    ("items", "rows", "expected"),
    [
        (("8 speed", "long"), 1, ["8 speed · long"]),
        (("27.2 mm", "350 mm long"), 2, ["27.2 mm", "350 mm long"]),
        (("27.2 mm", "350 mm long", "alloy"), 2, ["27.2 mm", "350 mm long…"]),
        (("27.2 mm",), 0, []),
        (("27.2 mm with a collar",), 3, ["27.2 mm with", "a collar"]),
        (("27.2 mm with a collar", "x"), 2, ["27.2 mm wit…", "x"]),
        ((), 3, []),
    ],
    ids=[
        "one row",
        "a row each",
        "one left out",
        "no row",
        "on two",
        "the last keeps a row",
        "nothing",
    ],
)
def test_flowing(items: tuple[str, ...], rows: int, expected: list[str]) -> None:
    """Attributes share a row of 7 ems where they fit, and start one where not."""
    assert flowed(items, 7, rows) == expected


@pytest.mark.parametrize(
    ("typed", "drawn"),
    [
        ("  two\t words\n", "two words"),
        ("e\N{COMBINING ACUTE ACCENT}", "é"),
        ("a\N{ZERO WIDTH SPACE}b\x07\N{SOFT HYPHEN}c", "abc"),
    ],
    ids=["spaces", "accents", "what cannot be seen"],
)
def test_tidying(typed: str, drawn: str) -> None:
    """Spaces become single, accents join their letter, controls go."""
    assert tidy(typed) == drawn


@pytest.mark.parametrize(
    "sample",
    [
        "Größe",
        "Цепь",
        "Ζάντα",
        "Ձող",
        "ჯაჭვი",
        "チェーン",
        "自行车",
        "שרשרת",
        "سلسلة",
        "27.2 ± 0,1 ″",
    ],
)
def test_scripts_that_the_fonts_have(sample: str) -> None:
    """These scripts are drawn as they are, without a box."""
    assert line(sample, bold=True).missing == frozenset()
    assert BOX not in drawn_as(sample)


def test_what_no_font_has_is_a_box() -> None:
    """A character that no font has is a box of some width, and is told by name."""
    drawn = line("a\N{EGYPTIAN HIEROGLYPH A001}b", bold=True)

    assert [(piece.font, piece.text) for piece in drawn.pieces] == [
        (BOLD, "a"),
        (PLAIN, BOX),
        (BOLD, "b"),
    ]
    assert drawn.missing == {"\N{EGYPTIAN HIEROGLYPH A001}"}


@pytest.mark.parametrize(
    ("rows", "texts", "expected"),
    [
        (["rear hub"], ("rear hub",), True),
        (["rear", "hub"], ("rear hub",), True),
        (["rear hub · 36"], ("rear hub", "36"), True),
        (["re", "ar hub"], ("rear hub",), False),
        (["rear h…"], ("rear hub",), False),
        ([], (), True),
    ],
    ids=["one row", "two rows", "two items", "a broken word", "cut", "nothing"],
)
def test_what_is_told_whole(rows: list[str], texts: tuple[str, ...], expected: bool) -> None:
    """Rows are whole if they say every word, and break none."""
    assert whole(rows, texts) is expected


def test_joiners_are_kept_where_they_mean_something() -> None:
    """In Sinhala a joiner makes a letter group: without it the word is drawn otherwise."""
    assert drawn_as(tidy("ශ්\N{ZERO WIDTH JOINER}රී")) != drawn_as("ශ්රී")


def test_ink_never_stands_left_of_nought() -> None:
    """A letter that hangs over its left edge moves the line right."""
    drawn = line("j", bold=True)

    assert drawn.pieces[0].x > 0
    assert drawn.bottom < -0.1


@pytest.mark.parametrize(
    ("typed", "drawn"),
    [
        ("Seatpost 27.2", "Seatpost 27.2"),
        ("שלום", "\u05dd\u05d5\u05dc\u05e9"),
        ("אופנוע (גדול)", "(\u05dc\u05d5\u05d3\u05d2) \u05e2\u05d5\u05e0\u05e4\u05d5\u05d0"),
        ("אב 27.2 rear", "rear 27.2 \u05d1\u05d0"),
        ("27.2 rear אב", "27.2 rear \u05d1\u05d0"),
        ("סלה A-3", "A-3 \u05d4\u05dc\u05e1"),
        ("50% אב", "\u05d1\u05d0 50%"),
        ("سلة", "\ufe94\ufee0\ufeb3"),
        ("مقود", "\ufea9\ufeee\ufed8\ufee3"),
        ("لا", "\ufefb"),
        ("الأمامي", "\ufef2\ufee3\ufe8e\ufee3\ufef7\ufe8d"),
        ("سلة ٢٧ 1/8", "1/8 \u0662\u0667 \ufe94\ufee0\ufeb3"),
    ],
    ids=ascii,
)
def test_right_to_left(typed: str, drawn: str) -> None:
    """Hebrew and Arabic are turned and joined, numbers and Latin words in them are not.

    The expected order and shapes are what python-bidi 0.6.12 and arabic-reshaper 3.1.0 give.
    """
    assert drawn_as(typed) == plain(drawn)


def test_a_non_joiner_keeps_letters_apart() -> None:
    """A zero width non-joiner parts two Arabic letters and is not drawn itself."""
    assert drawn_as("سس") == "\ufeb2\ufeb3"
    assert drawn_as(tidy("س\N{ZERO WIDTH NON-JOINER}س")).replace(" ", "") == "سس"


@given(st.text(st.sampled_from("אבגab12 ,-()"), max_size=20))
def test_turning_keeps_every_letter(text: str) -> None:
    """Nothing is lost or made up, and brackets of a turned run change sides."""
    brackets = str.maketrans(")", "(")

    assert sorted("".join(run for run, _ in turned(text))) == sorted(text)
    assert sorted(drawn_as(text).translate(brackets)) == sorted(text.translate(brackets))
