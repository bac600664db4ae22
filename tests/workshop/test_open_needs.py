"""Where a part would serve: the open slots of bikes in work that it goes into."""

from __future__ import annotations

from partsbin.fit.verdict import Verdict
from partsbin.kinds.spec import Spec
from partsbin.stock.database import open_database
from partsbin.workshop.open_needs import Serves, serves
from tests.conftest import Shop


def serving(shop: Shop, kind: str, **attributes: object) -> list[Serves]:
    """Return where a part of that kind would serve."""
    with open_database(shop.address, "tester") as database, database.reading() as session:
        return serves(session, Spec.check(kind, attributes))


def test_a_saddle_for_the_bike_without_one(shop: Shop) -> None:
    """Yarrow has no saddle, and its post is a plain pillar: one with round rails goes with a clip.

    The invented workshop; a pillar takes a saddle by a clip (xjd.com saddle rail pages).
    """
    found = serving(shop, "saddle", rails="round-7")
    assert [(one.bike, one.slot.name, one.why) for one in found] == [("Yarrow", "saddle", "empty")]
    assert found[0].judgement.verdict is Verdict.ADAPTS


def test_a_clash_serves_nobody(shop: Shop) -> None:
    """A part that clashes with its neighbours is not told as serving a need.

    A tyre goes on a rim of its own bead seat diameter only (ISO 5775-1).
    """
    wrong = serving(shop, "tyre", bsd_mm=406, width_mm=47)
    assert [one for one in wrong if one.judgement.verdict is Verdict.CLASH] == []
    assert "Juniper" not in {one.bike for one in wrong}


def test_only_bikes_in_work_ask(shop: Shop) -> None:
    """A bike that was bought to be stripped has empty slots, but no needs to serve.

    The invented workshop: Sorrel is bought, not in work, and has no pedals or chain of use.
    """
    for kind in ("chain", "saddle", "fork", "tyre"):
        assert "Sorrel" not in {one.bike for one in serving(shop, kind)}


def test_the_surest_comes_first(shop: Shop) -> None:
    """Places where it fits come before those where something must be measured first."""
    for kind in ("chain", "tube", "grips", "headset"):
        ranks = [one.judgement.verdict.rank for one in serving(shop, kind)]
        assert ranks == sorted(ranks)
