"""Pictures of the real program, made from the invented day: `demo/pictures.py --out FOLDER [--all]`.

The day is lived through the office on a clock turned by hand; at chosen moments the real window is shown a place and
photographed. ``--all`` makes every screen and sheet at both sizes in every theme; without it, those of the README.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import time, timedelta
from pathlib import Path
from tempfile import mkdtemp

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QListView

from lamproom.desk.desk import Desk
from lamproom.desk.opening import open_window
from lamproom.desk.theme import look_of
from lamproom.desk.watch.watch_screen import WatchScreen
from lamproom.desk.window import MainWindow
from lamproom.office import replay
from lamproom.office.demo import FIXED_DAY, demo_text, shift_in
from lamproom.office.shift_table import Row, rows_of
from lamproom.permit.form import SHEETS

SIZES = {"small": (1366, 768), "large": (1920, 1080), "station": (1280, 800)}


@dataclass(frozen=True, slots=True)
class Shot:
    """A picture: name, the moment of the day after whose row it is taken, the place, where in it, themes, sizes.

    ``panel``: a panel of the Watch opened for it; ``oxygen``: what is typed there in the box for oxygen.
    ``typed``: text for boxes by their names, taken back after the picture; ``scrolled_to``: words in a list;
    ``pressed``: a button by its name.
    """

    name: str
    after: time
    place: str
    where: dict[str, str]
    themes: tuple[str, ...] = ("light", "dark")
    sizes: tuple[str, ...] = ("small", "large")
    panel: str = ""
    oxygen: str = ""
    typed: tuple[tuple[str, str], ...] = ()
    scrolled_to: str = ""
    pressed: str = ""
    readme: str = ""
    minutes_later: int = 0


def shots() -> Iterator[Shot]:
    """Every picture, in the order of the day."""
    yield Shot("board-morning", time(7, 25), "board", {})
    yield Shot("workbook-unanswered", time(7, 6), "workbook", {"permit": "A", "target": "space/"})
    yield Shot(
        "workbook-hours-refused",
        time(7, 6),
        "workbook",
        {"permit": "A", "target": "space/"},
        typed=(("workbook.space.ends", "25:00"),),
    )
    for sheet in SHEETS[:4]:
        yield Shot(f"workbook-{sheet}", time(7, 25), "workbook", {"permit": "A", "target": f"{sheet}/"})
    yield Shot(
        "workbook-air-test-challenged",
        time(7, 42),
        "workbook",
        {"permit": "A", "target": "air-test/upwind"},
        typed=(("workbook.air-test.figure.oxygen", "209"),),
    )
    yield Shot("workbook-air-test-open", time(8, 4), "workbook", {"permit": "A", "target": "air-test/"})
    yield Shot("workbook-air-test", time(8, 40), "workbook", {"permit": "A", "target": "air-test/"}, readme="light")
    for sheet in SHEETS[5:]:
        yield Shot(f"workbook-{sheet}", time(8, 51), "workbook", {"permit": "A", "target": f"{sheet}/"})
    station = ("sun", "light", "dark")
    both = ("station", "small")
    yield Shot("watch-authorised", time(8, 52), "watch", {"permit": "A"}, station, both)
    yield Shot("watch", time(9, 30), "watch", {"permit": "A"}, station, both, readme="sun")
    yield Shot("watch-reading", time(9, 30), "watch", {"permit": "A"}, station, both, panel="reading")
    yield Shot("watch-odd", time(9, 30), "watch", {"permit": "A"}, station, both, panel="reading", oxygen="209")
    yield Shot("watch-correct", time(9, 30), "watch", {"permit": "A"}, station, both, panel="correct")
    yield Shot("watch-relieve", time(9, 30), "watch", {"permit": "A"}, station, both, panel="relieve")
    yield Shot("watch-late", time(9, 42, 30), "watch", {"permit": "A"}, station, both, minutes_later=18)
    yield Shot("board-late", time(9, 42, 30), "board", {})
    yield Shot("watch-break", time(9, 57), "watch", {"permit": "A"}, station, both)
    yield Shot("watch-back", time(10, 15), "watch", {"permit": "A"}, station, both)
    yield Shot("watch-evacuate", time(10, 44), "watch", {"permit": "A"}, station, both)
    yield Shot("watch-stood-down", time(10, 48), "watch", {"permit": "A"}, station, both)
    yield Shot("board", time(11, 13), "board", {}, readme="light")
    yield Shot("bench", time(11, 13), "bench", {"instrument": "07"}, readme="light")
    yield Shot("watch-ended", time(11, 40), "watch", {"permit": "A"}, station, both)
    yield Shot("workbook-refused", time(12, 16), "workbook", {"permit": "B", "target": "review/"})
    yield Shot(
        "workbook-refused-press",
        time(12, 16),
        "workbook",
        {"permit": "B", "target": "review/"},
        pressed="workbook.review.authorise",
    )
    yield Shot("workbook-refused-hazards", time(12, 16), "workbook", {"permit": "B", "target": "hazards/"})
    yield Shot("watch-limit", time(13, 39, 30), "watch", {"permit": "C"}, station, both)
    yield Shot("filing", time(13, 55), "filing", {"permit": "A"}, readme="light")
    yield Shot("filing-correction", time(13, 55), "filing", {"permit": "A"}, scrolled_to="orrected")
    yield Shot("registers", time(13, 55), "registers", {}, readme="light")


def main() -> int:
    """Live the day, take the pictures, say where they are."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True, metavar="FOLDER")
    parser.add_argument("--all", action="store_true", help="every screen and sheet, both sizes, every theme")
    parser.add_argument("--only", default="", metavar="WORD", help="only pictures whose name holds this word")
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    wanted = [s for s in shots() if (given.all or s.readme) and given.only in s.name]
    application = QApplication(sys.argv[:1])
    application.setQuitOnLastWindowClosed(False)
    shift = shift_in(Path(mkdtemp(prefix="lamproom-pictures-")), FIXED_DAY)
    replay.set_up(shift)
    shift.office.journal.put_setting("person", "P-01")
    desk, window = open_window(shift.office)
    rows = list(rows_of(demo_text("day.txt")))
    for at, row in enumerate(rows):
        replay.live_row(shift, row)
        following = rows[at + 1].at if at + 1 < len(rows) else time(23, 59, 59)
        for shot in wanted:
            if row.at <= shot.after < following:
                _take(shot, shift, desk, window, given.out, given.all, row)
    window.close()
    return 0


