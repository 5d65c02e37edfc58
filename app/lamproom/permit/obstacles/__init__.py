"""Entry is never a stored flag: it is the absence of obstacles, at this moment, from the record and the clock."""

from __future__ import annotations

from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import atmosphere, exposed, instruments, isolation, people, rescue, route, time
from lamproom.permit.obstacles.obstacle import Found, Obstacle, Stage
from lamproom.permit.obstacles.stages import STAGES

__all__ = ["STAGES", "Found", "Obstacle", "Stage", "barring", "obstacles"]

GROUPS = (time, route, isolation, instruments, atmosphere, exposed, people, rescue)
"""The groups in the order in which a person would mend them."""


def obstacles(facts: Facts) -> tuple[Obstacle, ...]:
    """Everything that stands in the way of any stage, in the order of the groups."""
    added = facts.permit.form.tighten
    waived = route.WAIVED[facts.permit.route]
    return tuple(
        Obstacle(found, STAGES[found.code] | {Stage(stage) for stage in added.get(found.code, ())})
        for group in GROUPS
        for found in group.found(facts)
        if found.code not in waived
    )


def barring(facts: Facts, stage: Stage) -> tuple[Obstacle, ...]:
    """The obstacles that bar one stage; none means that it is allowed at this moment."""
    return tuple(obstacle for obstacle in obstacles(facts) if obstacle.bars(stage))
