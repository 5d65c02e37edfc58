"""Record that an entrant goes in."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.permit.obstacles import Obstacle, Stage, barring
from lamproom.words import Refusal, sentence


class Barred(Refusal):
    """Entry is barred at this moment: the obstacles that stand, each with what clears it."""

    def __init__(self, name: str, standing: tuple[Obstacle, ...]) -> None:
        self.standing = standing
        super().__init__(sentence("office.entry_barred", name=name, first=standing[0].sentence, count=len(standing)))


def go_in(
    office: Office, permit: str, person: str, *, by: str | None, against: bool = False, act: str | None = None
) -> None:
    """The named entrant goes in. Refused while anything bars entry; ``against`` records the fact all the same, with
    the obstacles that stood. Someone not on the permit goes in by ``someone_went_in``."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    name = office.names().get(person, person)
    if person not in state.entrants:
        raise Refusal(sentence("office.not_entrant", name=name))
    if state.tally.is_inside(person):
        raise Refusal(sentence("office.already_inside", name=name))
    standing = barring(office.facts(permit), Stage.ENTER)
    if standing and not against:
        raise Barred(name, standing)
    codes = tuple(dict.fromkeys(obstacle.code for obstacle in standing))
    on_permit(office, permit, e.WentIn(person=person, against=codes), by=by, act=act)
