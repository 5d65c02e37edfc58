"""Obstacles, rail, bars, tables, slips, notices."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.notice import UNDO_FOR, MessageLine, UndoBar
from lamproom.desk.parts.obstacle_list import _ARROW, ObstacleList, ObstacleRow, Row, _wrapped
from lamproom.desk.parts.permit_line import PermitLine
from lamproom.desk.parts.rail import Rail, SheetRow
from lamproom.desk.parts.slip import Slip, SlipLine
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.parts.top_bar import TopBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Look, Role, Theme, look_of

LEFT = Qt.MouseButton.LeftButton
ROWS = [
    ObstacleRow("a", "Point 3.9 m is not tested.", "Read at 3.9 m", "29 CFR 1910.146(d)(5)", "air/3.9"),
    ObstacleRow("b", "No attendant is named.", "Name one", "29 CFR 1910.146(d)(6)", "people/attendant"),
]


def test_the_title_counts_and_nothing_standing_is_a_finding_with_its_words(stand):
    column = ObstacleList()
    stand(column)
    column.set_obstacles(ROWS)
    assert column.title() == "2 things stand between you and entry"
    column.set_obstacles(ROWS[:1])
    assert column.title() == "1 thing stands between you and entry"
    column.set_obstacles([])
    assert column.title() == "Nothing stands between you and entry"


def test_the_whole_row_takes_the_press_and_leads_to_its_target(qtbot, stand):
    column = ObstacleList()
    stand(column)
    column.set_obstacles(ROWS)
    row = column._rows[1]
    with qtbot.waitSignal(column.chosen) as told:
        QTest.mouseClick(row, LEFT, pos=row.rect().topRight() * 0.9)
    assert told.args == ["people/attendant"]


def test_every_row_is_reached_and_followed_by_keys(qtbot, stand):
    column = ObstacleList()
    stand(column)
    column.set_obstacles(ROWS)
    column.focus_first()
    first, second = column._rows
    qtbot.waitUntil(first.hasFocus)
    QTest.keyClick(first, Qt.Key.Key_Down)
    qtbot.waitUntil(second.hasFocus)
    with qtbot.waitSignal(column.chosen) as told:
        QTest.keyClick(second, Qt.Key.Key_Return)
    assert told.args == ["people/attendant"]


def test_the_keyboard_stays_on_its_obstacle_when_another_is_cleared(qtbot, stand):
    column = ObstacleList()
    stand(column)
    column.set_obstacles(ROWS)
    column._rows[1].setFocus()
    qtbot.waitUntil(column._rows[1].hasFocus)
    column.set_obstacles(ROWS[1:])
    qtbot.waitUntil(column._rows[0].hasFocus)


@pytest.mark.parametrize("width", [260, 356, 500])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_no_row_cuts_its_words(qtbot, stand, width, scale):
    column = ObstacleList()
    long = ObstacleRow("c", "Instrument 07 is ready until 10:20; the permit runs to 15:30. " * 3, "Test", "rule", "x")
    window = stand(column, scale=scale, size=(width, 700))
    column.set_obstacles([long])
    QApplication.processEvents()
    row = column._rows[0]
    prose = row._prose(look_of(window), row.width())
    assert row.height() >= prose.height() + 2 * 8 * scale + 23 * scale
    assert row.height() >= 46


def test_a_row_is_heard_whole(stand):
    column = ObstacleList()
    stand(column)
    column.set_obstacles(ROWS)
    assert column._rows[0].accessibleName() == "Point 3.9 m is not tested. Read at 3.9 m. 29 CFR 1910.146(d)(5)"


def sheets(open_count):
    return [
        SheetRow("space", "Space and work", Sign.WITHIN, "complete 08:41"),
        SheetRow("air", "Air test", Sign.SOME_OPEN, f"{open_count} open"),
    ]


def test_the_rail_names_each_sheet_with_its_state_and_opens_it(qtbot, stand):
    rail = Rail()
    stand(rail)
    rail.set_sheets(sheets(2))
    rail.set_current("space")
    assert rail.row("air").accessibleName() == "Air test, 2 open"
    with qtbot.waitSignal(rail.chosen) as told:
        QTest.mouseClick(rail.row("air"), LEFT)
    assert told.args == ["air"]
    assert rail.current() == "space"  # the screen moves it, not the press


def test_the_rail_keeps_the_keyboard_when_a_state_changes(qtbot, stand):
    rail = Rail()
    stand(rail)
    rail.set_sheets(sheets(2))
    rail.row("space").setFocus()
    QTest.keyClick(rail.row("space"), Qt.Key.Key_Down)
    qtbot.waitUntil(rail.row("air").hasFocus)
    rail.set_sheets(sheets(1))
    assert rail.row("air").hasFocus()
    with qtbot.waitSignal(rail.chosen):
        QTest.keyClick(rail.row("air"), Qt.Key.Key_Return)


def test_the_bar_opens_places_and_shows_what_is_stored(qtbot, stand):
    bar = TopBar([("board", "Board"), ("watch", "Watch")])
    stand(bar)
    bar.set_stored("Stored 09:38:21")
    bar.set_person("Mara Velde, entry supervisor")
    bar.set_clock("Wed 25 Nov 2026", "09:38")
    bar.set_current("board")
    with qtbot.waitSignal(bar.chosen) as told:
        QTest.mouseClick(bar.tab("watch"), LEFT)
    assert told.args == ["watch"]
    shown = {label.text() for label in bar.findChildren(Label)}
    assert {"Stored 09:38:21", "Mara Velde, entry supervisor", "Wed 25 Nov 2026", "09:38"} <= shown


def test_bar_and_permit_line_fit_a_laptop_of_1366(stand):
    bar = TopBar([(n, n) for n in ("Board", "Workbook", "Watch", "Bench", "Filing", "Registers")])
    bar.set_stored("Stored 09:38:21")
    bar.set_person("Mara Velde, entry supervisor")
    bar.set_clock("Wed 25 Nov 2026", "09:38")
    line = PermitLine()
    line.set_permit("Sludge holding tank 3", "Lift station North", Sign.DRAFT, "Draft", ["Permit 26-0417", "10 to 15"])
    stand(bar, line, size=(1366, 300))
    assert bar.minimumSizeHint().width() <= 1366
    assert line.minimumSizeHint().width() <= 1366


def test_a_table_row_is_chosen_by_one_press_and_by_enter(qtbot, stand):
    table = Table("Permits", ["Space", "Permit"])
    stand(table)
    table.set_rows([[Cell("Wet well 2", Sign.ENDED), "26-0417"], ["Wet well 1", "26-0391"]])
    place = table.visualRect(table.model().index(1, 0)).center()
    with qtbot.waitSignal(table.chosen) as told:
        QTest.mouseClick(table.viewport(), LEFT, pos=place)
    assert told.args == [1]
    QTest.keyClick(table, Qt.Key.Key_Up)
    with qtbot.waitSignal(table.chosen) as told:
        QTest.keyClick(table, Qt.Key.Key_Return)
    assert told.args == [0]


def test_a_corrected_value_is_struck_and_heard_as_struck(stand):
    table = Table("Readings", ["CO"], choosable=False)
    stand(table)
    table.set_rows([[Cell("20", struck=True)], [Cell("2", bold=True)]])
    spoken = table.model().data(table.model().index(0, 0), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "struck: 20"
    assert table.letters(look_of(table), table.cell(0, 0)).strikeOut()


def test_a_slip_shows_its_steps_and_its_total_and_closes_by_key(qtbot, stand):
    slip = Slip()
    stand(slip)
    slip.set_slip("Wait", [SlipLine("Hose 6.0 m", "109 mL", "22 s"), SlipLine("Wait", "", "1 min 14 s", total=True)])
    shown = [label.text() for label in slip.findChildren(Label) if label.isVisible()]
    assert "109 mL" in shown and "1 min 14 s" in shown
    slip._close.setFocus()
    with qtbot.waitSignal(slip.closed):
        QTest.keyClick(slip._close, Qt.Key.Key_Space)


def test_a_message_is_announced_to_screen_readers(stand):
    line = MessageLine()
    stand(line)
    line.say_it(Sign.CAUTION, "Reading late since 12:00.", at_once=True)
    assert line.text() == "Reading late since 12:00." and line.isVisible()
    assert QAccessible.queryAccessibleInterface(line) is None or line.accessibleName() == line.text()
    line.clear()
    assert line.text() == ""


def test_undo_stands_for_ten_seconds_and_then_goes(qtbot, stand):
    bar = UndoBar()
    stand(bar)
    assert UNDO_FOR == 10_000
    bar.offer("Teo Amadi out 11:52")
    with qtbot.waitSignal(bar.undone):
        QTest.mouseClick(bar._button, LEFT)
    assert not bar.isVisible()
    bar.offer("Teo Amadi out 11:53")
    bar._timer.setInterval(10)
    with qtbot.waitSignal(bar.gone):
        pass
    assert not bar.isVisible()


def test_the_theme_of_a_window_changes_everything_in_it(stand):
    label = Label("words", tone=Role.SECOND)
    window = stand(label)
    before = label.palette().windowText().color().name()
    dress(window, Look(Theme.SUN, 2.0))
    assert label.palette().windowText().color().name() != before
    assert label.font().bold() and label.font().pixelSize() == 40


def test_digits_have_one_width_so_that_a_clock_does_not_dance(stand):
    label = Label("0", bold=True)
    stand(label)
    metrics = label.fontMetrics()
    assert {metrics.horizontalAdvance(digit * 10) for digit in "0123456789"} == {metrics.horizontalAdvance("1" * 10)}
    assert label.fontInfo().family() == "Atkinson Hyperlegible"


def test_everything_that_takes_the_focus_has_a_name(stand):
    """WCAG 2.2 SC 4.1.2: name, role, value."""
    rail, column, table, slip = Rail(), ObstacleList(), Table("Permits", ["A"]), Slip()
    window = stand(TopBar([("a", "A")]), rail, column, table, slip)
    rail.set_sheets(sheets(1))
    column.set_obstacles(ROWS)
    takers = [w for w in window.findChildren(QWidget) if w.focusPolicy() & Qt.FocusPolicy.TabFocus and w.isVisible()]
    assert len(takers) >= 6
    assert [type(w).__name__ for w in takers if not w.accessibleName()] == []


def test_a_link_leaves_room_for_its_arrow_in_every_width(qtbot):
    """The arrow that says 'leads to' is never cut at the edge of the column."""
    shown = ObstacleRow(
        "x", "Not answered.", "Have a team stand by, or rig retrieval", "29 CFR 1910.146(k)", "rescue/x"
    )
    row = Row(shown)
    qtbot.addWidget(row)
    look = look_of(row)
    metrics = QFontMetricsF(letter(look, Letter.SMALL, True))
    for width in range(200, 420):
        lines = _wrapped(shown.clears, look, True, width, look.px(_ARROW))
        assert all(metrics.horizontalAdvance(line) + look.px(32 + 8 + 14) <= width for line in lines), width
