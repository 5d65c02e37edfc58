"""Paints the shared parts in the three themes to PNG files, to be looked at: ``python gallery.py FOLDER``."""

from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter, load_fonts
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, DropList, Option
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.evacuate import EvacuateButton
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.keypad import Keypad
from lamproom.desk.parts.label import StateWord
from lamproom.desk.parts.obstacle_list import ObstacleList, ObstacleRow
from lamproom.desk.parts.permit_line import PermitLine
from lamproom.desk.parts.rail import Rail, SheetRow
from lamproom.desk.parts.three_way import Answer, ThreeWay
from lamproom.desk.parts.top_bar import TopBar
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Place, Role, Theme, look_of

PLACES = ("Board", "Workbook", "Watch", "Bench", "Filing", "Registers")
SHEETS = [
    SheetRow("space", "Space and work", Sign.WITHIN, "complete 08:41"),
    SheetRow("hazards", "Hazards", Sign.WITHIN, "complete 08:55"),
    SheetRow("isolation", "Isolation and controls", Sign.WITHIN, "complete 09:18"),
    SheetRow("instruments", "Instruments", Sign.SOME_OPEN, "1 open"),
    SheetRow("air", "Air test", Sign.SOME_OPEN, "2 open"),
    SheetRow("people", "People", Sign.SOME_OPEN, "1 open"),
    SheetRow("rescue", "Rescue and call", Sign.SOME_OPEN, "1 open"),
    SheetRow("review", "Review & authorize", Sign.NOT_STARTED, "not started"),
]
OBSTACLES = [
    ObstacleRow(
        "air.untested", "Points 3.9 m and 4.6 m are not tested.", "Read at 3.9 m", "29 CFR 1910.146(d)(5)", "air/3.9"
    ),
    ObstacleRow(
        "air.unseen",
        "At 2.7 m, 36 800 ppm of gas that no sensor here sees.",
        "Assign a method",
        "common practice",
        "hazards/co2",
    ),
    ObstacleRow(
        "instruments.runs_out",
        "Instrument 07 is ready until 10:20; the permit runs to 15:30.",
        "Bump test again",
        "site rule 6",
        "instruments/07",
    ),
    ObstacleRow("people.attendant", "No attendant is named.", "Name one", "29 CFR 1910.146(d)(6)", "people/attendant"),
    ObstacleRow(
        "rescue.call",
        "The rescue call has not been tried today.",
        "Try the call",
        "29 CFR 1910.146(j)(4)",
        "rescue/call",
    ),
]
STATES = [
    (Sign.DRAFT, "Draft"),
    (Sign.SOME_OPEN, "5 before entry"),
    (Sign.REFUSED, "Entry barred"),
    (Sign.ALLOWED, "Entry allowed"),
    (Sign.DUE, "Reading due"),
    (Sign.CAUTION, "Reading late"),
    (Sign.DANGER, "Everyone out"),
    (Sign.SUSPENDED, "Suspended"),
    (Sign.ENDED, "Ended"),
    (Sign.CLOSED_OUT, "Closed out"),
    (Sign.WITHIN, "Within limits"),
    (Sign.NOT_MEASURED, "Not measured"),
    (Sign.FAULT, "Sensor fault"),
    (Sign.MUST, "Wear harness"),
]


class SignSheet(QWidget):
    """Every sign, plain and in one ink."""

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        for at, sign in enumerate(Sign):
            x, y = 12 + at % 9 * 56, 8 + at // 9 * 56
            draw_sign(painter, QRectF(x, y, 40, 40), sign, look.theme)
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(12, 250, "0123456789 1111 0000")


def small_parts() -> QWidget:
    """One column of the small parts."""
    column = QWidget()
    page = QVBoxLayout(column)
    page.setContentsMargins(16, 16, 16, 16)
    page.setSpacing(10)
    place = Place.TRAILER
    row = QHBoxLayout()
    focused = Button("Calibrate", place=place)
    silent = Button("Silence", place=place)
    silent.set_available(False, "no alarm sounds")
    for button in (Button("Print", place=place), Button("Store", Kind.MAIN, place), focused, silent):
        row.addWidget(button)
    row.addStretch(1)
    page.addLayout(row)
    row = QHBoxLayout()
    row.addWidget(Button("Add a hazard", place=place, sign=Sign.PLUS))
    row.addWidget(Button("Review", place=place, cap="Alt 8"))
    row.addWidget(Button("As a table", Kind.LINK))
    row.addStretch(1)
    page.addLayout(row)
    field = Field("Oxygen at 2.7 m", "% vol", width=130, bold=True)
    field.set_text("2O.9")
    field.show_error("The letter O is not a number. Type 20.9 or 20,9.")
    page.addWidget(field)
    long = Field("Work", hint="what, with which tools", optional=True, lines=3)
    long.set_text("Replace the float switch & its bracket <b>hand tools</b>.")
    page.addWidget(long)
    code = Field("Your code", secret=True)
    code.set_text("135790")
    page.addWidget(code)
    check = ThreeWay("Inlet valve V 12 locked shut?", found="Lock number")
    check.set_answer(Answer.YES, found="14")
    check.set_note("found 09:11, I. Brask")
    page.addWidget(check)
    page.addWidget(ThreeWay("Fan running and drawing from clean air?"))
    states = QWidget()
    grid = QVBoxLayout(states)
    grid.setContentsMargins(0, 0, 0, 0)
    for at in range(0, len(STATES), 3):
        line = QHBoxLayout()
        for sign, word in STATES[at : at + 3]:
            line.addWidget(StateWord(sign, word, Letter.SMALL), 1)
        grid.addLayout(line)
    page.addWidget(states)
    choice = Choice(
        "Who is the attendant?",
        [
            Option("a", "Oskar Wren", "trained until March 2027"),
            Option("b", "Nia Falk", barred="training ran out 1 Sep 2026"),
        ],
    )
    choice.set_values(["a"])
    page.addWidget(choice)
    many = Choice("", [Option("a", "Harness"), Option("b", "Winch")], many=True, across=True)
    many.set_values(["b"])
    page.addWidget(many)
    drop = DropList("Space", [Option("w2", "Wet well 2", "Lift station North")])
    drop.set_value("w2")
    page.addWidget(drop)
    page.addStretch(1)
    column.focus_me = focused  # type: ignore[attr-defined]
    return column


