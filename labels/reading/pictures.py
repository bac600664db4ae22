"""Pictures in files, bytes and arrays, as grey 8 bit pictures turned as their orientation says."""

from __future__ import annotations

import warnings
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from labels.reading.errors import PictureError

if TYPE_CHECKING:
    from os import PathLike

    import numpy as np
    from numpy.typing import NDArray

#: 48 megapixel phones are met; a file that claims more than this is refused before it is unpacked.
LARGEST_PICTURE = 120_000_000
#: What a stranger's bytes may be: what phones and browsers make, and no rarer format.
SENT = ("JPEG", "PNG", "WEBP")


def grey_of(picture: str | PathLike[str] | NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return a file or an array (grey or blue-green-red) as grey; `PictureError` if it is none."""
    if isinstance(picture, (str, bytes)) or hasattr(picture, "__fspath__"):
        return load(Path(picture))
    return _grey_array(picture)


def load(path: Path) -> NDArray[np.uint8]:
    """Return a picture file as grey, turned as its orientation tag says.

    Raises `PictureError` when the file is missing, is no picture, is cut short or is too large.
    """
    try:
        return _upright(path, str(path), LARGEST_PICTURE)
    except FileNotFoundError:
        raise PictureError(f"There is no file {path}: check the name.") from None
    except IsADirectoryError:
        raise PictureError(f"{path} is a folder: name a picture in it.") from None


def unpack(sent: bytes, name: str, largest: int) -> NDArray[np.uint8]:
    """Return the bytes of a JPEG, PNG or WebP as grey, turned as their orientation tag says.

    Raises `PictureError`, which calls them `name`, when they are none of these, are cut short, or
    claim more than `largest` pixels.
    """
    return _upright(BytesIO(sent), name, largest, SENT)


def _upright(
    source: Path | BytesIO, name: str, largest: int, formats: tuple[str, ...] | None = None
) -> NDArray[np.uint8]:
    import numpy as np
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        # PIL's own limit warns, then raises; ours decides, so its warning is not wanted.
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(source, formats=formats) as opened:
                if opened.width * opened.height > largest:
                    raise _too_large(name, largest)
                upright = ImageOps.exif_transpose(_flat(opened))
                if upright.mode.startswith("I"):
                    # PIL clips the 16 bit shades of a scan to white where it should scale them.
                    return np.asarray(np.asarray(upright) // 257, dtype=np.uint8)
                return np.asarray(upright.convert("L"), dtype=np.uint8)
    except (FileNotFoundError, IsADirectoryError):
        raise
    except UnidentifiedImageError:
        raise PictureError(
            f"{name} is not a picture that can be opened: use JPEG, PNG or WebP."
        ) from None
    except Image.DecompressionBombError:
        raise _too_large(name, largest) from None
    except (OSError, SyntaxError, ValueError, EOFError) as fault:
        raise PictureError(
            f"{name} is damaged or cut short ({fault}): take or copy the picture again."
        ) from None


def _flat(opened: Any) -> Any:
    """Return a picture with transparency laid on white paper, any other as it is."""
    from PIL import Image

    if opened.mode not in {"RGBA", "LA", "PA"} and "transparency" not in opened.info:
        return opened
    layer = opened.convert("RGBA")
    paper = Image.new("RGBA", layer.size, "white")
    flat = Image.alpha_composite(paper, layer)
    flat.info.update(opened.info)
    return flat


def _too_large(name: str, largest: int) -> PictureError:
    return PictureError(
        f"{name} has more than {largest // 1_000_000} megapixels:"
        " make it smaller before reading it."
    )


def _grey_array(picture: NDArray[np.uint8]) -> NDArray[np.uint8]:
    import cv2
    import numpy as np

    if picture.dtype != np.uint8 or picture.size == 0:
        raise PictureError(
            f"An array of {picture.dtype} with shape {picture.shape} is no picture:"
            " give 8 bit pixels, grey or blue-green-red."
        )
    if picture.ndim == 3 and picture.shape[2] == 1:
        picture = picture[:, :, 0]
    if picture.ndim == 3 and picture.shape[2] in {3, 4}:
        code = cv2.COLOR_BGR2GRAY if picture.shape[2] == 3 else cv2.COLOR_BGRA2GRAY
        return np.asarray(cv2.cvtColor(picture, code), dtype=np.uint8)
    if picture.ndim != 2:
        raise PictureError(f"An array with shape {picture.shape} is no picture.")
    return np.ascontiguousarray(picture)
