"""Sentences of the room 'paper'."""

SENTENCES: dict[str, str] = {}
