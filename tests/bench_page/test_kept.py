"""What takes long is reckoned once, and anew as soon as the record changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partsbin.bench.kept import MOST, Kept, kept, last_act, made_at
from partsbin.stock.database import open_database
from tests.bench_page.conftest import BenchClient

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def test_made_once_until_the_record_changes(client: BenchClient) -> None:
    """The same question is answered from what is kept; another one, or after an act, anew."""
    made: list[str] = []

    def make(_: Session, word: str) -> str:
        made.append(word)
        return word.upper()

    with (
        client.application.app_context(),
        open_database(client.shop.address, "tester") as database,
    ):
        with database.reading() as session:
            before = last_act(session)
            for word in ("a", "a", "b", "a"):
                assert kept(session, make, word) == word.upper()
        assert made == ["a", "b"]
        client.shop.told("bin", "add", "Z1")
        with database.reading() as session:
            assert kept(session, make, "a") == "A"
        assert made == ["a", "b", "a"]
        assert made_at(before, make, "b") == "B"
        assert made_at(before, make, "c") is None


def test_the_oldest_makes_room() -> None:
    """No more answers are kept than a page needs."""
    held = Kept()
    for number in range(MOST + 1):
        held.keep(number, str(number))
    assert held.get(0) is None
    assert held.get(MOST) == str(MOST)
