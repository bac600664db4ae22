"""The `partsbin` command: finds each command's module when it is called, and words its refusals."""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import click

from partsbin.errors import PartsbinError, UsageError

COMMANDS = {
    # name: (module of this folder, what it does). In the order of a day's work.
    "demo": ("demo", "Walk through the whole job on an invented workshop."),
    "part": ("part", "Add, show, edit, move and scrap parts."),
    "bin": ("bins", "Add, list and show bins."),
    "bike": ("bike", "Add, list, show and strip bikes."),
    "find": ("find", "Find parts in stock by words and attributes."),
    "fit": ("fit", "Say what in stock goes into a slot of a bike, and why."),
    "plan": ("plan", "Plan whole bikes: what to take, buy and measure, at the least cost."),
    "prices": ("prices", "Take in and show the prices of new parts."),
    "offer": ("offer", "Say what a bike that is for sale is worth to you, at the most."),
    "worth": ("worth", "Say what stripping a bike would give to the bikes in work."),
    "judge": ("judge", "Judge sets of parts from a file, without a database."),
    "mount": ("mount", "Put a part onto a bike."),
    "unmount": ("mount", "Take a part off a bike into a bin."),
    "lot": ("lot", "Buy more of a lot, and choose how its cost is found."),
    "use": ("lot", "Take from a lot onto a bike, or consume it."),
    "count": ("count", "Count a bin, and say which bins are due."),
    "reorder": ("reorder", "Set minimum levels and list what is to be ordered."),
    "label": ("label", "Print labels for parts, bins and bikes."),
    "scan": ("scan", "Read labels from pictures, a camera or a keyboard scanner."),
    "bench": ("bench", "Serve the page for the laptop at the bench and the phone in the hand."),
    "sell": ("sell", "Sell a bike that was checked and is ready."),
    "return": ("sell", "Take the sale of a bike back."),
    "keep": ("sell", "Take a bike into the workshop's own fleet."),
    "books": ("books", "Say what a bike, or the workshop, cost and earned."),
    "history": ("history", "Show all that happened to a part, in a bin or to a bike."),
    "undo": ("undo", "Take back the last thing that you did."),
    "kinds": ("kinds", "Show the kinds of part and their attributes."),
    "names": ("names", "Keep your own list of what is printed on parts."),
    "photo": ("photo", "Keep photos of parts and bikes."),
    "import": ("import_", "Take in CSV files, or a spreadsheet of your own."),
    "export": ("export", "Write the workshop as CSV files."),
    "db": ("db", "Check, back up, restore and upgrade the database."),
}


@dataclass(frozen=True, slots=True)
class Settings:
    """What the options before the command say: the database, and who is working."""

    db: str | None
    who: str | None


class Refused(click.ClickException):
    """What the workshop refuses, or does not find."""


class Misused(click.ClickException):
    """What was typed, or what a file holds, is not understood."""

    exit_code = 2


class Commands(click.Group):
    """A group that reads a command's module only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the commands in the order of a day's work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return a command from its module, None if there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"partsbin.cli.{COMMANDS[cmd_name][0]}")
        command = getattr(module, cmd_name.replace("-", "_") + "_command")
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the first word names; a wrong word gets the nearest one."""
        named = args[0]  # what looks like an option is taken out of them below
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            from partsbin.kinds.forms.form import nearest

            hint = nearest(named, list(COMMANDS))
            raise click.UsageError(error.message.rstrip(".") + hint, ctx) from None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the list of commands without reading their modules."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in COMMANDS.items()])

    def invoke(self, ctx: click.Context) -> Any:
        """Call the command; what the workshop refuses becomes one sentence and an exit code."""
        try:
            return super().invoke(ctx)
        except UsageError as error:
            raise Misused(str(error)) from error
        except PartsbinError as error:
            raise Refused(str(error)) from error
        except BrokenPipeError:
            raise
        except UnicodeEncodeError as error:
            if not "\ud800" <= error.object[error.start] <= "\udfff":
                raise
            # Python lets bytes that are no text through as surrogates; the record takes none.
            told = "what was typed holds bytes that are no text; type it again"
            raise Misused(told) from error
        except OverflowError as error:
            raise Misused("a number is larger than the record can hold; check it") from error
        except OSError as error:
            where = f"{error.filename}: " if error.filename else ""
            raise Refused(f"{where}{error.strerror or error}") from error


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--db", metavar="URL", help="Database URL or SQLite file (or set PARTSBIN_DB).")
@click.option("--who", metavar="NAME", help="Who is working (or set PARTSBIN_USER).")
@click.version_option(package_name="partsbin", prog_name="partsbin")
@click.pass_context
def main(ctx: click.Context, db: str | None, who: str | None) -> None:
    """Keep salvaged bicycle parts, print and read their labels, and say what fits which bike.

    \b
    Example:
      partsbin demo
      partsbin fit 3000 0142 "rear shifter"
    """
    ctx.obj = Settings(db, who)


def run(arguments: Sequence[str] | None = None) -> None:
    """Start the program; a closed pipe ends it quietly."""
    try:
        main(arguments)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
