r"""Text of both directions, parted into runs in the order in which a label is drawn.

PDF draws from left to right what it is given, so the runs of Hebrew and Arabic have to change
places with what stands beside them. Of the Unicode bidirectional algorithm (UAX #9) this is the
part for one line of plain text without formatting characters: levels of letters and numbers,
neutrals and reordering. Turning the letters of a run, and brackets in it, is left to the shaping.

>>> turned("\u05d0\u05d1 12")
[('12', False), ('\u05d0\u05d1 ', True)]
"""

import unicodedata
from itertools import groupby

from labels.shaping import clusters

RIGHT = {"R", "AL"}
NUMBERS = {"EN", "AN"}


def turned(text: str) -> list[tuple[str, bool]]:
    """Return the runs from left to right, each as it is read, and whether from the right."""
    if not any(unicodedata.bidirectional(letter) in RIGHT for letter in text):
        return [(text, False)] if text else []
    pieces = clusters(text)
    levels = _levels([piece[0] for piece in pieces])
    runs = []
    at = 0
    for level, run in groupby(levels):
        size = len(list(run))
        runs.append((level, "".join(pieces[at : at + size])))
        at += size
    return [(run, level % 2 == 1) for level, run in _reordered(runs)]


def _levels(letters: list[str]) -> list[int]:
    """Return the embedding level of each letter: odd ones run from right to left."""
    raw = [unicodedata.bidirectional(letter) for letter in letters]
    base = int(next((kind in RIGHT for kind in raw if kind in {"L", *RIGHT}), False))
    kinds = _resolved(raw, "LR"[base])
    # N1, N2: neutrals between equal neighbours run with them (numbers count as R), others with
    # the whole text.
    sides = ["R" if kind in NUMBERS else kind for kind in kinds]
    edge = "LR"[base]
    for at, kind, size in _runs(sides):
        if kind == "ON":
            before = sides[at - 1] if at else edge
            after = sides[at + size] if at + size < len(sides) else edge
            kinds[at : at + size] = [before if before == after else edge] * size
    return [{"L": 2 * base, "R": 1}.get(kind, 2) for kind in kinds]


def _resolved(kinds: list[str], start: str) -> list[str]:
    """Return L, R, EN, AN or ON for each class: the algorithm's rules W2 to W7.

    `start` is the direction of the whole text, which holds before its first letter.
    """
    kinds = _after_letter(kinds, start, "AL", "AN")
    kinds = ["R" if kind == "AL" else kind for kind in kinds]
    for at in range(1, len(kinds) - 1):
        if kinds[at - 1] == kinds[at + 1] and kinds[at] in _separators(kinds[at - 1]):
            kinds[at] = kinds[at - 1]
    for at, kind, size in _runs(kinds):
        if kind == "ET" and "EN" in {*kinds[at - 1 : at], *kinds[at + size : at + size + 1]}:
            kinds[at : at + size] = ["EN"] * size
    kinds = [kind if kind in {"L", "R", *NUMBERS} else "ON" for kind in kinds]
    return _after_letter(kinds, start, "L", "L")


def _after_letter(kinds: list[str], start: str, letter: str, number: str) -> list[str]:
    """Return the classes, European numbers whose last letter is of that class changed (W2, W7)."""
    changed = []
    last = start
    for kind in kinds:
        if kind in {"L", *RIGHT}:
            last = kind
        changed.append(number if kind == "EN" and last == letter else kind)
    return changed


def _separators(kind: str) -> set[str]:
    """Return the classes that a number of that kind may have between its digits (rule W4)."""
    return {"EN": {"ES", "CS"}, "AN": {"CS"}}.get(kind, set())


def _runs(kinds: list[str]) -> list[tuple[int, str, int]]:
    """Return where each run of equal classes starts, its class and length."""
    runs = []
    at = 0
    for kind, run in groupby(list(kinds)):
        size = len(list(run))
        runs.append((at, kind, size))
        at += size
    return runs


def _reordered(runs: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """Return runs with their levels in drawing order: rule L2, highest level first."""
    drawn = list(runs)
    for level in range(max((level for level, _ in runs), default=0), 0, -1):
        at = 0
        for high, run in groupby([reached >= level for reached, _ in drawn]):
            size = len(list(run))
            if high:
                drawn[at : at + size] = drawn[at : at + size][::-1]
            at += size
    return drawn
