"""Sentences of the room 'keys'."""

SENTENCES: dict[str, str] = {}
