"""The sign of a permit's state and of a sheet's standing: shapes that never stand without their word."""

from __future__ import annotations

from lamproom.desk.signs import Sign

_STATES = {
    "draft": Sign.DRAFT,
    "ready": Sign.SOME_OPEN,
    "waits": Sign.DUE,
    "allowed": Sign.ALLOWED,
    "due": Sign.DUE,
    "late": Sign.CAUTION,
    "refused": Sign.REFUSED,
    "out": Sign.DANGER,
    "break": Sign.SUSPENDED,
    "expired": Sign.REFUSED,
    "ended": Sign.ENDED,
    "closed": Sign.CLOSED_OUT,
}
_STANDINGS = {"none": Sign.NOT_STARTED, "some": Sign.SOME_OPEN, "complete": Sign.WITHIN, "not-asked": Sign.EQUAL}


def sign_of(state: str) -> Sign:
    """The sign of a permit's state, by the value of its State."""
    return _STATES[state]


def sign_of_sheet(standing: str) -> Sign:
    """The sign of a sheet: not started, some open, complete; neutral where nothing is asked of it."""
    return _STANDINGS[standing]