def _wear(window: MainWindow, theme: str, place: str) -> None:
    """The window's look by its own key; the Watch keeps a look of its own."""
    while window.look.theme.value != theme:
        window.next_theme()
    if place == "watch":
        window.show_place("watch")
        watch = window.findChild(WatchScreen)
        for _ in range(3):
            if watch is not None and look_of(watch).theme.value != theme:
                watch.next_theme()


def _open(watch: WatchScreen, shot: Shot, shift: replay.Shift, number: str) -> None:
    """The panel of a shot, by the ways a person has: an act of the Watch, then keys."""
    what: dict[str, object] = {}
    if shot.panel == "correct":
        what = {"version": shift.office.permit(number).sets[-1].version, "gas": "carbon-monoxide"}
    watch.open(shot.panel, **what)
    if shot.oxygen:
        _type_oxygen(watch, shot.oxygen)


def _type_oxygen(watch: WatchScreen, text: str) -> None:
    box = watch.findChild(QLineEdit, "watch.reading.oxygen")
    if box is not None:
        box.setFocus()
        box.clear()
        QTest.keyClicks(box, text)
        QTest.keyClick(box, Qt.Key.Key_Return)


def _leave(watch: WatchScreen, shot: Shot) -> None:
    """Leave nothing half typed behind for the next shot."""
    if shot.oxygen:
        box = watch.findChild(QLineEdit, "watch.reading.oxygen")
        if box is not None:
            box.setFocus()
            box.selectAll()
            QTest.keyClick(box, Qt.Key.Key_Delete)
    watch.close_panel()


def _type(window: MainWindow, name: str, text: str) -> None:
    """Text in a box as a person types it, then Enter; empty text takes back what stood there."""
    box = next((w for w in window.findChildren(QLineEdit, name) if w.isVisible()), None)
    if box is None:
        return
    box.setFocus()
    before = box.property("before-picture")
    if text:
        box.setProperty("before-picture", box.text())
    box.selectAll()
    QTest.keyClick(box, Qt.Key.Key_Backspace)
    QTest.keyClicks(box, text or before or "")
    if text or before:
        QTest.keyClick(box, Qt.Key.Key_Return)
    QApplication.processEvents()


def _set_up(shot: Shot, window: MainWindow) -> None:
    for name, text in shot.typed:
        _type(window, name, text)
    button = window.findChild(QAbstractButton, shot.pressed) if shot.pressed else None
    if button is not None:
        button.click()
        QApplication.processEvents()
    if not shot.scrolled_to:
        return
    for view in window.findChildren(QListView):
        model = view.model()
        for row in range(model.rowCount()):
            index = model.index(row, 0)
            if view.isVisible() and shot.scrolled_to in str(index.data()):
                view.scrollTo(index, QListView.ScrollHint.PositionAtCenter)
    QApplication.processEvents()


def _take(
    shot: Shot, shift: replay.Shift, desk: Desk, window: MainWindow, folder: Path, everything: bool, row: Row
) -> None:
    shift.clock.pass_time(timedelta(minutes=shot.minutes_later))
    where = {k: shift.permits[v] if k == "permit" else v for k, v in shot.where.items()}
    for theme in shot.themes if everything else (shot.readme,):
        for size in shot.sizes if everything else shot.sizes[:1]:
            window.resize(*SIZES[size])
            _wear(window, theme, shot.place)
            window.show()
            window.show_place("board")
            window.show_place(shot.place, **where)
            watch = window.findChild(WatchScreen)
            if watch is not None and shot.panel:
                _open(watch, shot, shift, where["permit"])
            for _ in range(4):
                QApplication.processEvents()
            desk.ticked.emit()
            QApplication.processEvents()
            _set_up(shot, window)
            name = f"{shot.name}-{theme}" + (f"-{size}" if everything else "")
            file = folder / f"{name}.png"
            window.grab().save(str(file))
            print(file, flush=True)
            if watch is not None and shot.panel:
                _leave(watch, shot)
            for box, _text in shot.typed:
                _type(window, box, "")


if __name__ == "__main__":
    sys.exit(main())
