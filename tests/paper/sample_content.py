"""Invented permits for the tests of paper: wet well 2 of Osprel Bend Waterworks. No real people, site or figures."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from hashlib import sha256
from math import sin

from lamproom.paper.content import (
    Acceptable,
    Attendant,
    BreakRow,
    BumpRow,
    Check,
    Closing,
    Counts,
    Dated,
    Entrant,
    Figure,
    Gas,
    Hazard,
    Inside,
    Instrument,
    Life,
    Limit,
    ObstacleRow,
    Obstacles,
    PermitPage,
    Pipe,
    PostedPage,
    Provided,
    Retest,
    Retests,
    Said,
    Section,
    Signature,
    Span,
    StopRow,
    Tally,
    TestedPoint,
    TestsBefore,
    Watch,
)
from lamproom.paper.fingerprint import code_of

CHICAGO_IN_WINTER = timezone(timedelta(hours=-6))
CODE = code_of(sha256(b"an invented record").digest())


def at(clock: str) -> datetime:
    hour, minute = clock.split(":")
    return datetime(2026, 11, 25, int(hour), int(minute), tzinfo=CHICAGO_IN_WINTER)


def span(begins: str, ends: str | None) -> Span:
    return Span(at(begins), at(ends) if ends else None)


GASES = (
    Gas("Oxygen", "O2", "% vol", "19.5 to 23.5", "19.5", "23.5"),
    Gas("Flammable", "Flamm.", "% LEL", "under 10", None, "10"),
    Gas("Hydrogen sulfide", "H2S", "ppm", "under 10", None, "10"),
    Gas("Carbon monoxide", "CO", "ppm", "under 35", None, "35"),
)

ENTRANTS = (
    Entrant("Marit Solvang", "Mechanic, lead", "3 Mar 2027", "09:02 to 11:06, 11:32 to 12:31"),
    Entrant("Ansel Okoro", "Mechanic", "3 Mar 2027", "09:04 to 11:05"),
    Entrant("Bram Ferriday", "Electrician", "20 Jan 2027", "11:34 to 12:29"),
    Entrant("Noor Halvick", "Electrician", "20 Jan 2027", "did not enter"),
)

HAZARDS = (
    Hazard("Hydrogen sulfide, from sediment", "Smell, then no smell", "H2S sensor; air blown in"),
    Hazard("Methane, from sediment", "No sign", "Flammable sensor (methane)"),
    Hazard("Low oxygen", "No sign before collapse", "O2 sensor"),
    Hazard("Carbon dioxide, from decay", "Fast breath, headache", "detector tube", unseen=True),
    Hazard("Carbon monoxide, generator", "Headache, dizziness", "CO sensor; generator downwind"),
    Hazard("Water let in (engulfment)", "Sound, rising level", "Instrument worn; level watched"),
    Hazard("Pump 2 starts", "No warning", "Breaker locked and tried"),
    Hazard("Fall, 18 ft", "Open cover, wet rungs", "Harness, line, tripod winch"),
)

ISOLATION = (
    Check(Said("Pump 2", "off, locked, tried"), "Lock 121; start pressed, did not turn", "MS, IV", "07:38"),
    Check(Said("Discharge valve DV-2", "shut, locked"), "16 of 16 turns; lock 119, box 7", "MS, IV", "07:40"),
    Check(Said("", "Other wells draining here"), "one inlet, drawing RW-114", "MS, IV", "07:41", "does not apply"),
    Check(Said("", "Well pumped down"), "6 in of water, steady for 20 min", "MS, CN", "07:54"),
    Check(Said("Air blown in", "before entry"), "400 ft³/min at 16 ft for 35 min: 15 volumes", "CN, IV", "08:30"),
    Check(Said("Fan runs", "for the whole entry"), "Intake 25 ft upwind of the generator; moving", "CN, IV", "08:32"),
    Check(Said("", "Opening guarded"), "Rail on four sides, cones to the road", "CN, IV", "08:33"),
)

ACCEPTABLE = (
    Acceptable("Oxygen", "19.5 to 23.5 % vol", "29 CFR 1910.146(b)"),
    Acceptable("Flammable gas", "under 10 % LEL", "1910.146(b); at the limit counts as outside"),
    Acceptable("Hydrogen sulfide", "under 10 ppm", "common practice; OSHA ceiling 20 (Z-2)"),
    Acceptable("Carbon monoxide", "under 35 ppm", "common practice, as an instant value; OSHA 50 (Z-1)"),
    Acceptable("Water", "under 12 in, not rising", "site rule OB-7.9"),
    Acceptable("Retest", "every 15 min", "site rule OB-7.5; late after 2 min; also before re-entry"),
)


def point(name: str, depth: int, times: tuple[str, str], *pairs: tuple[str, str]) -> TestedPoint:
    figures = tuple((_figure(one, place), _figure(two, place)) for place, (one, two) in enumerate(pairs))
    return TestedPoint(name, f"{depth} ft", float(depth), times, figures)


def _figure(text: str, place: int) -> Figure:
    return Figure(text, outside=place == 2 and bool(text) and float(text) >= 10)


TESTS_BEFORE = TestsBefore(
    GASES,
    "Air blown in",
    ("no", "yes"),
    (
        point("Top", 1, ("07:42", "08:36"), ("20.9", "20.9"), ("0", "0"), ("1", "0"), ("0", "0")),
        point("", 5, ("07:44", "08:38"), ("20.9", "20.9"), ("0", "0"), ("3", "0"), ("0", "0")),
        point("Middle", 9, ("07:47", "08:41"), ("20.9", "20.9"), ("1", "0"), ("6", "0"), ("0", "0")),
        point("", 13, ("07:49", "08:43"), ("20.8", "20.9"), ("2", "0"), ("11", "1"), ("0", "0")),
        point("Bottom", 17, ("07:52", "08:46"), ("20.8", "20.9"), ("2", "0"), ("14", "1"), ("0", "0")),
    ),
    (
        Said(
            "",
            "By Petra Sandovik (PS); Marit Solvang watched; results given to all entrants 08:47. At each point 62 s:",
        ),
        Said("", "hose 24 + flush 8 + slowest sensor 30. CO2 by detector tube, lot 7719, at 17 ft, 08:47:"),
        Said("700 ppm", ", limit under 5,000."),
    ),
)

SECTION = Section(
    unit="ft",
    depth=18.3,
    width=8.0,
    opening=2.5,
    opening_at=5.0,
    ladder=True,
    level=17.8,
    level_words="6 in water",
    fan_words="fan, 400 ft³/min",
    duct_depth=16.0,
    pipes=(Pipe(13.0, "inlet, cannot be isolated"),),
    works_at=17.0,
)

INSTRUMENT = Instrument(
    (
        Said("", "Pumped four-gas monitor"),
        Said("G4-0317", ", catalytic flammable sensor."),
        Said(
            "Ready until 26 Nov 2026 06:00 −06:00", "; this permit ends before. Calibrated 3 Nov 2026, due 2 May 2027."
        ),
        Said(
            "",
            "Fresh-air set-up 07:31, yard gate, upwind. Alarms heard, seen, felt; pump block stopped in 4 s; battery",
        ),
        Said("", "92 %. Alarm points 19.5, 23.5, 10, 10, 35: none above the limits. Cylinder K-4471, to 30 Jun 2027."),
    ),
    "Bump test 06:58, by CN",
    (
        BumpRow("Oxygen", "18.0 % vol", "18.1", "17.5 to 18.5", "11 s (15)"),
        BumpRow("Flammable, methane", "50 % LEL", "49", "45 to 55", "14 s (20)"),
        BumpRow("Hydrogen sulfide", "25 ppm", "25", "22 to 28", "22 s (30)"),
        BumpRow("Carbon monoxide", "100 ppm", "101", "90 to 110", "18 s (30)"),
    ),
)


def retest(due: str, taken: str, *texts: str, by: str = "CN", **more: object) -> Retest:
    return Retest(at(taken), due, taken, tuple(Figure(text) for text in texts), by, **more)  # type: ignore[arg-type]


RETESTS = (
    retest("09:17", "09:16", "20.9", "0", "1", "0"),
    retest("09:31", "09:30", "20.9", "0", "2", "0"),
    retest("09:45", "09:44", "20.9", "0", "3", "0", note="Sediment stirred, bracket off"),
    retest("09:59", "09:59", "20.8", "1", "4", "0", note="Duct end lowered to 17 ft"),
    retest("10:14", "10:13", "20.8", "1", "4", "0"),
    retest("10:28", "10:28", "20.8", "0", "4", "0"),
    retest(
        "10:43",
        "10:56",
        "20.8",
        "1",
        "5",
        "1",
        by="PS",
        late="13 min late, 2 inside",
        note="Hose kinked; both called to the ladder foot 10:46; new hose",
    ),
    replace(
        retest("11:11", "11:10", "20.9", "0", "3", "1", by="PS", corrected="CO corrected by PS 11:12: key slipped"),
        figures=(Figure("20.9"), Figure("0"), Figure("3"), Figure("1", first="21")),
    ),
    retest("", "11:24", "20.9", "0", "2", "0", by="PS", note="Re-entry: worst of five points", keep=True),
    retest("11:39", "11:38", "20.9", "0", "2", "4", by="PS"),
    retest("11:53", "11:52", "20.9", "0", "2", "9", by="PS", note="Wind turned: generator moved"),
    retest("12:07", "12:06", "20.9", "0", "2", "3", by="PS"),
    retest("12:21", "12:20", "20.9", "0", "1", "1", by="PS"),
)

TALLY = Tally(
    (
        Inside(
            "Marit Solvang",
            "Solvang",
            "entrant",
            (span("09:02", "11:06"), span("11:32", "12:31")),
            ("09:02 to 11:06", "11:32 to 12:31"),
            "3 h 03",
        ),
        Inside("Ansel Okoro", "Okoro", "entrant", (span("09:04", "11:05"),), ("09:04 to 11:05",), "2 h 01"),
        Inside("Bram Ferriday", "Ferriday", "entrant", (span("11:34", "12:29"),), ("11:34 to 12:29",), "0 h 55"),
        Inside("Noor Halvick", "Halvick", "entrant", (), ("did not enter",), "0"),
    ),
    (Watch("Nwosk", span("08:53", "10:36")), Watch("Sandovik", span("10:36", "12:52"))),
    "Logged by the attendant on watch; most inside at once 2, at the end 0.",
)


def ink(seed: int) -> tuple[tuple[tuple[float, float], ...], ...]:
    """A made-up scribble, different for each seed."""
    stroke = tuple((x * 2.0, 20 + 14 * sin(x / (2.1 + seed % 3)) * sin(x / (7.0 + seed)) + x * 0.05) for x in range(60))
    return (stroke, ((0.0, 44.0), (110.0, 40.0 - seed)))


def signature(number: int, name: str, role: str, meaning: Said, when: str, version: int) -> Signature:
    strokes = () if number == 6 else ink(number)
    return Signature(number, name, role, meaning, f"25 Nov 2026 {when} −06:00", version, strokes)


SIGNATURES = (
    signature(1, "Marit Solvang", "entrant", Said("", "Watched the tests; knows the hazards"), "08:49:12", 27),
    signature(2, "Ansel Okoro", "entrant", Said("", "Got the results, hazards and limits"), "08:49:55", 28),
    signature(3, "Bram Ferriday", "entrant", Said("", "Got the results, hazards and limits"), "08:50:31", 29),
    signature(4, "Noor Halvick", "entrant", Said("", "Got the results, hazards and limits"), "08:51:02", 30),
    signature(
        5, "Inés Varga-Holm", "entry supervisor", Said("Authorizes", ": all tests, all in place"), "08:53:07", 31
    ),
    signature(6, "Calder Nwosk", "attendant", Said("", "Takes the watch; knows the hazards"), "08:53:40", 32),
    signature(7, "Calder Nwosk", "attendant", Said("", "Relieved: 2 inside, names agreed"), "10:36:04", 44),
    signature(8, "Petra Sandovik", "attendant", Said("", "Relieves: 2 inside, names agreed"), "10:36:21", 45),
    signature(
        9, "Inés Varga-Holm", "entry supervisor", Said("Ends the entry", ": all out, space shut"), "12:52:18", 63
    ),
)

CAUTIONS = (
    "A complete permit does not make the air good. Leave on any doubt, alarm or symptom.",
    "A reading is of one place at one moment; sludge and corners may differ.",
    "Below 10 % LEL can still be far above a toxic limit.",
    "The attendant never leaves, or goes in, until relieved.",
    "Never go in to rescue without training, equipment and a relieving attendant.",
    "If the fan stops, everyone comes out. Never sweeten air with oxygen.",
    "Lamproom records what people tested and decided. It tests nothing itself.",
)

ENDED = PermitPage(
    number="OB-2026-0417",
    version=63,
    site="Osprel Bend Waterworks",
    form_title="US general industry",
    form_rules="29 CFR 1910.146; site rules OB-7",
    state="ended",
    state_words="Ended",
    state_time="25 Nov 2026, 12:52 −06:00",
    space_name="Wet well 2",
    space_place="lift station 4, register S-0031",
    space_lines=(Said("", "Concrete, 8 ft across, 18.3 ft deep, 920 ft³. One way in: 30 in opening, fixed ladder."),),
    hours_line="25 Nov 2026, 08:53 to 14:30",
    zone_words="All times are −06:00 (Chicago).",
    purpose=(
        Said("", "Replace the rail bracket and float-switch cable of pump 2. Hand tools; no hot work or solvent."),
    ),
    counts=Counts(13, 1, 1, 0, 0, 1),
    obstacles=Obstacles(
        "47 rules examined on version 31 at 08:53:07 −06:00, in the same act as the signature.",
        (),
        (
            ObstacleRow(
                "H2S 14 ppm at 17 ft; limit under 10", "1910.146(d)(5)(i)", "Air blown in; 08:46 highest 1 ppm"
            ),
            ObstacleRow("CO2 not seen by the four-gas monitor", "site rule OB-7.4", "Detector tube at 17 ft: 700 ppm"),
        ),
    ),
    life=Life(
        "25 Nov 2026, 08:53 to 14:30: 5 h 37 min, as planned for this task.",
        tuple(at(clock) for clock in ("07:42", "07:44", "07:47", "07:49", "07:52", "08:36", "08:38", "08:41", "08:46")),
        at("08:53"),
        at("14:30"),
        (span("09:02", "11:06"), span("11:32", "12:31")),
        "3 h 03",
        at("12:52"),
    ),
    entrants=ENTRANTS,
    attendants=(
        Attendant("Calder Nwosk", "08:53 to 10:36", "3 Mar 2027", "Relieved face to face, 2 inside"),
        Attendant("Petra Sandovik", "10:36 to 12:52", "14 Apr 2027", "Serving at the end"),
    ),
    supervisor=(Said("Inés Varga-Holm", ", serving throughout; no transfer. Authorized 08:53:07: signature 5."),),
    hazards=HAZARDS,
    isolation=ISOLATION,
    isolation_note="Complete 08:33, at the portal, Inés Varga-Holm. Bold: critical, one reads, another answers.",
    ventilation=(Said("", "400 ft³/min into 920 ft³: 26 air changes an hour, duct end at 16 ft."),),
    acceptable=ACCEPTABLE,
    tests_before=TESTS_BEFORE,
    section=SECTION,
    instruments=(INSTRUMENT,),
    retests=Retests(
        GASES,
        RETESTS,
        note="At 15 ft, beside the work, through 20 ft of hose; G4-0317. CN Calder Nwosk, PS Petra Sandovik.",
    ),
    tally=TALLY,
    rescue=(
        Said("From outside, first:", "attendant, tripod winch; nobody goes in."),
        Said("Entry rescue:", "Osprel County technical rescue; told the hazards 07:25, on duty, 14 min away."),
        Said("Call:", "radio channel 3, “Rescue, lift station 4, wet well 2”; or phone 555-0142. Tried 08:31."),
    ),
    communication=(
        Said("", "Voice and sight; contact every 5 min. Line: 1 pull, stop; 2, slack; 3, bring me out."),
        Said("Everyone out:", "three blasts of the horn, and by voice."),
    ),
    equipment=(
        Provided("Testing", "G4-0317, two 20 ft hoses, tubes"),
        Provided("Air", "Fan F-12, duct D-3 grounded"),
        Provided("Voice", "Radios 3 and 9, spare battery"),
        Provided("Alarms", "Air horn, monitor at each belt"),
        Provided("Protection", "Helmet, gloves, boots, suit"),
        Provided("Rescue", "Harness and line each, winch W-5"),
        Provided("Light", "12 V lamp, sealed; head lamps"),
        Provided("Way in", "Fixed ladder, rail, cones"),
    ),
    other=(Said("", "Well 1 stays in service; control told not to move IG-1. Rest after 2 h inside. Wind SW, 6 mph."),),
    additional_permits=(Said("Lockout LO-2217", ", open 07:30, locks off 12:47. Hot work: none needed."),),
    breaks=(
        BreakRow(
            "11:06",
            "11:32",
            "Rail closed, Petra Sandovik stays; fan runs, locks on",
            "Full retest at five points 11:24, isolation looked at again, re-endorsed 11:30 by Inés Varga-Holm",
        ),
    ),
    changed=(
        Dated("09:59", "Duct end lowered to 17 ft (version 41)."),
        Dated("10:36", "Attendant on watch (version 45)."),
    ),
    closing=Closing(
        "the work was complete",
        (
            Dated("12:31", "Everyone out; tally 0, names agreed"),
            Dated("12:44", "Tools counted, cover shut and locked"),
            Dated("12:47", "Locks off, plant back to control"),
        ),
        (Dated("10:43", "Readings 13 min late: hose kinked"), Dated("10:56", "H2S 5 ppm: sediment stirred")),
        (Said("", "Keep at least until 25 Nov 2027; the yearly review with this permit is due by that day."),),
    ),
    signatures=SIGNATURES,
    signatures_note="v: the version of the record that was signed. Each is bound by the signer’s or the station’s key.",
    cautions=CAUTIONS,
    code=CODE,
    printed="25 Nov 2026 13:05 −06:00",
    printed_at=datetime(2026, 11, 25, 19, 5, tzinfo=UTC).astimezone(CHICAGO_IN_WINTER),
    copy=2,
    in_brief=(
        "Three of four entrants worked in the well from 09:02 to 12:31; all came out.",
        "Every reading taken while anyone was inside lay within the limits of this permit.",
        "Two things to know: one set of readings was 13 min late, one figure was corrected.",
    ),
)


def draft() -> PermitPage:
    """The same morning at 08:02: nothing tested since air was blown in, two checks open."""
    points = tuple(
        replace(p, times=(p.times[0], ""), figures=tuple((before, Figure("")) for before, _ in p.figures))
        for p in TESTS_BEFORE.points
    )
    open_checks = tuple(
        replace(check, answer="not answered", found="", by="", at="") if place in (1, 4) else check
        for place, check in enumerate(ISOLATION)
    )
    return replace(
        ENDED,
        version=9,
        state="draft",
        state_words="Draft",
        state_time="25 Nov 2026, 08:02 −06:00",
        hours_line="no hours granted",
        obstacles=Obstacles(
            "47 rules examined on version 9 at 08:02:15 −06:00.",
            (
                ObstacleRow(
                    "No test at any point since air was blown in. Last at 17 ft: H2S 14 ppm at 07:52; limit under 10",
                    "1910.146(d)(5)(i)",
                    "Test all five points with the fan running",
                ),
                ObstacleRow(
                    "CO2 is not seen by the four-gas monitor", "site rule OB-7.4", "Give a method that sees it"
                ),
                ObstacleRow(
                    "2 of 7 checks open: valve DV-2, air blown in", "1910.146(d)(3)", "Answer both at the portal"
                ),
                ObstacleRow("No attendant has taken the watch", "1910.146(d)(6)", "Attendant signs at the portal"),
            ),
        ),
        life=Life("Planned: 25 Nov 2026, from authorization to 14:30. Not authorized."),
        entrants=tuple(replace(e, inside="no") for e in ENTRANTS),
        attendants=(Attendant("Calder Nwosk", "not on watch yet", "3 Mar 2027", ""),),
        supervisor=(Said("Inés Varga-Holm", ", named; has not signed."),),
        isolation=open_checks,
        isolation_note="Not complete: 2 of 7 items open.",
        tests_before=replace(TESTS_BEFORE, points=points, notes=(Said("", "Tested before air was blown in."),)),
        retests=Retests(GASES, ()),
        tally=Tally((), ()),
        breaks=(),
        changed=(),
        closing=None,
        signatures=(),
        in_brief=(),
        copy=1,
        printed="25 Nov 2026 08:02 −06:00",
    )


def with_retests(count: int) -> PermitPage:
    """So many sets of readings, one a minute from 09:03 above fifty, else every ten minutes."""
    step = 1 if count > 50 else 10
    rows = []
    for place in range(count):
        taken = at("09:03") + timedelta(minutes=place * step)
        texts = (f"20.{8 + place % 2}", str(place % 3), str(place % 6), str(place % 9))
        figures = tuple(Figure(text) for text in texts)
        late = "4 min late, 2 inside" if place % 97 == 50 else ""
        rows.append(Retest(taken, f"{taken:%H:%M}", f"{taken:%H:%M}", figures, "CN", late=late))
    return replace(ENDED, retests=replace(ENDED.retests, rows=tuple(rows)))


def with_entrants(count: int) -> PermitPage:
    """So many entrants, all of whom went in at 09:02 and came out at 12:31."""
    names = [f"Entrant{place:02d} Invented{(place * 7) % 31:02d}" for place in range(count)]
    entrants = tuple(Entrant(name, "Mechanic", "3 Mar 2027", "09:02 to 12:31") for name in names)
    inside = tuple(
        Inside(n, n.split()[1], "entrant", (span("09:02", "12:31"),), ("09:02 to 12:31",), "3 h 29") for n in names
    )
    return replace(ENDED, entrants=entrants, tally=replace(TALLY, rows=inside))


def stopped() -> PermitPage:
    """A stop that nobody has determined yet, and one figure outside its limit."""
    bad = replace(
        retest("12:21", "12:20", "20.1", "2", "12", "1", by="PS", note="Meter at the belt alarmed"),
        figures=(Figure("20.1"), Figure("2"), Figure("12", outside=True), Figure("1", in_doubt=True)),
    )
    return replace(
        ENDED,
        state="authorized",
        state_words="Authorized, entry barred",
        closing=None,
        counts=Counts(13, 1, 1, 1, 1, 1),
        retests=replace(ENDED.retests, rows=(*RETESTS[:-1], bad)),
        stops=(
            StopRow(
                "12:20:41", "H2S 12 ppm at 15 ft; everyone out, by Petra Sandovik", "12:22:05, 2 of 2, in 84 s", ""
            ),
        ),
    )


POSTED = PostedPage(
    number="OB-2026-0417",
    version=33,
    site="Osprel Bend Waterworks",
    state="authorized",
    state_words="Authorized",
    space_name="Wet well 2, lift station 4",
    valid="25 Nov 2026, 08:53 to 14:30",
    offset="−06:00",
    hazards=("Hydrogen sulfide", "methane", "CO", "low oxygen", "carbon dioxide", "water let in", "pump", "fall"),
    limits=(
        Limit("O2", "19.5 to 23.5 %"),
        Limit("LEL", "under 10 %"),
        Limit("H2S", "under 10 ppm"),
        Limit("CO", "under 35 ppm"),
    ),
    test_every="Test every 15 min",
    entrants=("Marit Solvang", "Ansel Okoro", "Bram Ferriday", "Noor Halvick"),
    entrants_note="These four only",
    attendant="Calder Nwosk",
    attendant_note="stays outside until relieved",
    rescue=("Radio 3, or 555-0142", "Do not go in. Use the winch."),
    rescue_note="Tried 08:31, 14 min away",
    everyone_out=(
        Said("Everyone out at once:", "three horn blasts, any alarm, fan stops, water rises, anyone feels ill."),
        Said("", "On any doubt, leave."),
        Said("Supervisor:", "Inés Varga-Holm, radio 9."),
    ),
    code=CODE,
    printed="25 Nov 2026 08:54 −06:00",
    carry_on_gases=GASES,
)
