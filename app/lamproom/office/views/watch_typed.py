"""Figures half typed on the Watch, each kept for the point it was typed for, and which of them lie outside a limit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lamproom.air.figures import read_figure
from lamproom.office.office import Office
from lamproom.office.views.watch_air import Box, boxes, echo
from lamproom.words import Refusal, say

TYPED_AT = "typed-at"
"""Beside the gases of a point: when its last figure was typed."""

MARKS = ("over-range", "fault")
_INSIDE = "inside"


def draft_field(point_m: str | None, gas: str) -> str:
    """The name under which what is typed for a gas at a point is kept."""
    return f"reading/{point_m or _INSIDE}/{gas}"


def draft_owner(number: str) -> str:
    """Whose drafts the Watch of a permit keeps."""
    return f"watch/{number}"


def typed_outside(office: Office, number: str, *, but: str | None = "") -> str:
    """Gas and figure of all that is kept half typed and lies outside its limit, whatever its age; empty for none.

    ``but``: leave out this point (None: somewhere inside; '' for no point).
    """
    left_out = draft_field(but, "") if but != "" else None
    return ", ".join(words for field, words in _outside(office, number) if left_out is None or field != left_out)


def typed_point(office: Office, number: str) -> tuple[str | None] | None:
    """The first point for which a figure outside its limit is kept, in a tuple; None where there is none."""
    for field, _words in _outside(office, number):
        point = field.split("/")[1]
        return (None if point == _INSIDE else point,)
    return None


def _outside(office: Office, number: str) -> Iterator[tuple[str, str]]:
    """The field of a point without its gas, and the words."""
    kept: Mapping[str, str] = office.journal.drafts(draft_owner(number))
    if not any(field.startswith("reading/") for field in kept):
        return
    known = {one.gas: one for one in _all_boxes(office, number)}
    for field, text in sorted(kept.items()):
        place, _, gas = field.rpartition("/")
        if place.startswith("reading/") and gas in known:
            words = outside_words(office, number, None, known[gas], text)
            if words:
                yield f"{place}/", words


def _all_boxes(office: Office, number: str) -> Iterator[Box]:
    yield from boxes(office, number, None)
    for instrument in office.permit(number).instruments:
        yield from boxes(office, number, instrument)


def outside_words(office: Office, number: str, instrument: str | None, box: Box, text: str) -> str:
    """Gas and figure where ``text`` (or the mark over range) lies outside the limit; empty where it does not, or where
    it is no figure or none of any air."""
    if text == "over-range":
        return say("watch.typed_words", gas=box.name, figure=say("watch.over_range").lower())
    try:
        value = read_figure(text)
    except Refusal:
        return ""
    told = echo(office, number, instrument, box.gas, box.unit, text, value)
    if not told.outside or (told.doubt is not None and told.doubt.impossible):
        return ""
    figure = f"{text}\u00a0{box.unit}".replace(" ", "\u00a0")
    return say("watch.typed_words", gas=box.name, figure=figure)
