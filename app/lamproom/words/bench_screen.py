"""Sentences of the room 'bench_screen'."""

SENTENCES: dict[str, str] = {}
