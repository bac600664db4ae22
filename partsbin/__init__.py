"""The parts bin: stock, fit, plans and books of a workshop that rebuilds bicycles."""
