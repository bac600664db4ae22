"""How far a steerer must come out of the head tube."""

from __future__ import annotations

from partsbin.standards.length import mm

STACK_SOURCE = "Wikipedia 'Headset'; velo-orange.blogspot.com 2017/08"
GAP_SOURCE = "TBIS ISO 4210-2 reprint p. 19; parktool.com Fork steering column length and sizing"

LARGEST_GAP = mm(5)
"""From the top of a threadless steerer to the top of the stem. Source: TBIS ISO 4210-2 reprint."""

USUAL_GAP = mm(3)
"""The gap that lets the top cap press. Source: parktool.com, as above; the figure from memory."""

LOWEST_STEM = mm(30)
"""No usual threadless stem clamps less of the steerer. From memory."""
