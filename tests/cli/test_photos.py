"""Photos: written anew, kept by their content beside the database, proven, taken away."""

from __future__ import annotations

import hashlib
import io
import zlib
from pathlib import Path

import pytest
from PIL import Image

from partsbin.workshop.pictures import LONGEST_EDGE, THUMBNAIL_EDGE, NoPictureError, made_safe
from tests.conftest import Shop

ORIENTATION = 0x0112
"""Tag of EXIF 2.3, table 4: 6 is a camera that was turned, so the picture's right is its top."""
GPS = 0x8825


def saved(image: Image.Image, format_: str = "JPEG", **more: object) -> bytes:
    """Return the file of a picture."""
    held = io.BytesIO()
    image.save(held, format_, **more)
    return held.getvalue()


def picture(file: Path, colour: str = "red", size: tuple[int, int] = (60, 40)) -> Path:
    """Write a picture and return its file."""
    file.write_bytes(saved(Image.new("RGB", size, colour)))
    return file


def kept(shop: Shop) -> Path:
    """Return the folder of a shop's photos."""
    return shop.database.with_name(shop.database.name + "-photos")


def test_orientation_is_applied_and_the_place_forgotten() -> None:
    """A turned picture stands upright, and nothing that the camera noted is left in it."""
    image = Image.new("RGB", (60, 40), "red")
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    exif.get_ifd(GPS)[1] = "N"

    made = made_safe(saved(image, exif=exif), "turned.jpg")

    assert (made.width, made.height) == (40, 60)
    with Image.open(io.BytesIO(made.content)) as written:
        assert written.size == (40, 60)
        assert not written.getexif()
        assert written.format == "JPEG"


