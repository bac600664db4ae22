"""Plans a whole build: which parts from stock and which purchases make the bikes right."""
