"""Says why a need cannot be met: a least set of interfaces and other needs that exclude it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from partsbin.workshop.planning.answer import Conflict
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.modelling import Model, model_of
from partsbin.workshop.planning.places import Choice, Offer, Place, Site, Source
from partsbin.workshop.planning.pruning import Pruned
from partsbin.workshop.planning.solving import is_feasible
from partsbin.workshop.planning.tables import Tabler

if TYPE_CHECKING:
    from partsbin.workshop.planning.programme import Programme


def conflicts_of(
    bench: Bench, shelf: Offer, site: Site, chosen: Sequence[tuple[Place, Choice]], name: str
) -> tuple[Conflict, ...]:
    """Return a least set of conflicts that leave a need of a bike open, empty if it alone does not.

    Each is needed: without any one of them, and with all of the others, the need can be met. It is
    found by a deletion filter: one after the other is left out for good if the rest still excludes.
    """
    met = {place.name for place, choice in chosen if choice.source is not Source.UNMET}
    model = model_of(bench, shelf, [Pruned(site.places, tuple(Tabler(bench).tables(site.places)))])
    programme = model.programme
    _must_fill(model, met, name)
    labels = list(dict.fromkeys(row.label for row in programme.rows if _may_go(row.label)))
    if is_feasible(programme):
        return ()
    needed = _least(programme, labels)
    return tuple(_conflict(label) for label in needed)


def _may_go(label: Any) -> bool:
    return label is not None and label[0] in ("interface", "met")


def _must_fill(model: Model, met: set[str], name: str) -> None:
    """Ask that the need is met, and as something that may be left out, each that the plan meets."""
    for place, columns in zip(model.places[0], model.columns[0], strict=True):
        for choice, column in zip(place.choices, columns, strict=True):
            if choice.source is Source.UNMET and place.name == name:
                model.programme.row([(column, 1)], 0, 0)
            elif choice.source is Source.UNMET and place.name in met:
                model.programme.row([(column, 1)], 0, 0, ("met", place.bike, place.name))


def _least(programme: Programme, labels: list[Any]) -> list[Any]:
    """Return a least part of the labels that still excludes, by leaving out halves where it can."""
    off: set[object] = set()
    needed: list[Any] = []
    waiting = [labels]
    while waiting:
        group = waiting.pop()
        if not group:
            continue
        if not is_feasible(programme, frozenset(off | set(group))):
            off |= set(group)
        elif len(group) == 1:
            needed += group
        else:
            half = len(group) // 2
            waiting += [group[:half], group[half:]]
    return needed


def _conflict(label: Any) -> Conflict:
    if label[0] == "met":
        return Conflict(interface="", places=(label[2],))
    return Conflict(interface=label[2], places=label[3])
