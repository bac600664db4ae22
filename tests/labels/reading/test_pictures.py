"""Picture files as grey pictures: orientation, transparency, and what is refused."""

import struct
import zlib
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from labels.reading.errors import PictureError
from labels.reading.pictures import LARGEST_PICTURE, grey_of, load, unpack


@pytest.fixture
def corner() -> Image.Image:
    """Return a white picture, 40 by 20, with a black corner at the top left."""
    picture = Image.new("RGB", (40, 20), "white")
    picture.paste("black", (0, 0, 10, 10))
    return picture


def black_corner(grey: np.ndarray) -> tuple[str, str]:
    """Return where the black corner is."""
    y, x = (axis.mean() for axis in np.nonzero(grey < 128))
    return (
        "top" if y < grey.shape[0] / 2 else "bottom",
        "left" if x < grey.shape[1] / 2 else "right",
    )


@pytest.mark.parametrize(
    ("tag", "shape", "place"),
    [
        (1, (20, 40), ("top", "left")),
        (3, (20, 40), ("bottom", "right")),
        (6, (40, 20), ("top", "right")),
        (8, (40, 20), ("bottom", "left")),
    ],
)
def test_the_orientation_tag_is_honoured(
    tmp_path: Path, corner: Image.Image, tag: int, shape: tuple[int, int], place: tuple[str, str]
) -> None:
    """A phone held sideways writes its pixels sideways and says so (Exif 2.3, tag 274)."""
    exif = Image.Exif()
    exif[274] = tag
    corner.save(tmp_path / "phone.jpg", exif=exif)
    grey = load(tmp_path / "phone.jpg")

    assert grey.shape == shape
    assert black_corner(grey) == place


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_bytes_are_read_as_files_are(tmp_path: Path, corner: Image.Image, form: str) -> None:
    """What a browser sent gives the same pixels as the same bytes in a file, orientation too."""
    exif = Image.Exif()
    exif[274] = 6
    corner.save(tmp_path / "sent", format=form, exif=exif)
    grey = unpack((tmp_path / "sent").read_bytes(), "the picture", 800)

    assert np.array_equal(grey, load(tmp_path / "sent"))
    assert black_corner(grey) == ("top", "right")


@pytest.mark.parametrize(("form", "pixels"), [("BMP", 800), ("TIFF", 800), ("PNG", 799)])
def test_bytes_are_held_to_less_than_files(corner: Image.Image, form: str, pixels: int) -> None:
    """Bytes of a rarer format, and of more pixels than are allowed, are refused."""
    sent = BytesIO()
    corner.save(sent, format=form)

    with pytest.raises(PictureError, match=r"^the picture (is not a picture|has more than)"):
        unpack(sent.getvalue(), "the picture", pixels)


def test_transparency_is_white_paper(tmp_path: Path) -> None:
    """A label saved with a see-through ground reads as printed on white."""
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(tmp_path / "clear.png")

    assert load(tmp_path / "clear.png").min() == 255


def test_sixteen_bit_pictures_keep_their_shades(tmp_path: Path) -> None:
    """A 16 bit scan is scaled to 8 bits, not clipped to white."""
    shades = np.array([[0, 32768, 65535]] * 3, np.uint16)
    Image.fromarray(shades).save(tmp_path / "scan.png")

    assert load(tmp_path / "scan.png")[0].tolist() == [0, 127, 255]


def huge_png(path: Path, side: int) -> None:
    """Write a PNG of a few bytes whose header claims `side` by `side` pixels."""
    header = struct.pack(">IIBBBBB", side, side, 8, 0, 0, 0, 0)
    blocks = [(b"IHDR", header), (b"IDAT", zlib.compress(b"")), (b"IEND", b"")]
    body = b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in blocks
    )
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + body)


@pytest.mark.parametrize("side", [11_000, 30_000])
def test_a_bomb_is_refused_before_it_is_unpacked(tmp_path: Path, side: int) -> None:
    """A small file that claims more pixels than any phone makes is not opened."""
    assert side * side > LARGEST_PICTURE
    huge_png(tmp_path / "bomb.png", side)

    with pytest.raises(PictureError, match="more than 120 megapixels: make it smaller"):
        load(tmp_path / "bomb.png")


def test_what_is_no_picture_is_said(tmp_path: Path) -> None:
    """A text file, a folder, a missing file: each gets its own sentence."""
    (tmp_path / "notes.jpg").write_text("wheels to true")

    with pytest.raises(PictureError, match=r"notes.jpg is not a picture"):
        load(tmp_path / "notes.jpg")
    with pytest.raises(PictureError, match="is a folder: name a picture in it"):
        load(tmp_path)
    with pytest.raises(PictureError, match=r"There is no file .*gone.png: check the name"):
        load(tmp_path / "gone.png")


def test_a_picture_cut_short_is_said(tmp_path: Path) -> None:
    """A half-copied file is damaged, not half read."""
    noise = np.random.default_rng(1).integers(0, 255, (200, 200, 3), dtype=np.uint8)
    Image.fromarray(noise).save(tmp_path / "whole.jpg")
    data = (tmp_path / "whole.jpg").read_bytes()
    (tmp_path / "half.jpg").write_bytes(data[: len(data) // 2])

    with pytest.raises(PictureError, match=r"half.jpg is damaged or cut short"):
        load(tmp_path / "half.jpg")


def test_arrays_may_be_grey_or_colour() -> None:
    """OpenCV's blue-green-red is weighed to grey, grey is kept."""
    blue = np.zeros((4, 5, 3), np.uint8)
    blue[:, :, 0] = 255

    assert grey_of(blue).shape == (4, 5)
    assert grey_of(blue).max() < 60
    assert grey_of(blue[:, :, 0]).min() == 255
    assert grey_of(blue[:, :, :1]).shape == (4, 5)


@pytest.mark.parametrize(
    "array",
    [np.zeros((4, 4)), np.zeros((0, 4), np.uint8), np.zeros((4, 4, 2), np.uint8)],
    ids=["float", "empty", "two channels"],
)
def test_other_arrays_are_refused(array: np.ndarray) -> None:
    """Float pictures would silently read as black."""
    with pytest.raises(PictureError, match="is no picture"):
        grey_of(array)
