"""Sentences about the parts of a design."""

SENTENCES: dict[str, str] = {}
