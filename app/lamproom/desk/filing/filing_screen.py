"""Filing: question, page, proof, from left to right."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.filing.find_column import FindColumn
from lamproom.desk.filing.page_column import PageColumn
from lamproom.desk.filing.proof_column import ProofColumn
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.theme import Letter, Role
from lamproom.office.export import export_site
from lamproom.office.office import Office
from lamproom.words import say

LEFT = 424
"""Width of the question, logical pixels."""
LEAST = 400
"""Least width of page and proof: all three columns stand on a screen 1280 wide."""


class FilingScreen(QWidget):
    """Find a permit, see its pages, prove it, read its story."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._number = ""
        self._stale = False
        self.ask_export: Callable[[QWidget, str], str] = _ask_export
        self.finding = FindColumn(desk)
        self.finding.setFixedWidth(LEFT)
        self.finding.chosen.connect(self._show)
        self.finding.export_asked.connect(self._export)
        self.page = PageColumn(desk)
        self.page.widened.connect(self._widened)
        self.proof = ProofColumn(desk)
        self._nothing = QWidget()
        waiting = QVBoxLayout(self._nothing)
        waiting.setContentsMargins(24, 60, 24, 24)
        waiting.addWidget(Label(say("filing.nothing_chosen"), Letter.BODY, tone=Role.SECOND, wrap=True))
        waiting.addStretch(1)
        self._line = rule(vertical=True, strong=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for column in (self.page, self.proof):
            column.setMinimumWidth(LEAST)
        row.addWidget(self.finding)
        row.addWidget(rule(vertical=True, strong=True))
        row.addWidget(self._nothing, 20)
        row.addWidget(self.page, 9)
        row.addWidget(self._line)
        row.addWidget(self.proof, 11)
        desk.changed.connect(self._changed)
        self._show_columns()
        self.finding.ask()

    def show_where(self, **where: str) -> None:
        """``permit`` shows that one, ``page`` ("now", "posted", a milestone) that page of it.

        Without them the list is asked anew.
        """
        self.finding.ask()
        number = where.get("permit", "")
        if number:
            self.finding.mark(number)
            self._show(number)
            if where.get("page") and self._number == number:
                self.page.choose(where["page"])

    def _changed(self, streams: object) -> None:
        """A permit changed: list, page and story follow."""
        if not isinstance(streams, frozenset) or not any(stream.startswith("permit/") for stream in streams):
            return
        if not self.isVisible():
            self._stale = True
            return
        self._follow()

    def _follow(self) -> None:
        self._stale = False
        self.finding.ask()
        if self._number:
            self._show(self._number)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened while another place was shown."""
        super().showEvent(event)
        if self._stale:
            self._follow()

    def _show(self, number: str) -> None:
        if not self._desk.do(lambda office: office.permit(number)):
            return
        self._number = number
        self.page.show_permit(number)
        self.proof.show_permit(number)
        self._show_columns()

    def _show_columns(self) -> None:
        chosen = bool(self._number)
        self._nothing.setVisible(not chosen)
        for part in (self.page, self._line, self.proof):
            part.setVisible(chosen)

    def _widened(self, wide: bool) -> None:
        """A page to be read takes the room of the proof."""
        self.proof.setVisible(not wide)
        self._line.setVisible(not wide)

    def _export(self) -> None:
        day = self._desk.office.now().astimezone(self._desk.office.zone).date().isoformat()
        name = self.ask_export(self, say("filing.export_name", day=day))
        if not name:
            return
        files: list[int] = []

        def write(office: Office) -> None:
            files.append(export_site(office, Path(name)).files)

        self.setCursor(Qt.CursorShape.WaitCursor)
        done = self._desk.do(write)
        self.unsetCursor()
        if done:
            self._desk.said.emit("done", say("filing.exported", files=str(files[0]), name=name))


def _ask_export(parent: QWidget, name: str) -> str:
    chosen, _kind = QFileDialog.getSaveFileName(parent, say("filing.export"), name, say("filing.zip_files"))
    return chosen
