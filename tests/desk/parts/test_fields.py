"""Fields: what is typed stays, trouble stands beside, drafts are told within a second."""

from decimal import Decimal

import pytest
from PySide6.QtCore import QLocale, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QHBoxLayout, QWidget

from lamproom.desk.parts.choice import Choice, DropList, Option
from lamproom.desk.parts.field import DRAFT_AFTER, Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.three_way import Answer, ThreeWay
from lamproom.desk.theme import Place

LEFT = Qt.MouseButton.LeftButton


def type_into(field, text):
    field.box.setFocus()
    QTest.keyClicks(field.box, text)


def test_enter_commits_once_and_leaving_does_not_commit_the_same_again(qtbot, stand):
    field, other = Field("Work"), Field("Other")
    stand(field, other)
    committed = []
    field.committed.connect(committed.append)
    type_into(field, "replace float switch")
    QTest.keyClick(field.box, Qt.Key.Key_Return)
    other.box.setFocus()
    assert committed == ["replace float switch"]


def test_leaving_commits(qtbot, stand):
    field, other = Field("Work"), Field("Other")
    stand(field, other)
    with qtbot.waitSignal(field.committed) as told:
        type_into(field, "a")
        other.box.setFocus()
    assert told.args == ["a"]


def test_a_draft_is_told_within_a_second_of_the_last_key(qtbot, stand):
    """A power cut may cost at most what was typed in the last seconds."""
    assert DRAFT_AFTER <= 1000
    field = Field("Work")
    stand(field)
    with qtbot.waitSignal(field.typing, timeout=5000) as told:
        type_into(field, "half a sent")
    assert told.args == ["half a sent"]


def test_a_stored_text_put_back_is_not_committed_but_a_draft_is(qtbot, stand):
    field, other = Field("Work"), Field("Other")
    stand(field, other)
    committed = []
    field.committed.connect(committed.append)
    field.set_text("stored")
    field.box.setFocus()
    other.box.setFocus()
    assert committed == []
    field.set_draft("stored and half")
    field.box.setFocus()
    other.box.setFocus()
    assert committed == ["stored and half"]


def test_trouble_stands_beside_the_field_and_is_its_description_and_the_text_stays(stand):
    field = Field("Oxygen", "% vol", width=130)
    stand(field)
    field.set_text("2O.9")
    field.show_error("The letter O is not a number. Type 20.9 or 20,9.")
    assert field.text() == "2O.9"
    assert "letter O" in field.error()
    assert "letter O" in field.box.accessibleDescription()
    field.clear_error()
    assert field.error() == "" and field.box.accessibleDescription() == ""


def test_a_label_with_markup_in_it_is_shown_as_typed(stand):
    field = Field("A & <b>B</b>", mnemonic="A")
    stand(field)
    assert field._caption.text() == "&A && <b>B</b>"
    assert field._caption.textFormat() == Qt.TextFormat.PlainText
    assert field._caption.buddy() is field.box


def test_the_mnemonic_of_a_label_moves_to_its_field(qtbot, stand):
    first, second = Field("First", mnemonic="F"), Field("Second", mnemonic="S")
    window = stand(first, second)
    first.box.setFocus()
    QTest.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(second.box.hasFocus)


def test_tab_leaves_a_field_of_several_lines(qtbot, stand):
    """No trap for the keyboard (WCAG 2.2 SC 2.1.2)."""
    page, after = Field("Work", lines=3), Field("After")
    stand(page, after)
    page.box.setFocus()
    QTest.keyClick(page.box, Qt.Key.Key_Tab)
    qtbot.waitUntil(after.box.hasFocus)


def test_escape_discards_nothing(qtbot, stand):
    field = Field("Work")
    stand(field)
    type_into(field, "abc")
    QTest.keyClick(field.box, Qt.Key.Key_Escape)
    assert field.text() == "abc"


