"""Every act says who did it."""

from __future__ import annotations

import getpass

import pytest
from sqlalchemy import select

from partsbin.stock.database import open_database
from partsbin.stock.models import Act, Movement
from tests.conftest import Shop

pytestmark = pytest.mark.every_database


def last_who(shop: Shop) -> str:
    """Return who made the last movement of the record."""
    query = select(Act.who).join(Movement, Movement.act_id == Act.id).order_by(Movement.id.desc())
    with open_database(shop.address, "looker") as database, database.reading() as session:
        who = session.scalar(query.limit(1))
    assert who is not None
    return who


ADD = ("part", "add", "bell", "--bin", "D1")


@pytest.mark.parametrize(
    ("options", "variable", "expected"),
    [
        pytest.param(("--who", "Ann"), "Bo", "Ann", id="option before variable"),
        pytest.param((), "Bo", "Bo", id="variable"),
        pytest.param(("--who", "  Ann   of bench 2 "), "", "Ann of bench 2", id="spaces"),
        pytest.param(("--who", ""), "Bo", "Bo", id="empty option"),
        pytest.param((), "", "mechanic", id="login name"),
    ],
)
def test_a_movement_says_who_made_it(
    shop: Shop,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
    variable: str,
    expected: str,
) -> None:
    """It is the name of `--who`, else of `PARTSBIN_USER`, else of the login."""
    monkeypatch.setenv("PARTSBIN_USER", variable)
    monkeypatch.setenv("LOGNAME", "mechanic")

    shop.told(*options, *ADD)

    assert last_who(shop) == expected


def test_nobody_is_refused(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without any name nothing is done, and the sentence says how to give one."""

    def nobody() -> str:
        raise OSError

    monkeypatch.delenv("PARTSBIN_USER", raising=False)
    monkeypatch.setattr(getpass, "getuser", nobody)

    refused = shop.run(*ADD)

    assert refused.exit_code == 2
    assert "say who works with --who or PARTSBIN_USER" in refused.stderr


def test_the_history_shows_who(shop: Shop) -> None:
    """Two benches that move the same part are told apart in its history."""
    number = shop.asked("--who", "Ann", *ADD)["part"]
    shop.told("--who", "Bo", "part", "move", number, "A1")

    told = shop.told("history", number)

    assert "Ann" in told
    assert "Bo" in told
