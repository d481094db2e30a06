"""Sentences about edits and why one is refused."""

SENTENCES: dict[str, str] = {}
