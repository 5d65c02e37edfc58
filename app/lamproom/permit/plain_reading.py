"""Is a stop plainly about the air? Then nobody may find that no prohibited condition arose."""

from __future__ import annotations

from lamproom.permit.state import Permit, outside


def plain_reading(permit: Permit) -> bool:
    """Does an uncorrected reading outside its limit stand behind the stop? Then only one finding is open."""
    stop = permit.stop
    if stop is None:
        return False
    since = [
        s
        for s in permit.sets
        if s.version == stop.set_version
        or s.version >= stop.version
        or any(correction.version >= stop.version for correction in s.corrections)
    ]
    return any(outside(permit.form, s.figures) for s in since if s.event.phase != "upwind")
