"""Sentences of the room 'record'."""

SENTENCES: dict[str, str] = {}
