"""Makes wrong files and wrong commands out of right ones, the same ones for the same start."""

from __future__ import annotations

import random

STRANGE = (
    *("", " ", ";", ",", '"', "'", "=", "\n", "\r", "\t", "\0", "\\", "%s", "{0}", "-", "--"),
    *("0", "-1", "1e999", "NaN", "inf", "9" * 40, "0.0000001", "1/0", "27,2 mm", '9/16"', "١٢"),
    *("é", "ß", "İ", "\u202e", "\ufeff", "\U0001f6b2", "x" * 300, "null", "true", "None", "yes"),
    *("2026-02-30", "0000-00-00", "frame", "loose", "quarantine", "supplier", "sold", "clearing"),
    *("20000140", "10000119", "30000161", "40000182", "2000 0141", "speeds=8", "=8", "a=b=c"),
    *("(assumed)", '"(assumed)', "speeds=8 (assumed)", "../..", "/dev/null", "DROP TABLE part;--"),
)
"""What has broken programs, and what means something here in another place."""

GENTLE = 0.9
"""How often the command itself is left as it is."""


def mutated(text: str, chance: random.Random) -> str:
    """Return a text with one to four faults."""
    for _ in range(chance.randint(1, 4)):
        text = chance.choice(MUTATIONS)(text, chance)
    return text


def _insert(text: str, chance: random.Random) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + chance.choice(STRANGE) + text[at:]


def _delete(text: str, chance: random.Random) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + text[at + chance.randint(1, 12) :]


def _change(text: str, chance: random.Random) -> str:
    if not text:
        return text
    at = chance.randrange(len(text))
    return text[:at] + chr(chance.choice((chance.randint(32, 126), 0x3A9, 0x2603))) + text[at + 1 :]


def _repeat(text: str, chance: random.Random) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + text[max(0, at - chance.randint(1, 40)) :]


def _swap_cells(text: str, chance: random.Random) -> str:
    cells = text.split(",")
    one, other = chance.randrange(len(cells)), chance.randrange(len(cells))
    cells[one], cells[other] = cells[other], cells[one]
    return ",".join(cells)


def _replace_cell(text: str, chance: random.Random) -> str:
    cells = text.split(",")
    cells[chance.randrange(len(cells))] = chance.choice(STRANGE)
    return ",".join(cells)


def _repeat_line(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    return "\n".join([*lines, chance.choice(lines)])


MUTATIONS = (_insert, _delete, _change, _repeat, _swap_cells, _replace_cell, _repeat_line)


def mutated_words(words: list[str], chance: random.Random) -> list[str]:
    """Return the words of a command with one to three faults, mostly behind its name."""
    words = list(words)
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        first = min(2, len(words) - 1) if chance.random() < GENTLE else 0
        at = chance.randrange(first, len(words))
        turn = chance.randrange(6)
        if turn == 0:
            words[at] = mutated(words[at], chance)
        elif turn == 1:
            words[at] = chance.choice(STRANGE)
        elif turn == 2:
            words.insert(at, chance.choice(STRANGE))
        elif turn == 3 and len(words) > 1:
            del words[at]
        elif turn == 4:
            words.append(words[at])
        else:
            other = chance.randrange(first, len(words))
            words[at], words[other] = words[other], words[at]
    return words
