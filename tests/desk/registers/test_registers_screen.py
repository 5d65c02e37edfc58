"""The registers, driven by their fields and buttons: spaces, people, instruments, the time, the forms."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

import pytest
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QPlainTextEdit, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label
from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.desk.theme import Look, Role, Theme
from lamproom.office.office import Office
from lamproom.office.register_person import register_person
from lamproom.office.views.registers import code_from
from lamproom.office.views.spaces import class_words, id_of
from lamproom.office.views.typed import Typed, read_day, read_watch
from lamproom.permit.space import permit_required
from lamproom.words import Refusal, say


def press(screen: QWidget, name: str) -> None:
    button = screen.findChild(QAbstractButton, name)
    assert button is not None and button.isEnabled(), name
    button.click()


def fill(screen: QWidget, name: str, text: str) -> None:
    box = screen.findChild(QLineEdit, name)
    if box is None:
        page = screen.findChild(QPlainTextEdit, name)
        assert page is not None, name
        page.setPlainText(text)
        page.left.emit()  # type: ignore[attr-defined]
        return
    box.setText(text)
    box.textEdited.emit(text)
    box.editingFinished.emit()


def text(screen: QWidget, name: str) -> str:
    box = screen.findChild(QLineEdit, name)
    assert box is not None, name
    return box.text()


def pick(screen: QWidget, name: str, value: str) -> None:
    box = screen.findChild(QComboBox, name)
    assert box is not None, name
    at = box.findData(value)
    assert at > 0, value
    box.setCurrentIndex(at)
    box.activated.emit(at)


def words(screen: QWidget) -> str:
    return "\n".join(label.text() for label in screen.findChildren(QLabel) if label.isVisible())


SPACE: Mapping[str, str] = {
    "name": "Wet well 3",
    "place": "pumping station, north yard",
    "depth": "5.4",
    "across": "2,4",
    "contents": "raw sewage",
    "portal": "hatch",
    "portal-width": "0.8",
}


def type_space(screen: QWidget, **other: str) -> None:
    press(screen, "registers.spaces")
    press(screen, "registers.new")
    for key, value in SPACE.items():
        fill(screen, f"registers.spaces.register.{key}", value)
    pick(screen, "registers.spaces.register.shape", "vertical-shaft")
    seven = ("body_can_enter", "limited_way", "not_for_occupancy", "bad_air_possible", "engulfment_possible")
    for key in (*seven, "trapping_shape", "other_hazard", "vertical", "lid"):
        press(screen, f"registers.spaces.register.{key}.{other.get(key, 'yes')}")


def test_a_space_is_registered_with_its_seven_answers(screen: RegistersScreen, office: Office) -> None:
    type_space(screen, trapping_shape="no", other_hazard="no")
    assert say("registers.space.permit_required") in words(screen)
    press(screen, "registers.spaces.register.record")
    registered = office.space("S-01").registered
    assert registered is not None and permit_required(registered)
    assert (registered.depth_m, registered.across_m) == ("5.4", "2.4")
    assert registered.trapping_shape is False


def test_a_space_with_an_open_question_is_not_registered_and_what_was_typed_stays(
    screen: RegistersScreen, office: Office
) -> None:
    press(screen, "registers.new")
    fill(screen, "registers.spaces.register.name", "Wet well 3")
    fill(screen, "registers.spaces.register.depth", "5.4")
    press(screen, "registers.spaces.register.record")
    assert office.ids("space") == ()
    press(screen, "registers.people")
    press(screen, "registers.spaces")
    assert text(screen, "registers.spaces.register.name") == "Wet well 3"


@pytest.mark.parametrize(
    ("no", "said"),
    [
        ({"limited_way"}, "registers.space.not_confined"),
        ({"bad_air_possible", "engulfment_possible", "trapping_shape", "other_hazard"}, "registers.space.confined"),
        ({"engulfment_possible", "trapping_shape", "other_hazard"}, "registers.space.permit_required"),
    ],
)
def test_all_three_and_any_one_of_four_make_it_permit_required(
    screen: RegistersScreen, office: Office, no: set[str], said: str
) -> None:
    """29 CFR 1910.146(b): definitions of confined space and permit-required confined space."""
    type_space(screen, **dict.fromkeys(no, "no"))
    press(screen, "registers.spaces.register.record")
    registered = office.space("S-01").registered
    assert registered is not None and class_words(registered) == say(said)


EVALUATION: Mapping[str, str] = {
    "by": "Ilse Hart",
    "qualified": "industrial hygienist",
    "review": "2027-11-25",
    "hazards.0.name": "Hydrogen sulfide",
    "hazards.0.shows": "smell at first, then none",
    "hazards.0.control": "ventilate, test at every point",
    "isolation.0.name": "Pump 1 breaker",
    "isolation.0.holds": "electricity",
    "isolation.0.how": "lock and tag",
    "retest.0.depth": "4.8",
    "service": "county fire department",
    "means": "radio channel 4",
    "then": "telephone 911",
    "response": "8",
    "retrieval": "tripod and winch",
    "communication": "voice, radio channel 2",
    "equipment": "lamp, harness, ladder",
}


def evaluate(screen: RegistersScreen, office: Office) -> None:
    type_space(screen)
    press(screen, "registers.spaces.register.record")
    press(screen, "registers.spaces.to-evaluate")
    for key, value in EVALUATION.items():
        fill(screen, f"registers.spaces.evaluate.{key}", value)
    pick(screen, "registers.spaces.evaluate.hazards.0.gas", "hydrogen-sulfide")
    press(screen, "registers.spaces.evaluate.hazards.add")
    fill(screen, "registers.spaces.evaluate.hazards.1.name", "Drowning")
    fill(screen, "registers.spaces.evaluate.hazards.1.shows", "level rises")
    fill(screen, "registers.spaces.evaluate.hazards.1.control", "stop the inflow")
    press(screen, "registers.spaces.evaluate.isolable.yes")
    press(screen, "registers.spaces.evaluate.ventilation.yes")


def test_a_space_is_evaluated_with_rows_of_hazards_and_points(screen: RegistersScreen, office: Office) -> None:
    evaluate(screen, office)
    press(screen, "registers.spaces.evaluate.record")
    made = office.space("S-01").evaluated
    assert made is not None
    assert [(hazard.id, hazard.gas) for hazard in made.hazards] == [
        ("hydrogen-sulfide", "hydrogen-sulfide"),
        ("drowning", None),
    ]
    assert [point.id for point in made.isolation] == ["pump-1-breaker"]
    assert made.unisolable is None and made.ventilation_needed
    assert made.retest_points_m == ("4.8",)
    assert made.review_by == date(2027, 11, 25)
    assert "4.8 m" in [label.text() for label in screen.findChildren(QLabel) if label.isVisible()]


def test_a_source_that_cannot_be_shut_off_needs_its_reason(screen: RegistersScreen, office: Office) -> None:
    evaluate(screen, office)
    press(screen, "registers.spaces.evaluate.isolable.no")
    press(screen, "registers.spaces.evaluate.record")
    assert office.space("S-01").evaluated is None
    fill(screen, "registers.spaces.evaluate.unisolable", "gravity sewer without a valve")
    press(screen, "registers.spaces.evaluate.record")
    made = office.space("S-01").evaluated
    assert made is not None and made.unisolable == "gravity sewer without a valve"


def test_a_second_evaluation_begins_with_the_descriptions_of_the_first_and_its_own_name_and_day(
    screen: RegistersScreen, office: Office
) -> None:
    evaluate(screen, office)
    press(screen, "registers.spaces.evaluate.record")
    press(screen, "registers.spaces.to-evaluate")
    assert text(screen, "registers.spaces.evaluate.hazards.1.name") == "Drowning"
    assert text(screen, "registers.spaces.evaluate.by") == ""
    assert text(screen, "registers.spaces.evaluate.review") == ""


def test_two_hazards_of_one_name_have_two_ids() -> None:
    taken: set[str] = set()
    assert [id_of("Moving parts", taken), id_of("Moving parts", taken)] == ["moving-parts", "moving-parts-2"]


def type_person(screen: QWidget, name: str, role: str) -> None:
    press(screen, "registers.people")
    press(screen, "registers.new")
    fill(screen, "registers.people.new.name", name)
    press(screen, f"registers.people.new.roles.{role}")
    fill(screen, "registers.people.new.trainer", "Ilse Hart")
    fill(screen, "registers.people.new.trained-on", "4 Feb 2026")


def test_an_entrant_needs_no_code(screen: RegistersScreen, office: Office) -> None:
    type_person(screen, "Teo Amadi", "entrant")
    press(screen, "registers.people.new.record")
    assert office.names()["P-02"] == "Teo Amadi"
    assert office.person("P-02").trained[0].trained_on == date(2026, 2, 4)
    assert "P-02" not in office.keys.people()


def test_who_signs_gets_a_code_with_the_keepers(screen: RegistersScreen, office: Office) -> None:
    type_person(screen, "Oskar Wren", "attendant")
    press(screen, "registers.people.new.record")
    assert "P-02" not in office.ids("person"), "an attendant without a code is not registered"
    fill(screen, "registers.people.new.code", "harbor-2291")
    fill(screen, "registers.people.new.code-again", "harbor-2291")
    fill(screen, "registers.people.new.keeper-code", "lantern-4417")
    press(screen, "registers.people.new.record")
    assert "P-02" in office.keys.people()
    assert office.keys.unlock("P-02", "harbor-2291", office.now()).holder == "P-02"
    assert "harbor" not in str(office.journal.drafts("person/new"))


def test_a_wrong_code_of_the_keeper_registers_nobody_and_keeps_what_was_typed(
    screen: RegistersScreen, office: Office
) -> None:
    type_person(screen, "Oskar Wren", "attendant")
    fill(screen, "registers.people.new.code", "harbor-2291")
    fill(screen, "registers.people.new.code-again", "harbor-2291")
    fill(screen, "registers.people.new.keeper-code", "lantern-4418")
    press(screen, "registers.people.new.record")
    assert "P-02" not in office.ids("person")
    assert text(screen, "registers.people.new.name") == "Oskar Wren"


def test_training_is_added_to_a_person(screen: RegistersScreen, office: Office) -> None:
    press(screen, "registers.people")
    press(screen, "registers.row.P-01")
    press(screen, "registers.people.training.role.attendant")
    fill(screen, "registers.people.training.trainer", "Ilse Hart")
    fill(screen, "registers.people.training.trained-on", "2026-05-04")
    press(screen, "registers.people.training.record")
    assert [done.role for done in office.person("P-01").trained] == ["supervisor", "attendant"]


def type_instrument(screen: QWidget, id: str) -> None:
    press(screen, "registers.instruments")
    press(screen, "registers.new")
    name = "registers.instruments.new"
    for key, value in {
        "id": id,
        "name": "four-gas",
        "serial": "OB 2207",
        "flow": "0.5",
        "battery": "12",
        "calibration": "180",
    }.items():
        fill(screen, f"{name}.{key}", value)
    press(screen, f"{name}.pumped.yes")
    press(screen, f"{name}.gases.oxygen")
    pick(screen, f"{name}.oxygen.technology", "electrochemical")
    for key, value in {"range": "30", "resolution": "0.1", "response": "15", "low": "19.5", "high": "23.5"}.items():
        fill(screen, f"{name}.oxygen.{key}", value)


def test_an_instrument_is_registered_with_its_sensors(screen: RegistersScreen, office: Office) -> None:
    type_instrument(screen, "07")
    press(screen, "registers.instruments.new.record")
    known = office.instrument("07").registered
    assert known is not None and known.pump_l_min == "0.5" and known.calibration_days == 180
    sensor = known.sensors[0]
    assert (sensor.gas, sensor.unit, sensor.alarm_low, sensor.alarm_high) == ("oxygen", "% vol", "19.5", "23.5")


def test_one_of_the_same_make_is_described_by_one_press_but_keeps_its_own_number(
    screen: RegistersScreen, office: Office
) -> None:
    type_instrument(screen, "07")
    press(screen, "registers.instruments.new.record")
    press(screen, "registers.new")
    pick(screen, "registers.instruments.new.like", "07")
    assert text(screen, "registers.instruments.new.oxygen.low") == "19.5"
    assert text(screen, "registers.instruments.new.serial") == ""
    fill(screen, "registers.instruments.new.id", "07")
    fill(screen, "registers.instruments.new.serial", "OB 2208")
    press(screen, "registers.instruments.new.record")
    known = office.instrument("07").registered
    assert known is not None and known.serial == "OB 2207", "a number is never given again"
    fill(screen, "registers.instruments.new.id", "08")
    press(screen, "registers.instruments.new.record")
    other = office.instrument("08").registered
    assert other is not None and other.sensors == known.sensors


def test_two_people_with_codes_declare_the_clock_wrong(screen: RegistersScreen, desk: Desk, office: Office) -> None:
    register_person(
        office, "P-02", "Oskar Wren", ("attendant",), (), by="P-01", code="harbor-2291", keeper_code="lantern-4417"
    )
    screen.show_where(target="time")
    name = "registers.time"
    for key, value in {"first": "5", "last": "5", "watch": "07:25", "day": "2026-11-25"}.items():
        fill(screen, f"{name}.{key}", value)
    pick(screen, f"{name}.one", "P-01")
    pick(screen, f"{name}.other", "P-02")
    fill(screen, f"{name}.code-one", "lantern-4417")
    press(screen, f"{name}.declare")
    assert office.site.wrong == (), "one code is not two"
    fill(screen, f"{name}.code-other", "harbor-2291")
    press(screen, f"{name}.declare")
    assert office.site.wrong == ((5, 5),)


def test_the_figures_of_the_form_stand_with_their_reasons(screen: RegistersScreen) -> None:
    screen.show_where(target="figures")
    shown = words(screen)
    for line in ("19.5 to 23.5 % vol", "below 10 % LEL", "29 CFR 1910.146(b)"):
        assert line in shown


@pytest.mark.parametrize("typed", ["2026-11-25", "25 Nov 2026", "25 november, 2026"])
def test_a_day_is_read_in_a_form_no_country_can_mistake(typed: str) -> None:
    assert read_day(typed) == date(2026, 11, 25)


@pytest.mark.parametrize("typed", ["11/12/2026", "25.11.26", "2026-02-30", "yesterday", ""])
def test_a_day_that_could_be_another_is_refused(typed: str) -> None:
    with pytest.raises(Refusal):
        read_day(typed)


@pytest.mark.parametrize("typed", ["7", "25:00", "07:60", "7:2", "noon"])
def test_a_watch_is_read_to_the_minute_or_not_at_all(typed: str, office: Office) -> None:
    with pytest.raises(Refusal):
        read_watch("2026-11-25", typed, office.zone)


def test_a_page_opened_in_the_dark_has_its_labels_in_the_color_of_the_dark(screen: RegistersScreen) -> None:
    look = Look(Theme.DARK)
    dress(screen, look)
    screen.show_where(target="time")
    QApplication.processEvents()
    labels = [label for label in screen.findChildren(Label) if label.isVisible() and label.text()]
    light = Look(Theme.LIGHT).colour(Role.TEXT)
    assert labels
    assert [label.text() for label in labels if label.palette().color(QPalette.ColorRole.WindowText) == light] == []


def test_an_empty_code_asks_for_a_code_and_for_nothing_else(office: Office) -> None:
    typed = Typed({})
    code_from(typed, "", "", 8, ("Mara Velde",))
    assert typed.troubles == {"code": "Type a code."}


def test_the_time_page_says_who_confirmed_the_time_and_when(screen: RegistersScreen) -> None:
    screen.show_where(register="time")
    shown = [label.text() for label in screen.findChildren(QLabel)]
    assert "Last confirmed by Mara Velde, 25 Nov 2026 07:20." in shown
