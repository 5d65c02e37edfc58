"""Two named people declare that the clock was wrong over some entries."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.office import SITE, Office, ToRecord
from lamproom.permit.site import ClockDeclaredWrong
from lamproom.words import Refusal, sentence


def declare_clock_wrong(
    office: Office,
    first: int,
    last: int,
    watch_says: datetime,
    people: tuple[tuple[str, str], tuple[str, str]],
    *,
    act: str | None = None,
) -> None:
    """Tests, bump tests and authorisations between the two entries count as never done; stops and facts stay.

    ``people`` are two different (person, code) pairs. From here on the watch alone says what time it is.
    """
    if act is not None and office.journal.act(act):
        return
    (one, code_one), (other, code_other) = people
    if one == other:
        raise Refusal(sentence("office.two_people"))
    if not 1 <= first <= last <= office.journal.head().number:
        raise Refusal(sentence("office.no_such_entries", first=first, last=last))
    office.keys.unlock(other, code_other, watch_says)
    signer = office.keys.unlock(one, code_one, watch_says)
    office.start_clock_over(watch_says)
    event = ClockDeclaredWrong(first=first, last=last, second_person=other, watch_says=watch_says)
    office.record([ToRecord(SITE, event)], one, act, signer)
    office.forget()
