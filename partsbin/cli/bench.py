"""`partsbin bench`: the page for the laptop at the bench and the phone in the hand."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say

if TYPE_CHECKING:
    from partsbin.bench.shop import Shop

PORT = 8372


@click.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="0 for any free."
)
@click.option("--lan", is_flag=True, help="Let phones of this network pair; see below.")
@json_option
def bench_command(port: int, *, lan: bool, as_json: bool) -> None:
    """Serve the bench page: scan, bikes, stock, offers and books in a browser.

    It answers only this machine. With --lan it answers the local network too, but only devices
    that were paired with a code: scan the one that is shown at the start, or show another one under
    Devices on the page. That is meant for a network that you trust: without HTTPS others on it
    could read what is sent. Ctrl-C ends it.

    \b
    Example:
      partsbin bench
      partsbin bench --lan
    """
    from platformdirs import user_state_path

    from partsbin.bench.server import serving

    file = user_state_path("partsbin", appauthor=False) / "bench-devices.json"
    with opened() as database, serving(database, port, file, lan=lan) as (server, held):
        here = f"http://localhost:{server.effective_port}/"
        if as_json:
            print_json({"here": here, "lan": held.addresses})
        else:
            for address in (here, *held.addresses):
                click.echo(address)
        if lan:
            _show_pairing(held)
        say("Ctrl-C ends it")
        server.run()
        say("\nstopped")


def _show_pairing(held: Shop) -> None:
    """Show on the terminal how a phone pairs: a code that is scanned, or typed."""
    import segno

    code = held.devices.open_code().digits
    for link in held.pairing_links(code)[:1]:
        segno.make(link, micro=False).terminal(sys.stderr, compact=True)
    say(f"to pair a phone, scan this with it, or open one of the addresses on it and type {code}")
    say("the code holds for ten minutes and for one device; Devices on the page shows another")
