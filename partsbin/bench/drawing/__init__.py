"""Drawings of the bench page as SVG, coloured by its style sheets."""
