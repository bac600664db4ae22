"""Every page of the bench page, for the tests that look at all of them."""

from __future__ import annotations

from collections.abc import Callable

from tests.conftest import Shop

PathBuilder = Callable[[Shop], str]


def at(path: str) -> PathBuilder:
    """Return the builder of a path that is the same in every workshop."""
    return lambda _: path


def of_new_part(path: str, *told: str) -> PathBuilder:
    """Return the builder of a part's path; the part is added to the workshop first."""
    return lambda shop: path.format(shop.asked("part", "add", *told)["part"])


SHOP_PART, SHOP_BIN = "20000140", "10000119"
"""A shifter and the bin A1, by the invented workshop."""
WAITS = ("handlebar", "style=flat", "width=600 (assumed)", "--bin", "D2")
LOT = ("brake_cable", "--bin", "B2", "--grade", "new", "--quantity", "10", "--cost", "15")
TEASEL, SORREL, BRACKEN = "/bikes/30000355", "/bikes/30000258", "/bikes/30000161"
"""A bike in work, one that needs much, and a donor, by the invented workshop."""
OFFERED = "/offer/?like=hybrid-8-speed-1998-2005"

PAGES: dict[str, PathBuilder] = {
    "scanner": at("/scan/"),
    "scanner, onto a bike": at("/scan/?mode=onto&to=Teasel"),
    "scanner, into which bin": at("/scan/?mode=into"),
    "scanner, count a bin": at("/scan/?mode=count&to=A1"),
    "refused": at("/n/20000010"),
    "devices": at("/devices/"),
    "pairing": at("/pair"),
    "stock": at("/stock/"),
    "stock of a kind": at("/stock/?kind=wheel&everywhere=yes"),
    "stock, nothing found": at("/stock/?q=sadd"),
    "part": at(f"/stock/parts/{SHOP_PART}/"),
    "part that waits": of_new_part("/stock/parts/{}/?added=D2", *WAITS),
    "part that serves": of_new_part("/stock/parts/{}/", "saddle", "--bin", "D1", "--inspected"),
    "lot": of_new_part("/stock/parts/{}/", *LOT),
    "edit": of_new_part("/stock/parts/{}/edit", *WAITS),
    "kinds": at("/stock/add/"),
    "add a frame": at("/stock/add/frame"),
    "add a seatpost": at("/stock/add/seatpost"),
    "bins": at("/stock/bins/"),
    "bin": at(f"/stock/bins/{SHOP_BIN}/"),
    "counts due": at("/stock/bins/due"),
    "labels": at(f"/stock/labels?number={SHOP_PART}&number={SHOP_BIN}"),
    "labels that are new": at("/stock/labels?due=yes"),
    "offer, which bike": at("/offer/"),
    "offer, the answers": at(OFFERED),
    "offer, a fault": at(f"{OFFERED}&expect=much"),
    "offer": at(f"{OFFERED}&expect=120&asked=40&f.rear+shifter=dead&f.chain=worn"),
    "bikes": at("/bikes/"),
    "bikes that are sold": at("/bikes/?state=sold"),
    "add a bike": at("/bikes/add"),
    "bike": at(f"{TEASEL}/"),
    "bike in need": at(f"{SORREL}/"),
    "bike, what is known": at(f"{TEASEL}/edit"),
    "bike, history": at(f"{TEASEL}/history"),
    "slot": at(f"{TEASEL}/slots/rear-shifter"),
    "slot that is empty": at(f"{SORREL}/slots/seat-clamp"),
    "slot, record a part": at(f"{SORREL}/slots/grips/add/grips"),
    "plan, asked": at(f"{SORREL}/plan"),
    "plan": at(f"{SORREL}/plan?seconds=5"),
    "check before a sale": at(f"{TEASEL}/presale"),
    "listing": at(f"{TEASEL}/listing"),
    "take a bike apart": at(f"{BRACKEN}/strip"),
    "photos": at(f"{TEASEL}/photos"),
    "books": at("/books/"),
    "what to order": at("/books/reorder"),
}
"""What a page shows, and how its path is made in a workshop. Each room adds its pages."""
