"""A page of questions: labelled fields and choices in one column, everything typed kept as a draft until recorded.

It knows no rule: a view reads the answers and gives back the troubles, which stand beside their questions.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QGridLayout,
    QHBoxLayout,
    QLayout,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Choice, DropList, Option
from lamproom.desk.parts.dress import Worn
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.parts.three_way import Answer, ThreeWayBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.words import say


class YesNo(QWidget):
    """A check in one line: the question, yes and no at the right; nothing preset."""

    def __init__(self, question: str, hint: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bar = ThreeWayBar(question, may_not_apply=False)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addStretch(1)
        words.addWidget(Label(question, Letter.TABLE, wrap=True))
        if hint:
            words.addWidget(Label(hint, Letter.SMALL, tone=Role.SECOND, wrap=True))
        words.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addLayout(words, 1)
        row.addWidget(self.bar, 0, Qt.AlignmentFlag.AlignVCenter)
        self.setAccessibleName(question)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)


_Question = Field | Choice | DropList | YesNo


def _bare(field: Field) -> None:
    """Without its caption: a head over the column says it; a screen reader is told by the box."""
    grid = field.layout()
    top = grid.itemAtPosition(0, 0) if isinstance(grid, QGridLayout) else None
    line = top.layout() if top is not None else None
    for at in range(line.count() if line is not None else 0):
        item = line.itemAt(at) if line is not None else None
        widget = item.widget() if item is not None else None
        if widget is not None:
            widget.hide()


class Questions(QWidget):
    """Questions under each other. ``owner`` names the drafts, ``name`` begins the object names of the controls.

    Signal: ``answered(str)``, the key of the question just answered.
    """

    answered = Signal(str)

    def __init__(self, desk: Desk, owner: str, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._owner, self._name = desk, owner, name
        self._asked: dict[str, _Question] = {}
        self._beside: dict[str, StateWord] = {}
        self._secret: set[str] = set()
        self.troubled = ""
        """The first question in trouble; empty while none is."""
        self.setProperty("ground", "clear")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 12, 8)
        self._column.setSpacing(14)
        self._row: QHBoxLayout | None = None
        self._trouble = MessageLine()
        self._trouble.setObjectName(f"{name}.trouble")

    def showEvent(self, event: QShowEvent) -> None:
        """Dress everything: what was measured before its window was known still wears another look."""
        super().showEvent(event)
        look = look_of(self)
        for child in self.findChildren(QWidget):
            if isinstance(child, Worn):
                child.wear(look)

    # Laying out -------------------------------------------------------------------------------------------------------

    def head(self, words: str) -> None:
        """A heading."""
        self.side_by_side_ends()
        self._column.addWidget(Label(words, Letter.HEAD, bold=True, wrap=True))

    def note(self, words: str) -> Label:
        """A sentence that explains."""
        label = Label(words, Letter.SMALL, tone=Role.SECOND, wrap=True)
        self.add(label)
        return label

    def side_by_side(self, spacing: int = 16) -> None:
        """What is asked from here stands in one row, until ``side_by_side_ends``."""
        self.side_by_side_ends()
        self._row = QHBoxLayout()
        self._row.setSpacing(spacing)
        self._column.addLayout(self._row)

    def side_by_side_ends(self) -> None:
        """The next question stands under the row."""
        if self._row is not None:
            self._row.addStretch(1)
        self._row = None

    def add(self, widget: QWidget) -> None:
        """Anything else in its place."""
        if self._row is not None:
            self._row.addWidget(widget, 0, Qt.AlignmentFlag.AlignTop)
        else:
            self._column.addWidget(widget)

    def add_layout(self, layout: QLayout) -> None:
        """Several widgets in their own order."""
        self.side_by_side_ends()
        self._column.addLayout(layout)

    def end(self) -> None:
        """The place where troubles without a question are said, and the room that is left."""
        self.side_by_side_ends()
        self._column.addWidget(self._trouble)
        self._column.addStretch(1)

    # Asking -----------------------------------------------------------------------------------------------------------

    def line(
        self,
        key: str,
        label: str,
        unit: str = "",
        *,
        hint: str = "",
        optional: bool = False,
        lines: int = 1,
        width: int = 0,
        secret: bool = False,
    ) -> Field:
        """Words."""
        field = Field(
            label,
            unit,
            hint=hint,
            optional=optional,
            lines=lines,
            width=width,
            secret=secret,
            error_below=self._row is not None,
        )
        if secret:
            self._secret.add(key)
        return self._ask_field(key, field)

    def figure(
        self,
        key: str,
        label: str,
        unit: str,
        *,
        hint: str = "",
        optional: bool = False,
        width: int = 110,
        column: int = 0,
    ) -> Field:
        """A figure, read when it is left. ``column``: it stands in a column so wide, whose head shows its label."""
        field = FigureField(
            label, unit, hint=hint, optional=optional, width=width, error_below=self._row is not None, size=Letter.BODY
        )
        self._ask_field(key, field)
        if column:
            _bare(field)
            field.setFixedWidth(column)
        return field

    def _ask_field(self, key: str, field: Field) -> Field:
        field.box.setObjectName(f"{self._name}.{key}")
        field.setObjectName(f"{self._name}.{key}.field")
        if self._row is not None:
            _keep_left(field)
        self._asked[key] = field
        if key not in self._secret:
            field.set_draft(self._desk.draft(self._owner, key))
            field.typing.connect(lambda text, key=key: self._desk.keep_draft(self._owner, key, text))
            field.committed.connect(lambda text, key=key: self._desk.keep_draft(self._owner, key, text))
        if not isinstance(field, FigureField):
            field.committed.connect(lambda _text, field=field: field.clear_error())
        field.committed.connect(lambda _text, key=key: self.answered.emit(key))
        self.add(field)
        return field

    def yes_no(self, key: str, question: str, *, hint: str = "") -> YesNo:
        """A check with yes and no; nothing preset."""
        asked = YesNo(question, hint)
        asked.setObjectName(f"{self._name}.{key}")
        for answer, segment in zip(("yes", "no"), asked.bar.findChildren(QAbstractButton), strict=True):
            segment.setObjectName(f"{self._name}.{key}.{answer}")
        asked.bar.set_answer(Answer(self._desk.draft(self._owner, key)))
        asked.bar.answered.connect(lambda value, key=key: self._chose(key, value))
        self._place(key, asked)
        return asked

    def _place(self, key: str, asked: Choice | DropList | YesNo) -> None:
        """A question that is chosen, with the place for its trouble under it."""
        trouble = StateWord(Sign.DANGER, "", Letter.TABLE, bold=False, tone=Role.DANGER_TEXT, side=20)
        trouble.setObjectName(f"{self._name}.{key}.trouble")
        trouble.hide()
        both = QWidget()
        column = QVBoxLayout(both)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(asked)
        column.addWidget(trouble)
        self._asked[key] = asked
        self._beside[key] = trouble
        self.add(both)

    def choice(
        self, key: str, question: str, options: Sequence[Option], *, many: bool = False, across: bool = False
    ) -> Choice:
        """Rows to choose from."""
        asked = Choice(question, options, many=many, across=across)
        asked.setObjectName(f"{self._name}.{key}")
        for option in options:
            row = asked.row(option.value)
            row.setObjectName(f"{self._name}.{key}.{option.value}")
            if self._row is not None:
                row.setMinimumWidth(row.sizeHint().width())
        asked.set_values(self._desk.draft(self._owner, key).split("\n"))
        asked.changed.connect(lambda values, key=key: self._chose(key, "\n".join(values)))
        self._place(key, asked)
        return asked

    def drop(self, key: str, label: str, options: Sequence[Option], *, optional: bool = False) -> DropList:
        """A list that opens."""
        asked = DropList(label, options, optional=optional)
        asked.box.setObjectName(f"{self._name}.{key}")
        asked.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        asked.set_value(self._desk.draft(self._owner, key))
        asked.chosen.connect(lambda value, key=key: self._chose(key, value))
        self._place(key, asked)
        return asked

    def _chose(self, key: str, value: str) -> None:
        self._desk.keep_draft(self._owner, key, value)
        self._note_trouble(key, "")
        self.answered.emit(key)

    # Reading back -----------------------------------------------------------------------------------------------------

    def asked(self, key: str) -> QWidget:
        """The widget of a question; KeyError where there is none."""
        return self._asked[key]

    def own(self, troubles: Mapping[str, str]) -> Mapping[str, str]:
        """Those troubles whose question stands on this page."""
        return {key: words for key, words in troubles.items() if key in self._asked}

    def text(self, key: str) -> str:
        """The answer as text: words typed, or what was chosen, one a line."""
        asked = self._asked[key]
        if isinstance(asked, Field):
            return asked.text()
        if isinstance(asked, YesNo):
            return asked.bar.answer().value
        return asked.value() if isinstance(asked, DropList) else "\n".join(asked.values())

    def answers(self) -> Mapping[str, str]:
        """Every answer by its key, those of secret fields left out."""
        return {key: self.text(key) for key in self._asked if key not in self._secret}

    def put(self, answers: Mapping[str, str]) -> None:
        """Fill in what is already recorded, where nothing half typed is kept."""
        for key, text in answers.items():
            if key in self._asked and not self._desk.draft(self._owner, key):
                self._write(key, text)

    def overwrite(self, answers: Mapping[str, str]) -> None:
        """Fill in a description that was chosen: it counts as typed, so its drafts are kept."""
        for key, text in answers.items():
            if key in self._asked:
                self._write(key, text)
                self._desk.keep_draft(self._owner, key, text)
                self._note_trouble(key, "")

    def _write(self, key: str, text: str) -> None:
        asked = self._asked[key]
        if isinstance(asked, Field):
            asked.set_text(text)
        elif isinstance(asked, YesNo):
            asked.bar.set_answer(Answer(text))
        elif isinstance(asked, DropList):
            asked.set_value(text)
        else:
            asked.set_values(text.split("\n"))

    def show_troubles(self, troubles: Mapping[str, str], also: str = "", *, counted: bool = True) -> None:
        """Say everything that is wrong beside its question, with the count at the end; the first takes the focus.

        Not ``counted``: the page itself says how many they are.
        """
        self.troubled = next((key for key in self._asked if key in troubles), "")
        for key in self._asked:
            self._note_trouble(key, troubles.get(key, ""))
        lost = [words for key, words in troubles.items() if key not in self._asked]
        said = [*dict.fromkeys(lost), *([also] if also else [])]
        if counted and (troubles or also):
            self._trouble.say_it(Sign.DANGER, " ".join([say("registers.typed.wrong", n=len(troubles) or 1), *said]))
        else:
            self._trouble.clear()
        self.reach_first()

    def asks(self, key: str) -> bool:
        """Is this question asked here?"""
        return key in self._asked

    def reach(self, key: str) -> None:
        """Put the keyboard on a question and bring it into sight; KeyError where there is none."""
        self._reach(self._asked[key])

    def reach_first(self) -> None:
        """Put the keyboard on the first question that is in trouble."""
        if self.troubled:
            self._reach(self._asked[self.troubled])

    def focus_first(self) -> None:
        """Put the keyboard on the first question."""
        for asked in list(self._asked.values())[:1]:
            self._reach(asked)

    def _note_trouble(self, key: str, words: str) -> None:
        asked = self._asked[key]
        if isinstance(asked, Field):
            asked.show_error(words) if words else asked.clear_error()
        else:
            self._beside[key].set_state(Sign.DANGER, words)
            self._beside[key].setVisible(bool(words))

    def _reach(self, asked: _Question) -> None:
        if isinstance(asked, YesNo):
            asked.bar.first().setFocus(Qt.FocusReason.OtherFocusReason)
        elif isinstance(asked, Choice):
            for row in asked.findChildren(QAbstractButton)[:1]:
                row.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            asked.setFocus(Qt.FocusReason.OtherFocusReason)
        area = self.parentWidget()
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        if isinstance(area, QScrollArea):
            area.ensureWidgetVisible(asked)

    def clear(self, keep: Iterable[str] = ()) -> None:
        """Recorded: the page is empty again and its drafts are gone, those in ``keep`` apart."""
        for key in self._asked:
            if key not in set(keep):
                self._write(key, "")
                self._desk.keep_draft(self._owner, key, "")
        self.show_troubles({})


def _keep_left(field: Field) -> None:
    """Trouble under a narrow field is wrapped to the room it has; the box stays under its label."""
    grid = field.layout()
    row = grid.itemAtPosition(1, 0) if isinstance(grid, QGridLayout) else None
    line = row.layout() if row is not None else None
    if isinstance(line, QHBoxLayout):
        line.addStretch(1)
    field.setMaximumWidth(max(field.sizeHint().width(), 250))


def scrolled(page: QWidget) -> QScrollArea:
    """A page that scrolls up and down when it is longer than its place."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    page.setProperty("ground", "clear")
    area.setWidget(page)
    return area
