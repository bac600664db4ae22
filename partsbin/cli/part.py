"""`partsbin part`: parts and lots one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, print_wrapped, say
from partsbin.cli.types import CONDITION, DAY, GRADE, MONEY

if TYPE_CHECKING:
    from datetime import datetime


@click.group()
def part_command() -> None:
    """Add, show, edit, move, sell and scrap parts.

    \b
    Example:
      partsbin part add shifter speeds=8 side=rear --bin A1
      partsbin part show 2000 0142
    """


@part_command.command("add")
@click.argument("kind")
@click.argument("attributes", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--bin", "bin_name", default="", metavar="BIN", help="The bin it goes into.")
@click.option("--bike", default="", help="The bike it came on, instead of a bin.")
@click.option("--slot", default="", help="Where on that bike it is.")
@click.option("--grade", type=GRADE, default="good", show_default=True)
@click.option("--condition", type=CONDITION, default="sound", help="How a part on a bike is.")
@click.option("--quantity", default="", help="Makes it a lot: 12, or 2.5 m of housing.")
@click.option("--cost", type=MONEY, default="0", help="What it cost, a lot as a whole.")
@click.option("--value", type=MONEY, help="What it would sell for.")
@click.option("--origin", default="", help="Where it came from.")
@click.option("--note", default="")
@click.option("--inspected", is_flag=True, help="The inspection that its kind needs was made.")
@click.option("--named", default="", metavar="TEXT", help="What is printed on it; see names.")
@click.option("--like", default="", metavar="ERA", help="The bike's template; see kinds --eras.")
@json_option
def add(
    kind: str,
    attributes: tuple[str, ...],
    bin_name: str,
    bike: str,
    slot: str,
    grade: str,
    condition: str,
    quantity: str,
    cost: int,
    value: int | None,
    origin: str,
    note: str,
    named: str,
    like: str,
    *,
    inspected: bool,
    as_json: bool,
) -> None:
    """Add a part of KIND, or a lot, with its attributes, and give it a label number.

    A used part whose kind can hurt someone waits in quarantine unless it was inspected.

    \b
    Example:
      partsbin part add seatpost diameter=27,2 length=300 --bin D1 --inspected
      partsbin part add brake_cable brake_cable_head=barrel --bin B2 --quantity 10 --cost 15
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.kinds.kind import KINDS
    from partsbin.stock.money import Money
    from partsbin.stock.words import Condition, Grade
    from partsbin.workshop.intake import Intake, take_in

    told = Intake(
        kind=kind,
        attributes=attributes,
        bin=bin_name,
        bike=bike,
        slot=slot,
        grade=Grade(grade.lower()),
        condition=Condition(condition.lower()),
        quantity=quantity,
        cost=Money(cost),
        value=None if value is None else Money(value),
        origin=origin,
        note=note,
        inspected=inspected,
        named=named,
        like=like,
    )
    with opened() as database, database.changing("part add") as session:
        done = take_in(session, told)
    if as_json:
        filled = {"attributes": done.spec.plain(), "assumed": sorted(done.spec.assumed)}
        print_json({**done_as_data(done), **filled, "filled": done.told})
        return
    tell_done(done)
    for sentence in done.told:
        say(sentence)
    if done.target == "quarantine":
        say("it waits in quarantine until it was inspected:")
        for look in KINDS[done.spec.kind].inspection:
            say(f"  {look}")
        say(f"then: partsbin part move {done.number} BIN --inspected")


@part_command.command("show")
@click.argument("number")
@json_option
def show(number: str, *, as_json: bool) -> None:
    """Show the part of that NUMBER: what it is, where it is, what it cost, its cautions.

    \b
    Example:
      partsbin part show 20001420
    """
    from partsbin.cli.telling import print_stocked, stocked_as_data
    from partsbin.fit.condition import sentence
    from partsbin.kinds.kind import KINDS
    from partsbin.stock.lookup import shown
    from partsbin.workshop.intake import by_readings

    with opened() as database, database.reading() as session:
        part = shown(session, number)
    kind = KINDS[part.spec.kind]
    _, signs = by_readings(part.spec, part.grade)
    if as_json:
        places = [stocked_as_data(place) for place in part.places]
        told = {"caution": kind.caution, "inspection": kind.inspection}
        print_json({"places": places, "signs": [sentence(sign) for sign in signs], **told})
        return
    print_stocked(part.places)
    if not part.places:
        say(f"{part.spec.brief}: it is in no place, because its coming in was taken back")
    for name, value in part.spec.shown().items():
        click.echo(f"  {name}: {value}")
    for sign in signs:
        print_wrapped(sentence(sign))
    if kind.caution:
        print_wrapped(f"caution: {kind.caution}")


