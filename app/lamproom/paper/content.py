"""Everything a page shows, as plain values: whoever fills these in decides what is true, the page only draws it.

Three rules hold for every field:

* An empty string means *not answered*, and is drawn as a dotted ring with those words, never as an empty place.
* An empty row of a list that must be answered (items 1 to 15) is drawn the same way; lists of things that may simply
  not have happened (retests, stops, breaks, problems) say so in words.
* Strings are finished: sentences, times with their offset, figures as they were typed ("20.9"). Chemical formulas are
  written plainly ("H2S"); the page lowers their digits. Only drawing needs numbers: moments on a strip are aware
  datetimes in the zone of the site, depths are floats in the unit of the section.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

PageState = Literal["draft", "authorized", "ended", "closed"]
"""The life of a permit as the page shows it: a draft is crossed out, the others are signed."""


OutsideWhen = Literal["outside", "outside_before", "outside_empty"]
"""Sets outside a limit: while someone was inside (or unknown), all before the first went in, all with nobody in."""


@dataclass(frozen=True, slots=True)
class Said:
    """A piece of a paragraph: a word or two in bold, then plain text. Either may be empty, not both."""

    lead: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """From one moment to another; ``ends`` is None where it has not ended."""

    begins: datetime
    ends: datetime | None


# --- at the top ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Counts:
    """The six counted facts of *In brief*."""

    retests: int
    late: int
    corrected: int
    outside: int
    evacuations: int
    does_not_apply: int
    outside_when: OutsideWhen = "outside"


@dataclass(frozen=True, slots=True)
class ObstacleRow:
    """An obstacle: what is (or was) missing or wrong, the rule it comes from, and what clears (or cleared) it."""

    sentence: str
    rule: str
    clears: str


@dataclass(frozen=True, slots=True)
class Obstacles:
    """Obstacles at authorization (or now, on a draft).

    ``examined`` says how many rules were examined, on which version and to the second.
    ``standing`` are those that bar; ``cleared`` those that had to be cleared before, and by what.
    """

    examined: str
    standing: tuple[ObstacleRow, ...] = ()
    cleared: tuple[ObstacleRow, ...] = ()


@dataclass(frozen=True, slots=True)
class Life:
    """Item 3 as a line: tests, hours granted, hours used, the end; ``words`` says date and duration."""

    words: str
    tests: tuple[datetime, ...] = ()
    authorised_at: datetime | None = None
    until: datetime | None = None
    inside: tuple[Span, ...] = ()
    inside_words: str = ""
    ended_at: datetime | None = None


# --- who -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Entrant:
    """Item 4: ``inside`` says when this person was inside ('09:02 to 11:06, 11:32 to 12:31', 'did not enter')."""

    name: str
    work: str
    trained: str
    inside: str


@dataclass(frozen=True, slots=True)
class Attendant:
    """Item 5: ``watch`` from when to when on watch ('not on watch yet'); ``relief`` how the watch was handed over."""

    name: str
    watch: str
    trained: str
    relief: str


# --- what ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Hazard:
    """Item 7: how it shows, and what sees or holds it; ``unseen`` where no instrument on this permit sees it.

    ``planned`` is the control that the evaluation asks for; it stands, named as planned, only where nobody has said how
    the hazard is held today.
    """

    name: str
    shows: str
    held_by: str
    unseen: bool = False
    planned: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """Item 8: one measure of the walk-round. ``found`` is what was found, or the reason where it does not apply.

    ``measure.lead`` is bold where the measure is critical (one reads, another answers).
    """

    measure: Said
    found: str
    by: str
    at: str
    answer: Literal["found", "does not apply", "not answered"] = "found"


@dataclass(frozen=True, slots=True)
class Acceptable:
    """Item 9: a condition, its limit with unit, and the basis of the figure."""

    condition: str
    limit: str
    basis: str


# --- the air ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Gas:
    """One column of every table of readings.

    ``name`` 'Hydrogen sulfide', ``short`` 'H2S', ``unit`` 'ppm', ``limit`` 'under 10'. ``low`` and ``high`` are the
    acceptable figures as decimal strings, for the trend; None where there is none on that side.
    """

    name: str
    short: str
    unit: str
    limit: str
    low: str | None = None
    high: str | None = None


@dataclass(frozen=True, slots=True)
class Figure:
    """One reading as typed. ``first`` is the figure it corrects, struck but legible; '' where nothing was corrected.

    An empty ``text`` was not tested and is drawn as a dotted ring.
    """

    text: str
    outside: bool = False
    first: str = ""
    in_doubt: bool = False


NOT_TESTED = Figure("")


@dataclass(frozen=True, slots=True)
class TestedPoint:
    """Item 10 before entry: one point. ``figures[gas][phase]``, ``times[phase]``; ``depth`` below the portal."""

    name: str
    depth_words: str
    depth: float
    times: tuple[str, ...]
    figures: tuple[tuple[Figure, ...], ...]


@dataclass(frozen=True, slots=True)
class TestsBefore:
    """Item 10 before entry: gases across, points down, and in each gas one figure per phase.

    ``phase_caption`` 'Air blown in' with ``phases`` ('no', 'yes'); the last phase is the one that counts (bold).
    """

    gases: tuple[Gas, ...]
    phase_caption: str
    phases: tuple[str, ...]
    points: tuple[TestedPoint, ...]
    notes: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True)
class Pipe:
    """A line into the space: its depth, the side it comes from, and what holds it ('gate IG-2 locked')."""

    depth: float
    words: str
    side: Literal["left", "right"] = "left"


@dataclass(frozen=True, slots=True)
class Section:
    """The space cut open, true to scale. Lengths are in ``unit`` ('ft' or 'm'); depths count down from the portal.

    ``level`` is the depth of today's liquid or sludge surface, None where the space is dry; ``level_words`` says it.
    ``opening`` is the width of the portal and ``opening_at`` its middle, from the left wall.
    ``fan_words`` is '' where nothing blows; ``duct_depth`` is where the duct ends. ``works_at`` is where people work.
    ``above_ground`` for a vessel that stands free (no soil is hatched). ``retrieval`` is what stands over the portal to
    winch people out, where the record names it.
    """

    unit: str
    depth: float
    width: float
    opening: float
    opening_at: float
    ladder: bool
    level: float | None = None
    level_words: str = ""
    fan_words: str = ""
    duct_depth: float | None = None
    pipes: tuple[Pipe, ...] = ()
    works_at: float | None = None
    above_ground: bool = False
    retrieval: Literal["", "tripod", "davit"] = ""
    caption: str = ""


@dataclass(frozen=True, slots=True)
class BumpRow:
    """One sensor of a bump test: gas applied, read, accepted band, response time with the most that is accepted."""

    sensor: str
    applied: str
    read: str
    accepted: str
    response: str
    passed: bool = True


@dataclass(frozen=True, slots=True)
class Instrument:
    """An instrument used on this permit: a paragraph, and the bump test it stands on."""

    words: tuple[Said, ...]
    bump_title: str
    bump: tuple[BumpRow, ...]


@dataclass(frozen=True, slots=True)
class Retest:
    """One set of readings during entry; ``figures`` stand in the order of the gases.

    ``due`` '' where none was due ('before re-entry' goes into ``notes``). ``late`` is the lateness in words
    ('13 min late, 2 inside'), '' where it was on time. ``corrected`` says who, when and why. ``keep`` asks that the
    row be shown even where rows are condensed (first after a break, noted). ``at_work`` is a set at the place of the
    retests, which the trend joins; others stand as marks alone. ``apart`` breaks that line before this set.
    """

    at: datetime
    due: str
    taken: str
    figures: tuple[Figure, ...]
    by: str
    late: str = ""
    corrected: str = ""
    note: str = ""
    keep: bool = False
    at_work: bool = True
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Retests:
    """Item 10 during entry. ``none_words`` says why there is none; ``note`` stands below (place, hose, initials).

    ``stops`` and ``breaks`` are drawn where the trend is broken for them.
    """

    gases: tuple[Gas, ...]
    rows: tuple[Retest, ...]
    none_words: str = ""
    note: str = ""
    stops: tuple[datetime, ...] = ()
    breaks: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Inside:
    """The tally of one person: ``short`` for the strip (surname), ``times`` one line per stay, ``total`` '3 h 03'."""

    name: str
    short: str
    role: str
    spans: tuple[Span, ...]
    times: tuple[str, ...]
    total: str


@dataclass(frozen=True, slots=True)
class Watch:
    """Who stood watch, and when."""

    short: str
    span: Span


@dataclass(frozen=True, slots=True)
class Tally:
    """Who was inside and who watched, on the same clock as the air."""

    rows: tuple[Inside, ...]
    watches: tuple[Watch, ...]
    note: str = ""
    none_words: str = ""


# --- what happened ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StopRow:
    """A stop: when, what and by whom; how everyone came out; the determination and who signed it ('' none yet)."""

    at: str
    what: str
    out: str
    determination: str


@dataclass(frozen=True, slots=True)
class BreakRow:
    """A break and the return: from and to, how the opening was left, and what was done before anyone went back in."""

    began: str
    ended: str
    left: str
    back: str


@dataclass(frozen=True, slots=True)
class Dated:
    """A line with its time."""

    at: str
    text: str


@dataclass(frozen=True, slots=True)
class Closing:
    """Closing: ``cause`` ('the work was complete'), what was done, problems met, and how long the permit is kept."""

    cause: str
    done: tuple[Dated, ...]
    problems: tuple[Dated, ...]
    keep: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True)
class Signature:
    """One signature: who, in which role, what it means, when (words with offset), which version was signed.

    ``strokes`` are the ink as points in any unit, y growing downward; () where there is no ink.
    ``by_code`` is whether the act asked this person's code; without code and ink it was recorded at the station.
    ``bold`` is the part of the meaning that authorizes or ends ('Authorizes').
    """

    number: int
    name: str
    role: str
    meaning: Said
    at: str
    version: int
    strokes: tuple[tuple[tuple[float, float], ...], ...] = ()
    by_code: bool = True


@dataclass(frozen=True, slots=True)
class Provided:
    """Item 13: a kind of equipment and what was provided."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class Certificate:
    """What stands first where a route is certified instead of permitted: 29 CFR 1910.146(c)(5)(ii)(H), (c)(7)(iii).

    ``title``, ``statement``, ``notes`` and ``ends`` are the form's words. ``facts`` are date, location, who certifies
    and for what; ``signature`` is the one that certifies, None on a draft. ``basis`` is the determination with its
    data, ``hazards`` what the register says beside the table of hazards. ``..._rule`` are the paragraphs, for the rail.
    """

    kind: Literal["alternate", "reclassified"]
    title: str
    rule: str
    statement: str
    facts: tuple[Provided, ...]
    signature: Signature | None
    basis: tuple[Said, ...]
    basis_rule: str
    hazards: tuple[Said, ...]
    hazards_rule: str
    notes: tuple[str, ...]
    ends: str
    ends_rule: str


