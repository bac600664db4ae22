"""Numbers, bars, sheets and cameras; knows nothing of bicycles or databases."""
