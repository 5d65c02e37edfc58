"""State today's level of liquid or sludge."""

from __future__ import annotations

from decimal import Decimal

from lamproom.air.figures import canonical, read_figure
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def state_level(
    office: Office, permit: str, depth_m: str | None, how: str, *, by: str | None, act: str | None = None
) -> None:
    """State how far below the portal today's surface lies (m); None means that the floor is dry.

    Refused for text that is no figure, and when the level lies below the floor: one of the two figures is wrong.
    """
    if depth_m is not None:
        depth_m = canonical(read_figure(depth_m))
    floor = office.permit(permit).opened.registered.depth_m
    if depth_m is not None and Decimal(depth_m) > Decimal(floor):
        raise Refusal(sentence("office.level_below_floor", level=depth_m, floor=floor))
    on_permit(office, permit, e.LevelStated(depth_m=depth_m, how=how.strip()), by=by, act=act)
