"""The application: the rooms, the words that pages share, and how a refusal is shown."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from flask import Flask, Response, g, jsonify, render_template, request
from werkzeug.exceptions import HTTPException, SecurityError
from werkzeug.routing import BaseConverter, ValidationError

from labels.number import NumberError, validate
from partsbin.bench.guard import guard
from partsbin.bench.shop import EXTENSION, wants_json
from partsbin.bench.words import FILTERS
from partsbin.errors import NotFoundError, PartsbinError, UsageError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from flask.typing import ResponseReturnValue

    from partsbin.bench.shop import Shop

ROOMS = ("scan", "bikes", "photos", "stock", "offer", "books", "devices", "acts")
"""Modules of `rooms`, each with a blueprint `room`."""
MENU = (
    ("scan.page", "Scan"),
    ("bikes.all_bikes", "Bikes"),
    ("stock.search", "Stock"),
    ("offer.page", "Offer"),
    ("books.page", "Books"),
)


class LabelConverter(BaseConverter):
    """A label number in an address: its check digits must hold, else the page does not exist."""

    def to_python(self, value: str) -> str:
        """Return the eight digits."""
        try:
            return validate(value)
        except NumberError as fault:
            raise ValidationError(str(fault)) from fault


def make_app(held: Shop, hosts: Sequence[str] = ()) -> Flask:
    """Return the bench page on a record; `hosts` are names of this machine besides localhost."""
    app = Flask(__name__)
    app.config["SECRET_KEY"] = held.devices.secret_key
    app.extensions[EXTENSION] = held
    app.url_map.converters["label"] = LabelConverter
    guard(app, list(hosts))
    for room in ROOMS:
        app.register_blueprint(import_module(f"partsbin.bench.rooms.{room}").room)
    app.jinja_env.filters.update(FILTERS)
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.context_processor(_shared)
    app.register_error_handler(PartsbinError, _refused)
    app.register_error_handler(HTTPException, _failed)
    app.register_error_handler(Exception, _broken)
    return app


def _shared() -> dict[str, Any]:
    """Return what every template may name."""
    room = (request.endpoint or "").split(".")[0]
    return {"menu": MENU, "room": room, "who": g.get("who", ""), "local": g.get("local", False)}


def _refused(error: PartsbinError) -> ResponseReturnValue:
    """Show what the workshop refused, with what to do, and the way back."""
    status = (
        404 if isinstance(error, NotFoundError) else 400 if isinstance(error, UsageError) else 409
    )
    return _answer(str(error), status)


def _failed(error: HTTPException) -> ResponseReturnValue:
    """Show what the web refuses: a page that is not there, a form that is too large or forged."""
    if isinstance(error, SecurityError):
        # Under a name that is not ours no page is made, since none could name another.
        return Response(TOLD_STRANGER, 400, content_type="text/plain; charset=utf-8")
    return _answer(TOLD.get(error.code or 500, error.description or error.name), error.code or 500)


def _broken(error: Exception) -> ResponseReturnValue:
    """Keep the fault for the log of the terminal; the page says only that there was one."""
    from flask import current_app

    current_app.logger.error("the page failed", exc_info=error)
    return _answer(TOLD[500], 500)


TOLD = {
    404: "there is no such page; it may have been named by a number that is not in the record",
    405: "this address does not take that",
    413: "what was sent is too large; send a smaller picture",
    500: "the page failed; nothing was changed. The terminal where it runs shows why",
}
"""Refusals in our own words; others keep those of the framework."""
TOLD_STRANGER = "open the page by the address that was printed where it runs\n"


def _answer(sentence: str, status: int) -> ResponseReturnValue:
    if wants_json():
        return jsonify(refused=sentence), status
    return render_template("refused.html", sentence=sentence), status
