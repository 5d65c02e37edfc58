"""Record the evaluation of a space by a named qualified person."""

from __future__ import annotations

from lamproom.office.office import Office, ToRecord
from lamproom.permit.space import SpaceEvaluated


def evaluate_space(
    office: Office, space: str, evaluated: SpaceEvaluated, *, by: str | None, act: str | None = None
) -> None:
    """Record the evaluation of a space by a named qualified person."""
    office.record([ToRecord(f"space/{space}", evaluated)], by, act)
