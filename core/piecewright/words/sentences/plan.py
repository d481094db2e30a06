"""Sentences about the plan and its materials."""

SENTENCES: dict[str, str] = {}
