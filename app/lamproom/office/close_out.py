"""Close out a permit: nobody inside, tools counted, space closed off, locks off."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.key_signers import Signer
from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def close_out(
    office: Office,
    permit: str,
    tools: str,
    cover: str,
    locks: str,
    *,
    by: str | None,
    debrief: str = "",
    fire_watch_until: datetime | None = None,
    act: str | None = None,
) -> None:
    """The last act on a permit; its final page is signed by the station. Refused before the end, with anyone inside,
    while it is not said what became of tools, cover and locks (29 CFR 1910.146(d)(12)), without the debriefing where
    another employer's people were on it ((c)(8)(v)), and within half an hour of hot work."""
    if act is not None and office.journal.act(act):
        return
    event = e.ClosedOut(
        tools=tools.strip(),
        cover=cover.strip(),
        locks=locks.strip(),
        debrief=debrief.strip(),
        fire_watch_until=fire_watch_until,
    )
    refuse(takes(office.facts(permit), event, by))
    station: Signer = office.station_signer()
    record_with_page(office, permit, [event], by, "closed-out", station, act)
