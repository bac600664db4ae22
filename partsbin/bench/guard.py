"""Who may ask, and what an answer may do: hosts, pairing, forged requests, sizes, headers.

The laptop's own browser is let in by its address; every other device must be paired. The page is
meant for a trusted network: without HTTPS what is sent can be read by others on the same network.
"""

from __future__ import annotations

import ipaddress
import re
from typing import TYPE_CHECKING

from flask import abort, g, redirect, request, session, url_for
from flask_wtf.csrf import CSRFProtect
from werkzeug.exceptions import SecurityError

from partsbin.bench.shop import shop

if TYPE_CHECKING:
    from flask import Flask, Response
    from werkzeug.wrappers import Response as AnyResponse

MEGABYTE = 1_000_000
LARGEST_REQUEST = 40 * MEGABYTE
"""A picture of 48 megapixels, as phones make them, with room to spare."""
LARGEST_FORM = MEGABYTE
LOCAL_NAMES = ("localhost", "127.0.0.1", "[::1]")
PORT = re.compile(r":\d+$")
OPEN_TO_ALL = {"static", "devices.pair", "devices.paired"}
"""What a device needs before it is paired."""
ALLOWED = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self' blob: data:",
    "media-src": "'self' blob:",
    "connect-src": "'self'",
    "manifest-src": "'self'",
    "form-action": "'self'",
    "frame-ancestors": "'none'",
    "base-uri": "'none'",
}
POLICY = "; ".join(f"{what} {where}" for what, where in ALLOWED.items())
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), microphone=(), geolocation=()",
}


def guard(app: Flask, hosts: list[str]) -> None:
    """Make the application answer only who may ask, under these names of this machine."""
    app.config.update(
        TRUSTED_HOSTS=[*LOCAL_NAMES, *hosts],
        MAX_CONTENT_LENGTH=LARGEST_REQUEST,
        MAX_FORM_MEMORY_SIZE=LARGEST_FORM,
        SESSION_COOKIE_NAME="partsbin",
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Strict",
        WTF_CSRF_TIME_LIMIT=None,
    )
    app.before_request(_let_in)
    app.after_request(_with_headers)
    # After `_let_in`: a stranger is told to pair, not that a token is missing.
    CSRFProtect(app)


def _let_in() -> AnyResponse | None:
    """Refuse a wrong host, name who asks, and send a device that is not paired to pairing."""
    host = request.host  # raises SecurityError, a 400, for a name that is not ours
    local = _is_loopback(request.remote_addr)
    if local and PORT.sub("", host) not in LOCAL_NAMES:
        raise SecurityError
    g.local = local
    g.device = None if local else shop().devices.known(session.get("device", ""))
    g.who = shop().database.who if local else g.device.name if g.device else ""
    if g.who or request.endpoint in OPEN_TO_ALL:
        return None
    if request.method != "GET" or not request.accept_mimetypes.accept_html:
        abort(401, "this device is not paired; open the page's first address and pair it")
    return redirect(url_for("devices.pair"))


def _is_loopback(address: str | None) -> bool:
    return address is not None and ipaddress.ip_address(address).is_loopback


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    if request.endpoint != "static":
        response.headers.setdefault("Cache-Control", "no-store")
    return response
