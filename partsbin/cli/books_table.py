"""The books of the workshop as tables of the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.printing import print_columns, print_wrapped
from partsbin.stock.money import show_money

if TYPE_CHECKING:
    from partsbin.workshop.stock_value import Stock
    from partsbin.workshop.workshop_books import Result, WorkshopBooks

MOST_LINES = 20
"""Write-offs that are listed, the dearest first; the CSV file has all."""


def print_workshop(kept: WorkshopBooks) -> None:
    """Print the books of a period and the stock at its end."""
    click.echo(f"from {kept.start} to {kept.end}")
    _print_result(kept.result)
    _print_line("bought in the period", show_money(kept.bought))
    if kept.bikes:
        click.echo("\nbikes sold")
        _print_bikes(kept.bikes)
    _print_stock(kept.stock)
    _print_savings(kept)
    if kept.write_offs:
        click.echo("\nwritten off")
        dearest = sorted(kept.write_offs, key=lambda line: -line.amount)[:MOST_LINES]
        rows = [(str(p.day), p.part, show_money(p.amount), p.note) for p in dearest]
        print_columns(("day", "part", "cost", "why"), rows)
        if len(kept.write_offs) > MOST_LINES:
            click.echo(f"and {len(kept.write_offs) - MOST_LINES} cheaper ones (see --csv)")


def _print_result(result: Result) -> None:
    _print_line("sales", show_money(result.sales))
    for account, amount in result.costs:
        _print_line(str(account), show_money(-amount))
    _print_line("profit", show_money(result.profit))
    if result.margin is not None:
        _print_line("margin, profit in the sales", f"{result.margin}%")
    if result.earned_per_hour is not None:
        hours = f"an hour of work brought, {result.minutes / 60:.1f} h"
        _print_line(hours, show_money(result.earned_per_hour))


def _print_line(text: str, figure: str) -> None:
    click.echo(f"  {text:<34}{figure:>12}")


def _print_bikes(bikes: tuple[tuple[str, Result], ...]) -> None:
    rows = [
        (
            bike,
            show_money(own.sales),
            show_money(own.cost),
            show_money(own.profit),
            f"{own.minutes / 60:.1f}",
        )
        for bike, own in bikes
    ]
    print_columns(("bike", "sale", "cost", "profit", "hours"), rows)


def _print_stock(stock: Stock) -> None:
    click.echo(f"\nstock on {stock.day}")
    lines = (("parts", stock.parts), ("bikes", stock.bikes), ("all", stock.whole))
    rows = [
        (
            name,
            str(worth.count),
            show_money(worth.cost),
            show_money(worth.lower),
            show_money(worth.write_down),
        )
        for name, worth in lines
    ]
    print_columns(("", "count", "cost", "worth", "to write down"), rows)
    if stock.own_fleet:
        click.echo(f"own fleet, at cost: {show_money(stock.own_fleet)}")
    if stock.whole.unpriced:
        print_wrapped(
            f"{stock.parts.unpriced} parts and {stock.bikes.unpriced} bikes have no selling price "
            "on record, their cost stands (part edit --value, bike expect)"
        )
    click.echo("\nage of the parts")
    ages = [
        (
            f"{age.days_from} to {age.days_to}" if age.days_to else f"over {age.days_from}",
            str(age.parts),
            show_money(age.cost),
        )
        for age in stock.ages
    ]
    print_columns(("days", "parts", "cost"), ages)


def _print_savings(kept: WorkshopBooks) -> None:
    saved = kept.saved
    if not saved.parts:
        return
    click.echo("\nthe bins")
    _print_line("parts from the bins onto bikes", str(saved.parts))
    _print_line("of them with a known new price", str(saved.known))
    if saved.known:
        _print_line("these would have cost new", show_money(saved.new_price))
        _print_line("and cost", show_money(saved.cost))
        _print_line("saved", show_money(saved.saved))
