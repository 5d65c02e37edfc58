"""Sentences of the room 'air'."""

SENTENCES: dict[str, str] = {}
