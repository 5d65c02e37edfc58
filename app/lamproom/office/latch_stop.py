"""Latch a stop that the station alone can see: what drives people out is not undone by the next good figure."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit.facts import Facts
from lamproom.permit.latching import seen


def latch_stop(office: Office, permit: str, act: str | None) -> None:
    """Order everyone out when, with people inside, such a loss stands and no stop was ordered yet."""
    state = office.permit(permit)
    if not state.running or not state.tally.inside or state.stop is not None:
        return
    # Nobody's register is read while an attendant waits for "stored": the rules behind it look at no people.
    instruments = {id: office.instrument(id) for id in state.instruments}
    stop = seen(Facts(permit=state, instruments=instruments, people={}, at=office.now()))
    if stop is not None:
        on_permit(office, permit, stop, by=None, act=f"{act}-stop" if act is not None else None)
