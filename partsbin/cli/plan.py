"""`partsbin plan`: what to take and buy so that whole bikes come right, at the least cost."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, print_wrapped, say

if TYPE_CHECKING:
    from partsbin.workshop.planning.answer import Plans


@click.command()
@click.argument("bikes", nargs=-1, metavar="[BIKE]...")
@click.option("--all", "all_bikes", is_flag=True, help="All bikes in work, together.")
@click.option("--keep", multiple=True, metavar="SLOT", help="Leave this slot as it is.")
@click.option("--apply", "apply_", is_flag=True, help="Lay the parts aside for their bikes.")
@click.option(
    "--pick-list", type=click.Path(path_type=Path), metavar="FILE", help="Write a PDF to pick by."
)
@click.option(
    "--time-limit",
    type=click.FloatRange(0.01),
    metavar="SECONDS",
    help="Give the best found by then, with its gap.",
)
@json_option
def plan_command(
    bikes: tuple[str, ...],
    keep: tuple[str, ...],
    pick_list: Path | None,
    time_limit: float | None,
    *,
    all_bikes: bool,
    apply_: bool,
    as_json: bool,
) -> None:
    """Choose parts and purchases for all needs of some bikes at once.

    Every interface of the finished bikes holds. The least money is spent; then stock of the least
    value is used, the fewest adapters, the oldest parts. Working parts are replaced where that is
    cheaper in all. With --apply the parts are laid aside, and scanning them mounts them.

    What only gets a rider home is no repair: it is taken only where nothing in stock or on the
    price list serves, and the plan says so. An adapter without a known price is listed with what
    to buy, and named beside the money to spend, which does not hold it.

    \b
    Example:
      partsbin plan Teasel Yarrow --keep "rear brake"
      partsbin plan --all --apply --pick-list picks.pdf
      partsbin scan --keys --onto Teasel
    """
    from partsbin.workshop.planning.applying import lay_aside
    from partsbin.workshop.planning.making import plan

    if bool(bikes) == all_bikes:
        raise click.UsageError("name the bikes, or give --all")
    with opened() as database:
        if apply_:
            with database.changing("plan") as session:
                plans = plan(session, bikes, keep, time_limit)
                lay_aside(session, plans)
        else:
            with database.reading() as session:
                plans = plan(session, bikes, keep, time_limit)
    if pick_list is not None:
        from partsbin.workshop.planning.pick_list import pick_list as drawn

        pick_list.write_bytes(drawn(plans))
    if as_json:
        from partsbin.workshop.planning.words import as_data

        print_json({**as_data(plans), "laid_aside": apply_})
    else:
        _print(plans, applied=apply_)


def _print(plans: Plans, *, applied: bool) -> None:
    from partsbin.workshop.planning.words import lines, proof, to_spend

    for bike in plans.bikes:
        needs = ", ".join(f"{slot} {why}" for slot, why in bike.needs) or "none"
        print_wrapped(f"{bike.name}: needs {needs}")
        width = max((len(line.verb) for line in lines(bike)), default=0)
        for line in lines(bike):
            print_wrapped(f"{line.verb.ljust(width)}  {line.slot}: {line.what}", 2)
            for text in line.below:
                print_wrapped(text, 6)
        for caution in bike.cautions:
            say(f"  caution: {caution}")
    print_wrapped(f"to spend: {to_spend(plans)}; {proof(plans)}")
    if applied:
        say("the parts are laid aside; scan them onto their bikes")
