"""Set up a site: its name and zone, its certificate authority, its founder, the time confirmed."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from lamproom.office.authority import fingerprint
from lamproom.office.clock import FORWARD_JUMP
from lamproom.office.office import SITE, Office, ToRecord
from lamproom.permit.people import PersonRegistered, PersonTrained, Role
from lamproom.permit.site import SiteBegun, TimeConfirmed
from lamproom.words import Refusal, sentence


def begin_site(
    office: Office,
    name: str,
    zone: str,
    founder: str,
    founder_name: str,
    roles: tuple[Role, ...],
    training: tuple[PersonTrained, ...],
    code: str,
    watch_says: datetime,
    *,
    act: str | None = None,
) -> None:
    """The first act of a site. The founder reads another watch, so that the site begins with a confirmed time.

    Refused when the site has begun, for an unknown zone, an empty name, a weak code, or a watch that
    differs from this machine's clock by more than two minutes.
    """
    if act is not None and office.journal.act(act):
        return
    if office.begun:
        raise Refusal(sentence("office.begun"))
    if not name.strip() or not founder_name.strip():
        raise Refusal(sentence("office.name_missing"))
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError) as error:
        raise Refusal(sentence("office.no_zone", zone=zone)) from error
    apart = abs(office.now() - watch_says)
    if apart > FORWARD_JUMP:
        raise Refusal(sentence("office.clock_off", minutes=int(apart.total_seconds() // 60)))
    if not office.keys.begun:
        office.keys.begin_site(name.strip(), office.station, founder, founder_name.strip(), code, office.now())
    office.journal.put_personal(founder, {"name": founder_name.strip()})
    office.accept_watch(watch_says)
    mark = fingerprint(office.keys.root_certificate())
    begun = SiteBegun(name=name.strip(), zone=zone, authority=mark, founder=founder)
    person = f"person/{founder}"
    wanted = [
        ToRecord(SITE, begun),
        ToRecord(SITE, TimeConfirmed(watch_says=watch_says)),
        ToRecord(person, PersonRegistered(roles=roles)),
        *(ToRecord(person, done) for done in training),
    ]
    office.record(wanted, founder, act)
