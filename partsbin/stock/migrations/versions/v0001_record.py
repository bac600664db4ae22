"""The record as it began: specs, parts, places, bikes, acts, movements and holdings.

The constraints take their names from the convention of the models' metadata.
"""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

WHOLE = sa.BigInteger()
ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
APPENDED = ("act", "movement", "bike_entry")
"""The tables whose rows are never changed and never removed."""
SHARED_PLACES = ("supplier", "clearing", "quarantine", "scrapped", "sold")
"""The places that every workshop has, in the order of their ids from 1."""
BINS, PARTS, BIKES, LOTS = "1234"


def _id() -> sa.Column[int]:
    return sa.Column("id", ID, primary_key=True)


def _refers(name: str, column: str, *, null: bool = False, key: bool = False) -> sa.Column[int]:
    return sa.Column(name, ID, sa.ForeignKey(column), nullable=null, primary_key=key)


def _whole(name: str, *, null: bool = False, key: bool = False) -> sa.Column[int]:
    return sa.Column(name, WHOLE, nullable=null, primary_key=key)


def _text(name: str, *, null: bool = False, key: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=null, primary_key=key)


def _label(*, null: bool = False) -> sa.Column[str]:
    return sa.Column("number", sa.String(10), unique=True, nullable=null)


def _time(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.DateTime(timezone=True), nullable=False)


def _yes_or_no(name: str) -> sa.Column[bool]:
    constraint = f"{name}_yes_or_no"
    return sa.Column(name, sa.Boolean(create_constraint=True, name=constraint), nullable=False)


def _word(column: str, constraint: str, words: str) -> sa.Column[str]:
    kept = sa.Enum(
        *words.split(","),
        name=constraint,
        native_enum=False,
        create_constraint=True,
        length=20,
    )
    return sa.Column(column, kept, nullable=False)


def _specs() -> None:
    op.create_table(
        "spec", _id(), _text("kind"), sa.Column("text", sa.Text, nullable=False, unique=True)
    )
    op.create_index("ix_spec_kind", "spec", ["kind"])
    op.create_table(
        "spec_value",
        _refers("spec_id", "spec.id", key=True),
        _text("name", key=True),
        _whole("position", key=True),
        _whole("number", null=True),
        _text("word", null=True),
        sa.CheckConstraint("(number IS NULL) <> (word IS NULL)", name="number_or_word"),
        sqlite_with_rowid=False,
    )
    op.create_index(
        "ix_spec_value_name_number_spec_id", "spec_value", ["name", "number", "spec_id"]
    )
    op.create_index("ix_spec_value_name_word_spec_id", "spec_value", ["name", "word", "spec_id"])
    op.create_index("ix_spec_value_word_spec_id", "spec_value", ["word", "spec_id"])


