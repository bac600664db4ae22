"""The tables of the record.

`act`, `movement` and `bike_entry` are only ever appended to; triggers in the database see to it.
`holding`, `bin_sum` and `part.in_bins` are sums over `movement` that `movements` keeps in the same
transaction, so that a question need not add up the past.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Boolean, CheckConstraint, Date, Index, MetaData, String, text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column, relationship

from labels.number import LabelNumber
from partsbin.stock.columns import IDENTITY, TYPES, Id, refers
from partsbin.stock.ids import ActId, BikeId, PartId, PlaceId, SpecId
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.words import BikeState, Condition, EntryType, Grade, PlaceType, Unit

TYPES_OF_COLUMNS = {**TYPES, LabelNumber: String(10)}

KEYED = {"sqlite_with_rowid": False}
"""SQLite keeps such a table in the order of its primary key, so that a look-up is one step."""


class Base(DeclarativeBase):
    """The root of all tables."""

    type_annotation_map = TYPES_OF_COLUMNS
    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


class RecordedSpec(Base):
    """A spec that some part has or had; equal specs are one row."""

    __tablename__ = "spec"

    id: Mapped[SpecId] = mapped_column(IDENTITY, primary_key=True)
    kind: Mapped[str] = mapped_column(index=True)
    text: Mapped[str] = mapped_column(unique=True)
    """The canonical text that `Spec.from_text` reads."""


class SpecValue(Base):
    """One attribute of a spec for conditions in SQL; a list has one row for each member."""

    __tablename__ = "spec_value"
    __table_args__ = (
        Index(None, "name", "number", "spec_id"),
        Index(None, "name", "word", "spec_id"),
        Index(None, "word", "spec_id"),
        CheckConstraint("(number IS NULL) <> (word IS NULL)", name="number_or_word"),
        KEYED,
    )

    spec_id: Mapped[SpecId] = refers("spec.id", primary_key=True)
    name: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(primary_key=True)
    number: Mapped[int | None]
    """Thousandths: micrometres of a length, thousandths of a count or a decimal number."""
    word: Mapped[str | None]
    """A word or a text, in small letters."""


class Part(Base):
    """A single part, or a lot of alike ones that are counted or measured."""

    __tablename__ = "part"
    __table_args__ = (
        CheckConstraint("lot OR unit = 'piece'", name="single_is_a_piece"),
        CheckConstraint("value >= 0", name="value_not_negative"),
        CheckConstraint("in_bins >= 0", name="in_bins_not_negative"),
        Index("ix_part_spec_id", "spec_id"),
        # What can be used: the questions of fit and most searches read nothing else.
        Index(
            "ix_part_in_bins",
            "spec_id",
            "id",
            sqlite_where=text("in_bins > 0"),
            postgresql_where=text("in_bins > 0"),
        ),
    )

    id: Mapped[PartId] = mapped_column(IDENTITY, primary_key=True)
    number: Mapped[LabelNumber] = mapped_column(unique=True)
    spec_id: Mapped[SpecId] = refers("spec.id")
    grade: Mapped[Grade]
    lot: Mapped[bool] = mapped_column(Boolean(create_constraint=True, name="lot_yes_or_no"))
    unit: Mapped[Unit]
    condition: Mapped[Condition]
    value: Mapped[Money | None]
    """What it would sell for: the part, or one piece or one metre of a lot."""
    origin: Mapped[str]
    note: Mapped[str]
    in_bins: Mapped[int]
    """How much of it is in bins, in its unit."""

    spec: Mapped[RecordedSpec] = relationship()


class NoteWord(Base):
    """A word of a part's note, so that a search need not read every note."""

    __tablename__ = "note_word"
    __table_args__ = (KEYED,)

    word: Mapped[str] = mapped_column(primary_key=True)
    part_id: Mapped[PartId] = refers("part.id", primary_key=True, index=True)


class Bike(Base):
    """A bike: its purchase and its state. What is on it is in its slots."""

    __tablename__ = "bike"
    __table_args__ = (
        CheckConstraint("price >= 0", name="price_not_negative"),
        Index("uq_bike_name", text("lower(name)"), unique=True),
    )

    id: Mapped[BikeId] = mapped_column(IDENTITY, primary_key=True)
    number: Mapped[LabelNumber] = mapped_column(unique=True)
    name: Mapped[str]
    style: Mapped[str]
    state: Mapped[BikeState]
    price: Mapped[Money]
    bought_on: Mapped[dt.date | None] = mapped_column(Date)
    seller_note: Mapped[str]
    serial_number: Mapped[str]
    serial_checked: Mapped[bool] = mapped_column(
        Boolean(create_constraint=True, name="serial_checked_yes_or_no")
    )
    note: Mapped[str]
    created: Mapped[dt.datetime]


