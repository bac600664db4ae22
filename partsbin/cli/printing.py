"""How the commands print: aligned columns, JSON, and colour only where a terminal shows it."""

from __future__ import annotations

import json
import os
import shutil
import sys
from collections.abc import Callable, Sequence
from textwrap import fill
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])

WIDEST = 100
"""Characters of a line; longer ones are hard to follow."""
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


def print_wrapped(text: str, indent: int = 0) -> None:
    """Print a text in lines that the terminal holds, those after the first a little further in."""
    width = min(shutil.get_terminal_size((WIDEST, 24)).columns, WIDEST)
    lines = fill(
        text,
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + 2),
        break_long_words=False,
        break_on_hyphens=False,
    )
    click.echo(lines)


def say(text: str) -> None:
    """Print a message to standard error, out of the way of results."""
    click.echo(text, err=True)
