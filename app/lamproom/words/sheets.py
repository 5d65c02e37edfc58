"""Sentences of the Workbook's sheets on air, people, rescue and review."""

SENTENCES: dict[str, str] = {}