@pytest.mark.parametrize("locale", ["en_US", "de_DE", "fr_FR", "pl_PL", "es_ES", "C"])
@pytest.mark.parametrize(
    ("typed", "value"), [("20.9", "20.9"), ("20,9", "20.9"), ("0,5", "0.5"), ("209", "209"), (" 0 ", "0")]
)
def test_a_figure_is_read_the_same_in_every_language_and_kept_as_typed(qtbot, stand, locale, typed, value):
    QLocale.setDefault(QLocale(locale))
    field = FigureField("Oxygen", "% vol")
    stand(field)
    with qtbot.waitSignal(field.figure) as told:
        type_into(field, typed)
        QTest.keyClick(field.box, Qt.Key.Key_Return)
    assert told.args == [typed]
    assert field.value() == Decimal(value)
    assert field.text() == typed
    QLocale.setDefault(QLocale("C"))


@pytest.mark.parametrize("typed", ["2O.9", "20..9", "1 000", "abc", "--"])
def test_what_is_no_figure_is_refused_beside_the_field_and_stays(qtbot, stand, typed):
    field = FigureField("Oxygen", "% vol")
    stand(field)
    with qtbot.assertNotEmitted(field.figure), qtbot.waitSignal(field.unreadable):
        type_into(field, typed)
        QTest.keyClick(field.box, Qt.Key.Key_Return)
    assert field.text() == typed
    assert field.error()


def test_a_comma_that_looks_like_thousands_is_cautioned_before_it_is_taken(stand):
    field = FigureField("Carbon monoxide", "ppm")
    stand(field)
    type_into(field, "1,250")
    assert "1250" in field.error()


def test_the_last_value_stands_beside_the_empty_box_and_never_in_it(stand):
    field = FigureField("Oxygen", "% vol")
    stand(field)
    field.set_last("20.9")
    assert field.text() == "" and field.value() is None


def test_a_check_begins_unanswered_and_a_press_answers_it(qtbot, stand):
    check = ThreeWay("Fan running?")
    stand(check)
    assert check.answer() is Answer.NONE
    segment = check.bar._segments[Answer.NO]
    with qtbot.waitSignal(check.answered) as told:
        QTest.mouseClick(segment, LEFT)
    assert told.args == ["no"]
    QTest.mouseClick(segment, LEFT)
    assert check.answer() is Answer.NO


def test_a_check_is_answered_by_keys_and_walking_along_answers_nothing(qtbot, stand):
    check = ThreeWay("Fan running?")
    stand(check)
    check.focus_first()
    bar = check.bar._segments
    QTest.keyClick(bar[Answer.YES], Qt.Key.Key_Right)
    assert check.answer() is Answer.NONE
    qtbot.waitUntil(bar[Answer.NO].hasFocus)
    QTest.keyClick(bar[Answer.NO], Qt.Key.Key_Return)
    assert check.answer() is Answer.NO


def test_does_not_apply_asks_for_a_reason(qtbot, stand):
    check = ThreeWay("Fan running?")
    stand(check)
    assert not check.reason.isVisible()
    QTest.mouseClick(check.bar._segments[Answer.DOES_NOT_APPLY], LEFT)
    assert check.reason.isVisible()
    with qtbot.waitSignal(check.reason_committed) as told:
        type_into(check.reason, "no fan here")
        QTest.keyClick(check.reason.box, Qt.Key.Key_Return)
    assert told.args == ["no fan here"]


OPTIONS = [Option("a", "Oskar Wren"), Option("b", "Nia Falk"), Option("c", "Emil Tarn", barred="training ran out")]


def test_nothing_is_chosen_before_someone_chooses(stand):
    choice, drop = Choice("Attendant", OPTIONS), DropList("Attendant", OPTIONS)
    stand(choice, drop)
    assert choice.value() == "" and drop.value() == ""


