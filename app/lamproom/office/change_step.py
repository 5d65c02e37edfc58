"""Say that the work goes on to another step."""

from __future__ import annotations

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def change_step(office: Office, permit: str, step: str, *, by: str | None, act: str | None = None) -> None:
    """The next step of the same work begins: what is done now may change the air, so that every point is tested again
    before the next person goes in."""
    if not step.strip():
        raise Refusal(sentence("office.step_words"))
    amend(office, permit, e.WorkStepChanged(step=step.strip()), by=by, act=act)
