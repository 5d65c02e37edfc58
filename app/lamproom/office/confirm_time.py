"""Confirm the time against another watch."""

from __future__ import annotations

from datetime import datetime, timedelta

from lamproom.office.office import SITE, Office, ToRecord
from lamproom.permit.site import TimeConfirmed
from lamproom.words import Refusal, sentence

LONGEST_AHEAD = timedelta(days=1)


def confirm_time(office: Office, watch_says: datetime, *, by: str | None, act: str | None = None) -> None:
    """A named person read another watch. The time never goes back by this: that needs two people.

    Refused without a name, when the watch lies before the highest time this site has seen, and when it lies more than
    a day ahead of this machine: a slip of the year would void everything.
    """
    if act is not None and office.journal.act(act):
        return
    if by is None:
        raise Refusal(sentence("office.who_confirms"))
    highest = office.now()
    if (highest - watch_says).total_seconds() > 60:
        raise Refusal(sentence("office.watch_behind", seen=highest.astimezone(office.zone).strftime("%d %b %Y %H:%M")))
    if watch_says - max(highest, office.clock.sample().wall) > LONGEST_AHEAD:
        raise Refusal(sentence("office.watch_ahead"))
    with office.accepting_watch(watch_says):
        office.record([ToRecord(SITE, TimeConfirmed(watch_says=watch_says))], by, act)
