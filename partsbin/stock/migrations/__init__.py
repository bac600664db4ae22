"""The history of the schema, one step for each version."""
