"""Sentences of the room 'office'."""

SENTENCES: dict[str, str] = {}
