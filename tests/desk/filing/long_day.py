"""A permit with everything in its story: a correction, a late reading, a break, a stop, someone unnamed, its end."""

from __future__ import annotations

from pathlib import Path

from tests.desk.board.busy import busy_day
from tests.desk.board.day import CODE, KIT, LENA, MARA, OSKAR, Day

from lamproom.office.begin_break import begin_break
from lamproom.office.close_out import close_out
from lamproom.office.correct_reading import correct_reading
from lamproom.office.end_break import end_break
from lamproom.office.end_permit import end_permit
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.make_contact import make_contact
from lamproom.office.name_someone import name_someone
from lamproom.office.note import note
from lamproom.office.reendorse import reendorse
from lamproom.office.someone_went_in import someone_went_in
from lamproom.permit.facts import points


def long_day(folder: Path) -> tuple[Day, str]:
    """The day, and the number of the permit that has everything."""
    day = busy_day(folder)
    office = day.office
    day.instrument("12")
    number = day.run("S-4", "07:40", "13:30", "12", OSKAR, LENA, KIT)
    day.read(number, "work", "1.5", "12", monoxide="20")
    wrong = office.permit(number).sets[-1].version
    correct_reading(office, number, wrong, "carbon-monoxide", "2", "one nought too many", by=OSKAR)
    make_contact(office, number, by=OSKAR)
    day.wait(minutes=19)
    day.read(number, "work", "1.5", "12")
    for person in (LENA, KIT):
        go_out(office, number, person, by=OSKAR)
    begin_break(office, number, "cover on, guard stays", "locks on", True, by=OSKAR)
    day.wait(minutes=20)
    end_break(office, number, "gate locked as before", by=OSKAR)
    for depth in points(office.permit(number)) or ():
        day.read(number, "after-break", str(depth), "12")
    reendorse(office, number, MARA, CODE, day.ink(MARA))
    go_in(office, number, LENA, by=OSKAR)
    day.wait(minutes=9)
    label = someone_went_in(office, number, by=OSKAR)
    name_someone(office, number, label, "a painter from the road crew", "unauthorised", by=OSKAR)
    go_out(office, number, label, by=OSKAR)
    day.wait(minutes=3)
    day.read(number, "work", "1.5", "12", sulfide="14")
    day.wait(minutes=1)
    go_out(office, number, LENA, by=OSKAR)
    reason = "Sludge was stirred up. Empty the silo before the next entry."
    end_permit(office, number, "prohibited-condition", reason, MARA, CODE, day.ink(MARA))
    close_out(office, number, "all 9 tools counted", "cover on and locked", "locks off", by=MARA)
    note(office, number, "Copy sent to the union delegate.", by="P-07")
    return day, number
