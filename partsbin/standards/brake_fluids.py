"""Brake fluids: mineral oil and glycol (DOT) are two worlds, silicone is a third."""

from __future__ import annotations

SOURCE = "trustysources.com DOT/mineral; vtt-xc-blog.com brake fluid"
SYSTEM_OF = {
    "mineral": "mineral",
    "dot-4": "dot",
    "dot-5.1": "dot",
    # Silicone does not mix with the glycol of DOT 4 and 5.1, and no such brake takes it.
    "dot-5-silicone": "silicone",
}
"""What kind of brake each bottle is for. Glycol: DOT 4 and DOT 5.1 may stand in for each other."""

SEALS = {
    "mineral": "nitrile seals",
    "dot": "EPDM seals",
}
"""Seals of each kind of brake, which the other's fluid destroys."""