@dataclass(frozen=True, slots=True)
class CautionRow:
    """What a careful supervisor would want to know and what bars nothing, with the rule it comes from."""

    sentence: str
    rule: str


# --- the pages -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class PermitPage:
    """The permit as it is filed. ``code`` is the fingerprint, 22 signs from :func:`fingerprint.code_of`.

    ``authority`` is the fingerprint of the site's authority, grouped for reading; it stands under the signatures.
    ``printed_at`` (aware) becomes the date inside the file, ``printed`` are its words in the foot.
    ``certificate`` stands where the route is certified: then nothing of the page is called a permit. ``told`` are the
    cautions that stood at authorization (on a draft: those of now); ``cautions`` those of the form.
    """

    number: str
    version: int
    site: str
    form_title: str
    form_rules: str
    state: PageState
    state_words: str
    state_time: str
    space_name: str
    space_place: str
    space_lines: tuple[Said, ...]
    hours_line: str
    zone_words: str
    purpose: tuple[Said, ...]
    counts: Counts
    obstacles: Obstacles
    life: Life
    entrants: tuple[Entrant, ...]
    attendants: tuple[Attendant, ...]
    supervisor: tuple[Said, ...]
    hazards: tuple[Hazard, ...]
    isolation: tuple[Check, ...]
    acceptable: tuple[Acceptable, ...]
    tests_before: TestsBefore
    section: Section | None
    instruments: tuple[Instrument, ...]
    retests: Retests
    tally: Tally
    rescue: tuple[Said, ...]
    communication: tuple[Said, ...]
    equipment: tuple[Provided, ...]
    other: tuple[Said, ...]
    additional_permits: tuple[Said, ...]
    signatures: tuple[Signature, ...]
    cautions: tuple[str, ...]
    code: str
    printed: str
    copy: int = 1
    language: str = "en-US"
    in_brief: tuple[str, ...] = ()
    isolation_note: str = ""
    acceptable_bars: tuple[Said, ...] = ()
    ventilation: tuple[Said, ...] = ()
    stops: tuple[StopRow, ...] = ()
    breaks: tuple[BreakRow, ...] = ()
    changed: tuple[Dated, ...] = ()
    closing: Closing | None = None
    signatures_note: str = ""
    authority: str = ""
    printed_at: datetime | None = None
    certificate: Certificate | None = None
    told: tuple[CautionRow, ...] = ()


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit for the posted page: the gas in short and its limit with unit ('O2', '19.5 to 23.5 %')."""

    gas: str
    limit: str


@dataclass(frozen=True, slots=True)
class DangerSign:
    """The sign at a permit-required space, 29 CFR 1910.146(c)(2): which space it is, and whose."""

    site: str
    space_id: str
    space_name: str
    space_place: str
    printed: str
    language: str = "en-US"
    printed_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class PostedPage:
    """What hangs at the portal: one side, read at 1 m. It is changed only by a new version.

    ``bar`` says why nobody may enter on it ('CANCELED 11:40, do not enter'); then nothing on it grants anything: no
    hours, no boxes for ink. ``entrants_title`` and ``hazards_title`` name those rows where not the usual.
    Of a barred page empty rows of people, hazards, limits and rescue are left out.
    ``certificate`` says which certificate this page is the short form of, ``certified`` is the signature under it;
    ``told`` are cautions for the portal; ``changed`` says what changed since authorization, when and by whom.
    """

    number: str
    version: int
    site: str
    state: PageState
    state_words: str
    space_name: str
    valid: str
    offset: str
    hazards: tuple[str, ...]
    limits: tuple[Limit, ...]
    test_every: str
    entrants: tuple[str, ...]
    entrants_note: str
    attendant: str
    attendant_note: str
    rescue: tuple[str, ...]
    rescue_note: str
    everyone_out: tuple[Said, ...]
    code: str
    printed: str
    copy: int = 1
    language: str = "en-US"
    carry_on_gases: tuple[Gas, ...] = ()
    carry_on_unit: str = "ft"
    printed_at: datetime | None = None
    space_place: str = ""
    bar: str = ""
    bar_note: str = ""
    entrants_title: str = ""
    hazards_title: str = ""
    certificate: tuple[Said, ...] = ()
    certified: Signature | None = None
    told: tuple[Said, ...] = ()
    changed: tuple[Said, ...] = ()
