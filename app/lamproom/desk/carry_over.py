"""A permit that follows another: opened in one press, with the descriptions of the one before as half-typed text."""

from __future__ import annotations

from lamproom.desk.desk import Desk
from lamproom.office.office import Office
from lamproom.office.open_permit import open_permit
from lamproom.office.views.new_permits import descriptions, more_openings
from lamproom.permit.events import Route


def carry_over(desk: Desk, number: str) -> None:
    """Keep each description as a draft of its field; whoever prepares the permit reads it and records it anew."""
    for key, text in descriptions(desk.office, number).items():
        desk.keep_draft(f"permit/{number}", f"workbook.{key}", text)


def open_draft(desk: Desk, space: str, renews: str | None, route: Route, act: str | None = None) -> str:
    """Open a permit in the name of the person at the desk, with what it carries over; its number, empty if refused."""
    opened: list[str] = []

    def do(office: Office) -> None:
        opened.append(open_permit(office, space, by=desk.person, renews=renews, route=route, act=act))

    if not desk.do(do):
        return ""
    carry_over(desk, opened[0])
    return opened[0]


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
    opened = open_draft(desk, after.space, after.renews, after.route)
    if opened:
        desk.go("workbook", permit=opened)
