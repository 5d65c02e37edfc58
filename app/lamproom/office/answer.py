"""Answer an item of the form: what was found, or why it does not apply."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def answer(
    office: Office,
    permit: str,
    item: str,
    answer: Literal["yes", "no", "does not apply"],
    found: str = "",
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Answer an item of the form: what was found, or why it does not apply."""
    on_permit(office, permit, e.Answered(item=item, answer=answer, found=found.strip()), by=by, act=act)
