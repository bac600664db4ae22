"""The books of the workshop for others: as JSON for programs, and as CSV for an accountant."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING

from partsbin.stock.money import show_money

if TYPE_CHECKING:
    from partsbin.workshop.postings import Account
    from partsbin.workshop.stock_value import Worth
    from partsbin.workshop.workshop_books import Result, WorkshopBooks

COLUMNS = ("day", "act", "who", "account", "bike", "part", "amount", "minutes", "note")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of a formula, from memory."""


def write_postings(kept: WorkshopBooks, file: Path) -> int:
    """Write every posting of the period, a line each, and return how many.

    Amounts add up, account by account, to what the books show.
    """
    with file.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out)
        writer.writerow(COLUMNS)
        for posting in kept.postings:
            writer.writerow(
                (
                    posting.day,
                    posting.act,
                    harmless(posting.who),
                    posting.account,
                    harmless(posting.bike),
                    posting.part,
                    show_money(posting.amount),
                    posting.minutes or "",
                    harmless(posting.note),
                )
            )
    return len(kept.postings)


def harmless(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula.

    >>> harmless("=1+1"), harmless("paid in cash")
    ("'=1+1", 'paid in cash')
    """
    return f"'{text}" if text.startswith(FORMULA) else text


def as_data(kept: WorkshopBooks) -> dict[str, object]:
    """Return the books as JSON holds them."""
    stock, saved = kept.stock, kept.saved
    return {
        "from": str(kept.start),
        "to": str(kept.end),
        **_result(kept.result),
        "bought": show_money(kept.bought),
        "bikes": [{"bike": bike, **_result(own)} for bike, own in kept.bikes],
        "months": [{"month": f"{day:%Y-%m}", **_result(own)} for day, own in kept.months],
        "stock": {
            "day": str(stock.day),
            "parts": _worth(stock.parts),
            "bikes": _worth(stock.bikes),
            "all": _worth(stock.whole),
            "own_fleet": show_money(stock.own_fleet),
            "ages": [
                {
                    "from_days": age.days_from,
                    "to_days": age.days_to,
                    "parts": age.parts,
                    "cost": show_money(age.cost),
                }
                for age in stock.ages
            ],
        },
        "saved": {
            "parts": saved.parts,
            "known": saved.known,
            "new_price": show_money(saved.new_price),
            "cost": show_money(saved.cost),
            "saved": show_money(saved.saved),
        },
        "write_offs": [
            {
                "day": str(line.day),
                "part": line.part,
                "cost": show_money(line.amount),
                "why": line.note,
            }
            for line in kept.write_offs
        ],
    }


def _result(result: Result) -> dict[str, object]:
    hourly = result.earned_per_hour
    return {
        "sales": show_money(result.sales),
        **{_name(a): show_money(amount) for a, amount in result.costs},
        "profit": show_money(result.profit),
        "margin_percent": None if result.margin is None else str(result.margin),
        "minutes": result.minutes,
        "earned_per_hour": None if hourly is None else show_money(hourly),
    }


def _name(account: Account) -> str:
    return str(account).replace(" ", "_").replace("-", "_")


def _worth(worth: Worth) -> dict[str, object]:
    return {
        "count": worth.count,
        "cost": show_money(worth.cost),
        "value": show_money(worth.lower),
        "write_down": show_money(worth.write_down),
        "unpriced": worth.unpriced,
    }
