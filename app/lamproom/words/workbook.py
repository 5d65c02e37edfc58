"""Sentences of the room 'workbook'."""

SENTENCES: dict[str, str] = {}
