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
from lamproom.desk.parts.air_picture import AirPicture, WaitView
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, DropList, Option
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.evacuate import EvacuateButton
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.gas_columns import Found, GasColumn
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.keypad import Keypad
from lamproom.desk.parts.label import StateWord
from lamproom.desk.parts.notice import MessageLine, UndoBar
from lamproom.desk.parts.obstacle_list import ObstacleList, ObstacleRow
from lamproom.desk.parts.permit_line import PermitLine
from lamproom.desk.parts.rail import Rail, SheetRow
from lamproom.desk.parts.ready_bar import ReadyAxis, ReadyBar, ReadyRuler
from lamproom.desk.parts.section_drawing import PointMark, SectionView
from lamproom.desk.parts.slip import Slip, SlipLine
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.parts.three_way import Answer, ThreeWay
from lamproom.desk.parts.time_rule import RuleView, TimeRule
from lamproom.desk.parts.top_bar import TopBar
from lamproom.desk.parts.trend import Trend, TrendPoint, TrendView
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


def section(now: bool = True) -> SectionView:
    """The wet well of the pictures: five points, three tested."""
    points = (
        PointMark(0.3, "0.3 m", "09:31"),
        PointMark(1.5, "1.5 m", "09:34"),
        PointMark(2.7, "2.7 m", "09:37"),
        PointMark(3.9, "3.9 m", current=now),
        PointMark(4.6, "4.6 m"),
    )
    return SectionView(4.8, points, liquid=4.3, liquid_words="liquid 4.3 m", inlet=3.3, instrument="07")


def columns() -> list[GasColumn]:
    """Four gases at three depths."""

    def found(*values: str) -> tuple[Found, ...]:
        depths = (0.3, 1.5, 2.7)
        return tuple(Found(d, float(v), v, outside=v == "14") for d, v in zip(depths, values, strict=True))

    return [
        GasColumn("o2", "Oxygen", "% vol", 23.5, (18, 25), "19.5 to 23.5", 19.5, found("20.9", "20.9", "20.1")),
        GasColumn(
            "ch4", "Flammable", "% LEL", 10, (0, 15), "below 10", None, found("0", "0", "3"), "0.55", Sign.RISING
        ),
        GasColumn(
            "h2s", "Hydrogen sulfide", "ppm", 10, (0, 15), "below 10", None, found("0", "1", "14"), "1.18", Sign.FALLING
        ),
        GasColumn(
            "co", "Carbon monoxide", "ppm", 35, (0, 52.5), "below 35", None, found("0", "0", "2"), "0.97", Sign.STEADY
        ),
    ]


def trend() -> TrendView:
    """Hydrogen sulfide with a gap and a late reading."""
    start = 10.5 * 3600
    values = [(0, "1"), (15, "2"), (30, "2"), (64, "2"), (75, "3"), (90, "14")]
    points = tuple(
        TrendPoint(start + m * 60, float(v), v, late=m == 64, outside=v == "14", detail=f"{v} ppm at minute {m}")
        for m, v in values
    )
    return TrendView(
        "Hydrogen sulfide",
        "ppm",
        points,
        (0, 15),
        ((10.0, "10"),),
        start - 300,
        start + 96 * 60,
        900,
        ((start + 15 * 60, "10:45"), (start + 60 * 60, "11:30"), (start + 90 * 60, "12:00")),
        ((start + 20 * 60, Sign.GO_IN, "in"), (start + 92 * 60, Sign.GO_OUT, "out")),
    )


def air() -> QWidget:
    """The air picture at the size of the stage of the workbook."""
    picture = AirPicture()
    picture.set_air(section(), columns())
    picture.set_wait(WaitView(3.9, "0:33", "3.9 m", (("hose", 22), ("flush", 22), ("sensor", 30)), 41))
    return picture


