"""Each sentence of the record can be said: no place in it is left open, none is missing in the catalogue."""

from __future__ import annotations

import string

import pytest

from lamproom.words import say
from lamproom.words.record import SENTENCES


@pytest.mark.parametrize("id", SENTENCES)
def test_a_sentence_is_said_with_its_values(id: str) -> None:
    names = {name for _, name, _, _ in string.Formatter().parse(SENTENCES[id]) if name}
    said = say(id, **{name: f"<{name}>" for name in names})
    assert all(f"<{name}>" in said for name in names)
    assert "{" not in said


def test_no_sentence_gives_a_verdict() -> None:
    """'safe' and 'OK' are never said: the record says what it holds, people judge."""
    for text in SENTENCES.values():
        assert not {"safe", "ok", "okay"} & {word.strip(".,:;()").lower() for word in text.split()}
