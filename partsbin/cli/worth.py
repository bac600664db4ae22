"""`partsbin worth`: what stripping a bike would give to the open needs of all bikes in work."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import coloured, json_option, print_columns, print_json

if TYPE_CHECKING:
    from partsbin.workshop.part_out import Given
    from partsbin.workshop.worth import Row, Worth


@click.command()
@click.argument("donor")
@json_option
def worth_command(donor: str, *, as_json: bool) -> None:
    """Say what stripping the bike DONOR would give to the open needs of all bikes in work.

    The bikes in work are planned with the donor's usable parts and without them; what a part saves
    is what the plan without it buys, or takes from stock, for the same slot.

    \b
    Example:
      partsbin worth Bracken
    """
    from partsbin.workshop.worth import worth

    with opened() as database, database.reading() as session:
        found = worth(session, donor)
    if as_json:
        print_json(_as_data(found))
    else:
        _print(found)


def _print(found: Worth) -> None:
    from partsbin.stock.money import show_money

    gain = found.gain
    if not gain.bikes:
        click.echo(f"no other bike is in work, so nothing of {found.bike} is wanted")
        return
    rows = [_cells(row, row.given) for row in found.wanted if row.given is not None]
    if rows:
        print_columns(("from", "for", "verdict", "money", "stock", "instead of"), rows)
    rest = len(found.rows) - len(found.wanted)
    click.echo(f"{rest} usable parts of {found.bike} meet no open need of {', '.join(gain.bikes)}")
    needs = f", {gain.needs} more needs met" if gain.needs else ""
    singly = sum(row.given.saves for row in found.wanted if row.given is not None)
    if singly != gain.money + gain.value:
        click.echo(
            f"one by one they save {show_money(singly)}; with them, other parts are best too"
        )
    proven = "proven" if gain.proven else "not proven"
    click.echo(
        f"in all: {show_money(gain.money)} less to spend, "
        f"{show_money(gain.value)} of stock spared{needs} ({proven})"
    )


def _cells(row: Row, given: Given) -> tuple[str, ...]:
    from partsbin.stock.money import show_money

    return (
        row.slot,
        f"{given.bike}, {given.slot}",
        coloured(str(given.verdict), str(given.verdict)),
        show_money(given.money),
        show_money(given.value),
        given.instead,
    )


def _as_data(found: Worth) -> dict[str, Any]:
    from partsbin.stock.money import show_money

    gain = found.gain
    return {
        "bike": found.bike,
        "bikes_in_work": list(gain.bikes),
        "parts": [
            {
                "slot": row.slot,
                "number": row.number,
                "what": str(row.spec),
                "for": None if row.given is None else given_as_data(row.given),
            }
            for row in found.rows
        ],
        "money": show_money(gain.money),
        "stock": show_money(gain.value),
        "needs": gain.needs,
        "proven": gain.proven,
    }


def given_as_data(given: Given) -> dict[str, Any]:
    """Return where a part would go as JSON holds it."""
    from partsbin.stock.money import show_money

    return {
        "bike": given.bike,
        "slot": given.slot,
        "verdict": str(given.verdict),
        "instead": given.instead,
        "money": show_money(given.money),
        "stock": show_money(given.value),
        "only": given.only,
    }
