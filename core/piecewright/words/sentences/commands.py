"""Sentences about the command line."""

SENTENCES: dict[str, str] = {}
