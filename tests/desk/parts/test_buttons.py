"""Buttons and the order to evacuate."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest

from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.evacuate import EvacuateButton
from lamproom.desk.parts.focus_ring import FocusRing
from lamproom.desk.parts.keypad import Keypad
from lamproom.desk.theme import Place, Theme

LEFT = Qt.MouseButton.LeftButton


def test_a_button_acts_on_release_inside_and_sliding_off_takes_it_back(qtbot, stand):
    button = Button("Store")
    stand(button)
    pressed = []
    button.clicked.connect(lambda: pressed.append(1))
    QTest.mousePress(button, LEFT)
    assert not pressed
    QTest.mouseRelease(button, LEFT, pos=QPoint(-40, -40))
    assert not pressed
    QTest.mouseClick(button, LEFT)
    assert pressed == [1]


def test_a_button_is_pressed_by_the_keyboard_and_says_its_words(qtbot, stand):
    button = Button("Review & authorize", hint="Alt 8")
    stand(button)
    button.setFocus()
    with qtbot.waitSignal(button.clicked):
        QTest.keyClick(button, Qt.Key.Key_Space)
    assert button.accessibleName() == "Review & authorize"
    assert button.accessibleDescription() == "Alt 8"


def test_a_button_not_available_cannot_be_pressed_and_tells_why(qtbot, stand):
    button = Button("Silence")
    stand(button)
    button.set_available(False, "no alarm sounds")
    with qtbot.assertNotEmitted(button.clicked):
        QTest.mouseClick(button, LEFT)
    assert button.accessibleDescription() == "no alarm sounds"


@pytest.mark.parametrize("place", list(Place))
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_a_button_is_as_high_as_its_place_asks(stand, place, scale):
    """Trailer 46 px is 12 mm, portal 76 px is 20 mm, at 96 to the inch."""
    button = Button("In", place=place)
    stand(button, scale=scale)
    assert button.height() >= place * scale
    assert button.width() >= place * scale


def test_the_main_button_is_ink_and_the_plain_one_is_not(stand):
    main, plain = Button("Store", Kind.MAIN), Button("Print")
    window = stand(main, plain)
    picture = window.grab().toImage()
    dark = lambda b: QImage.pixelColor(picture, b.pos() + QPoint(10, 10)).lightness() < 60  # noqa: E731
    assert dark(main) and not dark(plain)


def test_evacuate_is_ordered_on_press_once_and_not_on_release(qtbot, stand):
    button = EvacuateButton()
    stand(button)
    ordered = []
    button.ordered.connect(lambda: ordered.append(1))
    QTest.mousePress(button, LEFT)
    assert ordered == [1]
    QTest.mouseRelease(button, LEFT)
    assert ordered == [1]


def test_evacuate_is_ordered_by_key_and_a_held_key_orders_once(qtbot, stand):
    button = EvacuateButton()
    stand(button)
    ordered = []
    button.ordered.connect(lambda: ordered.append(1))
    button.setFocus()
    QTest.keyPress(button, Qt.Key.Key_Return)
    assert ordered == [1]
    QTest.keyRelease(button, Qt.Key.Key_Return)
    assert ordered == [1]


def test_evacuate_is_ordered_by_a_touch_as_it_begins(qtbot, stand):
    button = EvacuateButton()
    window = stand(button)
    ordered = []
    button.ordered.connect(lambda: ordered.append(1))
    screen = QTest.createTouchDevice()
    QTest.touchEvent(button, screen).press(0, QPoint(50, 50), button).commit()
    assert ordered == [1]
    QTest.touchEvent(button, screen).release(0, QPoint(50, 50), button).commit()
    assert ordered == [1]
    assert window.isVisible()


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("theme", list(Theme))
def test_evacuate_keeps_its_size_in_every_theme_and_scale(stand, scale, theme):
    """60 x 25 mm at least (226 x 94 px): 300 x 112."""
    button = EvacuateButton()
    stand(button, theme=theme, scale=scale)
    assert (button.width(), button.height()) == (300, 112)


def test_the_ring_of_focus_is_drawn_round_what_holds_the_keyboard(qtbot, stand):
    first, second = Button("One"), Button("Two")
    window = stand(first, second)
    ring = window.findChild(FocusRing)
    second.setFocus()
    qtbot.waitUntil(lambda: second.hasFocus() and ring.isVisible())
    assert ring.geometry().contains(second.geometry())
    assert not ring.geometry().contains(first.geometry().center())
    QTest.keyClick(second, Qt.Key.Key_Backtab)
    qtbot.waitUntil(lambda: ring.geometry().contains(first.geometry()))


def test_the_keypad_types_into_the_box_and_leaves_the_caret_there(qtbot, stand):
    from lamproom.desk.parts.figure_field import FigureField

    field, pad = FigureField("Oxygen", "% vol", place=Place.PORTAL), Keypad()
    stand(field, pad)
    field.box.setFocus()
    qtbot.waitUntil(field.box.hasFocus)
    for key in ("2", "0", ".", "9", "9", "back"):
        QTest.mouseClick(pad.findChild(object, f"key_{key}"), LEFT)
    assert field.text() == "20.9"
    assert field.box.hasFocus()


def test_the_keys_of_the_keypad_are_for_gloves(stand):
    """20 mm with 3 mm between: 76 px and 12 px (11.3 px) at 96 to the inch."""
    pad = Keypad()
    stand(pad)
    seven, eight, four = (pad.findChild(object, f"key_{key}").geometry() for key in "784")
    assert min(seven.width(), seven.height()) >= 76
    assert eight.left() - seven.right() - 1 >= 12
    assert four.top() - seven.bottom() - 1 >= 12
