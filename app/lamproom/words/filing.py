"""Sentences of the room 'filing'."""

SENTENCES: dict[str, str] = {}
