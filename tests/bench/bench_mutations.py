"""Tries 50,000 mutated CSV files and 50,000 mutated commands; stops at the first that breaks.

Run by hand: PYTHONPATH=. python tests/bench/bench_mutations.py [COUNT [START]]
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path

from demo_db.loader import build
from tests.conftest import Shop
from tests.fuzzing import try_commands, try_files

AT_ONCE = 1000
"""How many are tried on one workshop before a new one is made."""


def main(count: int, start: int) -> None:
    """Print how many were refused and how long it took."""
    begin = time.perf_counter()
    totals: dict[str, int] = {}
    for at in range(start, start + count, AT_ONCE):
        some = min(AT_ONCE, start + count - at)
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            os.chdir(folder)
            shop = Shop(folder / "workshop.db")
            build(shop.address)
            counts = {f"files {k}": n for k, n in try_files(shop, folder, some, at).items()}
            ended = try_commands(shop, some, at)
            counts |= {f"commands that ended with {k}": n for k, n in ended.items()}
            os.chdir("/")
        for key, number in counts.items():
            totals[key] = totals.get(key, 0) + number
        print(f"{time.perf_counter() - begin:.0f} s: {totals}", flush=True)


if __name__ == "__main__":
    main(*(int(word) for word in (*sys.argv[1:], *("50000", "0")[len(sys.argv) - 1 :])))
