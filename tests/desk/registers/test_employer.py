"""Whom a registered person works for, changed by clicks; what host and contractor owe each other follows it: 29 CFR
1910.146(c)(8), (c)(9)."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.desk.registers.test_registers_screen import fill, press, text, type_person, words
from tests.desk.watch import crew

from lamproom.desk.desk import Desk
from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.office.change_employer import change_employer
from lamproom.office.office import Office
from lamproom.permit.asked import other_employer
from lamproom.permit.people import PersonEmployed
from lamproom.words import Refusal, say

EMPLOYER = "registers.people.employer"


@pytest.fixture
def teo(screen: RegistersScreen) -> RegistersScreen:
    """Teo Amadi, P-02, registered as the site's own."""
    type_person(screen, "Teo Amadi", "entrant")
    press(screen, "registers.people.new.record")
    return screen


def change(screen: RegistersScreen, employer: str) -> None:
    press(screen, "registers.people.training.to-employer")
    fill(screen, f"{EMPLOYER}.employer", employer)
    press(screen, f"{EMPLOYER}.record")


def test_the_employer_is_changed_and_stands_on_the_persons_page_with_since_when_and_by_whom(
    teo: RegistersScreen, office: Office
) -> None:
    assert "this site, since 25 Nov 2026, recorded by Mara Velde" in words(teo)
    change(teo, "Larkin Lining")
    assert office.person("P-02").employer == "Larkin Lining"
    assert office.happenings("person/P-02")[-1].event == PersonEmployed(employer="Larkin Lining")
    shown = words(teo)
    assert "Larkin Lining, since 25 Nov 2026, recorded by Mara Velde" in shown
    assert shown.index("Larkin Lining, since") < shown.index("this site, since"), "the newest stands first"


def test_the_way_back_to_the_sites_own_is_an_empty_field(teo: RegistersScreen, office: Office) -> None:
    change(teo, "Larkin Lining")
    press(teo, "registers.people.training.to-employer")
    assert text(teo, f"{EMPLOYER}.employer") == "Larkin Lining"
    fill(teo, f"{EMPLOYER}.employer", "")
    press(teo, f"{EMPLOYER}.record")
    assert office.person("P-02").employer == "own"


def test_the_same_employer_again_is_refused_with_why_and_records_nothing(
    teo: RegistersScreen, office: Office, desk: Desk
) -> None:
    said: list[tuple[str, str]] = []
    desk.said.connect(lambda kind, words: said.append((kind, words)))
    before = office.person("P-02").version
    change(teo, " ")
    assert said[-1][0] == "refused" and "works for this site already" in said[-1][1]
    assert office.person("P-02").version == before


def test_roles_and_training_stay_as_they_were(teo: RegistersScreen, office: Office) -> None:
    before = office.person("P-02")
    change(teo, "Larkin Lining")
    after = office.person("P-02")
    assert (after.roles, after.trained, after.left) == (before.roles, before.trained, before.left)


def test_someone_unknown_has_no_employer_to_change(office: Office) -> None:
    with pytest.raises(Refusal, match=say("office.no_person", person="P-99")):
        change_employer(office, "P-99", "Larkin Lining", by="P-01")


def test_a_permit_then_asks_what_host_and_contractor_told_each_other(tmp_path: Path) -> None:
    one = crew.draft(crew.site(tmp_path))
    assert not other_employer(one.office.facts(one.number))
    change_employer(one.office, "P-04", "Larkin Lining", by="P-01")
    assert other_employer(one.office.facts(one.number))
