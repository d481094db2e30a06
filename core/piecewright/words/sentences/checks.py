"""Sentences about the faults of a design."""

SENTENCES: dict[str, str] = {}
