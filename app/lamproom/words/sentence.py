"""A sentence is an id of the catalogue with named values; it is put into words as late as possible.

An obstacle, a refusal and a caution carry a sentence, not a text, so that screen, page and command line
say the same thing, each in its own language.
"""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.words.catalogue import text_of


@dataclass(frozen=True, slots=True)
class Sentence:
    """An id of the catalogue and the values that stand in it.

    ``values`` are pairs (name, text); a value may itself be a sentence, put into words with its parent.
    """

    id: str
    values: tuple[tuple[str, str | Sentence], ...] = ()

    def say(self, language: str = "en-US") -> str:
        """The sentence in words. Unknown ids and missing values raise KeyError: a fault, never shown half said."""
        spoken = {name: value.say(language) if isinstance(value, Sentence) else value for name, value in self.values}
        return text_of(self.id, language).format_map(spoken)

    def __str__(self) -> str:
        return self.say()


def sentence(id: str, /, **values: str | int | Sentence) -> Sentence:
    """A sentence of the catalogue with its values, not yet in words."""
    return Sentence(id, tuple((name, str(v) if isinstance(v, int) else v) for name, v in values.items()))


def say(id: str, /, language: str = "en-US", **values: str | int | Sentence) -> str:
    """The words of a sentence at once, for places that show it now."""
    return sentence(id, **values).say(language)


def say_count(id: str, count: int, /, language: str = "en-US", **values: str | int | Sentence) -> str:
    """The words for a number of things: ``id.one`` or ``id.other``, with ``{n}`` for the number."""
    form = "one" if count == 1 else "other"
    return say(f"{id}.{form}", language, n=str(count), **values)


class Refusal(Exception):
    """Something the user can put right: what is wrong, where, and what to do, as a sentence."""

    def __init__(self, why: Sentence) -> None:
        super().__init__(why)
        self.why = why

    def __str__(self) -> str:
        return self.why.say()
