"""`partsbin lot` and `partsbin use`: rolls and boxes, bought by the pack and used bit by bit."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json
from partsbin.cli.types import MONEY

FORMULAS = ("average", "fifo")
# Written out so that --help reads no database module; a test compares them.


@click.group()
def lot_command() -> None:
    """Buy more of a lot, show what it cost, and choose the cost formula.

    \b
    Example:
      partsbin lot add 40000194 --quantity 100 --cost 4.50
      partsbin lot show 40000194
    """


@lot_command.command("add")
@click.argument("number")
@click.option("--quantity", default="", help="How much: 100, or 30 m of housing.")
@click.option("--packs", type=int, help="How many packs, as partsbin reorder set says.")
@click.option("--cost", type=MONEY, default="0", help="What it cost, as a whole.")
@click.option("--bin", "bin_name", default="", metavar="BIN", help="Where it goes, if not with it.")
@json_option
def add(
    number: str, quantity: str, packs: int | None, cost: int, bin_name: str, *, as_json: bool
) -> None:
    """Put more into the lot of that NUMBER.

    \b
    Example:
      partsbin lot add 40000194 --quantity 100 --cost 4.50
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.stock.money import Money
    from partsbin.workshop.lots import buy_more

    with opened() as database, database.changing("lot add") as session:
        done = buy_more(
            session, number, Money(cost), quantity=quantity, packs=packs, bin_name=bin_name
        )
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)


@lot_command.command("show")
@click.argument("number")
@json_option
def show(number: str, *, as_json: bool) -> None:
    """Show where the lot of that NUMBER is, and what each purchase left there.

    \b
    Example:
      partsbin lot show 40000194
    """
    from partsbin.cli.telling import stocked_as_data
    from partsbin.stock.money import show_money
    from partsbin.stock.quantity import show_quantity
    from partsbin.workshop.lots import formula_of_kind, shelves
    from partsbin.workshop.mounting import place_of

    with opened() as database, database.reading() as session:
        found = shelves(session, number)
        formula = formula_of_kind(session, found[0].stocked.spec.kind) if found else None
    layers = [
        [(show_quantity(a.quantity, shelf.stocked.unit), show_money(a.cost)) for a in shelf.layers]
        for shelf in found
    ]
    if as_json:
        places = [
            {
                **stocked_as_data(shelf.stocked),
                "layers": [{"quantity": quantity, "cost": cost} for quantity, cost in of_place],
            }
            for shelf, of_place in zip(found, layers, strict=True)
        ]
        print_json({"formula": formula and str(formula), "places": places})
        return
    rows = [
        (place_of(shelf.stocked), quantity, cost)
        for shelf, of_place in zip(found, layers, strict=True)
        for quantity, cost in of_place
    ]
    if found:
        click.echo(f"{found[0].stocked.spec}; cost by {formula}")
    print_columns(("place", "quantity", "cost"), rows)


@lot_command.command("formula")
@click.argument("formula", type=click.Choice(FORMULAS), required=False)
@click.option("--kind", default="", help="Only for lots of this kind; else for all others.")
@json_option
def formula(formula: str | None, kind: str, *, as_json: bool) -> None:
    """Choose how the cost of what leaves a lot is found, or show what is chosen.

    FIFO takes the oldest purchase first, AVERAGE the weighted average. Lots of one kind share one
    formula; a single part always carries its own cost.

    \b
    Example:
      partsbin lot formula fifo --kind bearing_balls
    """
    from partsbin.stock.count_tables import CostFormula
    from partsbin.workshop.lots import formula_of_kind, set_formula

    with opened() as database:
        if formula is not None:
            with database.changing("lot formula", formula) as session:
                set_formula(session, kind, CostFormula(formula))
        with database.reading() as session:
            chosen = formula_of_kind(session, kind)
    if as_json:
        print_json({"kind": kind or None, "formula": str(chosen)})
    else:
        click.echo(f"{kind or 'all other kinds'}: {chosen}")


@click.command()
@click.argument("lot")
@click.argument("quantity")
@click.option("--onto", default="", metavar="BIKE", help="The bike it is used on.")
@click.option("--from", "source", default="", metavar="BIN", help="The bin it comes from.")
@click.option("--reason", default="", help="What for, for the history.")
@json_option
def use_command(
    lot: str, quantity: str, onto: str, source: str, reason: str, *, as_json: bool
) -> None:
    """Take QUANTITY of the LOT of that number onto a bike, or write it off as consumed.

    \b
    Example:
      partsbin use 40000194 22 --onto Teasel
      partsbin use 40000291 "0.9 m" --reason "cut to waste"
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.workshop.lots import use

    with opened() as database, database.changing("use", reason or "consumed") as session:
        done = use(session, lot, quantity, onto, source)
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)
