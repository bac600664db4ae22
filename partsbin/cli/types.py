"""Values that commands take: money, days, grades, conditions, amounts for a slot."""

from __future__ import annotations

from typing import Any

import click

GRADE_WORDS = ("new", "good", "fair", "poor", "core", "unsafe")
CONDITION_WORDS = ("sound", "worn", "dead")
# The words are written out so that --help reads no database module; a test compares them.


class MoneyType(click.ParamType[int]):
    """An amount of money, with a decimal point or comma."""

    name = "amount"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return the amount in minor units."""
        from partsbin.errors import UsageError
        from partsbin.stock.money import read_money

        if isinstance(value, int):
            return value
        try:
            return read_money(value)
        except UsageError as fault:
            self.fail(str(fault), param, ctx)


class ForSlotType(click.ParamType[tuple[str, str]]):
    """A slot and what is said of it, as `SLOT=VALUE`."""

    name = "slot=value"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, str]:
        """Return the slot's name and the text after the sign."""
        from partsbin.kinds.slots import slot_named

        if isinstance(value, tuple):
            return value
        slot, sign, told = value.partition("=")
        if not sign or not told.strip():
            self.fail(f"{value!r} says nothing of a slot; type it like 'saddle=fair'", param, ctx)
        try:
            return slot_named(slot).name, told.strip()
        except ValueError as fault:
            self.fail(str(fault), param, ctx)


MONEY = MoneyType()
FOR_SLOT = ForSlotType()
DAY = click.DateTime(["%Y-%m-%d"])
GRADE = click.Choice(GRADE_WORDS, case_sensitive=False)
CONDITION = click.Choice(CONDITION_WORDS, case_sensitive=False)
