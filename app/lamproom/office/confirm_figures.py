"""Confirm the figures of a form that rest on memory against the current text."""

from __future__ import annotations

from lamproom.office.office import SITE, Office, ToRecord
from lamproom.permit.form import fingerprint
from lamproom.permit.site import FiguresConfirmed
from lamproom.words import Refusal, sentence


def confirm_figures(office: Office, form: str, against: str, *, by: str | None, act: str | None = None) -> None:
    """A named person compared the form with the current law. Refused without a name and without saying with what."""
    if by is None or not against.strip():
        raise Refusal(sentence("office.figures_against"))
    known, text = office.form(form)
    event = FiguresConfirmed(form_sha256=fingerprint(text), form_title=known.title, against=against.strip())
    office.record([ToRecord(SITE, event)], by, act)
