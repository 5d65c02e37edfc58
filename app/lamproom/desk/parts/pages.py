"""Pages one over the other, of which only the one in sight says how much room it needs."""

from __future__ import annotations

from PySide6.QtWidgets import QSizePolicy, QStackedWidget, QWidget


class Pages(QStackedWidget):
    """A hidden page that needs more room never makes the window wider than a station's screen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._policies: dict[QWidget, QSizePolicy] = {}
        self.currentChanged.connect(lambda _index: self._fit())
        self.widgetRemoved.connect(lambda _index: self._fit())

    def _fit(self) -> None:
        ignored = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        for index in range(self.count()):
            page = self.widget(index)
            if page is None:
                continue
            if page is self.currentWidget():
                page.setSizePolicy(self._policies.pop(page, page.sizePolicy()))
            elif page not in self._policies:
                self._policies[page] = page.sizePolicy()
                page.setSizePolicy(ignored)
        self.updateGeometry()

    def addWidget(self, widget: QWidget) -> int:
        """Add a page; behind the one in sight it asks for no room."""
        index = super().addWidget(widget)
        self._fit()
        return index
