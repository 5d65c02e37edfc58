"""The sheet 'isolation and controls': points, today's level, the opening, the fan, in the order of the walk-round."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.air.figures import read_figure
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.fan_part import FanPart
from lamproom.desk.workbook.isolation_point import IsolationPointLine
from lamproom.desk.workbook.questions import Questions
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet, columns
from lamproom.desk.workbook.stated import Stated
from lamproom.office.open_space import open_space
from lamproom.office.state_level import state_level
from lamproom.office.views.isolation_sheet import IsolationSheetView, isolation_sheet
from lamproom.words import Refusal, say

_DRY = "dry"


class IsolationSheet(Sheet):
    """Points first, then what changes the air."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "isolation", say("workbook.isolation.title"))
        self._view: IsolationSheetView | None = None
        self._lines: dict[str, IsolationPointLine] = {}
        self._unisolable = SaidLine(Sign.MUST, bold=True, side=22)
        self.page.addWidget(self._unisolable)
        self._points = QVBoxLayout()
        self._points.setSpacing(8)
        self._no_points = Label(say("workbook.isolation.no_points"), Letter.SMALL, tone=Role.SECOND)
        self.page.addWidget(self._no_points)
        self.page.addLayout(self._points)
        self._lay_opening()
        self._lay_level()
        self.section(say("workbook.fan.title"))
        self._fan = FanPart(self)
        self.page.addWidget(self._fan)
        self.page.addStretch(1)

    def _lay_opening(self) -> None:
        self.section(say("workbook.opening.title"))
        self._lid = StateWord(Sign.MUST, "", Letter.SMALL, bold=False, side=18)
        self._to_lid = self.button(
            "to-lid",
            say("workbook.opening.to_lid"),
            lambda: self.desk.go("workbook", permit=self.number, target="air-test/lid"),
            Kind.LINK,
        )
        self.page.addLayout(columns(self._lid, self._to_lid, None, middle=True))
        self._questions = Questions(self, self._answered)
        self.page.addWidget(self._questions)
        self._opening = Stated(self, "open", say("workbook.opening.again"))
        self._guarded = self.field("open", Field(say("workbook.opening.guarded")))
        self._open = self.button("open.record", say("workbook.opening.open"), self._record_open)
        self._opening.first = self._guarded.box
        self._opening.fields.addWidget(self._guarded)
        self._opening.fields.addLayout(columns(self._open, None))
        self._guarded.entered.connect(lambda _text: self._record_open())
        self.page.addWidget(self._opening)

    def _lay_level(self) -> None:
        self.section(say("workbook.level.title"))
        self._level = Stated(self, "level", say("workbook.level.again"))
        self._floor = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._depth = FigureField(say("workbook.level.depth"), "m", width=110, error_below=True)
        self.field("level", self._depth)
        self._dry = self.button("level.dry", say("workbook.level.dry"), self._press_dry)
        self._dry.setCheckable(True)
        self._how = self.field("level.how", Field(say("workbook.level.how")))
        self._level.first = self._depth.box
        side = QWidget()
        beside = QVBoxLayout(side)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.setSpacing(2)
        beside.addWidget(self._floor)
        beside.addWidget(self._dry)
        self._level.fields.addLayout(columns(self._depth, side, None, spacing=20))
        self._level.fields.addWidget(self._how)
        self._depth.committed.connect(self._depth_typed)
        self._depth.entered.connect(lambda _text: self._after_depth())
        self._how.committed.connect(lambda _text: self._record_level())
        self._how.entered.connect(lambda _text: self._answered(self._how))
        self.page.addWidget(self._level)

    # Painted ----------------------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Paint what is recorded now."""
        view = isolation_sheet(self.desk.office, self.number)
        self.say_fixed(view.fixed)
        self._unisolable.say_it(Sign.MUST, view.unisolable)
        self._unisolable.setVisible(bool(view.unisolable))
        self._show_points(view)
        self._no_points.setVisible(not view.points)
        self._questions.show_items(view.items, view.bars, view.standing)
        self._lid.set_state(Sign.WITHIN if view.lid_tested else Sign.MUST, view.lid)
        self._lid.setVisible(bool(view.lid))
        self._to_lid.setVisible(bool(view.lid) and not view.lid_tested)
        self._opening.show_stated(view.opening.done, view.opening.note)
        self._level.show_stated(view.level.done, view.level.note)
        self._floor.setText(say("workbook.level.floor", depth=view.depth))
        for field, name in ((self._guarded, "open"), (self._how, "level.how")):
            if not field.box.hasFocus() and field.text() != self.draft(name):
                field.set_draft(self.draft(name))
        self._show_depth()
        self._fan.show_fan(view)
        self._view = view

    def _show_depth(self) -> None:
        kept = self.draft("level")
        self._dry.setChecked(kept == _DRY)
        if not self._depth.box.hasFocus():
            self._depth.set_text("" if kept == _DRY else kept)

    def _show_points(self, view: IsolationSheetView) -> None:
        of = {point.id: point for point in view.points}
        keep_rows(self._points, self._lines, of, lambda id: IsolationPointLine(self, of[id], self._answered))
        for point in view.points:
            self._lines[point.id].show_point(point, view.people)

    # Stated -----------------------------------------------------------------------------------------------------------

    def _record_open(self) -> None:
        guarded = self._guarded.text().strip()
        if not guarded:
            self._guarded.show_error(say("workbook.opening.need"))
            self.reach(self._guarded.box)
            return
        self.keep("open", "")
        if self.record(open_space, guarded, beside=self._guarded):
            self._guarded.set_text("")
            self._opening.stated()
            self._answered(self._opening)
        else:
            self.keep("open", guarded)

    def _press_dry(self) -> None:
        self._dry.setChecked(True)
        self._depth.set_text("")
        self._depth.clear_error()
        self.keep("level", _DRY)
        self.reach(self._how.box)

    def _depth_typed(self, text: str) -> None:
        self.keep("level", text.strip())
        self._dry.setChecked(False)
        if self._how.text().strip():
            self._record_level()

    def _after_depth(self) -> None:
        """To how it was measured; on, where that stood already and the level is recorded by this."""
        if self._level.ask.isVisibleTo(self):
            self.reach(self._how.box)
        else:
            self._answered(self._level)

    def _record_level(self) -> None:
        """Recorded when both stand: the level and how it was measured."""
        how, typed = self._how.text().strip(), self._depth.text().strip()
        if not how:
            return
        self.keep("level.how", how)
        if not typed and not self._dry.isChecked():
            self._depth.show_error(say("workbook.level.need_depth"))
            return
        try:
            depth = None if self._dry.isChecked() else str(read_figure(typed))
        except Refusal as refusal:
            self._depth.show_error(str(refusal))
            return
        kept = self.draft("level")
        self.keep("level", "")
        self.keep("level.how", "")
        if self.record(state_level, depth, how, beside=self._depth):
            self._how.set_text("")
            self._depth.set_text("")
            self._dry.setChecked(False)
            self._level.stated()
        else:
            self.keep("level", kept)
            self.keep("level.how", how)
            self._show_depth()
            self._how.set_text(how)

    def _answered(self, row: QWidget) -> None:
        self.move_on(row, self.open_places())

    def open_places(self) -> list[QWidget]:
        """Points and questions; once the air was tested through the lid also opening, level, fan: what is not yet
        stated."""
        places = [place for line in self._lines.values() if (place := line.open_place()) is not None]
        places += self._questions.open_places()
        if self._view is not None and self._view.lid and not self._view.lid_tested:
            return places
        if self._opening.is_open:
            places.append(self._guarded.box)
        if self._level.is_open:
            places.append(self._depth.box)
        if self._fan.waits:
            places.append(self._fan.place())
        return places

    def place(self, rest: str) -> QWidget | None:
        """A point, the level, the opening, the fan, or a question."""
        if rest in self._lines:
            return self._lines[rest].place()
        if rest == "open":
            return self._guarded.box if self._opening.ask.isVisibleTo(self) else self._opening.change
        if rest == "level":
            return self._depth.box if self._level.ask.isVisibleTo(self) else self._level.change
        return self._fan.place() if rest == "fan" else self._questions.place(rest)
