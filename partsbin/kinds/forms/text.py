"""Free text."""

from __future__ import annotations

from dataclasses import dataclass

from partsbin.kinds.forms.form import Value

LONGEST = 200
"""Characters that a text attribute may hold; longer remarks are notes."""


@dataclass(frozen=True, slots=True)
class TextForm:
    """Text as it is printed on the part."""

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"a text of 1 to {LONGEST} characters"

    def read(self, text: str) -> str:
        """Return the text, its spaces made single."""
        cleaned = " ".join(text.split())
        if not cleaned or len(cleaned) > LONGEST or not cleaned.isprintable():
            raise ValueError(f"{text.strip()!r} is not {self.allowed}")
        return cleaned

    def check(self, raw: object) -> str:
        """Return the text; numbers are no text."""
        if not isinstance(raw, str):
            raise ValueError(f"{raw!r} is not {self.allowed}")  # noqa: TRY004 - one error kind for bad values
        return self.read(raw)

    def show(self, value: Value) -> str:
        """Return the text."""
        return str(value)

    def plain(self, value: Value) -> object:
        """Return the text."""
        return value

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the value itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return nothing: texts are no list."""
        return ()
