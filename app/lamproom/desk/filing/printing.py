"""Printing a PDF: each page drawn as an image at the printer's own dots, so that print equals preview."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPageLayout, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QWidget

from lamproom.desk.filing.page_preview import Pages
from lamproom.words import Refusal, sentence

DOTS = 300
"""Dots an inch: as fine as the smallest letters and the code on a page need; finer only takes longer."""


def ask_printer(parent: QWidget) -> QPrinter | None:
    """The system's own question about the printer; None when the person left it."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setFullPage(True)
    dialog = QPrintDialog(printer, parent)
    return printer if dialog.exec() == QDialog.DialogCode.Accepted else None


def print_pdf(pdf: bytes, printer: QPrinter) -> int:
    """Print every page, each turned as it lies. Returns how many; refused when the printer takes none."""
    pages = Pages(pdf)
    printer.setFullPage(True)
    printer.setResolution(DOTS)
    painter = QPainter()
    try:
        for page in range(len(pages)):
            _turn(printer, *pages.size(page))
            if page == 0:
                if not painter.begin(printer):
                    raise Refusal(sentence("filing.not_printed"))
            else:
                printer.newPage()
            _draw(painter, printer, pages, page)
        return len(pages)
    finally:
        if painter.isActive():
            painter.end()
        pages.close()


def _turn(printer: QPrinter, width: float, height: float) -> None:
    turned = QPageLayout.Orientation.Landscape if width > height else QPageLayout.Orientation.Portrait
    printer.setPageOrientation(turned)


def _draw(painter: QPainter, printer: QPrinter, pages: Pages, page: int) -> None:
    paper = printer.paperRect(QPrinter.Unit.DevicePixel)
    width, height = pages.size(page)
    scale = min(paper.width() / width, paper.height() / height)
    area = QRectF(0, 0, width * scale, height * scale)
    area.moveCenter(paper.center())
    painter.drawImage(area, pages.image(page, max(round(area.width()), 1)))
