"""A kind of part, and a piece: the view of one spec that the rules of fit read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, ClassVar, Self

from partsbin.kinds.attribute import Attribute

if TYPE_CHECKING:
    from partsbin.kinds.forms.form import Value
    from partsbin.kinds.spec import Spec

KINDS: dict[str, type[Kind]] = {}
"""All kinds by their word, filled as the modules of this room are read."""


class Kind:
    """A kind of part; a subclass is one kind, its instance one piece as the rules see it.

    A subclass that names no `word` of its own is called by its class name in small letters with
    underscores. `abstract=True` marks groups of attributes that several kinds share.

    The known attributes of a piece are plain values in its `__dict__`; a reading that lies between
    two listed sizes is not among them but in `open_values`, and an assumed one is in `likely`.
    """

    word: ClassVar[str] = ""
    attributes: ClassVar[Mapping[str, Attribute]] = {}
    free: ClassVar[bool] = False
    """Whether the kind takes attributes of any name."""
    first: ClassVar[tuple[str, ...]] = ()
    """The attributes that a mechanic asks for first, for labels and lists."""
    caution: ClassVar[str] = ""
    """What can hurt someone, printed with every suggestion; empty where nothing can."""
    inspection: ClassVar[tuple[str, ...]] = ()
    """What must be looked at before the part is used again."""

    spec: Spec
    open_values: Mapping[str, tuple[Value, ...]]
    likely: Mapping[str, Value]

    def __init_subclass__(cls, *, abstract: bool = False) -> None:
        super().__init_subclass__()
        found: dict[str, Attribute] = {}
        for base in reversed(cls.__mro__):
            found.update({k: v for k, v in vars(base).items() if isinstance(v, Attribute)})
        cls.attributes = found
        if not abstract:
            cls.word = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", cls.__name__).lower()
            KINDS[cls.word] = cls

    @classmethod
    def of(cls, spec: Spec) -> Self:
        """Return the piece of a spec, its readings taken for listed sizes where that is clear."""
        piece = cls.__new__(cls)
        known = piece.__dict__
        open_values: dict[str, tuple[Value, ...]] = {}
        likely: dict[str, Value] = {}
        for name, value in spec.values:
            attribute = cls.attributes.get(name)
            possible = attribute.form.possible(value) if attribute else (value,)
            if name in spec.assumed:
                likely[name] = possible[0]
            elif len(possible) == 1:
                known[name] = possible[0]
            else:
                open_values[name] = possible
        known.update(spec=spec, open_values=open_values, likely=likely)
        return piece

    def known(self, *names: str) -> bool:
        """Return whether all of these attributes are known."""
        held = self.__dict__
        for name in names:  # noqa: SIM110 - asked so often that a generator is dear
            if name not in held:
                return False
        return True

    def having(self, **values: Any) -> Self:
        """Return a piece like this one with other values, to try what an unknown may be."""
        piece = type(self).__new__(type(self))
        piece.__dict__.update(self.__dict__)
        piece.__dict__.update(values)
        return piece

    def candidates(self, name: str) -> tuple[Value, ...]:
        """Return the values that an unknown attribute may have, empty where that is no list."""
        return self.open_values.get(name) or self.attributes[name].form.candidates()