def test_one_of_many_replaces_and_what_is_barred_cannot_be_chosen(qtbot, stand):
    choice = Choice("Attendant", OPTIONS)
    stand(choice)
    QTest.mouseClick(choice.row("a"), LEFT)
    QTest.mouseClick(choice.row("b"), LEFT)
    with qtbot.assertNotEmitted(choice.chosen):
        QTest.mouseClick(choice.row("c"), LEFT)
    assert choice.values() == ["b"]


def test_any_of_many_is_chosen_and_taken_back_by_key(qtbot, stand):
    choice = Choice("Gear", OPTIONS, many=True)
    stand(choice)
    choice.row("a").setFocus()
    QTest.keyClick(choice.row("a"), Qt.Key.Key_Return)
    QTest.keyClick(choice.row("a"), Qt.Key.Key_Down)
    qtbot.waitUntil(choice.row("b").hasFocus)
    QTest.keyClick(choice.row("b"), Qt.Key.Key_Space)
    assert choice.values() == ["a", "b"]
    QTest.keyClick(choice.row("b"), Qt.Key.Key_Space)
    assert choice.values() == ["a"]


def test_a_drop_list_is_chosen_by_key(qtbot, stand):
    drop = DropList("Attendant", OPTIONS[:2])
    stand(drop)
    """Keys open the list; only Enter in it chooses, so that no name is recorded on the way to another."""
    drop.box.setFocus()
    told: list[str] = []
    drop.chosen.connect(told.append)
    QTest.keyClick(drop.box, Qt.Key.Key_Down)
    assert told == [] and drop.value() == ""
    QTest.keyClick(drop.box.view(), Qt.Key.Key_Down)
    assert told == []
    QTest.keyClick(drop.box.view(), Qt.Key.Key_Return)
    assert told == ["a"] and drop.value() == "a"


def test_the_wheel_changes_no_value(qtbot, stand):
    figure, drop, choice = FigureField("Oxygen", "%"), DropList("Attendant", OPTIONS), Choice("", OPTIONS)
    check = ThreeWay("Fan?")
    stand(figure, drop, choice, check)
    figure.set_text("20.9")
    drop.set_value("a")
    choice.set_values(["a"])
    for target in (figure.box, drop.box, choice.row("a"), check.bar):
        target.setFocus()
        middle = QPointF(target.rect().center())
        turn = QWheelEvent(
            middle,
            target.mapToGlobal(middle),
            QPoint(0, -120),
            QPoint(0, -120),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(target, turn)
    assert (figure.text(), drop.value(), choice.value(), check.answer()) == ("20.9", "a", "a", Answer.NONE)


@pytest.mark.parametrize("place", list(Place))
def test_targets_are_as_high_as_their_place_asks(stand, place):
    field, drop, check = Field("A", place=place), DropList("B", place=place), ThreeWay("C", place=place)
    choice = Choice("D", OPTIONS, place=place)
    stand(field, drop, check, choice, size=(700, 1000))
    targets = [field.box, drop.box, choice.row("a"), *check.bar._segments.values()]
    assert all(target.height() >= place for target in targets)


def test_an_empty_pad_does_not_look_signed(stand):
    """A name and a time under an empty line read as a signature; they stand there once there is ink."""
    pad = InkPad("Mara Velde")
    stand(pad)
    pad.pad.set_under("Mara Velde, 08:50")
    assert pad.pad.under() == ""
    pad.pad.set_strokes([[(10, 10, 0), (90, 40, 12)]])
    assert pad.pad.under() == "Mara Velde, 08:50"


def test_a_box_stays_at_its_left_when_its_trouble_is_said_below(stand):
    field = Field("Ends", width=110, error_below=True)
    page = QWidget()
    row = QHBoxLayout(page)
    row.addWidget(field)
    row.addStretch(1)
    stand(page)
    page.resize(700, 200)
    QApplication.processEvents()
    left = field.box.x()
    field.show_error("“25:00” is not a time of day. Type hours and minutes, such as 09:30.")
    QApplication.processEvents()
    assert field.box.x() == left
