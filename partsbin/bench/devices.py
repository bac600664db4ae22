"""The phones and tablets that may use the bench page: paired once by a code, revoked at any time.

A device proves itself by a secret of its own in a cookie; here only the secret's digest is kept, in
a file beside the program's other state, so that a device stays paired when the page is restarted.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
import threading
import time
from collections import Counter
from dataclasses import asdict, dataclass
from pathlib import Path

from partsbin.errors import NotFoundError, PartsbinError

CODE_DIGITS = 6
CODE_LIFE = 600
"""Seconds for which a pairing code holds."""
WRONG_CODES = 10
"""After so many wrong codes the code is taken back; a new one must be shown on the laptop."""
WRONG_FROM_ONE = 5
"""After so many from one address that address is not heard until a new code is shown: so nobody
alone can keep others from pairing."""
LONGEST_NAME = 40


class NotPairedError(PartsbinError):
    """A device that is not paired, or a code that does not hold."""


@dataclass(frozen=True, slots=True)
class Device:
    """A paired device: a name for the history, and the digest of its secret."""

    id: str
    name: str
    digest: str
    paired_at: int
    """Seconds since 1970."""


@dataclass(frozen=True, slots=True)
class Code:
    """A code that is shown on the laptop and typed, or scanned, on the device."""

    digits: str
    ends: float


class Devices:
    """All paired devices and the pairing code, if one is open. May be used from many threads."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._lock = threading.Lock()
        self._code: Code | None = None
        self._wrong: Counter[str] = Counter()
        self.secret_key, self._devices = _read(file)
        """The key signs the cookies."""
        self._write()

    def all(self) -> list[Device]:
        """Return the paired devices, the newest first."""
        with self._lock:
            return sorted(self._devices.values(), key=lambda device: -device.paired_at)

    def open_code(self, now: float | None = None) -> Code:
        """Return a new code; the one before it holds no more."""
        digits = f"{secrets.randbelow(10**CODE_DIGITS):0{CODE_DIGITS}}"
        with self._lock:
            self._code = Code(digits, (time.time() if now is None else now) + CODE_LIFE)
            self._wrong.clear()
            return self._code

    def pair(
        self, digits: str, name: str, address: str = "", now: float | None = None
    ) -> tuple[Device, str]:
        """Return the new device and its secret. Raises `NotPairedError` if the code is wrong.

        A code is used up by the device that pairs with it, and by too many wrong tries.
        """
        moment = time.time() if now is None else now
        named = " ".join(name.split())[:LONGEST_NAME]
        if not named:
            raise NotPairedError("give the name of who holds this device; the history shows it")
        with self._lock:
            self._prove(digits, address, moment)
            self._code = None
            secret = secrets.token_urlsafe(32)
            device = Device(secrets.token_hex(8), named, _digest(secret), int(moment))
            self._devices[device.id] = device
            self._write()
        return device, secret

    def _prove(self, digits: str, address: str, moment: float) -> None:
        code = self._code
        if code is None or moment > code.ends:
            raise NotPairedError("no pairing code is open; show a new one on the laptop")
        if self._wrong[address] >= WRONG_FROM_ONE:
            raise NotPairedError(
                "too many wrong codes from this device; show a new one on the laptop"
            )
        if not secrets.compare_digest(code.digits.encode(), digits.strip().encode()):
            self._wrong[address] += 1
            if self._wrong.total() >= WRONG_CODES:
                self._code = None
                raise NotPairedError("too many wrong codes; show a new one on the laptop")
            raise NotPairedError("that is not the code on the laptop; look at it again")

    def known(self, secret: str) -> Device | None:
        """Return the device that has this secret, None if there is none, or it was revoked."""
        digest = _digest(secret)
        with self._lock:
            return next((held for held in self._devices.values() if held.digest == digest), None)

    def revoke(self, device_id: str) -> Device:
        """Forget a device and return what it was. Raises `NotFoundError`."""
        with self._lock:
            device = self._devices.pop(device_id, None)
            if device is None:
                raise NotFoundError("there is no such device; it may have been removed already")
            self._write()
        return device

    def _write(self) -> None:
        held = {
            "secret_key": self.secret_key,
            "devices": [asdict(device) for device in self._devices.values()],
        }
        self._file.parent.mkdir(parents=True, exist_ok=True)
        new = self._file.with_suffix(".new")
        # Nobody else on this machine may read the key that signs the cookies.
        with os.fdopen(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w") as out:
            json.dump(held, out)
        new.replace(self._file)


def _read(file: Path) -> tuple[str, dict[str, Device]]:
    """Return the key that signs the cookies, a new one at first, and the paired devices by id.

    Raises `PartsbinError` for a file that is damaged.
    """
    if not file.exists():
        return secrets.token_urlsafe(32), {}
    try:
        held = json.loads(file.read_text())
        return str(held["secret_key"]), {row["id"]: Device(**row) for row in held["devices"]}
    except (OSError, ValueError, KeyError, TypeError) as fault:
        told = f"{file} cannot be read ({fault}); remove it and pair the devices again"
        raise PartsbinError(told) from fault


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
