"""Who: entrants, attendant, supervisor; trained, briefed, apart."""

from __future__ import annotations

from collections.abc import Iterator

from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.people import trained
from lamproom.words import sentence


def found(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if not permit.entrants:
        yield Found(
            "no-entrant",
            sentence("permit.no_entrant"),
            "29 CFR 1910.146(f)(4)",
            sentence("permit.clears.entrant"),
            "people/entrants",
        )
    if not permit.attendants:
        yield Found(
            "no-attendant",
            sentence("permit.no_attendant"),
            "29 CFR 1910.146(d)(6)",
            sentence("permit.clears.attendant"),
            "people/attendant",
        )
    if permit.supervisor is None:
        yield Found(
            "no-supervisor",
            sentence("permit.no_supervisor"),
            "29 CFR 1910.146(f)(6)",
            sentence("permit.clears.supervisor"),
            "people/supervisor",
        )
    watching = permit.attendant
    if permit.running and (watching is None or permit.tally.is_inside(watching)):  # who is inside watches nobody
        yield Found(
            "nobody-on-watch",
            sentence("permit.nobody_on_watch"),
            "29 CFR 1910.146(d)(6)",
            sentence("permit.clears.watch"),
            "watch/take",
        )
    yield from _strangers(facts)
    yield from _elsewhere(facts)
    yield from _training(facts)
    for person in permit.attendants:
        if person in permit.entrants:
            yield Found(
                "two-parts",
                sentence("permit.two_parts", name=facts.name(person)),
                "29 CFR 1910.146(i)(4)",
                sentence("permit.clears.two_parts"),
                "people/attendant",
                person,
            )
    for person in (*permit.entrants, *permit.attendants):
        if person not in permit.briefed:
            yield Found(
                "not-briefed",
                sentence("permit.not_briefed", name=facts.name(person)),
                "29 CFR 1910.146(d)(5)(vi), (h)(1), (i)(1)",
                sentence("permit.clears.brief"),
                "people/briefing",
                person,
            )


def _strangers(facts: Facts) -> Iterator[Found]:
    """Someone inside who is not on the permit is told to leave before anyone else goes in: 1910.146(i)(8)."""
    for trip in facts.permit.tally.inside:
        if trip.unknown:
            yield Found(
                "stranger-inside",
                sentence("permit.stranger_inside", name=trip.name or facts.name(trip.who)),
                "29 CFR 1910.146(i)(8), (j)(5)",
                sentence("permit.clears.stranger"),
                "watch/tally",
                trip.who,
            )


def _elsewhere(facts: Facts) -> Iterator[Found]:
    """One attendant may watch several spaces only where the form allows it: 1910.146(d)(6), note."""
    permit = facts.permit
    watching = (permit.attendant,) if permit.attendant is not None else permit.attendants
    most = permit.form.spaces_per_attendant
    there = {id: [other for other in facts.others if other.attendant == id] for id in watching}
    if watching and all(len(others) + 1 > most for others in there.values()):
        busy = watching[0]
        yield Found(
            "attendant-elsewhere",
            sentence(
                "permit.attendant_elsewhere",
                name=facts.name(busy),
                number=there[busy][0].number if there[busy] else "?",
            ),
            "29 CFR 1910.146(d)(6)",
            sentence("permit.clears.elsewhere"),
            "people/attendant",
            busy,
        )


def _training(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    day = facts.at.astimezone(permit.zone).date()
    parts = [(p, "entrant") for p in permit.entrants] + [(p, "attendant") for p in permit.attendants]
    if permit.supervisor is not None:
        parts.append((permit.supervisor, "supervisor"))
    for id, role in parts:
        person = facts.people.get(id)
        if person is None or not trained(person, role, day):
            yield Found(
                "not-trained",
                sentence("permit.not_trained", name=facts.name(id), role=sentence(f"permit.role.{role}")),
                "29 CFR 1910.146(g)",
                sentence("permit.clears.train", name=facts.name(id)),
                f"people/{role}",
                f"{id}/{role}",
            )
