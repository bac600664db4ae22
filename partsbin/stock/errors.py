"""What the record refuses, in one sentence each: what is wrong, where, and what to do."""

from __future__ import annotations

from partsbin.errors import NotFoundError, PartsbinError, UsageError

UNCHANGED = "nothing was changed"


class AddressError(UsageError):
    """The database's address is not understood."""


class DatabaseError(PartsbinError):
    """The database cannot be used; `where` is its address without a password."""

    text = "the database {where} cannot be used; " + UNCHANGED

    def __init__(self, where: str, cause: str = "") -> None:
        self.where = where
        super().__init__(self.text.format(where=where, cause=cause))


class NotADatabaseError(DatabaseError):
    """The file is something else."""

    text = "{where} is not a database; give another file with --db or move this one away"


class OtherDatabaseError(DatabaseError):
    """The database belongs to another program."""

    text = "{where} is a database of another program; give another one with --db"


class NewerSchemaError(DatabaseError):
    """A newer program made the database."""

    text = "{where} was made by a newer partsbin (schema {cause}); update partsbin to open it"


class DamagedError(DatabaseError):
    """The file is a database, but damaged."""

    text = "{where} is damaged ({cause}); put back the last backup"


class ReadOnlyError(DatabaseError):
    """The file or its folder may not be written."""

    text = (
        "{where} is read-only, or its folder is; allow writing there or give another file with --db"
    )


class NoAccessError(DatabaseError):
    """The file or its folder may not be opened or made."""

    text = "{where} cannot be opened: {cause}; check the path and its permissions"


class DiskFullError(DatabaseError):
    """No room is left."""

    text = "the disk of {where} is full; make room and try again, " + UNCHANGED


class BusyError(DatabaseError):
    """Others kept the database for longer than the patience lasts."""

    text = "{where} is kept busy by another program; try again in a minute, " + UNCHANGED


class DriverMissingError(DatabaseError):
    """PostgreSQL is asked for without its driver."""

    text = "{where} needs the PostgreSQL driver; install it with: pip install 'partsbin[postgres]'"


class UnreachableError(DatabaseError):
    """The server does not answer, or refuses the user."""

    text = "{where} cannot be reached: {cause}; check the address and that the server runs"


class RefusedError(PartsbinError):
    """The record does not allow an act; nothing is changed."""


class NotThereError(RefusedError):
    """More was to be taken from a place than is there."""

    def __init__(self, what: str, wanted: str, place: str, there: str, now: str) -> None:
        self.what = what
        found = f"only {there} is there" if there else "it is not there"
        where = f", it is {now}" if now else ""
        super().__init__(
            f"cannot take {wanted} of {what} from {place}: {found}{where}; {UNCHANGED}"
        )


class AlreadyThereError(RefusedError):
    """A single part was to arrive that is in the record already."""

    def __init__(self, what: str, now: str) -> None:
        self.what = what
        super().__init__(f"{what} cannot arrive: it is {now} already; {UNCHANGED}")


class SlotFilledError(RefusedError):
    """A slot was to take a second part."""

    def __init__(self, slot: str, by: str) -> None:
        self.slot = slot
        super().__init__(f"{slot} is filled by {by}; take that off first, {UNCHANGED}")


class TakenError(RefusedError):
    """A name is in use already."""

    def __init__(self, what: str, name: str) -> None:
        super().__init__(f"there is a {what} {name!r} already; choose another name, {UNCHANGED}")


class UnknownError(NotFoundError):
    """Something was named that is not in the record; `hint` offers the nearest name."""

    def __init__(self, what: str, name: str, hint: str = "") -> None:
        super().__init__(f"there is no {what} {name!r} in the record{hint}")
