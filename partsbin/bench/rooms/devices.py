"""Pairing phones and tablets with the laptop, and taking that back."""

from __future__ import annotations

from flask import Blueprint, abort, flash, g, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue

from partsbin.bench.devices import NotPairedError
from partsbin.bench.shop import shop

room = Blueprint("devices", __name__)


@room.get("/devices/")
def page() -> ResponseReturnValue:
    """Show the paired devices, and on the laptop the way to pair one."""
    held = shop()
    return render_template("devices/page.html", devices=held.devices.all(), lan=held.lan)


@room.post("/devices/code")
def code() -> ResponseReturnValue:
    """Open a pairing code and show it with its QR code; on the laptop only."""
    if not g.local:
        abort(403, "a pairing code is shown on the laptop only")
    held = shop()
    opened = held.devices.open_code()
    links = held.pairing_links(opened.digits)
    return render_template(
        "devices/code.html", code=opened.digits, links=links, picture=_qr(links[0] if links else "")
    )


def _qr(text: str) -> str:
    """Return the QR of a link as SVG, nothing for no link."""
    import segno

    return segno.make(text, micro=False).svg_inline(scale=6, omitsize=True) if text else ""


@room.get("/pair")
def pair() -> ResponseReturnValue:
    """Ask for the code; a scanned one is filled in. Opening a link alone pairs nothing."""
    return render_template("devices/pair.html", code=request.args.get("code", ""), fault="")


@room.post("/pair")
def paired() -> ResponseReturnValue:
    """Pair the device that sends the right code."""
    digits = request.form.get("code", "")
    try:
        name = request.form.get("name", "")
        device, secret = shop().devices.pair(digits, name, request.remote_addr or "")
    except NotPairedError as fault:
        return render_template("devices/pair.html", code=digits, fault=str(fault)), 403
    # A new cookie from here on: nobody who knew the one before shares it.
    session.clear()
    session.permanent = True
    session["device"] = secret
    flash(f"paired as {device.name}", "done")
    return redirect(url_for("scan.page"))


@room.post("/devices/<device_id>/revoke")
def revoke(device_id: str) -> ResponseReturnValue:
    """Take a device's right back: the laptop any, a device only its own."""
    if not g.local and (g.device is None or g.device.id != device_id):
        abort(403, "only the laptop removes other devices")
    device = shop().devices.revoke(device_id)
    flash(f"{device.name} is no longer paired", "done")
    return redirect(url_for("devices.page"))