def portal_parts() -> QWidget:
    """The keypad and the bottom row of the portal."""
    page = QWidget()
    box = QVBoxLayout(page)
    box.setContentsMargins(24, 12, 24, 12)
    box.addWidget(SignSheet(), 1)
    row = QHBoxLayout()
    row.addWidget(Keypad())
    row.addStretch(1)
    box.addLayout(row)
    row = QHBoxLayout()
    row.setSpacing(12)
    row.addWidget(Button("New reading", Kind.MAIN, Place.PORTAL, sign=Sign.PLUS, hint="F2"))
    row.addWidget(Button("Log, correct", place=Place.PORTAL, sign=Sign.SHEET, hint="F5"))
    quiet = Button("Silence", place=Place.PORTAL, sign=Sign.BELL, hint="F4")
    quiet.set_available(False)
    row.addWidget(quiet)
    row.addWidget(Button("OUT", place=Place.PORTAL, sign=Sign.GO_OUT))
    row.addSpacing(39)
    row.addWidget(EvacuateButton())
    box.addLayout(row)
    return page


def workbook() -> QWidget:
    """Bar, permit line, rail and obstacle column as on a laptop of 1366 x 768."""
    window = QWidget()
    page = QVBoxLayout(window)
    page.setContentsMargins(0, 0, 0, 0)
    page.setSpacing(0)
    bar = TopBar([(name.lower(), name) for name in PLACES])
    bar.set_current("workbook")
    bar.set_stored("Stored 09:38:21")
    bar.set_person("Mara Velde, entry supervisor")
    bar.set_clock("Wed 25 Nov 2026", "09:38")
    page.addWidget(bar)
    line = PermitLine()
    facts = ["Permit 26-0417", "Planned 10:00 to 15:30"]
    line.set_permit("Wet well 2", "Lift station North", Sign.DRAFT, "Draft", facts)
    page.addWidget(line)
    row = QHBoxLayout()
    row.setSpacing(0)
    rail = Rail()
    rail.set_sheets(SHEETS)
    rail.set_current("air")
    rail.set_foot("Form: US general industry, site rules 3 Nov 2026")
    row.addWidget(rail)
    row.addStretch(1)
    side = QWidget()
    side.setFixedWidth(356)
    column = QVBoxLayout(side)
    obstacles = ObstacleList()
    obstacles.set_obstacles(OBSTACLES, "computed 09:38:40 from what is recorded")
    column.addWidget(obstacles)
    column.addWidget(Button("Review and authorize", cap="Alt 8"))
    row.addWidget(side)
    page.addLayout(row, 1)
    window.focus_me = obstacles  # type: ignore[attr-defined]
    return window


def draw_all(folder: Path, scale: float = 1.0) -> None:
    """Write every picture."""
    made = {
        "small": (small_parts, 460, 1060),
        "portal": (portal_parts, 1280, 800),
        "workbook": (workbook, 1366, 768),
    }
    for theme in Theme:
        for name, (build, wide, high) in made.items():
            window = build()
            dress(window, Look(theme, scale))
            window.resize(wide, high)
            window.show()
            target = getattr(window, "focus_me", None)
            if isinstance(target, ObstacleList):
                target.focus_first()
            elif target is not None:
                target.setFocus()
            QApplication.processEvents()
            window.grab().save(str(folder / f"{name}-{theme.value}.png"))
            window.close()


if __name__ == "__main__":
    application = QApplication([])
    load_fonts()
    out = Path(sys.argv[1])
    out.mkdir(parents=True, exist_ok=True)
    draw_all(out, float(sys.argv[2]) if len(sys.argv) > 2 else 1.0)
