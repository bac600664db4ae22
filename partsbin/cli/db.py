"""`partsbin db`: the database itself."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json
from partsbin.errors import PartsbinError


@click.group()
def db_command() -> None:
    """Check the database.

    \b
    Example:
      partsbin db check
    """


@db_command.command("check")
@json_option
def check(*, as_json: bool) -> None:
    """Prove that the record adds up: places, quantities, money, numbers.

    \b
    Example:
      partsbin db check
    """
    from partsbin.stock.check import check as prove

    with opened() as database, database.reading() as session:
        faults = [str(fault) for fault in prove(session)]
        where = database.where
    if as_json:
        print_json({"database": where, "faults": faults})
    elif not faults:
        click.echo(f"{where}: everything adds up")
    if faults:
        raise PartsbinError("\n".join(faults))
