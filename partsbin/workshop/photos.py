"""Photos of parts and bikes: attach them, list them, take them away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import delete, func, insert, select

from labels.number import LabelNumber, Thing, thing_of
from partsbin.errors import NotFoundError, UsageError
from partsbin.stock.bikes import bike_named
from partsbin.stock.errors import UNCHANGED
from partsbin.stock.ids import BikeId, PartId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Act, Bike, Part
from partsbin.stock.parts import part_by_number
from partsbin.stock.photo_tables import Photo
from partsbin.stock.places import looks_like_number, read_number
from partsbin.workshop.pictures import read_picture

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

    from partsbin.workshop.photo_files import PhotoFolder
    from partsbin.workshop.pictures import Picture

SHORTEST = 4
"""Characters of a photo's name that are enough to name it."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A photo and what it shows."""

    digest: str
    number: LabelNumber
    bike: str
    """The bike's name, empty for a part."""
    width: int
    height: int
    day: str
    who: str
    note: str


@dataclass(frozen=True, slots=True)
class _Thing:
    part: PartId | None
    bike: BikeId | None


def attach(
    session: Session, folder: PhotoFolder, thing: str, files: Sequence[Path], note: str = ""
) -> list[str]:
    """Keep pictures and attach them to a part or a bike; return their digests in order.

    A picture that it has already stays as it is. Raises `NoPictureError` for a file that is none.
    """
    return attach_pictures(session, folder, thing, [read_picture(file) for file in files], note)


def attach_pictures(
    session: Session, folder: PhotoFolder, thing: str, pictures: Sequence[Picture], note: str = ""
) -> list[str]:
    """Keep pictures that were made safe, as `attach` does."""
    found = _thing(session, thing)
    digests = []
    for picture in pictures:
        digest = folder.keep(picture.content, picture.thumbnail)
        digests.append(digest)
        if session.scalar(select(Photo.id).where(_of(found), Photo.digest == digest)) is None:
            row = insert(Photo).values(
                digest=digest,
                part_id=found.part,
                bike_id=found.bike,
                act_id=act_of(session),
                width=picture.width,
                height=picture.height,
                note=note,
            )
            session.execute(row)
    return digests


def photos_of(session: Session, thing: str = "") -> list[Shown]:
    """Return the photos of a part or a bike, or all of them, in the order in which they came."""
    query = (
        select(Photo, func.coalesce(Part.number, Bike.number), Bike.name, Act.at, Act.who)
        .outerjoin(Part, Part.id == Photo.part_id)
        .outerjoin(Bike, Bike.id == Photo.bike_id)
        .join(Act, Act.id == Photo.act_id)
        .order_by(Photo.id)
    )
    if thing:
        query = query.where(_of(_thing(session, thing)))
    return [
        Shown(
            digest=photo.digest,
            number=LabelNumber(number),
            bike=bike or "",
            width=photo.width,
            height=photo.height,
            day=at.date().isoformat(),
            who=who,
            note=photo.note,
        )
        for photo, number, bike, at, who in session.execute(query)
    ]


def detach(session: Session, folder: PhotoFolder, thing: str, names: Sequence[str]) -> list[str]:
    """Take photos off a part or a bike and return their digests.

    A picture that shows nothing else is removed. `names` are the first characters of digests.
    Raises `NotFoundError` for one that it does not have, `UsageError` for one that may be several.
    """
    found = _thing(session, thing)
    held = list(session.scalars(select(Photo.digest).where(_of(found))))
    digests = [_named(name, held, thing) for name in names]
    session.execute(delete(Photo).where(_of(found), Photo.digest.in_(digests)))
    still = set(session.scalars(select(Photo.digest).where(Photo.digest.in_(digests))))
    # Within the act, so that nobody can attach the same picture in between.
    for digest in set(digests) - still:
        folder.drop(digest)
    return digests


def is_kept(session: Session, digest: str) -> bool:
    """Return whether a photo is in the record."""
    return session.scalar(select(Photo.id).where(Photo.digest == digest).limit(1)) is not None


def digests(session: Session) -> set[str]:
    """Return the digest of every photo in the record."""
    return set(session.scalars(select(Photo.digest)))


def _named(name: str, held: Sequence[str], thing: str) -> str:
    small = name.strip().lower()
    matching = [digest for digest in held if digest.startswith(small)]
    if len(small) < SHORTEST or len(matching) > 1:
        raise UsageError(f"{name!r} may be several photos; type more of its name, {UNCHANGED}")
    if not matching:
        raise NotFoundError(f"{thing} has no photo {name!r}; see partsbin photo list {thing}")
    return matching[0]


def _thing(session: Session, text: str) -> _Thing:
    """Return the part or the bike of a number or a name."""
    if looks_like_number(text):
        number = read_number(text, Thing.PART, Thing.LOT, Thing.BIKE)
        if thing_of(number) is not Thing.BIKE:
            return _Thing(PartId(part_by_number(session, number).id), None)
    return _Thing(None, BikeId(bike_named(session, text).id))


def _of(thing: _Thing) -> ColumnElement[bool]:
    return Photo.bike_id == thing.bike if thing.part is None else Photo.part_id == thing.part
