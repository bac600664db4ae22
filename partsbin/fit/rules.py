"""The rules of fit, all in one place: what the judge asks of a set of parts, in this order."""

from partsbin.fit import seat

RULES = (*seat.RULES,)
