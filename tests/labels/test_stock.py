"""Label stocks: our own all hold, the user's are looked through line by line."""

from pathlib import Path

import pytest

from labels import stock
from labels.stock import StockError, check, load

CHECK = "check `page`, `first`, `pitch` and `label`."
GOOD = """note = "measured with callipers"
media = "sheet"
page = [210, 297]
columns = 3
rows = 8
label = [63.5, 33.9]
first = [7.2, 12.9]
pitch = [66, 33.9]
"""


def test_how_many_there_are() -> None:
    """At least 12 sheets, A4 and US Letter among them, and 8 rolls come with the package."""
    stocks = [load(name) for name in stock.names()]

    assert sum(not one.roll for one in stocks) >= 12
    assert sum(one.roll for one in stocks) >= 8
    assert {one.page_width_um for one in stocks if not one.roll} == {210_000, 215_900}


@pytest.mark.parametrize("name", stock.names())
def test_our_own_hold(name: str) -> None:
    """Each of our files is without fault, says where its figures are from, and is named by them."""
    one = load(name)
    # Half a millimetre is rounded up.
    size = f"{(one.label_width_um + 500) // 1000}x{(one.label_height_um + 500) // 1000}"

    assert check(stock.BUNDLED / f"{name}.toml") == ()
    assert one.note.startswith(("seen in public label-template data", "from memory"))
    assert size in name
    assert one.roll or f"-{one.columns}x{one.rows}-" in name


@pytest.mark.parametrize(
    ("name", "position", "corner"),
    [
        ("a4-3x8-70x37", 1, (0, 0)),
        ("a4-3x8-70x37", 24, (140_000, 259_000)),
        ("a4-3x8-64x34", 5, (7_200 + 66_000, 12_900 + 33_900)),
        ("letter-3x10-67x25", 2, (3_962 + 70_637, 12_700)),
        ("roll-57x32", 1, (0, 0)),
    ],
    ids=str,
)
def test_corners(name: str, position: int, corner: tuple[int, int]) -> None:
    """Labels are counted row by row from the top left; inches are 25.4 mm."""
    assert load(name).corner(position) == corner


@pytest.mark.parametrize(
    ("name", "rims"),
    [
        ("a4-3x8-70x37", (4_200, 4_200)),
        ("a4-3x8-64x34", (0, 0)),
        ("roll-57x32", (3_000, 0)),
    ],
    ids=str,
)
def test_rims(name: str, rims: tuple[int, int]) -> None:
    """Labels at the sheet's edge lose what the printer cannot reach; rolls say it themselves."""
    assert load(name).rims(4_200) == rims


def test_users_folder_goes_first(tmp_path: Path) -> None:
    """A user's file adds a name, or takes the place of ours."""
    (tmp_path / "shelf.toml").write_text(GOOD)
    (tmp_path / "a4-3x8-70x37.toml").write_text(GOOD)

    assert "shelf" in stock.names(tmp_path)
    assert load("shelf", tmp_path).label_width_um == 63_500
    assert load("a4-3x8-70x37", tmp_path).label_width_um == 63_500
    assert load(tmp_path / "shelf.toml").name == "shelf"


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (
            "a4-3x8-70x73",
            (
                "There is no label stock 'a4-3x8-70x73': "
                "did you mean a4-3x8-70x37 or a4-3x8-70x36 or a4-3x8-64x34?"
            ),
        ),
        ("postcard", "There is no label stock 'postcard': name one that `names` lists."),
    ],
    ids=["near", "far"],
)
def test_unknown_names(asked: str, sentence: str) -> None:
    """An unknown name is answered with the nearest ones."""
    with pytest.raises(StockError) as refusal:
        load(asked)

    assert str(refusal.value) == sentence


@pytest.mark.parametrize(
    ("old", "new", "line", "sentence"),
    [
        (
            "rows = 8",
            "rows = 9",
            5,
            f"9 labels end 21 mm past the page's height: {CHECK}",
        ),
        (
            "columns = 3",
            "columns = 4",
            4,
            f"4 labels end 58.7 mm past the page's width: {CHECK}",
        ),
        ("[66, 33.9]", "[60, 33.9]", 8, "`pitch` is less than the label's width: they overlap."),
        ("[63.5, 33.9]", "[63.5]", 6, "`label` is two lengths, such as [70, 37]."),
        ("[63.5, 33.9]", "[-63.5, 33.9]", 6, "`label` is two lengths, such as [70, 37]."),
        ("[63.5, 33.9]", "[nan, 33.9]", 6, "`label` is two lengths, such as [70, 37]."),
        ("[63.5, 33.9]", "[true, 33.9]", 6, "`label` is two lengths, such as [70, 37]."),
        ("[63.5, 33.9]", "[0.5, 0.5]", 6, "`label` is from 5 to 2000 mm wide and high."),
        ("rows = 8", "rows = 8.5", 5, "`rows` is a whole number from 1 to 200."),
        ("rows = 8", "rows = 0", 5, "`rows` is a whole number from 1 to 200."),
        ("rows = 8", "row = 8", 5, "`row` says nothing about a sheet: did you mean `rows`?"),
        ("rows = 8", "glue = 'strong'", 5, "`glue` says nothing about a sheet: leave it out."),
        ('"sheet"', '"card"', 2, '`media` is "sheet" or "roll".'),
        ('"sheet"', "7", 2, '`media` is a text in "quotes".'),
        ("page =", 'unit = "ft"\npage =', 3, '`unit` is "mm" or "in".'),
        (
            "page =",
            "unprinted = [40, 0]\npage =",
            3,
            "`unprinted` leaves nothing of the label's width.",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) and len(value) < 20 else "",
)
def test_faults(old: str, new: str, line: int, sentence: str, tmp_path: Path) -> None:
    """Each fault of a file is said in one sentence, with the line where it stands."""
    path = tmp_path / "mine.toml"
    path.write_text(GOOD.replace(old, new, 1))

    assert (line, sentence) in check(path)
    with pytest.raises(StockError, match=r"mine\.toml describes no label stock: line"):
        load(path)


def test_all_faults_at_once(tmp_path: Path) -> None:
    """Every fault is listed, in the order of the lines; what is missing counts as line 1."""
    path = tmp_path / "mine.toml"
    path.write_text(GOOD.replace("rows = 8", "rows = 'many'").replace("first = [7.2, 12.9]\n", ""))

    assert [tuple(fault) for fault in check(path)] == [
        (1, "`first` is missing: add it."),
        (5, "`rows` is a whole number from 1 to 200."),
    ]


@pytest.mark.parametrize(
    ("content", "line"),
    [(b"page = [210, 297\nrows = 8", 2), (b"rows 8", 1), (b"\xff\xfe", 1)],
    ids=["bracket", "no equals sign", "no text"],
)
def test_what_is_no_toml(content: bytes, line: int, tmp_path: Path) -> None:
    """A file that cannot be read at all has one fault, on the line where reading stopped."""
    path = tmp_path / "mine.toml"
    path.write_bytes(content)
    faults = check(path)

    assert [fault.line for fault in faults] == [line]
    assert faults[0].sentence.endswith(("a line.", "check its name."))


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """A path to nothing is a fault, not a crash."""
    with pytest.raises(StockError, match="cannot be read as text"):
        load(tmp_path / "none.toml")
