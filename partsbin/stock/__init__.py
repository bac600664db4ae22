"""The record: parts, places, bikes, and the movements between them, in a database."""
