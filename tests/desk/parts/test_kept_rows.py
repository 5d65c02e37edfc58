"""Rows known by a key stay who they are while the list around them changes, and stand in the order asked."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from lamproom.desk.parts.kept_rows import keep_rows

KEYS = st.lists(st.sampled_from("abcdefg"), unique=True)


@given(st.lists(KEYS, min_size=1, max_size=6))
def test_rows_stand_in_the_order_asked_and_who_stays_is_the_same_widget(qapp: object, turns: list[list[str]]) -> None:
    window = QWidget()
    box = QVBoxLayout(window)
    box.addWidget(QPushButton("foot"))
    rows: dict[str, QPushButton] = {}
    for wanted in turns:
        before = dict(rows)
        keep_rows(box, rows, wanted, QPushButton)
        laid = [box.itemAt(at).widget() for at in range(box.count())]
        assert [one.text() for one in laid] == [*wanted, "foot"]  # type: ignore[union-attr]
        assert list(rows) == wanted
        assert all(rows[key] is before[key] for key in wanted if key in before)


def test_a_row_that_stays_keeps_the_keyboard_while_one_before_it_goes_and_the_order_turns(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    box = QVBoxLayout(window)
    rows: dict[str, QPushButton] = {}
    keep_rows(box, rows, ["gone", "here", "last"], QPushButton)
    window.show()
    with qtbot.waitActive(window):
        window.activateWindow()
    rows["here"].setFocus()
    keep_rows(box, rows, ["new", "last", "here"], QPushButton)
    assert rows["here"].hasFocus() and rows["last"].isVisible()
    rows["new"].setFocus()
    assert rows["new"].hasFocus(), "shown at once, not when Qt comes round to it"
