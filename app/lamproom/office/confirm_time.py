"""Confirm the time against another watch."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.office import SITE, Office, ToRecord
from lamproom.permit.site import TimeConfirmed
from lamproom.words import Refusal, sentence


def confirm_time(office: Office, watch_says: datetime, *, by: str | None, act: str | None = None) -> None:
    """A named person read another watch. The time never goes back by this: that needs two people.

    Refused without a name, and when the watch lies before the highest time this site has seen.
    """
    if act is not None and office.journal.act(act):
        return
    if by is None:
        raise Refusal(sentence("office.who_confirms"))
    highest = office.now()
    if (highest - watch_says).total_seconds() > 60:
        raise Refusal(sentence("office.watch_behind", seen=highest.astimezone(office.zone).strftime("%d %b %Y %H:%M")))
    office.accept_watch(watch_says)
    office.record([ToRecord(SITE, TimeConfirmed(watch_says=watch_says))], by, act)
