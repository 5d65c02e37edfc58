"""Open the window on a site and stay until it is closed."""

from __future__ import annotations

import gc
import sys
import traceback
from collections.abc import Callable
from types import TracebackType

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.window import MainWindow
from lamproom.office.office import Office
from lamproom.words import Refusal, say

Hook = Callable[[type[BaseException], BaseException, TracebackType | None], None]


def open_window(office: Office) -> tuple[Desk, MainWindow]:
    """Desk and window of a site, in the name of whoever sat there last; not shown yet."""
    load_fonts()
    last = office.journal.settings().get("person", "")
    desk = Desk(office, last if last in office.ids("person") else None)
    return desk, MainWindow(desk)


def keep_running(window: MainWindow, desk: Desk) -> Hook:
    """What to do with an error nobody caught: a refusal is said, a fault is printed and said, the window stays.

    What is half typed lies in the drafts already; nothing is stored by halves, since an act is one transaction.
    """

    def hook(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if isinstance(error, Refusal):
            desk.said.emit("refused", error.why.say())
            return
        if not issubclass(kind, Exception):
            sys.__excepthook__(kind, error, trace)
            return
        traceback.print_exception(kind, error, trace, file=sys.stderr)
        window.say_fault()

    return hook


def collect_again() -> None:
    """Turn the collector on again after a start without it; what the start made stays for good."""
    gc.freeze()
    gc.enable()


def run(office: Office) -> int:
    """Show the window until it is closed; the exit code of the application."""
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(application, QApplication)
    application.setApplicationName(say("desk.name"))
    desk, window = open_window(office)
    before = sys.excepthook
    sys.excepthook = keep_running(window, desk)
    try:
        window.show()
        QTimer.singleShot(0, collect_again)
        return application.exec()
    finally:
        sys.excepthook = before
