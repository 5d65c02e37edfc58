"""The certificate of a shorter route: date, location, who certifies, on what basis; 29 CFR 1910.146(c)(5), (c)(7)."""

from __future__ import annotations

from collections.abc import Iterator

from lamproom.office.page import course as page_course
from lamproom.office.page.parts import Pages, closed
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.state import Permit
from lamproom.words import say


def certificate(pages: Pages, signatures: tuple[c.Signature, ...]) -> c.Certificate | None:
    """What the route's certificate says, None where the route is a permit's."""
    form = pages.certificate
    if form is None:
        return None
    alternate = form.route == "alternate"
    return c.Certificate(
        kind=form.route,
        title=form.title,
        rule=form.rule,
        statement=form.statement,
        facts=tuple(_facts(pages)),
        signature=certifying(pages.permit, signatures),
        basis=tuple(_alternate_basis(pages) if alternate else _elimination_basis(pages)),
        basis_rule=say(f"page.certificate.basis_rule.{form.route}"),
        hazards=(c.Said(say("page.certificate.register"), _register(pages.permit)),),
        hazards_rule=say(f"page.certificate.hazards_rule.{form.route}"),
        notes=form.notes,
        ends=form.ends,
        ends_rule=form.ends_rule,
    )


def certifying(permit: Permit, signatures: tuple[c.Signature, ...]) -> c.Signature | None:
    """The signature that certifies: the one of the version at which entry was authorized."""
    if permit.authorised is None:
        return None
    return next((one for one in signatures if one.version == permit.authorised.version), None)


def _facts(pages: Pages) -> Iterator[c.Provided]:
    permit, shape = pages.permit, pages.permit.opened.registered
    authorised = permit.authorised.event if permit.authorised is not None else None
    day = pages.local(authorised.begins) if isinstance(authorised, e.Authorised) else None
    yield c.Provided(say("page.certificate.date"), f"{day.day} {day.strftime('%b %Y')}" if day is not None else "")
    yield c.Provided(say("page.certificate.location"), closed(", ".join(x for x in (shape.name, shape.place) if x)))
    yield c.Provided(say("page.certificate.by"), _by(pages))
    yield c.Provided(say("page.certificate.hours"), page_course.life_words(pages))
    yield c.Provided(say("page.certificate.work"), closed(permit.purpose or ""))
    names = ", ".join(pages.name(person) for person in permit.entrants)
    yield c.Provided(say("page.certificate.shown"), closed(names))


def _by(pages: Pages) -> str:
    """Who certified, when, and whether that was before anyone went in."""
    made = pages.permit.authorised
    if made is None:
        return ""
    before = all(trip.came_in >= made.at for trip in pages.permit.tally.trips)
    when = say("page.certificate.before" if before else "page.certificate.not_before")
    return say("page.certificate.certified", name=pages.name(made.by), time=pages.moment(made.at), when=when)


def _alternate_basis(pages: Pages) -> Iterator[c.Said]:
    """(c)(5)(i)(A) to (E): the determination, by whom, and where the data are kept that support it."""
    basis = pages.permit.opened.evaluated.alternate
    if basis is None:
        return
    alone = say("page.certificate.alone" if basis.ventilation_alone else "page.certificate.not_alone")
    decided = say("page.certificate.decided", name=basis.decided_by, day=basis.decided_on.isoformat())
    yield c.Said(alone, decided)
    yield c.Said(say("page.certificate.monitoring"), closed(basis.monitoring))
    yield c.Said(say("page.certificate.inspection"), closed(basis.inspection))


def _elimination_basis(pages: Pages) -> Iterator[c.Said]:
    """(c)(7)(iii): on what it was decided that every hazard is gone, by whom and when."""
    made = pages.permit.basis
    if made is None or not isinstance(made.event, e.BasisStated):
        return
    yield c.Said("", closed(made.event.basis))
    yield c.Said("", say("page.said_by", name=pages.name(made.by), time=pages.moment(made.at)))


def _register(permit: Permit) -> str:
    """What the register answers to the four questions that make a space permit-required: 29 CFR 1910.146(b)."""
    shape = permit.opened.registered
    asked = (
        ("bad_air_possible", shape.bad_air_possible),
        ("engulfment_possible", shape.engulfment_possible),
        ("trapping_shape", shape.trapping_shape),
        ("other_hazard", shape.other_hazard),
    )
    lines = (
        say(f"page.certificate.registered.{'yes' if yes else 'no'}", what=say(f"page.certificate.{key}"))
        for key, yes in asked
    )
    return "; ".join(lines) + "."
