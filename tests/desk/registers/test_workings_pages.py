"""The place to try a working, driven by its boxes and its button."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lamproom.desk.parts.slip import Slip
from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.office.office import Office


def fill(screen: QWidget, name: str, text: str) -> QLineEdit:
    box = screen.findChild(QLineEdit, f"registers.workings.{name}")
    assert box is not None, name
    box.setText(text)
    box.textEdited.emit(text)
    box.editingFinished.emit()
    return box


def press(screen: QWidget, name: str) -> None:
    button = screen.findChild(QAbstractButton, name)
    assert button is not None
    button.click()
    QApplication.processEvents()


def slip(screen: QWidget) -> Slip:
    found = screen.findChild(Slip, "registers.workings.slip")
    assert found is not None
    return found


def said(screen: QWidget) -> str:
    return " ".join(one.text() for one in screen.findChildren(QLabel) if one.isVisible())


def test_a_working_is_chosen_by_its_name_and_ends_in_a_slip(screen: RegistersScreen) -> None:
    """Worked out by hand: (20.9 - 20.1 - 0.1) / 20.9 x 1,000,000 - 1,500 = 31,993."""
    press(screen, "registers.workings")
    press(screen, "registers.row.unaccounted")
    for name, text in {"oxygen": "20.1", "base": "20,9", "tolerance": "0.1"}.items():
        fill(screen, name, text)
    fill(screen, "measured.0.gas", "methane")
    fill(screen, "measured.0.measured", "1500")
    assert not slip(screen).isVisible()
    press(screen, "registers.workings.do")
    assert slip(screen).isVisible()
    assert "31,993 ppm" in slip(screen).accessibleDescription()


def test_enter_in_a_box_works_it_out_and_clear_takes_all_away(screen: RegistersScreen, qtbot: QtBot) -> None:
    press(screen, "registers.workings")
    press(screen, "registers.row.saturation-pressure")
    box = fill(screen, "temperature", "22")
    QTest.keyClick(box, Qt.Key.Key_Return)
    assert "2,637 Pa" in slip(screen).accessibleDescription()
    press(screen, "registers.workings.clear")
    assert not slip(screen).isVisible() and box.text() == ""


def test_what_is_wrong_stands_beside_its_box_and_no_old_slip_beside_it(screen: RegistersScreen) -> None:
    press(screen, "registers.workings")
    press(screen, "registers.row.saturation-pressure")
    fill(screen, "temperature", "22")
    press(screen, "registers.workings.do")
    fill(screen, "temperature", "200")
    press(screen, "registers.workings.do")
    assert "must be from" in said(screen) and not slip(screen).isVisible()


def test_trying_a_working_records_nothing(screen: RegistersScreen, office: Office) -> None:
    press(screen, "registers.workings")
    press(screen, "registers.row.saturation-pressure")
    before = office.journal.head()
    fill(screen, "temperature", "22")
    press(screen, "registers.workings.do")
    assert office.journal.head() == before
