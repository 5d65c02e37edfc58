"""The window toolkit on this Python gives back every None that it takes.

PySide6 6.12.0 on Python 3.11 did not: after some hundred signals the interpreter aborted in `none_dealloc`.
"""

import sys

from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot


def test_a_thousand_texts_set_cost_no_none(qtbot: QtBot) -> None:
    label = QLabel()
    qtbot.addWidget(label)
    before = sys.getrefcount(None)
    for n in range(1000):
        label.setText(str(n))
    assert before - sys.getrefcount(None) < 500
