"""The forms of attribute values: lengths, words, counts, numbers, text."""
