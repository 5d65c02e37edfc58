"""State why every hazard of a space is gone, for a reclassification."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def state_basis(office: Office, permit: str, basis: str, *, by: str | None, act: str | None = None) -> None:
    """What was inspected and tested that shows the hazards gone, 29 CFR 1910.146(c)(7)(iii)."""
    on_permit(office, permit, e.BasisStated(basis=basis.strip()), by=by, act=act)
