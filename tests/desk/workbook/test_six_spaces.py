"""The section drawing for spaces of different shapes: to scale, untested open, legible without color, in words too."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot
from tests.desk.workbook.six_spaces import SPACES, STATES, Space, picture_of, site_of

from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.section_drawing import SectionView, _shell, depth_scale
from lamproom.desk.theme import Look, Theme
from lamproom.office.views.air_test_sheet import air_test_view
from lamproom.permit.gas_limits import substance_of

AREA = QRectF(0, 0, 254, 330)
each = pytest.mark.parametrize("space", SPACES, ids=lambda space: space.name)


def drawn(qtbot: QtBot, space: Space, state: str, folder: Path, theme: Theme = Theme.LIGHT) -> QImage:
    load_fonts()
    picture = picture_of(site_of(space, state, folder))
    qtbot.addWidget(picture)
    dress(picture, Look(theme))
    picture.resize(722, 330)
    return picture.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)


@each
def test_width_and_depth_are_drawn_by_one_scale_or_it_is_said_that_they_are_not(space: Space) -> None:
    view = SectionView(float(space.depth), across=float(space.across), shape=space.shape)
    scale = depth_scale(view, AREA, 62, 280)
    shell = _shell(view, AREA, scale)
    by_depth, by_width = shell.inside.height() / float(space.depth), shell.inside.width() / float(space.across)
    close = 0.9 <= by_width / by_depth <= 1 / 0.9
    assert (shell.true_width is True) is close
    assert shell.inside.left() >= AREA.left() and shell.inside.right() <= AREA.right()
    assert shell.inside.left() < shell.mouth[0] < shell.mouth[1] < shell.inside.right()


def test_most_of_the_six_are_drawn_to_scale() -> None:
    """A long tank alone is shortened, and its words say so."""
    shortened = []
    for space in SPACES:
        view = SectionView(float(space.depth), across=float(space.across), shape=space.shape)
        if _shell(view, AREA, depth_scale(view, AREA, 62, 280)).true_width is not True:
            shortened.append(space.name)
    assert shortened == ["Fuel oil tank"]


@each
@pytest.mark.parametrize("state", STATES)
def test_every_point_is_told_as_tested_with_its_time_or_as_not_tested(
    qtbot: QtBot, tmp_path: Path, space: Space, state: str
) -> None:
    site = site_of(space, state, tmp_path)
    picture = picture_of(site)
    qtbot.addWidget(picture)
    words = picture.summary()
    view = air_test_view(site.office, site.number)
    for _depth, name, time in view.points:
        assert (f"{name}: tested {time}" if time else f"{name}: not tested") in words
    untested = sum(not time for _depth, _name, time in view.points)
    assert {"empty": untested == len(view.points), "half": 0 < untested < len(view.points)}.get(state, untested == 0)


@each
@pytest.mark.parametrize("theme", Theme)
def test_the_four_states_are_told_apart_without_any_color(
    qtbot: QtBot, tmp_path: Path, space: Space, theme: Theme
) -> None:
    images = []
    for state in STATES:
        (tmp_path / state).mkdir()
        images.append(drawn(qtbot, space, state, tmp_path / state, theme))
    assert all(a != b for at, a in enumerate(images) for b in images[at + 1 :])


@each
def test_each_vapor_of_the_hazards_is_said_to_tend_somewhere_and_that_gases_mix(
    qtbot: QtBot, tmp_path: Path, space: Space
) -> None:
    """Molar masses against 28.964 g/mol of dry air (US Standard Atmosphere 1976)."""
    site = site_of(space, "empty", tmp_path)
    picture = picture_of(site)
    qtbot.addWidget(picture)
    words = picture.summary()
    assert "Gases mix: test every point." in words
    tends = {one.gas: one for one in air_test_view(site.office, site.number).tends}
    assert set(space.gases) <= set(tends)
    for gas in space.gases:
        known = substance_of(gas)
        assert known is not None and known.molar_mass is not None
        ratio = float(known.molar_mass.value) / 28.964
        assert float(tends[gas].density) == pytest.approx(ratio, abs=0.006)
        way = "like" if abs(ratio - 1) <= 0.05 else "heavier" if ratio > 1 else "lighter"
        assert tends[gas].way == way and tends[gas].words in words
