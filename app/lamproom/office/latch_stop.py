"""Latch a stop that the station alone can see: what drives people out is not undone by the next good figure."""

from __future__ import annotations

from itertools import chain

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import unexplained
from lamproom.permit.obstacles.instruments import lost


def latch_stop(office: Office, permit: str, act: str | None) -> None:
    """Order everyone out when, with people inside, such a loss stands and no stop was ordered yet."""
    state = office.permit(permit)
    if not state.running or not state.tally.inside or state.stop is not None:
        return
    # Losses that only the bench and the air together tell. Readings outside, a stopped fan, conditions and an overdue
    # set are latched by the record itself; the end of the hours and a missing attendant bar for as long as they last.
    # Neither looks at people, so that their register is not read while an attendant waits for "stored".
    instruments = {id: office.instrument(id) for id in state.instruments}
    facts = Facts(permit=state, instruments=instruments, people={}, at=office.now())
    seen = next(chain(lost(facts), unexplained(facts)), None)
    if seen is not None:
        stop = e.StopOrdered(cause=seen.code)
        on_permit(office, permit, stop, by=None, act=f"{act}-stop" if act is not None else None)
