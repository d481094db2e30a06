"""Sentences about files and what can be wrong with them."""

SENTENCES: dict[str, str] = {}
