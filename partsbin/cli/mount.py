"""`partsbin mount` and `unmount`: parts onto bikes and off them."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json
from partsbin.cli.types import GRADE


@click.command()
@click.argument("part")
@click.argument("bike")
@click.argument("slot", default="")
@click.option("--anyway", is_flag=True, help="Also if it clashes.")
@json_option
def mount_command(part: str, bike: str, slot: str, *, anyway: bool, as_json: bool) -> None:
    """Put the PART of that number from its bin onto BIKE, into SLOT if more than one would do.

    \b
    Example:
      partsbin mount 20001420 Teasel "rear shifter"
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.workshop.mounting import mount

    with opened() as database, database.changing("mount") as session:
        done = mount(session, part, bike, slot, anyway=anyway)
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)


@click.command()
@click.argument("bike")
@click.argument("slot")
@click.argument("bin_name", metavar="BIN")
@click.option("--grade", type=GRADE, help="What it is worth now.")
@json_option
def unmount_command(
    bike: str, slot: str, bin_name: str, grade: str | None, *, as_json: bool
) -> None:
    """Take the part in SLOT off BIKE and put it into BIN.

    \b
    Example:
      partsbin unmount Teasel "rear shifter" A1 --grade core
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.stock.words import Grade
    from partsbin.workshop.mounting import unmount

    with opened() as database, database.changing("unmount") as session:
        done = unmount(session, bike, slot, bin_name, Grade(grade.lower()) if grade else None)
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)
