"""`partsbin fit`: what in stock goes into a slot of a bike, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import coloured, json_option, print_json, print_wrapped

if TYPE_CHECKING:
    from partsbin.workshop.fitting import Answer, Suggestion


@click.command()
@click.argument("bike")
@click.argument("slot")
@click.option(
    "--most", type=click.IntRange(1, 1_000_000), default=8, show_default=True, help="Suggestions."
)
@json_option
def fit_command(bike: str, slot: str, most: int, *, as_json: bool) -> None:
    """Say which parts in stock go into SLOT of BIKE, best first, and why the near misses do not.

    When none goes for certain, the exact specification to buy is told.

    \b
    Example:
      partsbin fit Teasel "rear shifter"
    """
    from partsbin.workshop.choosing import what_fits

    with opened() as database, database.reading() as session:
        answer = what_fits(session, bike, slot)
    if as_json:
        print_json(_as_data(answer))
    else:
        _print(answer, bike, most)


def _as_data(answer: Answer) -> dict[str, Any]:
    held: dict[str, Any] = {
        "slot": answer.slot.name,
        "suggestions": [_suggestion_as_data(s) for s in answer.suggestions],
        "near_misses": [_suggestion_as_data(s) for s in answer.near_misses],
    }
    if answer.buy is not None:
        held["buy"] = {"kind": answer.buy.kind, "attributes": answer.buy.shown()}
    return held


def _suggestion_as_data(suggestion: Suggestion) -> dict[str, Any]:
    from partsbin.cli.telling import stocked_as_data
    from partsbin.fit.words import as_data
    from partsbin.kinds.kind import KINDS

    kind = KINDS[suggestion.spec.kind]
    return {
        **as_data(suggestion.judgement),
        "parts": [stocked_as_data(part) for part in suggestion.parts],
        "adapters": [
            {"needed": adapter.what, "in_stock": stocked_as_data(found) if found else None}
            for adapter, found in suggestion.adapters
        ],
        "also_replaces": suggestion.also_replaces,
        "leaves_open": suggestion.leaves_open,
        "caution": kind.caution,
    }


def _print(answer: Answer, bike: str, most: int) -> None:
    if not answer.suggestions:
        click.echo(f"nothing in stock goes into the {answer.slot.name} slot of {bike}")
    for suggestion in answer.suggestions[:most]:
        _print_suggestion(suggestion)
    hidden = len(answer.suggestions) - most
    if hidden > 0:
        click.echo(f"and {hidden} more (--most)")
    if answer.near_misses:
        click.echo("near misses:")
        for miss in answer.near_misses:
            _print_miss(miss)
    if answer.buy is not None:
        from partsbin.kinds.spec import in_words

        shown = ", ".join(f"{in_words(name)} {text}" for name, text in answer.buy.shown().items())
        print_wrapped(f"to buy: {in_words(answer.buy.kind)}, {shown}".rstrip(", "))


def _print_suggestion(suggestion: Suggestion) -> None:
    from labels.number import grouped
    from partsbin.fit.verdict import Verdict
    from partsbin.fit.words import why
    from partsbin.kinds.kind import KINDS
    from partsbin.stock.titles import words_for

    part = suggestion.parts[0]
    verdict = suggestion.judgement.verdict
    more = len(suggestion.parts) - 1
    place = words_for(part.place_type, part.place_name, part.bike)
    click.echo(
        f"{coloured(f'{verdict:<8}', verdict)}{grouped(part.number)}  {place}, {part.grade}: "
        f"{suggestion.spec.brief}" + (f" (and {more} more like it)" if more else "")
    )
    for judged in suggestion.judgement.interfaces:
        if judged.finding.verdict is not Verdict.FITS or judged is _decisive(suggestion):
            print_wrapped(f"{judged.rule.name}: {why(judged.finding)}", 4)
    fitting = [
        judged.rule.name
        for judged in suggestion.judgement.interfaces
        if judged.finding.verdict is Verdict.FITS and judged is not _decisive(suggestion)
    ]
    if fitting:
        print_wrapped(f"fits too: {', '.join(fitting)}", 4)
    for adapter, found in suggestion.adapters:
        have = f"in stock: {grouped(found.number)}, bin {found.place_name}" if found else "to buy"
        print_wrapped(f"adapter: {adapter.what} ({have})", 4)
    if suggestion.also_replaces:
        print_wrapped(f"one body: it takes the place of the {suggestion.also_replaces} too", 4)
    if suggestion.leaves_open:
        print_wrapped(f"the old part was one body: the {suggestion.leaves_open} is needed too", 4)
    if suggestion.judgement.unchecked:
        unchecked = ", ".join(suggestion.judgement.unchecked)
        print_wrapped(f"nothing recorded on either side, look: {unchecked}", 4)
    if caution := KINDS[suggestion.spec.kind].caution:
        print_wrapped(f"caution: {caution}", 4)


def _decisive(suggestion: Suggestion) -> object:
    interfaces = suggestion.judgement.interfaces
    return interfaces[0] if interfaces else None


def _print_miss(miss: Suggestion) -> None:
    from labels.number import grouped
    from partsbin.fit.words import headline

    part = miss.parts[0]
    verdict = miss.judgement.verdict
    click.echo(
        f"{coloured(f'{verdict:<8}', verdict)}{grouped(part.number)}  bin {part.place_name}: "
        f"{miss.spec.brief}"
    )
    print_wrapped(f"{headline(miss.judgement)}", 4)
