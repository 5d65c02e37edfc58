"""What changed since authorization, when, and by whom: on the permit's page, and on the posted page issued again."""

from __future__ import annotations

from lamproom.office.page.parts import Pages, closed
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.state import Made
from lamproom.words import say, say_count


def changed(pages: Pages) -> tuple[c.Dated, ...]:
    """Amendments after authorization, in order: the posted page is issued again for each. Breaks, stops and
    endorsements stand in blocks of their own."""
    return tuple(c.Dated(pages.clock(made.at), _told(pages, made)) for made in _amendments(pages))


def issued_again(pages: Pages, newest: int) -> tuple[c.Said, ...]:
    """Of the posted page: that it takes the place of an earlier one, and so many changes, the newest; the permit's own
    page has them all. () before the first."""
    permit = pages.permit
    pauses = [made for pause in permit.pauses for made in (pause.begun, pause.ended) if made is not None]
    endorsed = [made for made in permit.signed if isinstance(made.event, e.Reendorsed)]
    made_all = sorted((*_amendments(pages), *pauses, *endorsed), key=lambda made: made.version)
    if permit.authorised is None or not made_all:
        return ()
    shown = made_all[-newest:]
    words = " ".join(say("page.changed_at", time=pages.clock(one.at), what=_told(pages, one)) for one in shown)
    earlier = len(made_all) - len(shown)
    more = (c.Said("", say_count("page.changed_earlier", earlier)),) if earlier else ()
    return (c.Said(say("page.issued_again", version=permit.version), words), *more)


def _amendments(pages: Pages) -> tuple[Made, ...]:
    handed = (made for made in pages.permit.signed if isinstance(made.event, e.SupervisionHandedOver))
    return tuple(sorted((*pages.permit.amended, *handed), key=lambda made: made.version))


def _told(pages: Pages, made: Made) -> str:
    """What changed and by whom; a change of the watch or of supervision names who made it."""
    what = _what(pages, made)
    if isinstance(made.event, e.Relieved | e.SupervisionHandedOver):
        return closed(what)
    return say("page.changed_by", what=what.rstrip("."), name=pages.name(made.by))


def _what(pages: Pages, made: Made) -> str:
    match made.event:
        case e.PersonNamed(person=person, part=part):
            return say("page.amended.named", name=pages.name(person), part=say(f"page.role.{part}"))
        case e.PersonUnnamed(person=person, part=part):
            return say("page.amended.unnamed", name=pages.name(person), part=say(f"page.role.{part}"))
        case e.Relieved(outgoing=outgoing, incoming=incoming):
            return say("page.amended.relieved", incoming=pages.name(incoming), outgoing=pages.name(outgoing))
        case e.SupervisionHandedOver(outgoing=outgoing, incoming=incoming):
            return say("page.amended.handed_over", incoming=pages.name(incoming), outgoing=pages.name(outgoing))
        case e.InstrumentAssigned(registered=registered, duty=duty):
            return say("page.amended.assigned", name=registered.name, duty=say(f"page.duty.{duty}"))
        case e.InstrumentReturned(instrument=instrument, why=why):
            known = pages.permit.instruments.get(instrument)
            name = known.registered.name if known is not None else instrument
            return say("page.amended.returned", name=name, why=say(f"page.returned.{why}"))
        case e.Extended(ends=ends, reason=reason):
            return say("page.amended.extended", ends=pages.clock(ends), reason=reason)
        case e.WorkStepChanged(step=step):
            return say("page.amended.step", step=closed(step))
        case e.BreakBegun():
            return say("page.amended.break_begun")
        case e.BreakEnded():
            return say("page.amended.break_ended")
        case e.Reendorsed():
            return say("page.amended.endorsed")
    return made.event.kind
