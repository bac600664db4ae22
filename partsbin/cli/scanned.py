"""What `partsbin scan` does with each number that was read: act or look up, tell, count, ring."""

from __future__ import annotations

import json
import sys
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.printing import print_json, say
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from labels.number import LabelNumber
    from partsbin.stock.database import Database

BETWEEN_BELLS = 0.2
"""Seconds, so that two bells are not heard as one."""


@dataclass(frozen=True, slots=True)
class Orders:
    """What to do with each number that is read."""

    onto: str
    into: str
    slot: str
    anyway: bool

    @property
    def acts(self) -> bool:
        """Return whether the record is to be changed."""
        return bool(self.onto or self.into)


@dataclass(slots=True)
class Scanned:
    """Takes numbers as they are read, does what is ordered, and tells it.

    A `live` source is told of as it goes: in JSON one object a line; on a terminal one bell for
    what was done, two for what was refused.
    """

    database: Database
    orders: Orders
    live: bool
    as_json: bool
    done: list[dict[str, Any]] = field(default_factory=list)
    refused: list[dict[str, Any]] = field(default_factory=list)

    def exists(self, number: LabelNumber) -> bool:
        """Return whether anything in the record has the number."""
        from partsbin.workshop.scanning import exists

        with self.database.reading() as session:
            return exists(session, number)

    def take(self, number: LabelNumber) -> None:
        """Do what is ordered with a number; a refusal is told and counted."""
        try:
            told = self._acted(number) if self.orders.acts else self._looked_up(number)
        except PartsbinError as fault:
            self.refuse(str(fault), number)
            return
        self.done.append(told)
        self._stream(told)
        self._ring(1)

    def refuse(self, sentence: str, number: LabelNumber | None = None) -> None:
        """Tell and count what was not done."""
        told = {"number": number, "refused": sentence}
        self.refused.append(told)
        say(sentence)
        self._stream(told)
        self._ring(2)

    def which(self, numbers: Sequence[LabelNumber]) -> LabelNumber | None:
        """Ask on the terminal which of the numbers is meant; return it, or None."""
        from labels.number import grouped
        from partsbin.workshop.scanning import look_up

        say("more than one label is in view:")
        with self.database.reading() as session:
            for digit, number in enumerate(numbers, start=1):
                known = look_up(session, number)
                say(f"  {digit}  {grouped(number)}  {known.what}; {known.where}")
        choice = click.IntRange(0, len(numbers))
        digit = click.prompt("which one (0 for none)", type=choice, err=True)
        return numbers[digit - 1] if digit else None

    def finish(self) -> None:
        """Tell the end. Raises `PartsbinError` if anything was refused, or nothing was read."""
        if self.as_json and not self.live:
            print_json({"read": self.done, "refused": self.refused})
        if self.refused:
            many = len(self.refused)
            raise PartsbinError(f"refused: {many} of {many + len(self.done)}, as told above")
        if not self.done:
            raise PartsbinError("no label was read")

    def _acted(self, number: LabelNumber) -> dict[str, Any]:
        from partsbin.cli.telling import done_as_data, tell_done
        from partsbin.workshop.scanning import act_on

        orders = self.orders
        with self.database.changing("scan") as session:
            done = act_on(
                session,
                number,
                onto=orders.onto,
                into=orders.into,
                slot=orders.slot,
                anyway=orders.anyway,
            )
        if not self.as_json:
            tell_done(done)
        return done_as_data(done)

    def _looked_up(self, number: LabelNumber) -> dict[str, Any]:
        from labels.number import grouped
        from partsbin.workshop.scanning import look_up

        with self.database.reading() as session:
            known = look_up(session, number)
        if not self.as_json:
            click.echo(f"{grouped(number)}  {known.what}; {known.where}")
        return {"number": number, "what": known.what, "where": known.where}

    def _stream(self, told: dict[str, Any]) -> None:
        if self.live and self.as_json:
            click.echo(json.dumps(told, ensure_ascii=False))

    def _ring(self, times: int) -> None:
        if not (self.live and sys.stderr.isatty()):
            return
        for turn in range(times):
            time.sleep(BETWEEN_BELLS if turn else 0)
            click.echo("\a", nl=False, err=True)
