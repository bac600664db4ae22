"""`partsbin bike check`, `ready` and `listing`: the check before a sale, and the advertisement."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, print_wrapped, say

if TYPE_CHECKING:
    from partsbin.workshop.presale import Checked, Checklist


@click.command("check")
@click.argument("name")
@click.argument("results", nargs=-1, metavar="[ITEM=ok|fail:WHY]...")
@click.option("--all-ok", is_flag=True, help="Every item that is not named was looked at and ok.")
@click.option("--by", default="", metavar="NAME", help="Who looked at the bike.")
@click.option("--rules", is_flag=True, help="Show the rule behind each item.")
@json_option
def check(
    name: str, results: tuple[str, ...], by: str, *, all_ok: bool, rules: bool, as_json: bool
) -> None:
    """Show the check before the sale of the bike of that NAME, or record what somebody found.

    An item is void again once parts that it is about were changed.

    \b
    Example:
      partsbin bike check Teasel
      partsbin bike check Teasel brakes=ok "tyres=fail: rear one cut" --by "Ada Quill"
      partsbin bike check Teasel --all-ok --by "Ada Quill"
    """
    from partsbin.errors import UsageError
    from partsbin.workshop.presale import checklist, read_results, record_check

    found = read_results(results, all_ok=all_ok)
    if by.strip() and not found:
        raise UsageError("say what was found: ITEM=ok, 'ITEM=fail: why', or --all-ok")
    if found:
        with opened() as database, database.changing("bike check") as session:
            listed = record_check(session, name, found, by)
    else:
        with opened() as database, database.reading() as session:
            listed = checklist(session, name)
    if as_json:
        print_json(_as_data(listed))
    else:
        _print(listed, rules=rules)


@click.command("ready")
@click.argument("name")
@json_option
def ready(name: str, *, as_json: bool) -> None:
    """Call the bike of that NAME ready to be sold, if nothing stands in the way.

    Every item of its check must be recorded as ok, and it may have no needs.

    \b
    Example:
      partsbin bike ready Teasel
    """
    from partsbin.standards.presale_items import REMINDER
    from partsbin.workshop.presale import make_ready

    with opened() as database, database.changing("bike ready") as session:
        listed = make_ready(session, name)
    if as_json:
        print_json({"bike": listed.bike, "state": "ready", "cautions": list(listed.cautions)})
        return
    click.echo(f"{listed.bike} is ready")
    for caution in listed.cautions:
        say(f"caution: {caution}")
    say(REMINDER)


@click.command("listing")
@click.argument("name")
@json_option
def listing(name: str, *, as_json: bool) -> None:
    """Write an advertisement for the bike of that NAME from the record, for you to edit.

    It says only what is recorded: size and riders, what is new and used, what was checked by whom,
    and what is known to be wrong.

    \b
    Example:
      partsbin bike listing Teasel
    """
    from partsbin.workshop.listing import listing as text_of

    with opened() as database, database.reading() as session:
        text = text_of(session, name)
    if as_json:
        print_json({"bike": name, "text": text})
    else:
        click.echo(text)


def _print(listed: Checklist, *, rules: bool) -> None:
    from partsbin.standards.presale_items import REMINDER

    click.echo(f"{listed.bike}, {listed.state}")
    for checked in listed.items:
        click.echo(f"  {checked.item.word:<17}{checked.state}{_who(checked)}")
        if not checked.passed:
            print_wrapped(checked.item.look, 6)
        if rules:
            for rule in checked.item.rules:
                print_wrapped(f"{rule.name}: {rule.asks} [{rule.source}]", 6)
    for fault in listed.in_the_way:
        click.echo(f"  in the way: {fault}")
    for caution in listed.cautions:
        say(f"caution: {caution}")
    say(REMINDER)


def _who(checked: Checked) -> str:
    if checked.at is None:
        return ""
    note = f": {checked.note}" if checked.note else ""
    return f", {checked.by}, {checked.at.astimezone():%Y-%m-%d}{note}"


def _as_data(listed: Checklist) -> dict[str, object]:
    return {
        "bike": listed.bike,
        "state": str(listed.state),
        "items": [
            {
                "item": checked.item.word,
                "state": checked.state,
                "by": checked.by,
                "at": checked.at.isoformat() if checked.at else None,
                "note": checked.note,
                "look": checked.item.look,
                "rules": [rule._asdict() for rule in checked.item.rules],
            }
            for checked in listed.items
        ],
        "in_the_way": list(listed.in_the_way),
        "cautions": list(listed.cautions),
    }
