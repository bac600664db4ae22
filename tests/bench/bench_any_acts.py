"""1,000 runs of any acts of the trade in any order, on SQLite and on PostgreSQL.

Run by hand; `bench_any_acts.py RUNS` makes another number of runs. Bar: the laws of
`tests/workshop/any_acts.py` hold after every act of 1,000 runs.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.databases import QUICK, Databases, Files, Server
from tests.workshop.any_acts import AnyActs, machine

RUNS, STEPS = 1000, 25


def main(runs: int) -> None:
    """Print how many acts were kept and refused; a broken law is shown with its acts."""
    folder = "/dev/shm" if Path("/dev/shm").is_dir() else None
    with tempfile.TemporaryDirectory(dir=folder) as place, Server(QUICK) as server:
        for name, databases in (("SQLite", Files(Path(place))), ("PostgreSQL", server)):
            start = time.perf_counter()
            kept, refused = run(databases, runs)
            print(
                f"{name}: {runs} runs in {time.perf_counter() - start:.0f} s, "
                f"{kept.total()} acts kept and {refused.total()} refused; kept {dict(kept)}",
                flush=True,
            )


def run(databases: Databases, runs: int) -> tuple[Counter[str], Counter[str]]:
    """Make some runs and return how often each act was kept and refused."""
    kept, refused = Counter[str](), Counter[str]()

    class Counted(AnyActs):
        def teardown(self) -> None:  # a machine is made and thrown away by Hypothesis
            kept.update(self.kept)
            refused.update(self.refused)
            super().teardown()

    chosen = settings(
        max_examples=runs,
        stateful_step_count=STEPS,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
        phases=[Phase.generate, Phase.shrink],
    )
    run_state_machine_as_test(machine(databases, Counted), settings=chosen)
    return kept, refused


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else RUNS)
