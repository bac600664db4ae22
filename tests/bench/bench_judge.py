"""How fast sets of parts are judged: `python tests/bench/bench_judge.py`.

Prints the mean time of a judged pair over a broad random mix beside a bare Python function call,
10,000 cases in one file through `partsbin judge --json`, and all wheels of a shop of 3,000 specs
against a bike.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import tempfile
import time
import timeit
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from partsbin.fit.judge import judge
from partsbin.fit.rules import RULES
from partsbin.kinds import KINDS
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec
from tests.fit.made_parts import Attributes, made, some_of

PAIRS, CASES, SPECS = 5000, 10_000, 3000
BIKE = (
    "frame fork headset bottom_bracket chainset front_derailleur rear_derailleur cassette chain "
    "shifter shifter brake_lever brake_lever rim_brake rim_brake tyre tyre tube tube handlebar "
    "stem seatpost saddle pedals"
)

Part = tuple[str, Attributes]


def _nothing() -> None:
    """Return nothing, to be measured beside the judge."""


def seconds(action: Callable[[], object]) -> float:
    """Return the best processor time of five of an action, in seconds."""
    return min(timeit.repeat(action, number=1, repeat=5, timer=time.process_time))


def pair(draw: random.Random, *, known: bool) -> list[Part]:
    """Return two parts that meet in a rule, all known or with some attributes unknown."""
    while True:
        rule = draw.choice(RULES)
        takers = [p for p in rule.parameters if not p.optional]
        if len(takers) == 2:
            break
    kinds = [draw.choice([word for word in KINDS if taker.takes(word)]) for taker in takers]
    return [(kind, held if known else some_of(held, draw)) for kind, held in _made(kinds, draw)]


def _made(kinds: list[str], draw: random.Random) -> list[Part]:
    return [(kind, made(kind, draw)) for kind in kinds]


def pieces(parts: list[Part]) -> list[Kind]:
    """Return the pieces that the rules see."""
    return [Spec.check(kind, held).piece for kind, held in parts]


def bench_pairs(draw: random.Random) -> None:
    """Print the mean time of a judged pair, with everything known and with unknowns."""
    for known in (True, False):
        pairs = [pieces(pair(draw, known=known)) for _ in range(PAIRS)]
        taken = seconds(lambda pairs=pairs: [judge(each) for each in pairs])  # type: ignore[misc] # a default binds the loop's pairs
        word = "all known" if known else "some unknown"
        print(f"a judged pair, {word}: {taken / PAIRS * 1e6:.1f} microseconds")
    bare = min(timeit.repeat(_nothing, number=1_000_000, repeat=3))
    print(f"a bare function call: {bare:.3f} microseconds")


def bench_file(draw: random.Random) -> None:
    """Print how long a file of cases takes from the shell, the start of Python included."""
    cases = [
        {
            "id": at,
            "parts": [{"kind": kind, **held} for kind, held in pair(draw, known=at % 2 == 0)],
        }
        for at in range(CASES)
    ]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "cases.json"
        file.write_text(json.dumps({"cases": cases}), encoding="utf-8")
        program = str(Path(sys.executable).with_name("partsbin"))
        command = [program, "judge", "--json", str(file)]
        before, start = os.times(), time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        taken, after = time.perf_counter() - start, os.times()
    worked = after.children_user - before.children_user
    print(f"{CASES} cases in one file: {taken:.2f} seconds, {worked:.2f} of them computing")


def bench_shop(draw: random.Random) -> None:
    """Print how long all wheels among many specs take against a bike."""
    specs = [
        Spec.check(kind, some_of(held, draw))
        for kind, held in _made([draw.choice(list(KINDS)) for _ in range(SPECS)], draw)
    ]
    wheels = [spec.piece for spec in specs if spec.kind == "wheel"]
    share = len(wheels)
    while len(wheels) < SPECS // 10:
        wheels += pieces(_made(["wheel"], draw))
    bike = pieces(_made(BIKE.split(), draw))
    taken = seconds(lambda: [judge([wheel, *bike], about=0) for wheel in wheels])
    print(
        f"{len(wheels)} wheels ({share} of a random shop of {SPECS} specs) against a bike of "
        f"{len(bike)} parts: {taken:.3f} seconds"
    )


def main() -> None:
    """Run all three with the same random parts each time."""
    draw = random.Random(20)
    bench_pairs(draw)
    bench_file(draw)
    bench_shop(draw)


if __name__ == "__main__":
    main()
