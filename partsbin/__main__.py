"""Runs `python -m partsbin`."""

from partsbin.cli.main import run

run()
