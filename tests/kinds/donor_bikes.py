"""Bikes whose parts say something of each other, as a record holds them."""

from __future__ import annotations

from typing import Any

from partsbin.kinds.spec import Spec

Inheritance = tuple[dict[str, Spec], str, str, str, object]
"""The bike, the kind and slot of the heir, its attribute, and the value that it inherits."""


def bike(**parts: dict[str, Any]) -> dict[str, Spec]:
    """Return a bike by slot; underscores in the names stand for spaces."""
    return {
        slot.replace("_", " "): Spec.check(
            part["kind"], {k: v for k, v in part.items() if k != "kind"}
        )
        for slot, part in parts.items()
    }
