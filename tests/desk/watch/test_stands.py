"""What stands in the way, at the portal: nothing scrolls, what fits is seen whole, the rest is one key away."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QApplication, QScrollBar, QWidget
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station
from tests.desk.watch.test_words import back

Make = Callable[..., Station]


def rows_in(pane: QWidget) -> list[QWidget]:
    """The rows that are seen, each from its first line to its last."""
    seen = [row for row in pane.findChildren(QWidget) if hasattr(row, "needed_height") and row.isVisible()]
    for row in seen:
        assert row.height() >= row.needed_height(row.width())
        corner = row.mapTo(pane, row.rect().topLeft())
        assert pane.rect().contains(QRect(corner, row.size())), "a row is cut"
    return seen


def sentences(pane: QWidget) -> list[str]:
    return [row.shown.sentence for row in rows_in(pane)]  # type: ignore[attr-defined]


def much(one: crew.Site) -> crew.Site:
    """Back from a break, one point noted early, two with one probe at one time, the fourth not read: so many
    reasons, so many rows."""
    back(one)
    one.read("20.9 0 1 0", "after-break", "0.3")
    one.minutes(4)
    for point in ("2.7", "3.9"):
        one.read("20.9 0 1 0", "after-break", point, lowered=True)
    one.minutes(30)
    return one


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768)])
@pytest.mark.parametrize("panel", ["", "stands"])
def test_many_obstacles_none_is_cut_none_scrolls_and_the_rest_is_counted(
    station: Make, size: tuple[int, int], panel: str
) -> None:
    one = station(much)
    for other in ((1366, 768), (1280, 800), size):
        one.watch.resize(*other)
        QApplication.processEvents()
    if panel:
        one.watch.open(panel)
    QApplication.processEvents()
    name = "watch.stands.list" if panel else "watch.obstacles"
    pane = one.part(name)
    every = [line.sentence for line in one.watch.view.obstacles]  # type: ignore[union-attr]
    assert len(every) > 4 and not [bar for bar in one.watch.findChildren(QScrollBar) if bar.isVisible()]
    seen = sentences(pane)
    assert len(seen) >= (3 if panel else 2)
    if len(seen) < len(every):
        key = one.part(f"{name}.more")
        assert key.accessibleName() == f"{len(every) - len(seen)} more" and key.height() >= 75
        told = set(seen)
        for _press in every:
            one.press(f"{name}.more")
            told |= set(sentences(pane))
        assert told == set(every)


def test_few_obstacles_all_stand_below_the_title_without_a_gap(station: Make) -> None:
    one = station(crew.authorised)
    one.key(Qt.Key.Key_Escape)
    QApplication.processEvents()
    pane = one.part("watch.obstacles")
    seen = rows_in(pane)
    assert len(seen) == len(one.watch.view.obstacles)  # type: ignore[union-attr]
    assert seen[0].mapTo(pane, seen[0].rect().topLeft()).y() <= 72
    assert not one.shown("watch.obstacles.more")
