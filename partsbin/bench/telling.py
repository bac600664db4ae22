"""How the page tells what was done to a part, and where it goes on."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from flask import flash, request, url_for

from labels.number import grouped
from partsbin.fit.condition import sentence
from partsbin.fit.words import headline
from partsbin.stock.money import show_money
from partsbin.stock.quantity import show_quantity

if TYPE_CHECKING:
    from partsbin.errors import PartsbinError
    from partsbin.stock.lookup import Stocked
    from partsbin.workshop.mounting import Done


@dataclass(frozen=True, slots=True)
class Refusal:
    """What one of the page's forms was refused for, shown beside that form."""

    form: str
    sentence: str
    anyway: bool = False
    """Whether a second press may overrule it."""


def tell_done(done: Done) -> None:
    """Say on the next page what was done to a part, and what to take care of."""
    flash(moved_in_words(done), "done")
    if done.judgement is not None:
        flash(f"{done.judgement.verdict}: {headline(done.judgement)}", "done")
        if done.caution:
            flash(done.caution, "caution")
    for sign in done.signs:
        flash(sentence(sign), "caution")
    for told in done.told:
        flash(told, "done")


def moved_in_words(done: Done) -> str:
    """Return which part went from where to where, and what it cost."""
    return (
        f"{grouped(done.number)}, {done.spec.brief}: {done.source} \N{RIGHTWARDS ARROW} "
        f"{done.target} (cost {show_money(done.cost)})"
    )


def quantity_of(part: Stocked) -> str:
    """Return how much of a part is in its place, as a person reads it."""
    return show_quantity(part.quantity, part.unit)


def back_to(endpoint: str) -> str:
    """Return the address of ours that the request came from, with its question; else a page."""
    came = urlsplit(request.referrer or "")
    if came.netloc != request.host:
        return url_for(endpoint)
    path = "/" + came.path.lstrip("/")
    return f"{path}?{came.query}" if came.query else path


def plainly(fault: PartsbinError) -> str:
    """Return a refusal without what it says of the command line's options.

    >>> from partsbin.errors import PartsbinError
    >>> plainly(PartsbinError("it clashes; nothing was changed (--anyway overrules this)"))
    'it clashes; nothing was changed'
    """
    text = str(fault)
    for spoken, meant in OF_THE_COMMAND_LINE.items():
        text = text.replace(spoken, meant)
    return ADVICE.sub("", text)


OF_THE_COMMAND_LINE = {
    " (--anyway overrules this)": "",
    "repeat this with --inspected": "mark it as inspected",
    "say how much it is with --quantity, or in --packs": "say how much it is, or how many packs",
    "say with --bin where it goes": "say into which bin it goes",
    ", or with --bike and --slot where it is": "",
    "say with --by who": "say who",
    "say with --rate what": "say what",
    "give some with --value SLOT=AMOUNT": "give some",
}
"""What refusals say of options, and what that is on the page."""
ADVICE = re.compile(
    r" \((?:--|partsbin )[^()]*\)| with --bin '[^']*', or with --into where all goes"
    r"|; call it ready with: partsbin bike ready '[^']*'|; partsbin return takes that back"
    r"|; see partsbin photo list .*"
)
"""Advice of other refusals that names a command or an option; the page shows its own buttons."""
