"""Arranging blocks that are there: by value, by their light sides, or scattered; seeded, round what is locked."""
