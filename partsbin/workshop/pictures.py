"""Pictures of any origin made safe to keep: upright, of a sensible size, with nothing hidden.

What a camera wrote beside the picture, such as the place where it was taken, is left out.
"""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from partsbin.errors import PartsbinError

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF")
"""Telephones write JPEG with more pictures behind it, of which the first is taken."""
LARGEST_FILE = 100 * 2**20
LARGEST_PICTURE = 120_000_000
"""Pixels: more than a telephone takes, and less than fills the memory."""
LONGEST_EDGE = 2400
THUMBNAIL_EDGE = 320
QUALITY = 85
WHITE = (255, 255, 255)


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as it is kept: a JPEG file, and a small one for lists."""

    content: bytes
    thumbnail: bytes
    width: int
    height: int


class NoPictureError(PartsbinError):
    """A file that is not taken as a picture."""


def read_picture(file: Path) -> Picture:
    """Return the picture of a file, written anew.

    Raises `NoPictureError` for what is no picture, is damaged, or is too large; `OSError` if the
    file cannot be read.
    """
    if file.stat().st_size > LARGEST_FILE:
        raise NoPictureError(
            f"{file.name} is larger than {LARGEST_FILE // 2**20} MB; scale it down"
        )
    return made_safe(file.read_bytes(), file.name)


def made_safe(raw: bytes, name: str) -> Picture:
    """Return the picture that some bytes hold; `name` is for messages. Raises `NoPictureError`."""
    try:
        with warnings.catch_warnings():
            # Its size is looked at below, before anything is unpacked.
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(raw), formats=FORMATS) as image:
                upright = _upright(image, name)
                small = upright.copy()
    except Image.DecompressionBombError:
        raise NoPictureError(f"{name} has far too many pixels; scale it down") from None
    except UnidentifiedImageError:
        raise NoPictureError(
            f"{name} is no picture of a kind that is known; save it as JPEG or PNG"
        ) from None
    except NoPictureError:
        raise
    except Exception as fault:  # noqa: BLE001 - broken files raise what each format's reader trips over
        raise NoPictureError(f"{name} is a damaged picture ({fault})") from None
    small.thumbnail((THUMBNAIL_EDGE, THUMBNAIL_EDGE))
    return Picture(_jpeg(upright), _jpeg(small), *upright.size)


def thumbnail_of(content: bytes) -> bytes:
    """Return the small picture of one that is kept."""
    return made_safe(content, "a kept picture").thumbnail


def _upright(image: Image.Image, name: str) -> Image.Image:
    """Return an opened picture as it is to be seen, not larger than is kept."""
    width, height = image.size
    if width * height > LARGEST_PICTURE:
        raise NoPictureError(
            f"{name} has {width} x {height} pixels, more than "
            f"{LARGEST_PICTURE // 1_000_000} million; scale it down"
        )
    image.draft("RGB", (LONGEST_EDGE, LONGEST_EDGE))
    image.load()
    turned = ImageOps.exif_transpose(image)
    plain = turned.convert("RGBA" if turned.has_transparency_data else "RGB")
    if plain.mode == "RGBA":
        ground = Image.new("RGB", plain.size, WHITE)
        ground.paste(plain, mask=plain.getchannel("A"))
        plain = ground
    plain.thumbnail((LONGEST_EDGE, LONGEST_EDGE))
    return plain


def _jpeg(image: Image.Image) -> bytes:
    written = io.BytesIO()
    clean = Image.new("RGB", image.size)
    clean.paste(image)
    clean.save(written, "JPEG", quality=QUALITY, optimize=True)
    return written.getvalue()
