"""Pedals in cranks: the thread."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said
from partsbin.fit.verdict import Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chainset, Pedals

THREADS = "lfgss.com/comments/8473736; defietssite.nl pedals"
FRENCH = "smontanaro.net/CR/2003/05/0420"
ONE_PIECE, THREE_PIECE, METRIC = "1/2x20", "9/16x20", "14x1.25"


@interface("pedals in cranks", source=THREADS)
def pedals_in_cranks(pedals: Pedals, chainset: Chainset) -> Finding | None:
    """Require the same thread; a crank of 14 mm can be tapped to 9/16 in.

    One-piece cranks take 1/2 in, and cranks with a spindle of their own 9/16 in.
    """
    values = said((pedals, "pedal_thread"), (chainset, "pedal_thread"), (chainset, "spindle"))
    crank = _crank_thread(chainset)
    pedal = pedals.pedal_thread
    if pedal == crank:
        return fits("the threads agree; the left one is left-hand", *values)
    if crank == METRIC and pedal == THREE_PIECE:
        return adapts(
            "the crank's 14 mm thread is slightly smaller than the pedal's",
            *values,
            change="tap the crank to 9/16 in x 20, the left one left-handed; never force the pedal",
            source=FRENCH,
        )
    if pedal == METRIC and crank == THREE_PIECE:
        return clash(
            "the pedal starts by hand, sits loose and pulls the thread out under load",
            *values,
            dangerous=True,
            remedy="take pedals of 9/16 in x 20",
            source=FRENCH,
        )
    return clash(
        "pedal and crank have threads of different diameter",
        *values,
        remedy=f"take pedals of {crank}",
    )


def _crank_thread(chainset: Chainset) -> str:
    """Return the crank's thread, which its spindle may tell."""
    if not chainset.known("pedal_thread") and chainset.known("spindle"):
        if chainset.spindle == "onepiece":
            return ONE_PIECE
        if chainset.spindle.startswith(("integrated", "bmx", "splined")):
            return THREE_PIECE
    return chainset.pedal_thread


RULES = (pedals_in_cranks,)
