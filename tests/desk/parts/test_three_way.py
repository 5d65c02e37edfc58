"""An answer that was not given carries no tick."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from lamproom.desk.parts import three_way
from lamproom.desk.parts.three_way import Answer, ThreeWayBar
from lamproom.desk.signs import Sign


def test_no_segment_has_its_sign_before_it_is_chosen(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[Sign] = []
    monkeypatch.setattr(three_way, "draw_sign", lambda _painter, _room, sign, *_rest: drawn.append(sign))
    bar = ThreeWayBar("Was it tried?")
    qtbot.addWidget(bar)
    bar.grab()
    assert set(drawn) == {Sign.NOT_STARTED}
    drawn.clear()
    bar.set_answer(Answer.YES)
    bar.grab()
    assert sorted(sign.name for sign in drawn) == ["NOT_STARTED", "NOT_STARTED", "TICK"]