@part_command.command("edit")
@click.argument("number")
@click.argument("attributes", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--grade", type=GRADE)
@click.option("--condition", type=CONDITION, help="How a part on a bike is.")
@click.option("--value", type=MONEY, help="What it would sell for.")
@click.option("--note")
@json_option
def edit(
    number: str,
    attributes: tuple[str, ...],
    grade: str | None,
    condition: str | None,
    value: int | None,
    note: str | None,
    *,
    as_json: bool,
) -> None:
    """Change what is known of the part of that NUMBER; `name=` makes an attribute unknown.

    \b
    Example:
      partsbin part edit 20001420 wear_percent=0.6 --grade fair
    """
    from partsbin.fit.condition import sentence
    from partsbin.stock.money import Money
    from partsbin.stock.words import Condition, Grade
    from partsbin.workshop.intake import correct

    with opened() as database, database.changing("part edit") as session:
        spec, left, signs = correct(
            session,
            number,
            attributes,
            grade=None if grade is None else Grade(grade.lower()),
            condition=None if condition is None else Condition(condition.lower()),
            value=None if value is None else Money(value),
            note=note,
        )
    if as_json:
        held = {"part": number, "kind": spec.kind, "attributes": spec.plain(), "grade": str(left)}
        print_json({**held, "signs": [sentence(sign) for sign in signs]})
        return
    click.echo(f"{spec}, {left}")
    for sign in signs:
        say(sentence(sign))


@part_command.command("move")
@click.argument("number")
@click.argument("bin_name", metavar="BIN")
@click.option("--quantity", default="", help="Only so much of a lot.")
@click.option("--inspected", is_flag=True, help="The inspection that its kind needs was made.")
@json_option
def move(number: str, bin_name: str, quantity: str, *, inspected: bool, as_json: bool) -> None:
    """Move the part of that NUMBER into BIN.

    \b
    Example:
      partsbin part move 20001420 A1
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.workshop.intake import put

    with opened() as database, database.changing("part move") as session:
        done = put(session, number, bin_name, quantity, inspected=inspected)
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)


@part_command.command("sell")
@click.argument("number")
@click.option("--price", type=MONEY, required=True, help="What the buyer paid, for all of it.")
@click.option("--quantity", default="", help="How much of a lot.")
@click.option("--fee", type=MONEY, default="0", help="What the selling place or the bank takes.")
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="Who bought it, how it was paid.")
@click.option("--anyway", metavar="REASON", default="", help="Sell what is refused, and why.")
@json_option
def sell(
    number: str,
    price: int,
    quantity: str,
    fee: int,
    day: datetime | None,
    note: str,
    anyway: str,
    *,
    as_json: bool,
) -> None:
    """Sell the part of that NUMBER by itself: it leaves its bin with what it cost.

    A part that is unsafe, waits for its inspection or is laid aside for a bike is refused, unless
    --anyway says why; the reason is kept. What to tell the buyer of a kind that can hurt someone is
    printed.

    \b
    Example:
      partsbin part sell 20001420 --price 12 --note "cash"
      partsbin part sell 40001346 --price 3 --quantity 2
    """
    from partsbin.cli.telling import part_sold_as_data, tell_part_sold
    from partsbin.stock.money import Money
    from partsbin.workshop.counter import sell_part

    with opened() as database, database.changing("part sell", anyway.strip()) as session:
        sold = sell_part(
            session,
            number,
            Money(price),
            quantity=quantity,
            fee=Money(fee),
            day=day.date() if day else None,
            note=note,
            anyway=anyway,
        )
    if as_json:
        print_json(part_sold_as_data(sold))
    else:
        tell_part_sold(sold)


@part_command.command("scrap")
@click.argument("number")
@click.option("--quantity", default="", help="Only so much of a lot.")
@click.option("--reason", default="", help="Why, for the history.")
@json_option
def scrap(number: str, quantity: str, reason: str, *, as_json: bool) -> None:
    """Scrap the part of that NUMBER; what it cost is written off.

    \b
    Example:
      partsbin part scrap 20001420 --reason "crack at the clamp"
    """
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.workshop.intake import scrap as scrap_part

    with opened() as database, database.changing("part scrap", reason) as session:
        done = scrap_part(session, number, quantity)
    if as_json:
        print_json(done_as_data(done))
    else:
        tell_done(done)
