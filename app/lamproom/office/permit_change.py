"""Recording on a permit: what may still happen at its point of life, checked once for every act."""

from __future__ import annotations

from lamproom.bench.happening import Event
from lamproom.office.office import Office, ToRecord
from lamproom.permit import events as e
from lamproom.permit.state import ONLY_BEFORE, Permit
from lamproom.record.envelope import Signer
from lamproom.record.journal import Entry
from lamproom.words import Refusal, sentence

_AFTER_ENDED = (
    e.WentOut,
    e.SomeoneWentIn,
    e.SomeoneNamed,
    e.ReadingsTaken,
    e.ReadingCorrected,
    e.ContactMade,
    e.ConditionReported,
    e.StopOrdered,
    e.Relieved,
    e.ClosedOut,
    e.PointReleased,
    e.PageFiled,
    e.Noted,
    e.VentilationStopped,
    e.VentilationStarted,
    e.ConditionCleared,
    e.InstrumentAssigned,
    e.InstrumentReturned,
    e.HoseTested,
    e.RescueConfirmed,
    e.RescueCallTried,
    e.WatchTaken,
)
"""After its end a permit still takes outs, readings, calls, rescue, what serves those inside, notes and corrections,
until it is closed out."""


_AFTER_CLOSED_OUT = (
    e.Noted,
    e.PageFiled,
    e.ReadingCorrected,
    e.StopOrdered,
    e.SomeoneWentIn,
    e.SomeoneNamed,
    e.WentOut,
)
"""Even then someone may go in, or order everyone out: facts are never refused."""


def stream_of(number: str) -> str:
    return f"permit/{number}"


def allowed(permit: Permit, event: Event) -> None:
    """Refuse an event that this point of the permit's life no longer takes; stopping and facts always pass."""
    if permit.closed_out is not None and not isinstance(event, _AFTER_CLOSED_OUT):
        raise Refusal(sentence("office.closed_out", number=permit.number))
    if permit.ended is not None and not isinstance(event, _AFTER_ENDED):
        raise Refusal(sentence("office.ended", number=permit.number))
    if permit.authorised is not None and isinstance(event, ONLY_BEFORE):
        raise Refusal(sentence("office.needs_new_permit", number=permit.number))


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
