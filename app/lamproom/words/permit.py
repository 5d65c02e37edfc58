"""Sentences of the room 'permit'."""

SENTENCES: dict[str, str] = {}
