"""Sentences of the room 'watch'."""

SENTENCES: dict[str, str] = {}