def stage() -> QWidget:
    """The drawing parts: air picture with its wait, slip, rules, trend, bars, table, pad."""
    window = QWidget()
    row = QHBoxLayout(window)
    left, right = QVBoxLayout(), QVBoxLayout()
    row.addLayout(left)
    row.addLayout(right)
    picture = AirPicture()
    picture.set_air(section(), columns())
    picture.set_wait(WaitView(3.9, "0:33", "3.9 m", (("hose", 22), ("flush", 22), ("sensor", 30)), 41))
    picture.choose("o2", 2.7)
    left.addWidget(picture, 1)
    slip = Slip()
    slip.set_slip(
        "Working: oxygen 20.1 % vol at 2.7 m, 09:37",
        [
            SlipLine("Missing oxygen", "20.9 − 20.1", "0.8 % vol"),
            SlipLine("Air pushed out by something", "0.8 ÷ 20.9", "38 300 ppm"),
            SlipLine("Seen as methane, 3 % LEL", "3 % × 5.0 % vol", "1 500 ppm"),
            SlipLine("Seen by no sensor", "± 4 800", "36 800 ppm", total=True),
        ],
        source="by volume; ± 0.1 % vol resolution",
        aside="If it were carbon dioxide: 7.4 times its limit of 5 000 ppm.",
        aside_source="29 CFR 1910.1000, table Z-1",
    )
    left.addWidget(slip)
    for view in (
        RuleView(0, 1320, 440, 900, 1020, "12:00", words="next in 7:40"),
        RuleView(0, 1320, 1120, 900, 1020, words="late 3:40", alarm=True),
    ):
        rule = TimeRule()
        rule.set_view(view)
        right.addWidget(rule)
    plot = Trend()
    plot.set_view(trend())
    right.addWidget(plot, 1)
    axis = ReadyAxis(0, 86400, ((0, "now"), (43200, "22:00"), (86400, "10:00")))
    ruler = ReadyRuler()
    ruler.set_axis(axis)
    right.addWidget(ruler)
    for until in (7000.0, 30000.0, None, 86400.0):
        bar = ReadyBar()
        bar.set_ready(axis, until, "07", "ready")
        right.addWidget(bar)
    table = Table("Readings", ["Point", "Time", "Oxygen", "Carbon monoxide"], choosable=False)

    def number(text: str, bold: bool = False, struck: bool = False) -> Cell:
        return Cell(text, numeric=True, bold=bold, struck=struck)

    table.set_rows(
        [
            [Cell("0.3 m", Sign.WITHIN), "10:04", number("20.9"), number("0")],
            [Cell("1.5 m", Sign.WITHIN), "10:05", number("20.9", bold=True), number("20", struck=True)],
            [Cell("1.5 m", Sign.SHEET), "10:06", number("20.9"), number("2", bold=True)],
        ]
    )
    table.setFixedHeight(150)
    right.addWidget(table)
    choose = Table("Permits", ["Space", "Permit", "Day"], place=Place.OFFICE)
    choose.set_rows(
        [[Cell("Wet well 2", Sign.ENDED, bold=True), "26-0417", "25 Nov"], ["Wet well 1", "26-0391", "11 Nov"]]
    )
    choose.select(0)
    choose.setFixedHeight(140)
    right.addWidget(choose)
    pad = InkPad("Mara Velde")
    pad.pad.set_under("Mara Velde, entry supervisor")
    pad.pad.set_strokes([[(80 + i * 12, 120 + (i * 37) % 70, i * 9) for i in range(40)]])
    right.addWidget(pad)
    line = MessageLine()
    line.say_it(Sign.CAUTION, "The clock of this station is not confirmed; acts of authority wait.")
    right.addWidget(line)
    undo = UndoBar(Place.TRAILER)
    undo.offer("Teo Amadi out 11:52")
    right.addWidget(undo)
    return window


def draw_all(folder: Path, scale: float = 1.0) -> None:
    """Write every picture."""
    made = {
        "small": (small_parts, 460, 1060),
        "portal": (portal_parts, 1280, 800),
        "workbook": (workbook, 1366, 768),
        "stage": (stage, 1300, 1150),
        "air": (air, 722, 430),
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
