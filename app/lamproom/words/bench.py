"""Sentences of the room 'bench'."""

SENTENCES: dict[str, str] = {}