class Place(Base):
    """Where a part can be."""

    __tablename__ = "place"
    __table_args__ = (
        CheckConstraint("(type = 'bin') = (number IS NOT NULL)", name="bin_has_number"),
        CheckConstraint("(type IN ('slot', 'bike')) = (bike_id IS NOT NULL)", name="of_a_bike"),
        Index(
            "uq_place_name",
            "type",
            text("coalesce(bike_id, 0)"),
            text("lower(name)"),
            unique=True,
        ),
        Index("ix_place_bike_id", "bike_id"),
    )

    id: Mapped[PlaceId] = mapped_column(IDENTITY, primary_key=True)
    type: Mapped[PlaceType]
    name: Mapped[str]
    number: Mapped[LabelNumber | None] = mapped_column(unique=True)
    bike_id: Mapped[BikeId | None] = refers("bike.id")
    note: Mapped[str]
    location: Mapped[str]
    """Where in the workshop it stands, for a bin."""

    bike: Mapped[Bike | None] = relationship()


class Act(Base):
    """What one command changed: when, who, what and why."""

    __tablename__ = "act"

    id: Mapped[ActId] = mapped_column(IDENTITY, primary_key=True)
    at: Mapped[dt.datetime]
    who: Mapped[str] = mapped_column(index=True)
    what: Mapped[str]
    reason: Mapped[str]


class Movement(Base):
    """A quantity of a part that went from a place to another, and the cost that it carried.

    A quantity of 0 is a cost that moved alone, when a donor's price is split over its parts.
    """

    __tablename__ = "movement"
    __table_args__ = (
        CheckConstraint("from_place_id <> to_place_id", name="places_differ"),
        CheckConstraint("quantity >= 0", name="quantity_not_negative"),
        CheckConstraint("cost >= 0", name="cost_not_negative"),
        CheckConstraint("quantity > 0 OR cost > 0", name="something_moves"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    part_id: Mapped[PartId] = refers("part.id", index=True)
    quantity: Mapped[int]
    from_place_id: Mapped[PlaceId] = refers("place.id", index=True)
    to_place_id: Mapped[PlaceId] = refers("place.id", index=True)
    cost: Mapped[Money]

    act: Mapped[Act] = relationship()


class Holding(Base):
    """How much of a part is in a place and what it cost; no row where both are nothing."""

    __tablename__ = "holding"
    __table_args__ = (
        CheckConstraint("quantity >= 0", name="quantity_not_negative"),
        CheckConstraint("cost >= 0", name="cost_not_negative"),
        # With the cost, so that the workshop's balance is summed from the index alone.
        Index("ix_holding_place_id", "place_id", "part_id", "cost"),
        KEYED,
    )

    part_id: Mapped[PartId] = refers("part.id", primary_key=True)
    place_id: Mapped[PlaceId] = refers("place.id", primary_key=True)
    quantity: Mapped[int]
    cost: Mapped[Money]


class BinSum(Base):
    """How many different parts and lots are in a bin, and what they cost; a row for each bin."""

    __tablename__ = "bin_sum"
    __table_args__ = (
        CheckConstraint("parts >= 0", name="parts_not_negative"),
        CheckConstraint("cost >= 0", name="cost_not_negative"),
        KEYED,
    )

    place_id: Mapped[PlaceId] = refers("place.id", primary_key=True)
    parts: Mapped[int]
    cost: Mapped[Money]


class BikeEntry(Base):
    """One entry of a bike's account besides its parts: labour, a fee, transport, the sale."""

    __tablename__ = "bike_entry"
    __table_args__ = (CheckConstraint("minutes IS NULL OR rate IS NOT NULL", name="labour_rate"),)

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    bike_id: Mapped[BikeId] = refers("bike.id", index=True)
    type: Mapped[EntryType]
    amount: Mapped[Money] = mapped_column(default=NOTHING)
    """What it cost or, of a sale, what it brought; below nothing if it takes an entry back."""
    minutes: Mapped[int | None]
    rate: Mapped[Money | None]
    """Minor units per hour."""
    day: Mapped[dt.date] = mapped_column(Date)
    note: Mapped[str]


class RunningNumber(Base):
    """The last running number given out for bins, parts, bikes and lots."""

    __tablename__ = "running_number"

    thing: Mapped[str] = mapped_column(String(1), primary_key=True)
    last: Mapped[int]


# The other tables of the record, so that whoever reads the metadata has them all. They need Base,
# which stands above.
from partsbin.stock import (  # noqa: E402, F401 - see above
    check_tables,
    count_tables,
    label_tables,
    name_tables,
    photo_tables,
    plan_tables,
    price_tables,
    sale_tables,
)
