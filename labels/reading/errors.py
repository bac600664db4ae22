"""What can go wrong while reading labels; each error is one sentence that says what to do."""

from __future__ import annotations


class ReadingError(Exception):
    """Something outside the labels kept them from being read."""


class DecoderMissingError(ReadingError):
    """The system library zbar is not installed."""

    def __init__(self) -> None:
        super().__init__(
            "The zbar library is not installed: install it with your system's packages"
            " (Debian and Ubuntu: `apt install libzbar0`), then try again."
        )


class PictureError(ReadingError):
    """A file is no picture that can be opened, or is too large to open safely."""


class CameraError(ReadingError):
    """A camera or video gives no frames."""


class CameraMissingError(CameraError):
    """There is no camera at this index."""


class CameraBusyError(CameraError):
    """The camera is there but another program holds it."""


class CameraUnpluggedError(CameraError):
    """The camera went away while it was in use."""


class CameraFrozenError(CameraError):
    """The camera keeps sending one and the same picture, or nothing at all."""
