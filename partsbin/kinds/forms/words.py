"""Words of a list: one of them, or several."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from partsbin.kinds.forms.form import Value, nearest
from partsbin.kinds.forms.lengths import micrometres
from partsbin.kinds.typed import read_length
from partsbin.standards.length import Length, in_mm
from partsbin.standards.sizes import Sizes


def match_word(text: str, words: tuple[str, ...], also: Mapping[str, str]) -> str | None:
    """Return the listed word that a text means, None if there is none.

    Capitals do not matter, nor whether the word's parts are joined by a space, `_` or `-`.

    >>> match_word("Linear Pull", ("linear-pull", "9/16x20"), {})
    'linear-pull'
    >>> match_word("9/16 x 20", ("linear-pull", "9/16x20"), {})
    '9/16x20'
    """
    lower = " ".join(text.lower().replace("\N{MULTIPLICATION SIGN}", "x").split())
    for spelling in (
        lower,
        lower.replace("_", "-").replace(" ", "-"),
        lower.replace(" ", ""),
    ):
        word = also.get(spelling, spelling)
        if word in words:
            return word
    return None


@dataclass(frozen=True, slots=True)
class WordForm:
    """One word of a list; some lists may also be told apart by a measured size."""

    words: tuple[str, ...]
    also: Mapping[str, str] = field(default_factory=dict)
    measured: Mapping[Length, tuple[str, ...]] = field(default_factory=dict)
    sizes: Sizes | None = None

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return "one of " + ", ".join(self.words)

    def _word(self, text: str) -> str | None:
        if text in self.words:
            return text
        return match_word(text, self.words, self.also)

    def _size(self, length: Length) -> Value:
        possible = self.possible(length)
        return possible[0] if len(possible) == 1 else length

    def read(self, text: str) -> Value:
        """Return the listed word that a person typed, or the word that a measured size means."""
        word = self._word(text)
        if word is not None:
            return word
        if self.measured:
            try:
                length = read_length(text)
            except ValueError:
                pass
            else:
                return self._size(length)
        hint = nearest(text, [*self.words, *self.also])
        raise ValueError(f"{text.strip()!r} is not {self.allowed}{hint}")

    def check(self, raw: object) -> Value:
        """Return the listed word, or the word that a number of millimetres means."""
        if isinstance(raw, bool) and {"yes", "no"} <= set(self.words):
            return "yes" if raw else "no"
        if isinstance(raw, str):
            word = self._word(raw)
            if word is not None:
                return word
            hint = nearest(raw, [*self.words, *self.also])
            raise ValueError(f"{raw!r} is not {self.allowed}{hint}")
        if self.measured:
            return self._size(Length(micrometres(raw, self)))
        raise ValueError(f"{raw!r} is not {self.allowed}")

    def show(self, value: Value) -> str:
        """Return the word, or the reading and the words that it may mean."""
        if isinstance(value, int):
            return f"{in_mm(value)} mm ({' or '.join(map(str, self.possible(value)))})"
        return str(value)

    def plain(self, value: Value) -> object:
        """Return the word, or the reading in millimetres."""
        return float(in_mm(value)) if isinstance(value, int) else value

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the words that a reading may mean; a word means itself."""
        if not isinstance(value, int):
            return (value,)
        sizes = self.sizes.possible(Length(value)) if self.sizes else ()
        words = tuple(dict.fromkeys(word for at in sizes for word in self.measured.get(at, ())))
        if not words:
            raise ValueError(f"{in_mm(value)} mm is not a size of {self.allowed}")
        return words

    def candidates(self) -> tuple[Value, ...]:
        """Return the words of the list."""
        return self.words


@dataclass(frozen=True, slots=True)
class WordsForm:
    """Several words of a list, kept in the list's order."""

    words: tuple[str, ...]
    also: Mapping[str, str] = field(default_factory=dict)

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return "a list of " + ", ".join(self.words)

    def read(self, text: str) -> tuple[str, ...]:
        """Return the words that a person typed, parted by commas or spaces; `none` is no word."""
        given = text.replace(",", " ").split()
        return () if given == ["none"] else self.check(given)

    def check(self, raw: object) -> tuple[str, ...]:
        """Return the words of a list, each once and in the table's order."""
        given = [raw] if isinstance(raw, str) else raw
        if not isinstance(given, list | tuple):
            raise ValueError(f"{raw!r} is not {self.allowed}")  # noqa: TRY004 - one error kind for bad values
        chosen = {self._word(word) for word in given}
        return tuple(word for word in self.words if word in chosen)

    def _word(self, given: object) -> str:
        word = match_word(given, self.words, self.also) if isinstance(given, str) else None
        if word is None:
            hint = nearest(str(given), [*self.words, *self.also])
            raise ValueError(f"{given!r} is not one of {', '.join(self.words)}{hint}")
        return word

    def show(self, value: Value) -> str:
        """Return the words, parted by commas."""
        assert isinstance(value, tuple)
        return ", ".join(map(str, value)) or "none"

    def plain(self, value: Value) -> object:
        """Return the words as a list."""
        assert isinstance(value, tuple)
        return list(value)

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the value itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return nothing: the sets of words are too many to try."""
        return ()
