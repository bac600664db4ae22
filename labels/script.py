r"""Right-to-left scripts and joined letters, put in the order in which a label is drawn.

PDF draws the letters it is given from left to right as they are, so Hebrew and Arabic have to be
turned, and Arabic letters changed to their joined shapes, before. Of the Unicode bidirectional
algorithm (UAX #9) this is the part for one line of plain text without formatting characters:
levels of letters and numbers, neutrals, reordering and mirrored brackets. The joined shapes are
those that Unicode itself lists as Arabic presentation forms.

>>> [f"{ord(letter):04X}" for letter in visual("\u05d0\u05d1 12")]
['0031', '0032', '0020', '05D1', '05D0']
"""

import unicodedata
from functools import cache
from itertools import groupby

RIGHT = {"R", "AL"}
NUMBERS = {"EN", "AN"}
MIRRORED = str.maketrans("()[]{}<>«»", ")(][}{><»«")
FORMS = range(0xFB50, 0xFF00)
"""Blocks Arabic Presentation Forms A and B."""
NON_JOINER = "\N{ZERO WIDTH NON-JOINER}"
LIGATURES = ("\u0644\u0627", "\u0644\u0622", "\u0644\u0623", "\u0644\u0625")
"""Lam and an alef are always drawn as one."""


def visual(text: str) -> str:
    """Return the text in drawing order, from left to right; without such script as it is."""
    if any(unicodedata.bidirectional(letter) in RIGHT for letter in text):
        clusters = _clusters(joined(text))
        levels = _levels([cluster[0] for cluster in clusters])
        text = "".join(_reordered(clusters, levels))
    return text.replace(NON_JOINER, "")


def _clusters(text: str) -> list[str]:
    """Return each letter with the marks that stand on it."""
    clusters: list[str] = []
    for letter in text:
        if clusters and unicodedata.bidirectional(letter) in {"NSM", "BN"}:
            clusters[-1] += letter
        else:
            clusters.append(letter)
    return clusters


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


def _reordered(clusters: list[str], levels: list[int]) -> list[str]:
    """Return the clusters in drawing order: rules L2, highest level first, and L4."""
    drawn = [
        cluster.translate(MIRRORED) if level % 2 else cluster
        for cluster, level in zip(clusters, levels, strict=True)
    ]
    order = list(range(len(drawn)))
    for level in range(max(levels, default=0), 0, -1):
        at = 0
        for high, run in groupby([levels[index] >= level for index in order]):
            size = len(list(run))
            if high:
                order[at : at + size] = order[at : at + size][::-1]
            at += size
    return [drawn[index] for index in order]


def joined(text: str) -> str:
    """Return the text, still in reading order, with Arabic letters in their joined shapes."""
    for pair in LIGATURES:
        text = text.replace(pair, _forms()["isolated", pair])
    shaped = []
    letters = list(text)
    for at, letter in enumerate(letters):
        before = _neighbour(letters, at, -1)
        after = _neighbour(letters, at, 1)
        back = _joins_after(before) and _joins_before(letter)
        on = _joins_after(letter) and _joins_before(after)
        shape = {(0, 0): "isolated", (1, 0): "final", (0, 1): "initial", (1, 1): "medial"}[back, on]
        shaped.append(_forms().get((shape, _plain(letter)), letter))
    return "".join(shaped)


def _neighbour(letters: list[str], at: int, step: int) -> str:
    """Return the next letter in that direction that is no mark, or nothing."""
    at += step
    while 0 <= at < len(letters):
        if unicodedata.bidirectional(letters[at]) != "NSM":
            return letters[at]
        at += step
    return ""


@cache
def _forms() -> dict[tuple[str, str], str]:
    """Return the presentation form of each shape of each letter or lam-alef pair."""
    forms: dict[tuple[str, str], str] = {}
    for code in FORMS:
        tag, *parts = unicodedata.decomposition(chr(code)).split() or [""]
        base = "".join(chr(int(part, 16)) for part in parts)
        if tag.strip("<>") in {"isolated", "final", "initial", "medial"} and (
            len(base) == 1 or base in LIGATURES
        ):
            forms.setdefault((tag.strip("<>"), base), chr(code))
    return forms


def _plain(letter: str) -> str:
    """Return the pair that a lam-alef ligature stands for, or the letter itself."""
    parts = unicodedata.decomposition(letter).split()
    if not (0xFB50 <= ord(letter) < 0xFF00 and parts):
        return letter
    return "".join(chr(int(part, 16)) for part in parts[1:])


def _joins_before(letter: str) -> bool:
    """Return whether the letter joins the one before it."""
    return letter != "" and ("final", _plain(letter)) in _forms()


def _joins_after(letter: str) -> bool:
    """Return whether the letter joins the one after it."""
    return letter != "" and ("initial", _plain(letter)) in _forms()
