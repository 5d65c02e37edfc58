"""A permit that follows another: opened in one press, with the descriptions of the one before as half-typed text."""

from __future__ import annotations

from lamproom.desk.desk import Desk
from lamproom.office.office import Office
from lamproom.office.open_permit import open_permit
from lamproom.office.views.new_permits import descriptions, more_openings


def carry_over(desk: Desk, number: str) -> None:
    """Keep each description as a draft of its field; whoever prepares the permit reads it and records it anew."""
    for key, text in descriptions(desk.office, number).items():
        desk.keep_draft(f"permit/{number}", f"workbook.{key}", text)


def may_follow(office: Office, number: str) -> bool:
    """May a new permit for the same work still be opened after this one?"""
    space = office.permit(number).opened.space
    return any(one.renews == number for one in more_openings(office, space))


def begin_again(desk: Desk, number: str, person: str | None) -> None:
    """Open a permit that follows this one, in the name of whoever will prepare it, and show it in the Workbook."""
    space = desk.office.permit(number).opened.space
    after = next((one for one in more_openings(desk.office, space) if one.renews == number), None)
    if after is None:
        desk.go("board", permit=number, target="new")
        return
    if person is not None and person != desk.person:
        desk.set_person(person)
    opened: list[str] = []

    def act(office: Office) -> None:
        opened.append(open_permit(office, after.space, by=desk.person, renews=after.renews, route=after.route))

    if desk.do(act):
        carry_over(desk, opened[0])
        desk.go("workbook", permit=opened[0])
