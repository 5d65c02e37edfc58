"""What latches a stop beyond the record's own: losses that only the bench and the air together tell."""

from __future__ import annotations

from itertools import chain

from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import unexplained
from lamproom.permit.obstacles.exposed import found as exposed
from lamproom.permit.obstacles.instruments import lost

AFTER = (e.ReadingsTaken, e.InstrumentReturned)
"""The events after which to look."""


def seen(facts: Facts) -> e.StopOrdered | None:
    """The order that such a loss gives with people inside, None when nothing is lost or a stop stands already.

    Readings outside, a stopped fan, conditions and an overdue set are latched by the record itself; the end of the
    hours and a missing attendant bar for as long as they last. It never looks at people.
    """
    permit = facts.permit
    if not permit.running or not permit.tally.inside or permit.stop is not None:
        return None
    found = next(
        chain(lost(facts), unexplained(facts), (one for one in exposed(facts) if one.code == "exposure-over")), None
    )
    return e.StopOrdered(cause=found.code) if found is not None else None
