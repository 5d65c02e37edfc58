"""Section, gas columns, trend, rule, bars, ink."""

import itertools

import pytest
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest

from lamproom.desk.parts.air_picture import AirPicture, WaitView
from lamproom.desk.parts.depth_scale import DepthScale, spread
from lamproom.desk.parts.gas_columns import Found, GasColumn, paint_column
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.ready_bar import ReadyAxis, ReadyBar
from lamproom.desk.parts.section_drawing import PointMark, SectionDrawing, SectionView
from lamproom.desk.parts.time_rule import RuleView, TimeRule
from lamproom.desk.parts.trend import Trend, TrendPoint, TrendView
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Look, Theme

LEFT = Qt.MouseButton.LeftButton
POINTS = (PointMark(0.3, "0.3 m", "09:31"), PointMark(2.7, "2.7 m", "09:37"), PointMark(4.6, "4.6 m"))
SECTION = SectionView(4.8, POINTS, liquid=4.3, instrument="07")


def gas(*values, **more):
    found = tuple(Found(depth, float(text), text) for depth, text in values)
    return GasColumn("o2", "Oxygen", "% vol", 23.5, (18, 25), "19.5 to 23.5", 19.5, found, **more)


def test_depth_is_true_to_scale():
    scale = DepthScale(4.8, 100, 580)
    assert scale.y(0) == 100 and scale.y(4.8) == 580 and scale.y(2.4) == 340


def test_labels_too_close_are_spread_and_stay_in_order_and_in_the_picture():
    placed = spread([100, 102, 104, 400], 20, 90, 410)
    assert placed == sorted(placed)
    assert all(b - a >= 20 for a, b in itertools.pairwise(placed))
    assert placed[0] >= 90 and placed[-1] <= 410


def test_every_sign_is_another_drawing(qapp):
    """Shape alone tells them apart, in one ink: no meaning by color alone."""
    pictures = {}
    for sign in Sign:
        image = QImage(48, 48, QImage.Format.Format_Grayscale8)
        image.fill(255)
        painter = QPainter(image)
        draw_sign(painter, QRectF(0, 0, 48, 48), sign, Theme.SUN, Qt.GlobalColor.black)
        painter.end()
        pictures.setdefault(bytes(image.constBits()), []).append(sign.name)
    doubles = sorted(sorted(names) for names in pictures.values() if len(names) > 1)
    # The words beside them differ: steady and does not apply, and the tick that has no color here.
    assert doubles == [["EQUAL", "STEADY"], ["TICK", "WITHIN"]]


def test_a_scale_widens_only_for_a_value_outside_it():
    assert gas((0.3, "20.9")).ends() == (18, 25, False)
    low, _high, widened = gas((0.3, "12.0")).ends()
    assert low == 12.0 and widened


