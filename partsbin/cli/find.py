"""`partsbin find`: parts in stock by words and attributes."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say


@click.command()
@click.argument("terms", nargs=-1, metavar="[WORD | NAME=VALUE]...")
@click.option("--everywhere", is_flag=True, help="Also on bikes and in quarantine.")
@click.option("--most", type=click.IntRange(1, 1_000_000), default=200, show_default=True)
@json_option
def find_command(terms: tuple[str, ...], most: int, *, everywhere: bool, as_json: bool) -> None:
    """Find parts in stock that all the words and attribute conditions describe.

    A condition compares an attribute, the grade or the bin: `speeds=8`, `speeds>=8`,
    `diameter=27..27.4`, `grade=good`, `bin=A1`.

    \b
    Example:
      partsbin find shifter speeds=8 side=rear
      partsbin find seatpost "diameter=26.8..27.4" grade=good
    """
    from partsbin.cli.telling import print_stocked, stocked_as_data
    from partsbin.stock.conditions import is_condition
    from partsbin.stock.search import find

    words = [term for term in terms if not is_condition(term)]
    asked = [term for term in terms if is_condition(term)]
    with opened() as database, database.reading() as session:
        found = find(session, words, asked, everywhere=everywhere, limit=most)
    if as_json:
        print_json({"parts": [stocked_as_data(part) for part in found.rows], "more": found.more})
        return
    if found.rows:
        print_stocked(found.rows)
    else:
        say("nothing in stock is like that")
    if found.more:
        say(f"these are the first {most}; there are more (--most)")
