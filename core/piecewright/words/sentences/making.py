"""Sentences about the making of a block."""

SENTENCES: dict[str, str] = {}
