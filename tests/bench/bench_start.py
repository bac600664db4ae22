"""How long commands take from start to end, beside the import that they cannot do without.

Run by hand. Bars: `partsbin --help` at most 1.6 times
`import click`; `partsbin fit` on the demo workshop under 3 times `import sqlalchemy.orm`.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PROGRAM = Path(sys.executable).with_name("partsbin")
ROUNDS = 15


def main() -> None:
    """Print each command's median time and its ratio to its baseline, taken in turns."""
    from demo_db.loader import build

    with tempfile.TemporaryDirectory() as folder:
        database = Path(folder) / "workshop.db"
        build(database)
        fit = [str(PROGRAM), "--db", str(database), "fit", "Teasel", "rear shifter"]
        compare([str(PROGRAM), "--help"], "import click", 1.6)
        compare(fit, "import sqlalchemy.orm", 3.0)


def compare(command: list[str], baseline: str, bar: float) -> None:
    """Print how a command compares with a Python that only imports something."""
    times: dict[str, list[float]] = {"command": [], "baseline": []}
    for _ in range(ROUNDS):
        times["baseline"].append(timed([sys.executable, "-c", baseline]))
        times["command"].append(timed(command))
    ours, theirs = (statistics.median(times[name]) for name in ("command", "baseline"))
    shown = " ".join([Path(command[0]).name, *command[-2:]])
    print(
        f"{shown}: {ours * 1000:.0f} ms, `{baseline}`: {theirs * 1000:.0f} ms, "
        f"ratio {ours / theirs:.2f} (bar {bar})"
    )


def timed(command: list[str]) -> float:
    """Return the seconds that a command took."""
    start = time.perf_counter()
    subprocess.run(command, capture_output=True, check=True)
    return time.perf_counter() - start


if __name__ == "__main__":
    main()
