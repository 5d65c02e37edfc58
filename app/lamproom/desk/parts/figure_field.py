"""A field for a figure: a point or a comma is the decimal sign in every language, and nothing is guessed.

No Qt number box: those read "20,9" as 209 in some languages, without a word.
"""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from lamproom.air.figures import read_as, read_figure
from lamproom.desk.parts.field import Field
from lamproom.desk.theme import Letter, Place
from lamproom.words import Refusal


class FigureField(Field):
    """A field that reads what was typed when it is left.

    Signals: ``figure(text)`` when a readable figure was committed, as typed; ``unreadable(text)`` when not: then the
    trouble stands beside it and the text stays; ``committed`` carries both.
    """

    figure = Signal(str)
    unreadable = Signal(str)

    def __init__(
        self,
        label: str,
        unit: str,
        *,
        width: int = 130,
        place: Place = Place.TRAILER,
        size: Letter | int = Letter.HEAD,
        hint: str = "",
        optional: bool = False,
        mnemonic: str = "",
        error_below: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(
            label,
            unit,
            hint=hint,
            optional=optional,
            width=width,
            place=place,
            mnemonic=mnemonic,
            size=Letter(size) if size in set(Letter) else None,
            bold=True,
            error_below=error_below,
            parent=parent,
        )
        if isinstance(self.box, QLineEdit):
            self.box.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.box.setInputMethodHints(Qt.InputMethodHint.ImhFormattedNumbersOnly)
            self.box.textEdited.connect(self._warn)
        self.committed.connect(self._judge)

    def value(self) -> Decimal | None:
        """The figure typed; None when the box is empty. Raises Refusal when it is no figure."""
        return read_figure(self.text()) if self.text().strip() else None

    def _warn(self, text: str) -> None:
        """While it is typed, before it is taken: a comma that someone may mean as a thousands sign."""
        mistakable = read_as(text)
        if mistakable is not None:
            self.show_caution(mistakable.say())

    def _judge(self, text: str) -> None:
        try:
            value = self.value()
        except Refusal as refusal:
            self.show_error(str(refusal))
            self.unreadable.emit(text)
            return
        self.clear_error()
        self._warn(text)
        if value is not None:
            self.figure.emit(text)
