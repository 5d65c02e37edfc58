"""The Board: what waits for someone now, what is under way, being prepared, ended today; what falls due next.

Plain values in words, computed from the record and the clock at each call; nothing here is kept.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from lamproom.office.office import Office
from lamproom.office.views.board_cards import Card, Section, card_of
from lamproom.office.views.board_next import NextLine, next_lines
from lamproom.office.views.new_permits import more_openings
from lamproom.office.views.ready_lines import InstrumentLine, instrument_lines
from lamproom.permit.events import Route
from lamproom.permit.state import Permit
from lamproom.permit.words import State
from lamproom.words import say, say_count


@dataclass(frozen=True, slots=True)
class SpaceChoice:
    """What a permit may be opened for: its key, name, what stands beside it, why not (empty: it may).

    The key is the id of the space for an ordinary permit; ``route`` and ``renews`` say otherwise."""

    id: str
    name: str
    note: str
    barred: str
    space: str = ""
    route: Route = "permit"
    renews: str | None = None


@dataclass(frozen=True, slots=True)
class PersonChoice:
    """Someone who may sit at the desk: id, name, their parts in words."""

    id: str
    name: str
    roles: str


@dataclass(frozen=True, slots=True)
class BoardView:
    """Everything the Board shows at ``at`` (UTC). Counts are in words already."""

    at: datetime
    site: str
    overdue: tuple[Card, ...]
    under_way: tuple[Card, ...]
    preparing: tuple[Card, ...]
    ended: tuple[Card, ...]
    overdue_count: str
    under_way_count: str
    preparing_count: str
    ended_count: str
    coming: tuple[NextLine, ...]
    instruments: tuple[InstrumentLine, ...]

    @property
    def empty(self) -> bool:
        """Nothing is open and nothing ended today."""
        return not (self.overdue or self.under_way or self.preparing or self.ended)


def board(office: Office) -> BoardView:
    """The Board as it stands now."""
    at = office.now()
    today = at.astimezone(office.zone).date()
    shown = [office.permit(number) for number in office.ids("permit")]
    shown = [permit for permit in shown if _of_today(permit, today, office)]
    cards = sorted((card_of(office, permit.number, at) for permit in shown), key=lambda card: (card.order, card.number))
    overdue, under_way, preparing, ended = (
        tuple(card for card in cards if card.section is section) for section in Section
    )
    inside = sum(card.inside for card in under_way)
    ordered_out = frozenset(card.number for card in overdue if card.state is State.OUT)
    return BoardView(
        at=at,
        site=office.site.begun.name if office.site.begun else "",
        overdue=overdue,
        under_way=under_way,
        preparing=preparing,
        ended=tuple(reversed(ended)),
        overdue_count=say_count("board.overdue_count", len(overdue)),
        under_way_count=say(
            "board.under_way_count",
            permits=_permits(under_way),
            people=say_count("board.inside_count", inside) if inside else say("board.nobody_inside"),
        ),
        preparing_count=_permits(preparing),
        ended_count=_permits(ended),
        coming=next_lines(office, (permit for permit in shown if permit.ended is None), at, ordered_out),
        instruments=instrument_lines(office, at),
    )


def _of_today(permit: Permit, today: object, office: Office) -> bool:
    closed = permit.closed_out
    return closed is None or closed.at.astimezone(office.zone).date() == today or bool(permit.tally.inside)


def _permits(cards: Iterable[Card]) -> str:
    return say_count("board.permits", len(tuple(cards)))


def spaces(office: Office) -> tuple[SpaceChoice, ...]:
    """Every space of the register by name; one that was never evaluated is listed with why it cannot be chosen."""
    open_here: dict[str, list[str]] = {}
    for number in office.ids("permit"):
        permit = office.permit(number)
        if permit.ended is None:
            open_here.setdefault(permit.opened.space, []).append(number)
    choices = []
    for id in office.ids("space"):
        space = office.space(id)
        if space.registered is None or space.retired is not None:
            continue
        barred = "" if space.evaluated else say("board.not_evaluated")
        numbers = open_here.get(id, [])
        note = (
            say("board.place_and_open", place=space.registered.place, numbers=", ".join(numbers))
            if numbers
            else space.registered.place
        )
        choices.append(SpaceChoice(id, space.registered.name, note, barred, id))
        if not barred:
            choices += [
                SpaceChoice(one.key, one.name, one.note, "", one.space, one.route, one.renews)
                for one in more_openings(office, id)
            ]
    return tuple(sorted(choices, key=lambda choice: choice.name))


def people_for_desk(office: Office, now: str | None = None) -> tuple[PersonChoice, ...]:
    """Everyone with a part at the desk, by name: supervisors, attendants, testers, keepers, the safety office.

    ``now`` is who sits there already; their line says so.
    """
    names = office.names()
    choices = []
    for id in office.ids("person"):
        person = office.person(id)
        parts = [role for role in person.roles if role != "entrant"]
        if person.left or not parts:
            continue
        roles = ", ".join(say(f"permit.role.{role}") for role in parts)
        name = names.get(id, id)
        choices.append(PersonChoice(id, say("board.at_desk", name=name) if id == now else name, roles))
    return tuple(sorted(choices, key=lambda choice: names.get(choice.id, choice.id)))


@dataclass(frozen=True, slots=True)
class Supervision:
    """A running permit whose supervision another supervisor may take over: number, space, who has it now."""

    number: str
    space: str
    holder: str


def supervisions(office: Office, incoming: str) -> tuple[Supervision, ...]:
    """The running permits that someone else supervises, if ``incoming`` is a supervisor; else none."""
    if "supervisor" not in office.person(incoming).roles:
        return ()
    names = office.names()
    running = (office.permit(number) for number in office.ids("permit"))
    return tuple(
        Supervision(p.number, p.opened.registered.name, names.get(p.supervisor, p.supervisor))
        for p in running
        if p.running and p.supervisor is not None and p.supervisor != incoming
    )
