"""Record in one tap that someone not on the permit went in."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def someone_went_in(office: Office, permit: str, *, by: str | None, act: str | None = None) -> str:
    """A fact, never refused, never judged. Returns the label ('unknown 1') under which the tally counts the person."""
    label = f"unknown {office.permit(permit).tally.unknowns + 1}"
    on_permit(office, permit, e.SomeoneWentIn(label=label), by=by, act=act)
    return label
