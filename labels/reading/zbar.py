"""zbar behind a worker process that is started when first needed and replaced when it dies."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
import weakref
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

from labels.reading.errors import DecoderMissingError
from labels.reading.look import Decoder, RawLook, Symbol
from labels.reading.zbar_worker import ANSWER, REQUEST

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_PROGRAM = Path(__file__).with_name("zbar_worker.py")
_SYMBOLS = {"CODE128": Symbol.CODE_128, "QRCODE": Symbol.QR}


class _DiedError(Exception):
    """The worker closed its pipe or was stopped."""


class ZbarWorker:
    """zbar restricted to Code 128 and QR, safe from its crashes.

    The process starts with the first picture. A worker that dies, or takes longer than `seconds`
    for one picture, is replaced; the picture that did it counts as empty. Threads may share it.
    """

    def __init__(self, seconds: float = 10.0) -> None:
        self._seconds = seconds
        self._lock = threading.Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._reaper: weakref.finalize[..., ZbarWorker] | None = None
        self.deaths = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """End the worker process, if one runs, and wait until it is gone."""
        with self._lock:
            if self._reaper is not None:
                self._reaper()
            self._process = self._reaper = None

    def read(self, grey: NDArray[np.uint8]) -> list[RawLook]:
        """Return what zbar sees in a grey picture; raises `DecoderMissingError` without zbar."""
        if grey.size == 0:
            return []
        with self._lock:
            try:
                found = self._asked(grey)
            except (_DiedError, OSError):
                self.deaths += 1
                self._discard()
                return []
        return [] if isinstance(found, str) else [_look(*item) for item in found]

    def _asked(self, grey: NDArray[np.uint8]) -> Any:
        process = self._process or self._started()
        watchdog = threading.Timer(self._seconds, process.kill)
        watchdog.daemon = True
        watchdog.start()
        try:
            assert process.stdin is not None
            height, width = grey.shape
            process.stdin.write(REQUEST.pack(width, height))
            process.stdin.write(grey.tobytes())
            process.stdin.flush()
            return _answer(process)
        finally:
            watchdog.cancel()

    def _started(self) -> subprocess.Popen[bytes]:
        # -P keeps the worker's own folder off its import path: nothing here can shadow a library.
        command = [sys.executable, "-P", str(_PROGRAM)]
        process = subprocess.Popen(  # noqa: S603  our own program under our own interpreter
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        self._process = process
        self._reaper = weakref.finalize(self, _ended, process)
        if isinstance(_answer(process), str):
            self._discard()
            raise DecoderMissingError
        return process

    def _discard(self) -> None:
        if self._reaper is not None:
            self._reaper()
        self._process = self._reaper = None


def _answer(process: subprocess.Popen[bytes]) -> Any:
    """Return the worker's next answer; `_DiedError` when the pipe ends first."""
    assert process.stdout is not None
    head = process.stdout.read(ANSWER.size)
    if len(head) < ANSWER.size:
        raise _DiedError
    (length,) = ANSWER.unpack(head)
    body = process.stdout.read(length)
    if len(body) < length:
        raise _DiedError
    return json.loads(body)


def _ended(process: subprocess.Popen[bytes]) -> None:
    """Kill the worker, which keeps nothing worth saving, and collect it."""
    process.kill()
    process.wait()
    for pipe in (process.stdin, process.stdout):
        try:
            assert pipe is not None
            pipe.close()
        except OSError:
            pass  # what was left to write has nobody to read it


def _look(kind: str, text: str, points: list[tuple[float, float]]) -> RawLook:
    from labels.reading.geometry import four_corners

    return RawLook(text, four_corners(points), _SYMBOLS[kind], Decoder.ZBAR)
