"""Photos of bikes and parts: shown, taken with the phone, taken away.

What comes in is decoded and written anew before it is kept: no file is kept as it was sent.
"""

from __future__ import annotations

from flask import Blueprint, Response, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber, Thing, grouped, thing_of
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly
from partsbin.errors import NotFoundError, PartsbinError, UsageError
from partsbin.workshop.photo_files import DIGEST, folder_of

room = Blueprint("photos", __name__, url_prefix="/photos")
MOST = 12
"""Pictures that are taken in at once."""
UNPROCESSABLE = 422
A_DAY = 86_400


@room.get("/<digest>", endpoint="image")
def image(digest: str) -> ResponseReturnValue:
    """Answer with a photo that is in the record."""
    return _file(digest, small=False)


@room.get("/<digest>/small", endpoint="small")
def small(digest: str) -> ResponseReturnValue:
    """Answer with the small copy of a photo that is in the record."""
    return _file(digest, small=True)


def _file(digest: str, *, small: bool) -> ResponseReturnValue:
    """Return a photo's file: only of a name that the record knows, so never of a path."""
    from partsbin.workshop.photos import is_kept

    if not DIGEST.fullmatch(digest):
        abort(404)
    with record().reading() as session:
        if not is_kept(session, digest):
            abort(404)
    folder = folder_of(record())
    file = folder.thumbnail(digest) if small else folder.file(digest)
    if not file.is_file():
        raise NotFoundError("the file of this photo is missing; put it back from a backup")
    # Whole: a kept picture is small, and the file is closed whatever becomes of the answer.
    answer = Response(file.read_bytes(), mimetype="image/jpeg")
    answer.set_etag(f"{digest}{'-small' if small else ''}")
    # Its name is its content, so it never changes; but only who is paired may have it.
    answer.headers["Cache-Control"] = f"private, max-age={A_DAY}, immutable"
    return answer.make_conditional(request)


@room.get("/of/<label:number>", endpoint="of")
def of(number: LabelNumber) -> ResponseReturnValue:
    """Show the photos of a part or a bike."""
    return shown(number)


def shown(number: LabelNumber, refused: str = "") -> str:
    """Return the page of a thing's photos, with what was refused."""
    from partsbin.workshop.photos import photos_of
    from partsbin.workshop.scanning import look_up

    if thing_of(number) is Thing.BIN:
        raise UsageError(f"{grouped(number)} is a bin; photos are of parts and bikes")
    with record().reading() as session:
        known = look_up(session, number)
        photos = photos_of(session, number)
    return render_template(
        "photos/page.html",
        number=number,
        known=known,
        photos=photos,
        refused=refused,
        note=request.form.get("note", ""),
        most=MOST,
    )


@room.post("/of/<label:number>", endpoint="add")
def add(number: LabelNumber) -> ResponseReturnValue:
    """Keep the pictures that were sent, all of them or none."""
    from partsbin.workshop.photos import attach_pictures
    from partsbin.workshop.pictures import made_safe

    sent = [one for one in request.files.getlist("picture") if one.filename]
    try:
        if not sent or len(sent) > MOST:
            raise UsageError(f"choose 1 to {MOST} pictures; nothing was changed")
        pictures = [made_safe(one.read(), _name(one.filename or "")) for one in sent]
        folder = folder_of(record())
        note = " ".join(request.form.get("note", "").split())
        with record().changing("photo add") as session:
            digests = attach_pictures(session, folder, number, pictures, note)
    except PartsbinError as fault:
        return shown(number, plainly(fault)), UNPROCESSABLE
    flash(f"{len(digests)} {'photo' if len(digests) == 1 else 'photos'} kept", "done")
    return redirect(url_for("photos.of", number=number))


def _name(sent: str) -> str:
    """Return the name of a sent file as a message names it: printable, without folders, short."""
    last = sent.replace("\\", "/").rpartition("/")[2]
    return "".join(sign for sign in last if sign.isprintable())[:60] or "the picture"


@room.post("/of/<label:number>/remove", endpoint="remove")
def remove(number: LabelNumber) -> ResponseReturnValue:
    """Take a photo off a part or a bike."""
    from partsbin.workshop.photos import detach

    digest = request.form.get("photo", "")
    if not DIGEST.fullmatch(digest):
        raise UsageError("say which photo; nothing was changed")
    with record().changing("photo remove") as session:
        detach(session, folder_of(record()), number, [digest])
    flash("the photo is taken away", "done")
    return redirect(url_for("photos.of", number=number))
