"""The catalogue: every sentence by its id, one file of sentences for each room.

English of the United States is the source language. Other languages are gettext translations whose context is
the id and whose message is the English text; a missing translation falls back to English, never to the bare id.
"""

from __future__ import annotations

import gettext
from collections.abc import Iterator, Mapping
from importlib import import_module

_ROOMS = (
    "air",
    "bench",
    "permit",
    "record",
    "intake",
    "paper",
    "page",
    "keys",
    "office",
    "cli",
    "desk",
    "board",
    "workbook",
    "sheets",
    "watch",
    "bench_screen",
    "filing",
    "registers",
    "workings",
)


def _gather() -> Mapping[str, str]:
    sentences: dict[str, str] = {}
    for room in _ROOMS:
        for id, text in import_module(f"lamproom.words.{room}").SENTENCES.items():
            if not id.startswith(room + "."):
                raise ValueError(f"sentence {id!r} stands in the file of {room!r}")
            sentences[id] = text
    return sentences


_SENTENCES = _gather()
_TRANSLATIONS: dict[str, gettext.NullTranslations] = {}


def ids() -> Iterator[str]:
    """Every id of the catalogue, in the order of the rooms."""
    return iter(_SENTENCES)


def text_of(id: str, language: str) -> str:
    """The text of a sentence with its named places still open; KeyError for an id nobody wrote."""
    english = _SENTENCES[id]
    translation = _TRANSLATIONS.get(language)
    if translation is None:
        return english
    translated = translation.pgettext(id, english)
    return translated or english


def speak(language: str, translation: gettext.NullTranslations) -> None:
    """Give the catalogue a language; the one who reads the file of translations is above this floor."""
    _TRANSLATIONS[language] = translation
