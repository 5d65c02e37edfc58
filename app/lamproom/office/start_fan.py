"""Start ventilation: how much air, from where, how a stop would be noticed."""

from __future__ import annotations

from lamproom.air.figures import canonical, read_figure
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def start_fan(
    office: Office,
    permit: str,
    flow_m3_h: str,
    intake: str,
    stop_noticed_by: str,
    power: str = "",
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Start ventilation: how much air, from where, how a stop would be noticed."""
    flow_m3_h = canonical(read_figure(flow_m3_h))
    on_permit(
        office,
        permit,
        e.VentilationStarted(
            flow_m3_h=flow_m3_h,
            intake=intake.strip(),
            stop_noticed_by=stop_noticed_by.strip(),
            power=power.strip(),
        ),
        by=by,
        act=act,
    )
