"""Sentences of the room 'cli'."""

SENTENCES: dict[str, str] = {}
