"""How words are found: text and question are brought into the same plain words, so that every store finds the same.

Capital letters and accents do not count; a word of the question fits the beginning of a word of the text.
"""

from __future__ import annotations

import unicodedata


def plain_words(text: str) -> tuple[str, ...]:
    """The words of a text, lower case and without accents: letters and digits stay together, all else divides."""
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    kept = (c if unicodedata.category(c)[0] in "LN" else " " for c in folded if unicodedata.category(c) != "Mn")
    return tuple("".join(kept).split())


def fits(question: tuple[str, ...], words: tuple[str, ...]) -> bool:
    """Whether each word of the question begins some word of the text; a question without words finds nothing."""
    return bool(question) and all(any(word.startswith(asked) for word in words) for asked in question)


def match_expression(question: tuple[str, ...]) -> str:
    """The question for SQLite's full-text index (FTS5): every word as a prefix, all of them needed."""
    return " AND ".join(f'"{asked}"*' for asked in question)
