"""The table: which obstacle bars which stage. Data, tested cell by cell; a form may add stages, never take one away.

Stay is only for what drives people out at once: a reading at or past a limit; ventilation, isolation, communication,
attendant, rescue cover or the last ready instrument lost; symptoms; a change outside; the end of the hours; a retest
overdue past its second bound; gas unaccounted for; no permit, or one that ended. Paper dates that pass
during an entry bar the next person in.
"""

from __future__ import annotations

from lamproom.permit.obstacles.obstacle import Stage

_A, _E, _S = Stage.AUTHORISE, Stage.ENTER, Stage.STAY
_BEFORE = frozenset({_A, _E})
_ALL = frozenset({_A, _E, _S})
_ENTRY = frozenset({_E})

STAGES: dict[str, frozenset[Stage]] = {
    "purpose-missing": frozenset({_A}),
    "hours-missing": frozenset({_A}),
    "hours-too-long": frozenset({_A}),
    "hours-over": frozenset({_A}),
    "not-authorised": frozenset({_E, _S}),
    "not-begun": _ENTRY,
    "expired": frozenset({_E, _S}),
    "ended": _ALL,
    "on-break": _ENTRY,
    "reendorse": _ENTRY,
    "stopped": _ALL,
    "clock-unconfirmed": _BEFORE,
    "figures-unconfirmed": frozenset({_A}),
    "item-open": _BEFORE,
    "item-answered-against": _BEFORE,
    "hazard-open": _BEFORE,
    "hazard-not-held": _BEFORE,
    "isolation-open": _BEFORE,
    "isolation-not-dead": _BEFORE,
    "isolation-one-person": _BEFORE,
    "opening-not-stated": _BEFORE,
    "condition": _BEFORE,
    "condition-stay": _ALL,
    "fan-missing": _BEFORE,
    "fan-stopped": _ALL,
    "level-missing": _BEFORE,
    "no-air": _BEFORE,
    "lid-not-tested": _BEFORE,
    "base-missing": _BEFORE,
    "point-not-tested": _BEFORE,
    "reading-outside": _ALL,
    "reading-early": _BEFORE,
    "unaccounted": _ALL,
    "gas-unseen": _BEFORE,
    "limit-missing": _BEFORE,
    "verification-old": _BEFORE,
    "retest-late": _ENTRY,
    "retest-overdue": frozenset({_E, _S}),
    "no-instrument": _BEFORE,
    "instrument-lost": frozenset({_E, _S}),
    "instrument-not-ready": _BEFORE,
    "instrument-runs-out": frozenset({_A}),
    "battery-short": frozenset({_A}),
    "hose-not-tested": _BEFORE,
    "set-point-above": _BEFORE,
    "not-continuous": _BEFORE,
    "continuous-lost": frozenset({_E, _S}),
    "no-entrant": frozenset({_A}),
    "no-attendant": _BEFORE,
    "nobody-on-watch": frozenset({_E, _S}),
    "no-supervisor": _BEFORE,
    "not-trained": _BEFORE,
    "two-parts": _BEFORE,
    "not-briefed": _BEFORE,
    "rescue-open": _BEFORE,
    "rescue-over": _ENTRY,
    "call-not-tried": _BEFORE,
    "not-permit-required": frozenset({_A}),
    "review-overdue": frozenset({_A}),
}
