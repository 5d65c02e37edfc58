"""Sentences of the room 'board'."""

SENTENCES: dict[str, str] = {}
