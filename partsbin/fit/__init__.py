"""What goes with what: one module per area, pure functions of attributes, verdicts as data."""
