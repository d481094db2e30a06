"""Sentences about the order of sewing."""

SENTENCES: dict[str, str] = {}