def _parts() -> None:
    op.create_table(
        "part",
        _id(),
        _label(),
        _refers("spec_id", "spec.id"),
        _word("grade", "grade", "new,good,fair,poor,core,unsafe"),
        _yes_or_no("lot"),
        _word("unit", "unit", "piece,mm"),
        _word("condition", "condition", "sound,worn,dead"),
        _whole("value", null=True),
        _text("origin"),
        _text("note"),
        _whole("in_bins"),
        sa.CheckConstraint("lot OR unit = 'piece'", name="single_is_a_piece"),
        sa.CheckConstraint("value >= 0", name="value_not_negative"),
        sa.CheckConstraint("in_bins >= 0", name="in_bins_not_negative"),
    )
    op.create_index("ix_part_spec_id", "part", ["spec_id"])
    used = sa.text("in_bins > 0")
    op.create_index(
        "ix_part_in_bins", "part", ["spec_id", "id"], sqlite_where=used, postgresql_where=used
    )
    op.create_table(
        "note_word",
        _text("word", key=True),
        _refers("part_id", "part.id", key=True),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_note_word_part_id", "note_word", ["part_id"])


def _bikes() -> None:
    op.create_table(
        "bike",
        _id(),
        _label(),
        _text("name"),
        _text("style"),
        _word("state", "bikestate", "bought,in work,ready,sold,kept,stripped"),
        _whole("price"),
        sa.Column("bought_on", sa.Date(), nullable=True),
        _text("seller_note"),
        _text("serial_number"),
        _yes_or_no("serial_checked"),
        _text("note"),
        _time("created"),
        sa.CheckConstraint("price >= 0", name="price_not_negative"),
    )
    op.create_index("uq_bike_name", "bike", [sa.text("lower(name)")], unique=True)


def _places() -> None:
    types = "bin,slot,bike,quarantine,scrapped,sold,supplier,clearing"
    op.create_table(
        "place",
        _id(),
        _word("type", "placetype", types),
        _text("name"),
        _label(null=True),
        _refers("bike_id", "bike.id", null=True),
        _text("note"),
        _text("location"),
        sa.CheckConstraint("(type = 'bin') = (number IS NOT NULL)", name="bin_has_number"),
        sa.CheckConstraint("(type IN ('slot', 'bike')) = (bike_id IS NOT NULL)", name="of_a_bike"),
    )
    name: list[str | sa.TextClause] = [
        "type",
        sa.text("coalesce(bike_id, 0)"),
        sa.text("lower(name)"),
    ]
    op.create_index("uq_place_name", "place", name, unique=True)
    op.create_index("ix_place_bike_id", "place", ["bike_id"])


def _movements() -> None:
    op.create_table("act", _id(), _time("at"), _text("who"), _text("what"), _text("reason"))
    op.create_index("ix_act_who", "act", ["who"])
    op.create_table(
        "movement",
        _id(),
        _refers("act_id", "act.id"),
        _refers("part_id", "part.id"),
        _whole("quantity"),
        _refers("from_place_id", "place.id"),
        _refers("to_place_id", "place.id"),
        _whole("cost"),
        sa.CheckConstraint("from_place_id <> to_place_id", name="places_differ"),
        sa.CheckConstraint("quantity >= 0", name="quantity_not_negative"),
        sa.CheckConstraint("cost >= 0", name="cost_not_negative"),
        sa.CheckConstraint("quantity > 0 OR cost > 0", name="something_moves"),
    )
    for column in ("act_id", "part_id", "from_place_id", "to_place_id"):
        op.create_index(f"ix_movement_{column}", "movement", [column])
    op.create_table(
        "holding",
        _refers("part_id", "part.id", key=True),
        _refers("place_id", "place.id", key=True),
        _whole("quantity"),
        _whole("cost"),
        sa.CheckConstraint("quantity >= 0", name="quantity_not_negative"),
        sa.CheckConstraint("cost >= 0", name="cost_not_negative"),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_holding_place_id", "holding", ["place_id", "part_id", "cost"])


def _entries() -> None:
    op.create_table(
        "bike_entry",
        _id(),
        _refers("act_id", "act.id"),
        _refers("bike_id", "bike.id"),
        _word("type", "entrytype", "labour,fee,transport,sale"),
        _whole("amount"),
        _whole("minutes", null=True),
        _whole("rate", null=True),
        sa.Column("day", sa.Date(), nullable=False),
        _text("note"),
        sa.CheckConstraint("minutes IS NULL OR rate IS NOT NULL", name="labour_rate"),
    )
    op.create_index("ix_bike_entry_act_id", "bike_entry", ["act_id"])
    op.create_index("ix_bike_entry_bike_id", "bike_entry", ["bike_id"])


def _append_only_sqlite(table: str) -> None:
    """Refuse UPDATE, DELETE, and the INSERT OR REPLACE that would delete without a trigger."""
    refuse = f"BEGIN SELECT RAISE(ABORT, '{table} is appended to, never edited'); END"
    op.execute(f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} {refuse}")
    known = f"EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id)"  # noqa: S608 - a name from APPENDED
    op.execute(f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN {known} {refuse}")


def _append_only_postgresql(table: str) -> None:
    call = "EXECUTE FUNCTION refuse_edit()"
    op.execute(
        f"CREATE TRIGGER {table}_no_edit BEFORE UPDATE OR DELETE ON {table} FOR EACH ROW {call}"
    )
    op.execute(
        f"CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} FOR EACH STATEMENT {call}"
    )


def _append_only() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for table in APPENDED:
            _append_only_sqlite(table)
        return
    op.execute(
        "CREATE FUNCTION refuse_edit() RETURNS trigger LANGUAGE plpgsql AS "
        "'BEGIN RAISE EXCEPTION ''% is appended to, never edited'', TG_TABLE_NAME; END'"
    )
    for table in APPENDED:
        _append_only_postgresql(table)


def _first_rows() -> None:
    numbers = op.create_table(
        "running_number", sa.Column("thing", sa.String(1), primary_key=True), _whole("last")
    )
    op.bulk_insert(numbers, [{"thing": thing, "last": 0} for thing in (BINS, PARTS, BIKES, LOTS)])
    place = sa.table(
        "place", *(sa.column(name, sa.Text) for name in ("type", "name", "note", "location"))
    )
    for name in SHARED_PLACES:
        op.execute(place.insert().values(type=name, name=name, note="", location=""))


def upgrade() -> None:
    """Make the tables, their triggers and the rows that every workshop has."""
    _specs()
    _parts()
    _bikes()
    _places()
    _movements()
    _entries()
    _append_only()
    _first_rows()
