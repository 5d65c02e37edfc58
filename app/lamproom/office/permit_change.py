"""Recording on a permit: what may still happen at its point of life, checked once for every act."""

from __future__ import annotations

from lamproom.bench.happening import Event
from lamproom.office.office import Office, ToRecord
from lamproom.permit import takes
from lamproom.permit.state import Permit
from lamproom.record.envelope import Signer
from lamproom.record.journal import Entry
from lamproom.words import Refusal


def stream_of(number: str) -> str:
    return f"permit/{number}"


def allowed(permit: Permit, event: Event) -> None:
    """Refuse an event that this point of the permit's life no longer takes; stopping and facts always pass."""
    why = takes.allowed(permit, event)
    if why is not None:
        raise Refusal(why)


def refuse(refused: takes.Refused | None) -> None:
    """Raise why an act is not taken; with the obstacles behind it where there are any."""
    if refused is not None:
        raise Barred(refused) if refused.standing else Refusal(refused.why)


class Barred(Refusal):
    """An act is barred at this moment: the obstacles that stand, each with what clears it."""

    def __init__(self, refused: takes.Refused) -> None:
        self.standing = refused.standing
        super().__init__(refused.why)


def on_permit(
    office: Office,
    number: str,
    *events: Event,
    by: str | None,
    act: str | None = None,
    signer: Signer | None = None,
) -> tuple[Entry, ...]:
    """Record events on a permit as one act. Refused, with why, when the permit no longer takes them."""
    permit = office.permit(number)
    if act is not None and (before := office.journal.act(act)):
        return before
    for event in events:
        allowed(permit, event)
    return office.record([ToRecord(stream_of(number), event) for event in events], by, act, signer)
