"""Sentences of the room 'desk'."""

SENTENCES: dict[str, str] = {}