def column_picture(values, untested):
    image = QImage(120, 600, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    painter = QPainter(image)
    scale = DepthScale(5.0, 60, 560)
    paint_column(painter, QRectF(10, 0, 100, 600), scale, gas(*values), Look(Theme.SUN), untested)
    painter.end()
    across = round(10 + 4 + 92 * (20.9 - 18) / 7)
    return [QImage.pixelColor(image, across, y).lightness() < 100 for y in range(200, 360)]


def test_nothing_is_drawn_through_a_point_that_was_not_tested():
    """Values at 1 m and 4 m, nothing at 2.5 m: no line between them; tested there, a line."""
    values = ((1.0, "20.9"), (4.0, "20.9"))
    assert not any(column_picture(values, untested=(2.5,)))
    assert all(column_picture(values, untested=()))


def test_a_value_is_chosen_by_keys_and_by_a_press(qtbot, stand):
    picture = AirPicture()
    stand(picture)
    picture.set_air(SECTION, [gas((0.3, "20.9"), (2.7, "20.1"))])
    picture.setFocus()
    told = []
    picture.point_chosen.connect(lambda key, depth: told.append((key, depth)))
    QTest.keyClick(picture, Qt.Key.Key_Right)
    QTest.keyClick(picture, Qt.Key.Key_Down)
    assert told == [("o2", "0.3"), ("o2", "2.7")]
    picture.grab()
    box = next(box for _key, box, found in picture._places if found.depth == 0.3)
    QTest.mouseClick(picture, LEFT, pos=box.center().toPoint())
    assert told[-1] == ("o2", "0.3")


def test_the_picture_is_said_in_words_with_what_was_not_tested(stand):
    picture = AirPicture()
    stand(picture)
    picture.set_air(SECTION, [gas((0.3, "20.9"))])
    words = picture.accessibleDescription()
    assert "4.6 m: not tested" in words
    assert "20.9 at 0.3 m" in words and "limit 19.5 to 23.5" in words


def old_picture(stand, outside):
    """A point with figures of before the air changed, drawn in the sun theme; with the box that they stand in."""
    view = SectionView(4.8, (PointMark(2.4, "2.4 m", old_time="08:02", old_words="before the fan"),))
    picture = AirPicture()
    stand(picture, theme=Theme.SUN, size=(760, 500))
    picture.set_air(view, [gas(old=(Found(2.4, 14.0, "14", outside=outside),))])
    return picture.grab().toImage(), picture.strip(2.4)


def test_an_untested_point_is_marked_on_the_axis_of_depth_and_not_among_the_scales(stand):
    image, strip = old_picture(stand, outside=False)
    y = strip.center().y()
    row = [image.pixelColor(x, y).lightness() < 128 for x in range(strip.left() + 8, strip.left() + 60)]
    assert not any(row)
    assert any(image.pixelColor(x, y).lightness() < 128 for x in range(strip.left() - 16, strip.left()))


@pytest.mark.parametrize("outside", [True, False])
def test_a_struck_figure_that_was_past_its_limit_keeps_its_mark(stand, outside):
    image, strip = old_picture(stand, outside)
    red = [
        (x, y)
        for x in range(strip.left(), strip.right())
        for y in range(strip.top(), strip.bottom())
        if image.pixelColor(x, y).red() - image.pixelColor(x, y).green() > 80
    ]
    assert bool(red) is outside


@pytest.mark.parametrize("theme", list(Theme))
def test_section_and_wait_are_drawn_in_every_theme(stand, theme):
    picture, section = AirPicture(), SectionDrawing()
    stand(picture, section, theme=theme, size=(760, 800))
    picture.set_air(SECTION, [gas((0.3, "20.9"))])
    picture.set_wait(WaitView(4.6, "0:33", "4.6 m", (("hose", 22), ("flush", 22), ("sensor", 30)), 20))
    section.set_view(SECTION)
    assert not picture.grab().isNull() and not section.grab().isNull()
    assert picture.rect().contains(picture.strip(4.6))


def trend_view(minutes, **more):
    points = tuple(TrendPoint(m * 60.0, 2.0, str(m)) for m in minutes)
    return TrendView("Hydrogen sulfide", "ppm", points, (0, 15), ((10.0, "10"),), 0, 7200, 900, **more)


def test_signs_of_people_who_went_in_minutes_apart_do_not_cover_one_another(stand):
    plot = Trend()
    stand(plot, size=(330, 250))
    many = tuple((m * 60.0, Sign.GO_IN if m % 2 else Sign.GO_OUT, "Teo") for m in (61, 60, 63, 62, 118, 119, 120))
    plot.set_view(trend_view([0, 60, 120], moves=many))
    places = [x for x, _sign in plot.moves()]
    assert len(places) == 7
    assert all(b - a >= 18 for a, b in itertools.pairwise(places))
    assert places[0] > 60 and places[-1] <= plot.width()
    plot.set_view(trend_view([0, 60, 120], moves=many * 5))
    places = [x for x, _sign in plot.moves()]
    assert places[0] > 60 and len(places) < 35


def test_the_line_breaks_where_a_gap_is_longer_than_one_and_a_half_intervals(stand):
    view = trend_view([0, 15, 37, 60])
    assert [(a.text, b.text) for a, b in view.gaps()] == [("37", "60")]
    plot = Trend()
    stand(plot)
    plot.set_view(view)
    assert "1 gaps" in plot.accessibleDescription()


def test_a_reading_is_chosen_by_keys_from_the_newest(qtbot, stand):
    plot = Trend()
    stand(plot)
    plot.set_view(trend_view([0, 15, 30]))
    plot.setFocus()
    told = []
    plot.point_chosen.connect(told.append)
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Left, Qt.Key.Key_Right):
        QTest.keyClick(plot, key)
    assert told == [2, 1, 2]
    QTest.mouseClick(plot, LEFT, pos=QPoint(round(plot._x(0.0)), 100))
    assert told[-1] == 0