@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF"])
def test_large_pictures_are_made_smaller(format_: str) -> None:
    """Whatever its format, a picture is kept as a JPEG of a sensible size with a thumbnail."""
    made = made_safe(saved(Image.new("RGB", (3000, 1500), "navy"), format_), "large")

    assert (made.width, made.height) == (LONGEST_EDGE, LONGEST_EDGE // 2)
    with Image.open(io.BytesIO(made.thumbnail)) as small:
        assert small.size == (THUMBNAIL_EDGE, THUMBNAIL_EDGE // 2)


def test_what_is_seen_through_becomes_white() -> None:
    """A drawing on a transparent ground is kept on white."""
    made = made_safe(saved(Image.new("RGBA", (20, 20), (0, 0, 0, 0)), "PNG"), "sketch.png")

    with Image.open(io.BytesIO(made.content)) as written:
        assert written.getpixel((5, 5)) == (255, 255, 255)


def bomb() -> bytes:
    """Return a small PNG file that would unpack to 30,000 by 30,000 pixels."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4) + name + body + zlib.crc32(name + body).to_bytes(4)

    size = (30_000).to_bytes(4) * 2
    head = chunk(b"IHDR", size + bytes([8, 0, 0, 0, 0]))
    body = chunk(b"IDAT", zlib.compress(bytes(1000)))
    return b"\x89PNG\r\n\x1a\n" + head + body + chunk(b"IEND", b"")


REFUSED = {
    "no picture": (b"milk, bread, brake cable", "no picture"),
    "empty": (b"", "no picture"),
    "cut off": (saved(Image.effect_noise((400, 300), 90).convert("RGB"))[:4000], "damaged"),
    "bomb": (bomb(), "too many pixels"),
    "vector drawing": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "no picture"),
}


@pytest.mark.parametrize(("raw", "told"), REFUSED.values(), ids=REFUSED)
def test_what_is_no_picture_is_refused(raw: bytes, told: str) -> None:
    """What cannot be a photo is refused by name; a small file that unpacks to a huge one too."""
    with pytest.raises(NoPictureError, match=told):
        made_safe(raw, "list.jpg")


def test_photos_are_kept_by_content(shop: Shop, tmp_path: Path) -> None:
    """The file's name is the SHA-256 of what is in it; the same picture twice is kept once."""
    file = picture(tmp_path / "front.jpg")
    added = shop.asked("photo", "add", "Teasel", str(file), "--note", "as bought")
    again = shop.asked("photo", "add", "Teasel", str(file))
    on_part = shop.asked("photo", "add", "20000140", str(file))

    listed = shop.asked("photo", "list")

    assert added == again == on_part
    assert [(p["bike"], p["number"][0], p["note"]) for p in listed] == [
        ("Teasel", "3", "as bought"),
        ("", "2", ""),
    ]
    content = Path(added[0]["file"]).read_bytes()
    assert hashlib.sha256(content).hexdigest() == added[0]["photo"]
    assert Path(listed[0]["thumbnail"]).is_file()
    assert len(list(kept(shop).rglob("*.jpg"))) == 2


def test_a_picture_goes_with_its_last_photo(shop: Shop, tmp_path: Path) -> None:
    """Its file is removed only when it shows nothing any more."""
    file = picture(tmp_path / "front.jpg")
    name = shop.asked("photo", "add", "Teasel", str(file))[0]["photo"]
    shop.told("photo", "add", "20000140", str(file))

    shop.told("photo", "remove", "Teasel", name[:8])
    assert shop.asked("photo", "list", "Teasel") == []
    assert len(list(kept(shop).rglob("*.jpg"))) == 2
    shop.told("photo", "remove", "20000140", name)

    assert list(kept(shop).rglob("*.jpg")) == []
    assert shop.run("photo", "remove", "Teasel", name).exit_code == 1


def test_one_bad_file_adds_none(shop: Shop, tmp_path: Path) -> None:
    """If one of several files is no picture, none is attached."""
    bad = tmp_path / "list.jpg"
    bad.write_text("not a picture")

    result = shop.run("photo", "add", "Teasel", str(picture(tmp_path / "a.jpg")), str(bad))

    assert result.exit_code == 1
    assert "list.jpg" in result.stderr
    assert shop.asked("photo", "list") == []
    assert not kept(shop).exists()


@pytest.mark.parametrize(
    ("damage", "told"), [("remove", "is missing"), ("change", "was changed")], ids=str
)
def test_the_check_finds_lost_photos(shop: Shop, tmp_path: Path, damage: str, told: str) -> None:
    """A photo whose file is gone or is another one is told by `db check`."""
    added = shop.asked("photo", "add", "Teasel", str(picture(tmp_path / "front.jpg")))
    assert shop.run("db", "check").exit_code == 0
    file = Path(added[0]["file"])
    if damage == "remove":
        file.unlink()
    else:
        picture(file, "blue")

    result = shop.run("db", "check")

    assert result.exit_code == 1
    assert told in result.stderr
    shop.told("photo", "add", "Teasel", str(tmp_path / "front.jpg"))
    assert shop.run("db", "check").exit_code == 0


@pytest.mark.every_database
def test_the_folder_can_be_named(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """PARTSBIN_PHOTOS or --photos names the folder; the option comes first."""
    file = str(picture(tmp_path / "front.jpg"))
    monkeypatch.setenv("PARTSBIN_PHOTOS", str(tmp_path / "one"))
    shop.told("photo", "add", "Teasel", file)
    shop.told("photo", "add", "Teasel", file, "--photos", str(tmp_path / "two"))

    assert list((tmp_path / "one").rglob("*.jpg"))
    assert list((tmp_path / "two").rglob("*.jpg"))
    assert shop.run("db", "check").exit_code == 0
    assert len(shop.asked("photo", "list", "Teasel")) == 1
    assert not kept(shop).exists()


def test_a_picture_within_the_files_limit_but_too_wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """More pixels than are taken are refused before the picture is unpacked."""
    monkeypatch.setattr("partsbin.workshop.pictures.LARGEST_PICTURE", 1000)

    with pytest.raises(NoPictureError, match="60 x 40 pixels"):
        made_safe(saved(Image.new("RGB", (60, 40))), "wide.jpg")
