"""The Workbook: eight sheets of one permit in any order, and beside them what still stands in the way."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, cast

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut, QShowEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import rule
from lamproom.desk.parts.obstacle_list import ObstacleList, ObstacleRow
from lamproom.desk.parts.pages import Pages
from lamproom.desk.parts.permit_line import PermitLine
from lamproom.desk.parts.rail import Rail, SheetRow
from lamproom.desk.parts.stray import StrayGuard
from lamproom.desk.theme import Look, Place, look_of
from lamproom.desk.workbook.air_test_sheet import AirTestSheet
from lamproom.desk.workbook.choose_permit import ChoosePermit
from lamproom.desk.workbook.hazards_sheet import HazardsSheet
from lamproom.desk.workbook.instruments_sheet import InstrumentsSheet
from lamproom.desk.workbook.isolation_sheet import IsolationSheet
from lamproom.desk.workbook.people_sheet import PeopleSheet
from lamproom.desk.workbook.permit_sheet import PermitSheet as OpenSheet
from lamproom.desk.workbook.rescue_sheet import RescueSheet
from lamproom.desk.workbook.review_sheet import ReviewSheet
from lamproom.desk.workbook.sheet import Sheet, takes_keys
from lamproom.desk.workbook.space_sheet import SpaceSheet
from lamproom.desk.workbook.state_signs import sign_of, sign_of_sheet
from lamproom.office.views.workbook import WorkbookView, leads_to, subject_of, workbook
from lamproom.words import say

COLUMN = 356
_AFTER_PRESS = 50
_SHEETS: dict[str, Callable[[Desk], QWidget]] = {
    "space": SpaceSheet,
    "hazards": HazardsSheet,
    "isolation": IsolationSheet,
    "instruments": InstrumentsSheet,
    "air-test": AirTestSheet,
    "people": PeopleSheet,
    "rescue": RescueSheet,
    "review": ReviewSheet,
}
_ELSEWHERE = {"bench": "bench", "watch": "watch", "registers": "registers", "site": "registers", "board": "board"}


class PermitSheet(Protocol):
    """What the frame asks of a sheet."""

    def show_permit(self, number: str) -> None:
        """Show a permit."""

    def show_target(self, rest: str) -> None:
        """Put the keyboard on a place within the sheet."""

    def freshen(self) -> None:
        """Paint what changed while it was hidden."""


class WorkbookScreen(QWidget):
    """``show_where(permit=…, target='sheet/place')``; without a permit, the list to choose from.

    Keys: Alt+1 to Alt+8 the sheets, F6 round the columns, Esc back to what stands in the way. When an answer leaves
    nothing to do on a sheet, the next one that waits is turned to.
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._number = ""
        self._key = "space"
        self._view: WorkbookView | None = None
        self._enter_when_shown = False
        self._made: dict[str, QWidget] = {}
        self._shown: dict[str, str] = {}
        self._choose = ChoosePermit(desk)
        self._choose.chosen.connect(lambda number: self.show_where(permit=number))
        self._line = PermitLine()
        self._rail = Rail()
        self._sheets = Pages()
        self._guard = StrayGuard(self._sheets)
        self._obstacles = ObstacleList()
        self._lay_out()
        self._rail.chosen.connect(self._press_sheet)
        self._obstacles.chosen.connect(self.follow)
        desk.changed.connect(lambda _streams: self._refresh())
        desk.ticked.connect(self._tick)
        self._keys()

    def _lay_out(self) -> None:
        others = Button(say("workbook.others"), Kind.LINK, Place.TRAILER)
        others.setObjectName("workbook.others")
        others.clicked.connect(lambda _checked=False: self.choose())
        # Beside the name of the space, where the eye is when it is the wrong one.
        row = self._line.layout()
        assert isinstance(row, QHBoxLayout)
        row.insertWidget(2, others)
        review = Button(say("workbook.review"), Kind.PLAIN, Place.TRAILER, cap=say("workbook.key_review"))
        review.setObjectName("workbook.to-review")
        review.clicked.connect(lambda _checked=False: self._press_sheet("review"))
        self._column = QWidget()
        column = QVBoxLayout(self._column)
        column.setContentsMargins(18, 14, 13, 12)
        column.setSpacing(12)
        column.addWidget(self._obstacles, 1)
        column.addWidget(rule(strong=True))
        column.addWidget(review)
        self._between = rule(vertical=True, strong=True)
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addWidget(self._rail)
        body.addWidget(self._sheets, 1)
        body.addWidget(self._between)
        body.addWidget(self._column)
        permit = QWidget()
        page = QVBoxLayout(permit)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(0)
        page.addWidget(self._line)
        page.addLayout(body, 1)
        self._stack = QStackedWidget()
        self._stack.addWidget(self._choose)
        self._stack.addWidget(permit)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._stack)

    def _keys(self) -> None:
        within = Qt.ShortcutContext.WidgetWithChildrenShortcut
        for at, key in enumerate(_SHEETS, 1):
            shortcut = QShortcut(QKeySequence(f"Alt+{at}"), self, context=within)
            shortcut.activated.connect(lambda key=key: self._press_sheet(key))
        for keys, act in (("F6", self._next_column), ("Escape", self._back)):
            shortcut = QShortcut(QKeySequence(keys), self, context=within)
            shortcut.activated.connect(act)

    # Where ------------------------------------------------------------------------------------------------------------

    @property
    def at(self) -> tuple[str, str]:
        """The permit that is open, empty while one is chosen, and its sheet."""
        return self._number, self._key

    def show_where(self, **where: str) -> None:
        """Show a permit and a place in it; ``new`` shows the spaces for a new permit; nothing keeps what is shown.

        Another permit opens where its work goes on: at what is first in the way, else at its first sheet."""
        other = False
        if where.get("permit"):
            other = where["permit"] != self._number
            if other:
                self._key = "space"  # another permit is begun at its first sheet, not where the last one was left
            self._number = where["permit"]
            self._view = None
        if where.get("new") or where.get("target", "").startswith("new") or not self._number:
            self.choose(new=bool(where.get("new") or where.get("target")))
            return
        self._stack.setCurrentIndex(1)
        target = where.get("target", "") or (self._first_open() if other else "")
        if target:
            self.follow(target)
        else:
            self._press_sheet(self._key)
        self._refresh()

    def _first_open(self) -> str:
        """Where a permit that is opened is worked on: its purpose, else what stands first; empty for the first sheet.
        What is cleared on another screen is not gone to unasked: its subject's sheet is shown beside the list."""
        view = workbook(self._desk.office, self._number)
        if view.authorised or not view.obstacles or any(one.code == "purpose-missing" for one in view.obstacles):
            return ""
        first = view.obstacles[0]
        sheet = subject_of(first.code, first.target)
        if sheet == self._key:
            return ""  # it finds by itself what is open on it
        return first.target if first.target.split("/", 1)[0] in _SHEETS else sheet

    def choose(self, new: bool = False) -> None:
        """Show the list of permits and spaces."""
        self._number = ""
        self._stack.setCurrentIndex(0)
        self._choose.refresh()
        self._choose.focus_first(new)

    def follow(self, target: str) -> None:
        """Go where an obstacle is cleared: a field of a sheet, or another screen."""
        head, _, rest = target.partition("/")
        if head in _ELSEWHERE:
            self._desk.go(_ELSEWHERE[head], permit=self._number, target=rest)
            return
        if head in _SHEETS:
            self.show_sheet(head)
            if rest:
                self.sheet(head).show_target(rest)
            else:
                self._enter_sheet()

    def _lead_on(self) -> None:
        """Turn to what is next, where nothing is left to do on the sheet at hand."""
        if not self.isVisible() or not self._number or self.sender() is not self._made.get(self._key):
            return
        view = workbook(self._desk.office, self._number)
        target = "" if view.authorised else leads_to(view.obstacles, self._key)
        if not target:
            return
        turned = target.split("/", 1)[0] != self._key
        self.follow(target)
        self._refresh()
        if turned:
            self._guard.begin()

    def _press_sheet(self, key: str) -> None:
        self.show_sheet(key)
        self._refresh()
        self._enter_sheet()

    def _enter_sheet(self) -> None:
        """Give the keyboard to the first thing that is open on the sheet, or to its first control."""
        if not self.isVisible():  # nothing takes the keyboard before it is shown, and the rail has no rows yet
            self._enter_when_shown = True
            return
        self._enter_when_shown = False
        sheet = self._made[self._key]
        if isinstance(sheet, Sheet):
            sheet.show_open()
            return
        if isinstance(sheet, OpenSheet) and sheet.show_open():
            return
        first = next((child for child in sheet.findChildren(QWidget) if takes_keys(child)), None)
        (first or self._rail.row(self._key)).setFocus(Qt.FocusReason.OtherFocusReason)

    def show_sheet(self, key: str) -> None:
        """Open a sheet of the permit."""
        self._key = key
        sheet = self.sheet(key)
        if self._shown.get(key) != self._number:
            self._shown[key] = self._number
            sheet.show_permit(self._number)
        else:
            sheet.freshen()
        # The column goes first: both side by side would make the window wider than a station's screen.
        self._column.setVisible(key != "review")
        self._between.setVisible(key != "review")
        self._sheets.setCurrentWidget(cast(QWidget, sheet))
        self._rail.set_current(key)

    def sheet(self, key: str) -> PermitSheet:
        """A sheet, made when it is first asked for."""
        if key not in self._made:
            self._made[key] = made = _SHEETS[key](self._desk)
            self._sheets.addWidget(made)
            if isinstance(made, Sheet | OpenSheet):
                made.finished.connect(self._lead_on)
        return cast(PermitSheet, self._made[key])

    def _back(self) -> None:
        """To what stands in the way; what is typed is committed first, since that may change the list."""
        held = QApplication.focusWidget()
        if held is not None:
            held.clearFocus()
        self._obstacles.focus_first()

    def _next_column(self) -> None:
        focused = QApplication.focusWidget()
        sheet = self._sheets.currentWidget()
        if focused is not None and sheet is not None and self._rail.isAncestorOf(focused):
            self._enter_sheet()
        elif focused is not None and self._sheets.isAncestorOf(focused) and self._column.isVisible():
            self._back()
        else:
            self._rail.row(self._key).setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The column grows with the letters, but leaves the sheet the larger part."""
        super().resizeEvent(event)
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Take the column's width from the look."""
        self._column.setFixedWidth(min(look.px(COLUMN), max(COLUMN, self.width() * 3 // 10)))

    # Painted ----------------------------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """What changed while another screen was open is painted now."""
        super().showEvent(event)
        self._refresh()
        if self._enter_when_shown:
            self._enter_sheet()

    def _tick(self) -> None:
        """Time alone can bar entry: an instrument's readiness lapses, hours end."""
        if self.isVisible() and self._number:
            self._refresh()

    def _refresh(self) -> None:
        if not self.isVisible() or not self._number:
            return
        if QApplication.mouseButtons() != Qt.MouseButton.NoButton:
            # A press on a row commits the field that is left; the row must still be there at the release.
            QTimer.singleShot(_AFTER_PRESS, self._refresh)
            return
        view = workbook(self._desk.office, self._number)
        before = self._view
        if before is None or (before.space, before.state, before.facts) != (view.space, view.state, view.facts):
            self._line.set_permit(view.space, view.place, sign_of(view.state), view.state_words, view.facts)
        self._rail.set_sheets(
            [SheetRow(sheet.key, sheet.name, sign_of_sheet(sheet.standing), sheet.state) for sheet in view.sheets]
        )
        for sheet in view.sheets:
            self._rail.row(sheet.key).setObjectName(f"workbook.sheet.{sheet.key}")
        self._rail.set_current(self._key)
        self._rail.set_foot(view.foot)
        self._obstacles.set_obstacles(
            [ObstacleRow(o.code, o.sentence, o.clears, o.rule, o.target) for o in view.obstacles],
            view.computed,
            "" if view.obstacles or view.authorised else say("desk.nothing_open"),
        )
        self._view = view
