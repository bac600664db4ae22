"""Published tables of the trade: one module per standard or table, a source beside each row."""