def test_the_rule_shows_time_due_ahead_and_lateness_filled(stand):
    rule = TimeRule()
    stand(rule)

    def dark_between(now):
        rule.set_view(RuleView(0, 1200, now, due=600, grace=720, words="rule"))
        picture = rule.grab().toImage()
        middle = round(9 + (rule.width() - 18) * 660 / 1200)
        return sum(picture.pixelColor(middle + dx, rule.height() - 8).lightness() < 100 for dx in range(-8, 9))

    assert dark_between(now=900) > 14  # late: solid
    assert dark_between(now=300) < 10  # ahead: hatched at most


def test_bars_share_one_axis_and_an_instrument_not_ready_has_none(stand):
    axis = ReadyAxis(0, 86400)
    assert (axis.share(43200), axis.share(-5), axis.share(10**6)) == (0.5, 0.0, 1.0)
    ready, not_ready = ReadyBar(), ReadyBar()
    stand(ready, not_ready)
    ready.set_ready(axis, 43200, "07", "ready until 22:00")
    not_ready.set_ready(axis, None, "03", "not ready")
    inked = lambda bar: bar.grab().toImage().pixelColor(4, bar.height() - 6).lightness() < 100  # noqa: E731
    assert inked(ready) and not inked(not_ready)
    assert ready.accessibleName() == "07, ready until 22:00"


def test_ink_is_kept_as_strokes_in_thousandths_of_the_width(qtbot, stand):
    ink = InkPad("Mara Velde")
    stand(ink)
    with qtbot.waitSignal(ink.written):
        QTest.mousePress(ink.pad, LEFT, pos=QPoint(0, 1))
        QTest.mouseMove(ink.pad, QPoint(ink.pad.width() // 2, 20))
        QTest.mouseRelease(ink.pad, LEFT, pos=QPoint(ink.pad.width(), 40))
    (stroke,) = ink.strokes()
    assert stroke[0][0] == 0 and stroke[0][1] <= 5
    assert stroke[-1][0] == 1000
    assert all(isinstance(part, int) for point in stroke for part in point)
    times = [ms for _x, _y, ms in stroke]
    assert times == sorted(times) and times[0] == 0


def test_signing_by_key_alone_takes_the_ink_away_and_can_be_taken_back(qtbot, stand):
    ink = InkPad("Mara Velde")
    stand(ink)
    QTest.mouseClick(ink.pad, LEFT, pos=QPoint(20, 20))
    assert ink.strokes()
    ink._key.setFocus()
    with qtbot.waitSignal(ink.by_key_chosen) as told:
        QTest.keyClick(ink._key, Qt.Key.Key_Space)
    assert told.args == [True] and ink.signed_by_key() and not ink.strokes()
    QTest.mouseClick(ink.pad, LEFT, pos=QPoint(30, 30))
    assert not ink.strokes()
    QTest.mouseClick(ink._key, LEFT)
    assert not ink.signed_by_key()


def test_clear_wipes_the_pad(stand):
    ink = InkPad("Mara Velde")
    stand(ink)
    QTest.mouseClick(ink.pad, LEFT, pos=QPointF(20, 20).toPoint())
    QTest.mouseClick(ink._clear, LEFT)
    assert ink.strokes() == []
