"""Two moments of the invented day: one where everything is calm but full, one where something waits for someone."""

from __future__ import annotations

from pathlib import Path

from tests.desk.board.day import CODE, KIT, LENA, MARA, NIA, OSKAR, TEO, Day

from lamproom.office.close_out import close_out
from lamproom.office.end_permit import end_permit
from lamproom.office.go_out import go_out
from lamproom.office.order_stop import order_stop


def busy_day(folder: Path) -> Day:
    """One ended, one running with one inside, one refused, two drafts."""
    day = Day(folder)
    done = day.run("S-1", "06:30", "10:00", "07", OSKAR, LENA)
    day.read(done, "work", "1.5", "07")
    go_out(day.office, done, LENA, by=OSKAR)
    end_permit(day.office, done, "work-complete", "", MARA, CODE, None)
    close_out(day.office, done, "all 6 tools counted", "cover on", "locks off", by=MARA)
    running = day.run("S-3", "06:55", "12:00", "11", NIA, KIT)
    day.read(running, "work", "1.5", "11")
    refused = day.open("S-2", "07:00", "11:00")
    day.prepare(refused, "08", OSKAR, TEO)
    day.authorise(refused)
    day.bump("08", alarm_s=None)
    day.at("07:20")
    day.read(running, "work", "1.5", "11")
    day.at("07:26")
    day.open("S-4", "10:00", "15:30")
    first = day.open("S-1", "13:00", "17:00")
    day.prepare(first, "03", OSKAR)
    day.call(running)
    return day


def silent_day(folder: Path) -> Day:
    """The busy day with nobody inside heard for longer than the form allows, while the air is known."""
    day = busy_day(folder)
    day.read(day.running(), "work", "1.5", "11")
    day.wait(minutes=11)
    return day


def late_day(folder: Path) -> Day:
    """A reading late with two inside, and another permit where everyone was ordered out."""
    day = busy_day(folder)
    late = day.run("S-2", "07:32", "11:30", "07", OSKAR, TEO, LENA)
    day.read(late, "work", "1.5", "07")
    day.read(day.running(), "work", "1.5", "11")
    day.wait(minutes=14)
    day.read(day.running(), "work", "1.5", "11")
    day.call(late)
    order_stop(day.office, day.running(), by=NIA)
    day.wait(minutes=4, seconds=10)
    return day
