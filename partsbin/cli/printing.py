"""How the commands print: aligned columns, JSON, and colour only where a terminal shows it."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])

COLOURS = {"fits": "green", "adapts": "cyan", "measure": "yellow", "clash": "red"}


def json_option(command: F) -> F:
    """Add `--json` to a command, as the argument `as_json`."""
    return click.option("--json", "as_json", is_flag=True, help="Print JSON for scripts.")(command)


def print_json(held: object) -> None:
    """Print a JSON value, a line for each part that a person may want to read."""
    click.echo(json.dumps(held, indent=1, ensure_ascii=False))


def coloured(text: str, verdict: str) -> str:
    """Return the text in the colour of its verdict, plain off a terminal or under NO_COLOR."""
    plain = not sys.stdout.isatty() or "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb"
    return text if plain else click.style(text, fg=COLOURS.get(verdict))


def print_columns(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Print rows under their heads, each column as wide as its widest cell."""
    widths = [max(len(cell) for cell in column) for column in zip(heads, *rows, strict=True)]
    for row in (heads, *rows):
        cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        click.echo("  ".join(cells).rstrip())


def say(text: str) -> None:
    """Print a message to standard error, out of the way of results."""
    click.echo(text, err=True)
