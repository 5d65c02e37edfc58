"""Open a permit from a space of the register."""

from __future__ import annotations

from lamproom.bench.happening import Event
from lamproom.office.office import Office, ToRecord
from lamproom.office.permit_change import stream_of
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def open_permit(
    office: Office,
    space: str,
    *,
    by: str | None,
    form: str = "us-general-industry",
    renews: str | None = None,
    route: e.Route = "permit",
    act: str | None = None,
) -> str:
    """A draft from a space, on the form as it stands now. Returns its number: year and a count over the site.

    ``route`` is the lawful way in; whether it is open to this space is an obstacle, not a refusal here.
    ``renews`` is an ended permit of this space: its purpose is copied, nothing that was answered, read or signed.
    Refused for a space that is unknown, retired or never evaluated by a qualified person.
    """
    if act is not None and (before := office.journal.act(act)):
        return before[0].sealed.stream.removeprefix("permit/")
    known = office.space(space)
    if known.registered is None or known.retired is not None:
        raise Refusal(sentence("office.no_space", space=space))
    if known.evaluated is None:
        raise Refusal(sentence("office.not_evaluated", space=known.registered.name))
    _form, text = office.form(form)
    number = next_number(office)
    old = office.permit(renews) if renews is not None else None
    if old is not None and old.ended is None:
        raise Refusal(sentence("office.renews_running", number=old.number))
    if old is not None and old.opened.space != space:
        raise Refusal(sentence("office.renews_other", number=old.number, space=known.registered.name))
    event = e.PermitOpened(
        number=number,
        space=space,
        registered=known.registered,
        evaluated=known.evaluated,
        form=text,
        zone=office.zone.key,
        renews=renews,
        route=route,
    )
    events: list[Event] = [event]
    if old is not None and old.purpose:
        events.append(e.WorkDescribed(purpose=old.purpose))
    office.record([ToRecord(stream_of(number), one) for one in events], by, act)
    return number


def next_number(office: Office) -> str:
    """The next free permit number of this year, by the site's own calendar: 26-0001 and so on."""
    year = office.now().astimezone(office.zone).strftime("%y")
    used = [int(number.split("-")[1]) for number in office.ids("permit") if number.startswith(year + "-")]
    return f"{year}-{max(used, default=0) + 1:04d}"
