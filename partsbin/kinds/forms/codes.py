"""Codes of a known shape, such as threads and headset codes, written in one canonical way."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from partsbin.kinds.forms.form import Value, nearest


@dataclass(frozen=True, slots=True)
class CodeForm:
    """A code of a shape: the usual ones are listed, others of the same shape are allowed.

    Codes are kept in small letters without spaces; the first `capitals` letters stay capitals.
    """

    pattern: str
    shape: str
    usual: tuple[str, ...] = ()
    capitals: int = 0
    also: Mapping[str, str] = field(default_factory=dict)

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"{self.shape} such as {', '.join(self.usual)}"

    def read(self, text: str) -> str:
        """Return the code that a person typed, in its canonical spelling."""
        if text in self.usual:
            return text
        small = (
            "".join(text.lower().split()).replace("\N{MULTIPLICATION SIGN}", "x").replace("_", "-")
        )
        code = small[: self.capitals].upper() + small[self.capitals :]
        if not re.fullmatch(self.pattern, code, re.ASCII):
            hint = nearest(text, self.usual)
            raise ValueError(f"{text.strip()!r} is not {self.allowed}{hint}")
        return self.also.get(code, code)

    def check(self, raw: object) -> str:
        """Return the code of a JSON text; numbers are no codes."""
        if not isinstance(raw, str):
            raise ValueError(f"{raw!r} is not {self.allowed}")  # noqa: TRY004 - one error kind for bad values
        return self.read(raw)

    def show(self, value: Value) -> str:
        """Return the code."""
        return str(value)

    def plain(self, value: Value) -> object:
        """Return the code."""
        return value

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the code itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return the usual codes."""
        return self.usual
