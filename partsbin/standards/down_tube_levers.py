"""Shift levers on the down tube: what their bosses and bands are made for."""

from __future__ import annotations

from partsbin.standards.length import mm

BOSS_SOURCE = "blackmtncycles.com/details"
BOSS_TUBE = mm(28.6)
"""Down tube that a lever's curved base was made for. Source: as above."""

BANDS = (mm(28.6), mm(31.8))
"""Down tubes that bands with lever bosses are made for. From memory."""
