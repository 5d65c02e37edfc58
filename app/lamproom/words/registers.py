"""Sentences of the room 'registers'."""

SENTENCES: dict[str, str] = {}
