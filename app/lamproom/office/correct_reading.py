"""Correct a figure: the old one stays, struck and readable."""

from __future__ import annotations

from lamproom.air.figures import canonical, read_figure
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def correct_reading(
    office: Office,
    permit: str,
    set_version: int,
    gas: str,
    new: str,
    reason: str,
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Put a figure right by a later event that names it. A correction never makes a past decision allowed.

    Refused without a reason, for text that is no figure, for a set or gas not there, and when nothing would change.
    """
    if act is not None and office.journal.act(act):
        return
    new = canonical(read_figure(new))
    if not reason.strip():
        raise Refusal(sentence("office.correction_reason"))
    one = next((s for s in office.permit(permit).sets if s.version == set_version), None)
    figure = one.figure(gas) if one is not None else None
    if figure is None:
        raise Refusal(sentence("office.no_such_reading"))
    old = figure.figure if figure.figure is not None else figure.state
    if old == new:
        raise Refusal(sentence("office.same_figure", figure=new))
    event = e.ReadingCorrected(set_version=set_version, gas=gas, old=old, new=new, reason=reason.strip())
    on_permit(office, permit, event, by=by, act=act)
