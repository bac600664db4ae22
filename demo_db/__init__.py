"""An invented workshop, as CSV files in the program's own import format, and its loader."""
