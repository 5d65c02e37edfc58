"""Which lawful ways into a space are open today, judged by the permit's own rules on a draft that is never stored."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from lamproom.bench.happening import Happening
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import obstacles
from lamproom.permit.state import begin
from lamproom.words import say

ROUTES: tuple[e.Route, ...] = get_args(e.Route)
_OF_THE_SPACE = ("registers/space", "board/new")
"""Where what the space itself lacks is put right; everything else is done on the permit, on the day."""


@dataclass(frozen=True, slots=True)
class WayIn:
    """One way in: its name, its rule, and why it is not open (empty: it is)."""

    route: e.Route
    name: str
    rule: str
    reasons: tuple[str, ...]

    @property
    def open(self) -> bool:
        return not self.reasons


def ways_in(office: Office, space: str, form: str = "us-general-industry") -> tuple[WayIn, ...]:
    """The three ways into a space as it stands now; none for a space that is not evaluated or no longer entered."""
    known = office.space(space)
    if known.registered is None or known.evaluated is None or known.retired is not None:
        return ()
    _form, text = office.form(form)
    found = []
    for route in ROUTES:
        draft = e.PermitOpened(
            number="",
            space=space,
            registered=known.registered,
            evaluated=known.evaluated,
            form=text,
            zone=office.zone.key,
            route=route,
        )
        at = office.now()
        facts = Facts(begin(Happening("", 1, draft, at)), {}, {}, at)
        reasons = dict.fromkeys(one.sentence.say() for one in obstacles(facts) if one.target.startswith(_OF_THE_SPACE))
        found.append(WayIn(route, say(f"registers.way.{route}"), say(f"registers.way_rule.{route}"), tuple(reasons)))
    return tuple(found)
