"""The slip behind a figure: one working a page, the others a press away."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.slip import Slip, SlipLine
from lamproom.office.views.working_slip import SlipPage


class WorkingSlip(Slip):
    """Shows pages of workings. ``name`` begins the object names of the links ('<name>.page.1').

    Signals: ``led(str)`` when a link was pressed that leads elsewhere, with its key; ``turned()`` to another page.
    """

    led = Signal(str)
    turned = Signal()

    def __init__(self, name: str, *, closable: bool = True, parent: QWidget | None = None) -> None:
        super().__init__(closable=closable, parent=parent)
        self._name = name
        self._pages: tuple[SlipPage, ...] = ()
        self._said = ""
        self._links: list[Button] = []
        self.setObjectName(name)
        self._close.setObjectName(f"{name}.close")

    def set_pages(self, pages: Sequence[SlipPage], words: str = "", elsewhere: Sequence[tuple[str, str]] = ()) -> None:
        """Show the first page, with links to the others and to what stands ``elsewhere`` (key, words)."""
        self._pages, self._said = tuple(pages), words
        for link in self._links:
            link.hide()
            link.setParent(None)
            link.deleteLater()
        self._links = []
        if len(self._pages) > 1:
            for at, page in enumerate(self._pages):
                self._link(f"page.{at}", page.name, partial(self.show_page, at))
        for key, text in elsewhere:
            self._link(key, text, partial(self.led.emit, key))
        if self._pages:
            self.show_page(0)

    def show_page(self, at: int) -> None:
        """Turn to a page; its own link is away while it is shown."""
        page = self._pages[at]
        lines = [SlipLine(step.what, step.how, step.figure, step.total) for step in page.steps]
        words = " ".join(part for part in (self._said, page.formula) if part)
        short = len(page.source) < 28
        self.set_slip(
            page.title,
            lines,
            words=words,
            source=page.source if short else "",
            aside=page.aside,
            aside_source="" if short else page.source,
        )
        for place, link in enumerate(self._links[: len(self._pages)] if len(self._pages) > 1 else ()):
            link.setVisible(place != at)
        self.turned.emit()

    def wanted_height(self, width: int) -> int:
        """Pixels that the page needs at this width."""
        layout = self.layout()
        if layout is None:
            return self.sizeHint().height()
        layout.activate()
        return max(layout.totalHeightForWidth(width), layout.totalSizeHint().height())

    def _link(self, key: str, words: str, done: Callable[[], object]) -> None:
        link = Button(words, Kind.LINK, parent=self)
        link.setObjectName(f"{self._name}.{key}")
        link.clicked.connect(lambda _checked=False: done())
        self._links.append(link)
        self.add(link)
