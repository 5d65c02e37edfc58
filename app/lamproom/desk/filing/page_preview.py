"""A page as it will be printed: drawn from the PDF itself, at the pixels of the screen, one page at a time."""

from __future__ import annotations

import ctypes

import pypdfium2
from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.theme import Role, look_of


class Pages:
    """A PDF that is open for drawing. Form fields and signature boxes are drawn too."""

    def __init__(self, pdf: bytes) -> None:
        self._document = pypdfium2.PdfDocument(pdf)
        self._document.init_forms()

    def __len__(self) -> int:
        return len(self._document)

    def size(self, page: int) -> tuple[float, float]:
        """Width and height in points."""
        width, height = self._document.get_page_size(page)
        return float(width), float(height)

    def image(self, page: int, width: int) -> QImage:
        """The page as an image of so many pixels across."""
        leaf = self._document[page]
        bitmap = leaf.render(
            scale=width / self.size(page)[0], may_draw_forms=True, rev_byteorder=True, prefer_bgrx=True
        )
        data = bytes(ctypes.string_at(bitmap.buffer, bitmap.stride * bitmap.height))
        image = QImage(data, bitmap.width, bitmap.height, bitmap.stride, QImage.Format.Format_RGBX8888).copy()
        bitmap.close()
        leaf.close()
        return image

    def close(self) -> None:
        """Let go of the PDF."""
        self._document.close()


class PagePreview(QWidget):
    """Shows one page of a PDF: whole, or as wide as there is room. Signal: ``turned(int)`` the page shown, from 0."""

    turned = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages: Pages | None = None
        self._page = 0
        self._wide = False
        self._drawn: tuple[int, int, QImage] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    @property
    def pages(self) -> int:
        """How many there are; 0 when nothing is shown."""
        return len(self._pages) if self._pages else 0

    @property
    def page(self) -> int:
        """The page that is shown, from 0."""
        return self._page

    def show_pdf(self, pdf: bytes | None) -> None:
        """Show the first page of another PDF, or nothing."""
        if self._pages is not None:
            self._pages.close()
        self._pages = Pages(pdf) if pdf is not None else None
        self._drawn = None
        self._page = 0
        self._fit()
        self.turned.emit(0)

    def turn(self, by: int) -> None:
        """Another page; beyond the first and last nothing happens."""
        page = min(max(self._page + by, 0), max(self.pages - 1, 0))
        if page != self._page:
            self._page = page
            self._fit()
            self.turned.emit(page)

    def set_wide(self, wide: bool) -> None:
        """As wide as there is room (its height then scrolls), or whole."""
        self._wide = wide
        self._fit()

    def _fit(self) -> None:
        if self._wide and self._pages is not None:
            width, height = self._pages.size(self._page)
            self.setMinimumHeight(round((self.width() - 20) * height / width) + 20)
        else:
            self.setMinimumHeight(0)
        self.update()

    def resizeEvent(self, event: object) -> None:
        """Keep to the width."""
        if self._wide:
            self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Page Up and Page Down turn the pages; the arrows scroll one that is wide."""
        if event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            self.turn(1 if event.key() == Qt.Key.Key_PageDown else -1)
            return
        super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(360, 460)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The page on its ground, drawn anew only when page or pixels changed."""
        look = look_of(self)
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour(Role.PANEL))
        if self._pages is None:
            return
        width, height = self._pages.size(self._page)
        scale = min((self.width() - 20) / width, (self.height() - 20) / height)
        if self._wide:
            scale = (self.width() - 20) / width
        if scale <= 0:
            return
        area = QRectF((self.width() - width * scale) / 2, 10, width * scale, height * scale)
        if not self._wide:
            area.moveTop((self.height() - area.height()) / 2)
        pixels = max(round(area.width() * self.devicePixelRatioF()), 1)
        if self._drawn is None or self._drawn[:2] != (self._page, pixels):
            self._drawn = (self._page, pixels, self._pages.image(self._page, pixels))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(area, self._drawn[2])
        painter.setPen(edge_pen(look.colour(Role.EDGE), 1))
        painter.drawRect(area)
