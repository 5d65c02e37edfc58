"""What the evaluation says of sorts, isolation, rescue, neighbours and the alternate basis; what ways in it opens."""

from __future__ import annotations

from datetime import date

from PySide6.QtWidgets import QAbstractButton, QWidget
from tests.desk.registers.test_registers_screen import (
    EVALUATION,
    evaluate,
    fill,
    pick,
    press,
    type_person,
    type_space,
    words,
)

from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.office.office import Office
from lamproom.office.views.ways_in import ways_in
from lamproom.words import say

EV = "registers.spaces.evaluate"


def record(screen: QWidget) -> None:
    press(screen, f"{EV}.record")


def reasons(office: Office, route: str) -> str:
    return " ".join(next(way for way in ways_in(office, "S-01") if way.route == route).reasons)


def air_only(screen: RegistersScreen) -> None:
    """A space whose only hazard is its air, evaluated with everything but the basis."""
    no = ("engulfment_possible", "trapping_shape", "other_hazard")
    type_space(screen, **dict.fromkeys(no, "no"))
    press(screen, "registers.spaces.register.record")
    press(screen, "registers.spaces.to-evaluate")
    for key, value in EVALUATION.items():
        fill(screen, f"{EV}.{key}", value)
    pick(screen, f"{EV}.hazards.0.gas", "hydrogen-sulfide")
    pick(screen, f"{EV}.hazards.0.sort", "atmosphere")
    pick(screen, f"{EV}.isolation.0.held_as", "lockout")
    press(screen, f"{EV}.isolable.yes")
    press(screen, f"{EV}.ventilation.yes")


def say_rescue(screen: RegistersScreen) -> None:
    press(screen, f"{EV}.team.outside")
    fill(screen, f"{EV}.judged-by", "R. Ansgar")
    fill(screen, f"{EV}.judged-on", "2026-05-04")
    for key in ("told-hazards", "access-given", "mechanical"):
        press(screen, f"{EV}.{key}.yes")


def say_basis(screen: RegistersScreen) -> None:
    fill(screen, f"{EV}.monitoring", "binder 4, safety office")
    fill(screen, f"{EV}.inspection", "binder 5, safety office")
    press(screen, f"{EV}.ventilation-alone.yes")
    fill(screen, f"{EV}.decided-by", "R. Ansgar")
    fill(screen, f"{EV}.decided-on", "2026-05-04")


def test_nothing_of_the_new_questions_is_answered_before(screen: RegistersScreen, office: Office) -> None:
    evaluate(screen, office)
    record(screen)
    made = office.space("S-01").evaluated
    assert made is not None
    assert {h.sort for h in made.hazards} == {"not-said"} and made.isolation[0].held_as == "not-said"
    plan = made.rescue
    assert (plan.team, plan.evaluated_on, plan.told_hazards, plan.access_given) == ("not-said", None, None, None)
    assert (plan.practised_on, plan.first_aid_until, plan.mechanical) == (None, None, None)
    assert made.alternate is None and made.adjoining == ()
    assert reasons(office, "permit"), "what nobody said keeps the permit's way closed, with why"


def test_the_evaluation_says_sort_isolation_rescue_and_opens_the_permit(
    screen: RegistersScreen, office: Office
) -> None:
    air_only(screen)
    say_rescue(screen)
    record(screen)
    made = office.space("S-01").evaluated
    assert made is not None
    assert made.hazards[0].sort == "atmosphere" and made.isolation[0].held_as == "lockout"
    plan = made.rescue
    assert (plan.team, plan.evaluated_by, plan.evaluated_on) == ("outside", "R. Ansgar", date(2026, 5, 4))
    assert plan.told_hazards and plan.access_given and plan.mechanical
    assert reasons(office, "permit") == ""
    assert "No monitoring and inspection data" in reasons(office, "alternate")
    assert "is not reclassified" in reasons(office, "reclassified")


def test_the_alternate_way_opens_with_its_basis_and_only_with_all_of_it(
    screen: RegistersScreen, office: Office
) -> None:
    air_only(screen)
    say_rescue(screen)
    fill(screen, f"{EV}.monitoring", "binder 4, safety office")
    record(screen)
    assert office.space("S-01").evaluated is None, "half a basis is not recorded"
    say_basis(screen)
    record(screen)
    made = office.space("S-01").evaluated
    assert made is not None and made.alternate is not None and made.alternate.decided_on == date(2026, 5, 4)
    assert reasons(office, "alternate") == ""


def test_the_space_shows_its_danger_sign_and_its_worksheet(screen: RegistersScreen, office: Office) -> None:
    air_only(screen)
    record(screen)
    shown = words(screen)
    assert say("registers.space.danger") in shown
    assert "No monitoring and inspection data" in shown
    assert screen.findChild(QWidget, "registers.way.alternate") is not None
    assert screen.findChild(QWidget, "registers.way.reclassified") is not None


def test_a_space_that_needs_no_permit_shows_no_danger_sign(screen: RegistersScreen, office: Office) -> None:
    no = ("bad_air_possible", "engulfment_possible", "trapping_shape", "other_hazard")
    type_space(screen, **dict.fromkeys(no, "no"))
    press(screen, "registers.spaces.register.record")
    assert say("registers.space.danger") not in words(screen)


def test_another_space_is_offered_as_a_neighbour_and_kept(screen: RegistersScreen, office: Office) -> None:
    type_space(screen)
    press(screen, "registers.spaces.register.record")
    press(screen, "registers.new")
    type_space(screen, name="Valve pit")
    press(screen, "registers.spaces.register.record")
    press(screen, "registers.spaces.to-evaluate")
    for key, value in EVALUATION.items():
        fill(screen, f"{EV}.{key}", value)
    press(screen, f"{EV}.isolable.yes")
    press(screen, f"{EV}.ventilation.yes")
    press(screen, f"{EV}.adjoining.S-01")
    record(screen)
    made = office.space("S-02").evaluated
    assert made is not None and made.adjoining == ("S-01",)


def test_a_new_evaluation_takes_descriptions_along_but_nothing_that_was_judged(
    screen: RegistersScreen, office: Office
) -> None:
    air_only(screen)
    say_rescue(screen)
    say_basis(screen)
    record(screen)
    press(screen, "registers.spaces.to-evaluate")
    outside = screen.findChild(QAbstractButton, f"{EV}.team.outside")
    told = screen.findChild(QAbstractButton, f"{EV}.told-hazards.yes")
    alone = screen.findChild(QAbstractButton, f"{EV}.ventilation-alone.yes")
    assert outside is not None and told is not None and alone is not None
    assert outside.isChecked() and not told.isChecked() and not alone.isChecked()


def test_a_contractors_person_is_registered_with_their_employer_and_ours_without(
    screen: RegistersScreen, office: Office
) -> None:
    type_person(screen, "Teo Amadi", "entrant")
    press(screen, "registers.people.new.record")
    type_person(screen, "Bo Larkin", "entrant")
    fill(screen, "registers.people.new.employer", "Larkin Lining")
    press(screen, "registers.people.new.record")
    assert [office.person(id).employer for id in ("P-02", "P-03")] == ["own", "Larkin Lining"]
