"""What the program refuses, in one sentence each, with the exit code of the command."""

from __future__ import annotations

from typing import ClassVar


class PartsbinError(Exception):
    """A refusal: its text says what is wrong, where, and what to do."""

    exit_code: ClassVar[int] = 1


class NotFoundError(PartsbinError):
    """Something was named that is not in the record."""


class UsageError(PartsbinError):
    """What was typed, or what a file holds, is not understood."""

    exit_code = 2
