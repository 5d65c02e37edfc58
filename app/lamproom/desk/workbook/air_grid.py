"""The air before entry as a small table: a row for each point, the limits below, what is outside signed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.air_table import AirTable
from lamproom.words import say

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom


def air_grid(air: AirTable, big: bool = False) -> QWidget:
    """The table; ``big`` for people who stand before the screen."""
    body, head = (Letter.BIG, Letter.TABLE) if big else (Letter.TABLE, Letter.SMALL)
    box = QWidget()
    grid = QGridLayout(box)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(14)
    grid.setVerticalSpacing(6 if big else 1)
    if not air.rows:
        grid.addWidget(Label(say("sheets.review.no_points"), Letter.TABLE, wrap=True), 0, 0)
        return box
    heads = [(say("sheets.review.depth"), say("sheets.review.depth_unit")), (say("sheets.review.time"), ""), *air.gases]
    for column, (name, unit) in enumerate(heads):
        text = Label(name.replace(" ", "\n", 1), head, bold=True)
        text.setAlignment(_RIGHT if column else Qt.AlignmentFlag.AlignBottom)
        grid.addWidget(text, 0, column)
        side = _RIGHT if column else Qt.AlignmentFlag.AlignLeft
        grid.addWidget(Label(unit, head, tone=Role.SECOND), 1, column, side)
        grid.setColumnStretch(column, 2 if column > 1 else 1)
    grid.addWidget(rule(strong=True), 2, 0, 1, len(heads))
    for at, (depth, time, figures) in enumerate(air.rows):
        grid.addWidget(Label(depth, body, bold=big), at + 3, 0)
        grid.addWidget(Label(time, head if big else body, tone=Role.SECOND), at + 3, 1, _RIGHT)
        for column, figure in enumerate(figures):
            cell: QWidget = Label(figure, body, bold=True)
            if (at, column) in air.out:
                cell = StateWord(Sign.DANGER, figure, body, side=26 if big else 18)
            grid.addWidget(cell, at + 3, column + 2, _RIGHT)
    last = len(air.rows) + 3
    grid.addWidget(rule(strong=True), last, 0, 1, len(heads))
    grid.addWidget(Label(say("sheets.review.limit"), head, tone=Role.SECOND), last + 1, 0)
    for column, limit in enumerate(air.limits):
        grid.addWidget(Label(limit, head, tone=Role.SECOND), last + 1, column + 2, _RIGHT)
    return box
