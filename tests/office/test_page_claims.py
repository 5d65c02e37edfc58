"""What the page claims is what the record holds: nothing vacuous, nothing summed twice, no act under another name."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.desk.watch import crew
from tests.paper.reading_pages import text_of

from lamproom.office.close_out import close_out
from lamproom.office.end_permit import end_permit
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.page.air import section
from lamproom.office.page.parts import lasting
from lamproom.office.page.permit_page import permit_page
from lamproom.office.pages import draft_pdf, pages_after
from lamproom.office.relieve import relieve
from lamproom.office.take_watch import take_watch
from lamproom.paper.content import PermitPage, Said
from lamproom.permit.timing import retest


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.site(tmp_path)


def page_of(one: crew.Site) -> PermitPage:
    return permit_page(pages_after(one.office, one.number), "Osprel Bend Waterworks", "A" * 22, one.office.now())


def clock(one: crew.Site) -> str:
    return one.office.now().astimezone(one.office.permit(one.number).zone).strftime("%H:%M")


def words(parts: tuple[Said, ...]) -> str:
    return " ".join(f"{part.lead} {part.text}".strip() for part in parts)


def printed(one: crew.Site) -> str:
    return " ".join(" ".join(text_of(draft_pdf(one.office, one.number))).split())


def end(one: crew.Site, cause: str = "work-complete") -> str:
    end_permit(one.office, one.number, cause, "done", "P-01", crew.CODES["P-01"])  # type: ignore[arg-type]
    return clock(one)


def everyone_out(one: crew.Site) -> str:
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")
    return clock(one)


# --- item 9 ----------------------------------------------------------------------------------------------------


def test_an_unexplained_lack_of_oxygen_is_told_as_a_bar_and_never_as_a_limit(site: crew.Site) -> None:
    crew.authorised(site)
    page = page_of(site)
    assert not any("10000" in row.limit or "10,000" in row.limit for row in page.acceptable)
    told = words(page.acceptable_bars)
    assert "Bars entry: an oxygen deficit that nothing explains" in told
    assert "more than 10,000 ppm of gas unaccounted for" in told
    text = printed(site)
    assert "more than 10,000 ppm of gas unaccounted for" in text and "up to 10" not in text


# --- a permit about to be used ---------------------------------------------------------------------------------


def test_a_permit_about_to_be_used_says_what_is_still_to_come(site: crew.Site) -> None:
    crew.authorised(site)
    times = retest(site.office.facts(site.number))
    assert times is not None
    due = times.due.astimezone(site.office.permit(site.number).zone).strftime("%H:%M")
    page = page_of(site)
    assert page.in_brief == ("Nobody has gone in yet.", f"First reading due {due}, then every 15 min.")
    assert page.retests.none_words == f"None yet: the first is due {due}, then every 15 min."
    assert {entrant.inside for entrant in page.entrants} == {"not yet"}
    text = printed(site)
    assert "Nobody went in" not in text and "lay within the limits" not in text and "did not enter" not in text
    assert "Nobody has gone in yet." in text


def test_a_permit_that_ended_unused_claims_no_readings(site: crew.Site) -> None:
    crew.authorised(site)
    end(site, "never-entered")
    page = page_of(site)
    assert page.in_brief[0] == "Nobody went in."
    assert "inside lay within" not in " ".join(page.in_brief)
    assert page.retests.none_words == "None was taken: nobody went in."


def test_an_entry_without_a_reading_says_so(site: crew.Site) -> None:
    crew.allowed(site)
    go_in(site.office, site.number, "P-04", by="P-02")
    assert "No reading was taken while anyone was inside." in page_of(site).in_brief
    site.read("20.9 0 1 0")
    told = page_of(site).in_brief
    assert "Every reading taken while anyone was inside lay within the limits of this permit." in told


# --- how long someone was inside -------------------------------------------------------------------------------


def test_the_time_with_someone_inside_is_the_union_of_the_stays(site: crew.Site) -> None:
    crew.allowed(site)
    for minutes, act, person in (
        (0, go_in, "P-04"),
        (4, go_in, "P-05"),
        (4, go_out, "P-04"),
        (2, go_out, "P-05"),
        (1, go_in, "P-04"),
        (4, go_out, "P-04"),
    ):
        site.minutes(minutes)
        site.read("20.9 0 1 0")
        act(site.office, site.number, person, by="P-02")
    assert page_of(site).life.inside_words == "14\u00a0min"


def test_hours_carry_their_unit_to_the_end() -> None:
    from datetime import timedelta

    assert lasting(timedelta(hours=1, minutes=42)) == "1\u00a0h 42\u00a0min"
    assert lasting(timedelta(hours=5)) == "5\u00a0h"


# --- who tested ------------------------------------------------------------------------------------------------


def test_only_those_who_tested_before_entry_are_named_there_and_later_readers_at_their_readings(
    site: crew.Site,
) -> None:
    crew.working(site)
    everyone_out(site)
    from lamproom.office.begin_break import begin_break
    from lamproom.office.end_break import end_break

    begin_break(site.office, site.number, "rail", "fan runs", True, by="P-02")
    site.minutes(2)
    end_break(site.office, site.number, "as left", by="P-02")
    by = {s.by for s in site.office.permit(site.number).sets}
    crew.test_all_points(site, "after-break")
    pages = pages_after(site.office, site.number)
    permit = pages.permit
    late = tuple(replace(s, by="P-03") if s.event.phase == "after-break" else s for s in permit.sets)
    pages = replace(pages, facts=replace(pages.facts, permit=replace(permit, sets=late)))
    page = permit_page(pages, "site", "A" * 22, site.office.now())
    assert by == {"P-02"}
    before = next(note.text for note in page.tests_before.notes if note.lead == "Tested by")
    assert "Oskar Wren" in before and "Nia Falk" not in before
    assert "Nia Falk (NF)" in page.retests.note and "Oskar Wren (OW)" in page.retests.note


# --- the watch -------------------------------------------------------------------------------------------------


def test_the_watch_ends_when_the_permit_has_ended_and_nobody_is_inside(site: crew.Site) -> None:
    crew.working(site)
    everyone_out(site)
    site.minutes(4)
    ended = end(site)
    site.minutes(8)
    close_out(site.office, site.number, "counted", "shut", "off", by="P-02")
    page = page_of(site)
    (duty,) = (row for row in page.attendants if row.name == "Oskar Wren")
    assert duty.watch.endswith(f"to {ended}")
    assert duty.relief == "to the end, nobody inside"
    assert "serving" not in words(page.supervisor)
    span = page.tally.watches[-1].span
    assert span.ends is not None and span.ends.strftime("%H:%M") == ended


def test_the_watch_of_a_canceled_permit_goes_on_while_anyone_is_inside(site: crew.Site) -> None:
    crew.working(site)
    end(site)
    site.minutes(3)
    assert page_of(site).attendants[0].relief == "serving"
    out = everyone_out(site)
    assert page_of(site).attendants[0].watch.endswith(f"to {out}")


def test_a_hand_over_says_who_agreed_what_and_claims_no_more(site: crew.Site) -> None:
    crew.working(site)
    permit = site.office.permit(site.number)
    inside = tuple(trip.who for trip in permit.tally.inside)
    relieve(site.office, site.number, "P-03", crew.CODES["P-03"], inside, permit.sets[-1].version, ())
    page = page_of(site)
    old = page.attendants[0]
    assert old.relief == "by Nia Falk, who agreed 2 inside, the last set, no open alarm; no signature of Oskar Wren"
    new = next(s for s in page.signatures if "Relieves" in s.meaning.text or "Relieves" in s.meaning.lead)
    assert "Oskar Wren" in f"{new.meaning.lead} {new.meaning.text}"
    assert "face to face" not in printed(site)


def test_nobody_on_watch_yet_is_told_as_such(site: crew.Site) -> None:
    crew.authorised(site)
    assert {row.watch for row in page_of(site).attendants} == {"not on watch yet"}
    take_watch(site.office, site.number, "P-02")
    assert page_of(site).attendants[0].relief == "serving"


# --- versions and states ---------------------------------------------------------------------------------------


def test_the_version_examined_and_the_version_signed_are_both_named(site: crew.Site) -> None:
    crew.authorised(site)
    page = page_of(site)
    signed = next(s.version for s in page.signatures if s.meaning.lead == "Authorizes")
    assert f"examined on version {signed - 1}" in page.obstacles.examined
    assert f"the signature made version {signed}" in page.obstacles.examined


def test_the_state_bears_its_own_time_and_the_hours_say_when_they_were_cut(site: crew.Site) -> None:
    crew.working(site)
    everyone_out(site)
    ended = end(site)
    site.minutes(8)
    page = page_of(site)
    assert (page.state, page.state_words) == ("ended", "Canceled")
    assert page.state_time.startswith("since") and f", {ended} " in page.state_time
    assert page.hours_line.endswith(f"canceled {ended}")
    close_out(site.office, site.number, "counted", "shut", "off", by="P-02")
    done, page = clock(site), page_of(site)
    assert (page.state, page.state_words) == ("closed", "Closed out")
    assert page.state_time.startswith("since") and f", {done} " in page.state_time
    assert page.hours_line.endswith(f"canceled {ended}")


def test_a_draft_says_as_of_when(site: crew.Site) -> None:
    crew.draft(site)
    assert page_of(site).state_time.startswith("as of")


# --- answers with their questions ------------------------------------------------------------------------------


def test_every_answer_of_the_form_stands_with_its_question(site: crew.Site) -> None:
    crew.authorised(site)
    page = page_of(site)
    form = site.office.permit(site.number).form
    for item, block in (
        ("retrieval", page.rescue),
        ("communication", page.communication),
        ("other-permits", page.additional_permits),
    ):
        line = form.item(item)
        assert line is not None
        assert line.question in words(block)


# --- a draft ---------------------------------------------------------------------------------------------------


def _draft_with_failed_bump(folder: Path) -> crew.Site:
    from tests.desk.board.day import MARA, Day

    from lamproom.office.assign_instrument import assign_instrument

    day = Day(folder)
    number = day.open("S-1", "09:00", "14:00")
    assign_instrument(day.office, number, "03", "test", "6", by=MARA)
    day.bump("03", alarm_s=None)
    one = crew.Site(day.office, day.clock)
    one.number = number
    return one


def test_levels_that_nobody_tested_stand_as_rows_with_rings_and_a_key(tmp_path: Path) -> None:
    one = _draft_with_failed_bump(tmp_path)
    tests = page_of(one).tests_before
    assert tests.points[0].depth_words == "0.3\u00a0m"
    assert len(tests.points) > 3
    assert all(not figure.text for point in tests.points for figures in point.figures for figure in figures)
    assert "as for a dry floor" in words(tests.notes)
    assert "not tested" in printed(one)


def test_an_instrument_that_is_not_ready_is_not_told_to_test_with(tmp_path: Path) -> None:
    one = _draft_with_failed_bump(tmp_path)
    told = words(page_of(one).tests_before.notes)
    assert "Instrument 03 is not ready" in told and "Wait at each point" not in told


def test_the_cure_of_a_failed_bump_test_is_whole(tmp_path: Path) -> None:
    one = _draft_with_failed_bump(tmp_path)
    cures = [row.clears for row in page_of(one).obstacles.standing if "bump test failed" in row.sentence]
    assert cures and set(cures) == {"Calibrate it and bump test it again, or use another instrument."}


def test_a_ready_instrument_is_told_with_its_wait(site: crew.Site) -> None:
    crew.draft(site)
    assert "Wait at each point" in words(page_of(site).tests_before.notes)


# --- the drawing -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shape", "retrieval", "soil", "drawn"),
    [
        ("vertical-shaft", "Attendant winches from the tripod", True, "tripod"),
        ("vault", "winch over the hatch", True, ""),
        ("silo", "Attendant winches from the davit", False, "davit"),
        ("vertical-tank", "davit arm", False, "davit"),
        ("horizontal-tank", "side winch", False, ""),
    ],
)
def test_soil_and_what_people_are_fetched_with_are_drawn_from_the_record(
    site: crew.Site, shape: str, retrieval: str, soil: bool, drawn: str
) -> None:
    crew.draft(site)
    pages = pages_after(site.office, site.number)
    opened = pages.permit.opened
    plan = opened.evaluated.rescue.model_copy(update={"retrieval": retrieval})
    opened = opened.model_copy(
        update={
            "registered": opened.registered.model_copy(update={"shape": shape}),
            "evaluated": opened.evaluated.model_copy(update={"rescue": plan}),
        }
    )
    permit = replace(pages.permit, opened=opened, answers={})
    found = section(replace(pages, facts=replace(pages.facts, permit=permit)))
    assert (not found.above_ground, found.retrieval) == (soil, drawn)


def test_a_sentence_after_a_period_begins_with_a_capital(site: crew.Site) -> None:
    from lamproom.office.begin_break import begin_break

    crew.working(site)
    everyone_out(site)
    begin_break(site.office, site.number, "rail shut", "fan runs", True, by="P-02")
    page = page_of(site)
    assert page.breaks[0].left == "Everyone out. Rail shut. Fan runs. Torches outside."
    assert words(page.instruments[0].words).startswith(f"{page.instruments[0].words[0].lead} Serial")


def test_the_trend_knows_each_break_by_its_times(site: crew.Site) -> None:
    from lamproom.office.begin_break import begin_break
    from lamproom.office.end_break import end_break

    crew.working(site)
    everyone_out(site)
    begin_break(site.office, site.number, "rail shut", "fan runs", True, by="P-02")
    begun = clock(site)
    site.minutes(12)
    end_break(site.office, site.number, "as left", by="P-02")
    (gap,) = page_of(site).retests.breaks
    assert gap.ends is not None
    assert f"{gap.begins:%H:%M} {gap.ends:%H:%M}" == f"{begun} {clock(site)}"
    crew.test_all_points(site, "after-break")
    assert f"break {begun} to {gap.ends:%H:%M}" in printed(site)
