"""Cameras that watch: each open camera of a browser has a reader and an acceptance of its own.

A watch remembers what is in view from frame to frame. It ends when its page stops sending frames.
"""

from __future__ import annotations

import secrets
import threading
import time
from collections import OrderedDict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from labels.reading.acceptance import Acceptance
from labels.reading.reader import Reader

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy as np
    from numpy.typing import NDArray

    from labels.number import LabelNumber
    from labels.reading.look import Reading

MOST_WATCHES = 16
IDLE = 120.0
"""Seconds without a frame after which a watch may be given to another camera."""


@dataclass(slots=True)
class Watch:
    """One camera that is watched; hold `lock` while a frame of it is read."""

    acceptance: Acceptance
    reader: Reader = field(default_factory=Reader)
    lock: threading.Lock = field(default_factory=threading.Lock)
    seen: float = field(default_factory=time.monotonic)


class Watches:
    """The open watches by their names, and who reads photographs. May be used from many threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._open: OrderedDict[str, Watch] = OrderedDict()
        self._still_lock = threading.Lock()
        self._still_reader = Reader()

    def start(self, exists: Callable[[LabelNumber], bool]) -> tuple[str, Watch]:
        """Return a new watch and its name; the one unused for longest makes room for it."""
        name = secrets.token_urlsafe(16)
        with self._lock:
            self._drop_idle()
            watch = self._open[name] = Watch(Acceptance(exists=exists))
        return name, watch

    def get(self, name: str) -> Watch | None:
        """Return an open watch, None if it has ended."""
        with self._lock:
            watch = self._open.get(name)
            if watch is not None:
                watch.seen = time.monotonic()
                self._open.move_to_end(name)
            return watch

    def still(self, grey: NDArray[np.uint8]) -> list[Reading]:
        """Return the labels of a photograph; one after the other, since each takes much memory."""
        with self._still_lock:
            return self._still_reader.still(grey)

    def close(self) -> None:
        """End all watches and their workers."""
        self._still_reader.close()
        with self._lock:
            for watch in self._open.values():
                watch.reader.close()
            self._open.clear()

    def _drop_idle(self) -> None:
        now = time.monotonic()
        for name, watch in list(self._open.items()):
            if len(self._open) < MOST_WATCHES and now - watch.seen < IDLE:
                break
            if not watch.lock.locked():
                watch.reader.close()
                del self._open[name]
