"""Strokes of the Watch: seen on a filled tile, and one frame round a person and the key."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station
from tests.desk.watch.test_face import late

from lamproom.desk.parts.time_rule import TimeRule
from lamproom.desk.theme import Place, Role, Theme

Make = Callable[..., Station]


def wear(one: Station, theme: Theme) -> None:
    while one.watch._look.theme is not theme:
        one.press("watch.theme")
    QApplication.processEvents()


def light(color: QColor) -> float:
    """Relative luminance of WCAG 2.2."""
    parts = [
        channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4 for channel in color.getRgbF()[:3]
    ]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: QColor, other: QColor) -> float:
    brighter, darker = sorted((light(one), light(other)), reverse=True)
    return (brighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("theme", list(Theme))
def test_the_rule_of_a_late_set_stands_out_from_its_fill(station: Make, theme: Theme) -> None:
    """Graphics need 3:1 (WCAG 2.2 SC 1.4.11): the piece between due and now, as it is drawn."""
    one = station(late)
    wear(one, theme)
    pane = one.part("watch.clock")
    rule = pane.findChild(TimeRule)
    picture = pane.grab().toImage()
    view = rule._view
    middle = (view.due + view.now) / 2
    x = rule.x() + 9 + (rule.width() - 18) * middle / view.end
    drawn = picture.pixelColor(round(x), rule.y() + rule.height() - 9)
    fill = one.watch._look.colour(Role.CAUTION)
    assert contrast(drawn, fill) >= 3, (drawn.name(), fill.name())


@pytest.mark.parametrize("theme", list(Theme))
def test_the_frame_of_a_person_runs_on_over_the_key(station: Make, theme: Theme) -> None:
    one = station(crew.working)
    wear(one, theme)
    key = one.part("watch.out.P-04")
    tile = key.parentWidget()
    picture = tile.grab().toImage()
    look = one.watch._look
    edge, ground = look.colour(Role.EDGE).name(), look.colour(Role.GROUND).name()
    inner = round(look.edge(Place.PORTAL))
    assert picture.pixelColor(key.x() + inner, inner).name() == ground, "a second corner"
    for x in range(key.x() - 3, key.x() + 8):
        assert picture.pixelColor(x, 1).name() == edge, x
        assert picture.pixelColor(x, tile.height() - 2).name() == edge, x
