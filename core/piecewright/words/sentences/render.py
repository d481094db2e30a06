"""Sentences about pictures."""

SENTENCES: dict[str, str] = {}
