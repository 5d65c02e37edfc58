"""Everything that can happen to a permit. Past tense; figures are decimal strings; times are UTC; people are ids.

``None`` means that nobody said it, and counts against entry wherever a rule needs it.
"""

from __future__ import annotations

from typing import ClassVar, Literal

from lamproom.bench.events import InstrumentRegistered, Number, Value
from lamproom.bench.happening import Event, Moment, later
from lamproom.permit.space import HazardKind, SpaceEvaluated, SpaceRegistered

Phase = Literal["upwind", "through-lid", "open", "ventilating", "fan-stopped", "after-break", "work", "duct"]
"""When in the life of the air a reading was taken; ``upwind`` is the base taken outside, at this space, ``duct`` what
the fan brings in, taken at the duct's outlet."""

Route = Literal["permit", "alternate", "reclassified"]
"""The lawful way in: a permit (29 CFR 1910.146(d) to (k)), the alternate procedures of (c)(5), or (c)(7)."""

Stroke = tuple[tuple[int, int, int], ...]
"""Ink as a vector: x and y from 0 to 1000 of the pad, milliseconds since the first touch."""


class Ink(Value):
    """A person's hand-drawn signature, bound to the event it stands in."""

    person: str
    strokes: tuple[Stroke, ...]


class PermitOpened(Event):
    """A draft was opened from a space. It keeps the exact form it is run on and the space as it was known then.

    ``renews`` is the number of a cancelled permit that this one follows; only descriptions were copied from it.
    """

    kind: ClassVar[str] = "permit-opened"
    number: str
    space: str
    registered: SpaceRegistered
    evaluated: SpaceEvaluated
    form: str
    zone: str
    renews: str | None = None
    route: Route = later("permit")


class WorkDescribed(Event):
    """Purpose, and the planned hours (None: not said)."""

    kind: ClassVar[str] = "work-described"
    purpose: str


class HoursPlanned(Event):
    """From when to when people are to be allowed in."""

    kind: ClassVar[str] = "hours-planned"
    begins: Moment
    ends: Moment


class Answered(Event):
    """An item of the form answered: what was found, or why it does not apply. A later answer takes the place of it."""

    kind: ClassVar[str] = "answered"
    item: str
    answer: Literal["yes", "no", "does not apply"]
    found: str = ""


class HazardHeld(Event):
    """A hazard of the evaluation looked at today: how it is held, or that it does not apply today, with the reason.

    ``eliminated`` says that it is gone, not held back: what a reclassification asks of every hazard, (c)(7)(i).
    """

    kind: ClassVar[str] = "hazard-held"
    hazard: str
    held: bool
    how: str
    eliminated: bool = later(False)


class HazardAdded(Event):
    """A hazard that the evaluation does not have: of the work, or seen today."""

    kind: ClassVar[str] = "hazard-added"
    hazard: str
    name: str
    shows: str
    gas: str | None = None
    sort: HazardKind = later("not-said")


class PointIsolated(Event):
    """An isolation point held: lock, whose lock, tried and found dead; ``verified_by`` is another person."""

    kind: ClassVar[str] = "point-isolated"
    point: str
    lock: str
    owner: str
    tried_dead: bool
    verified_by: str | None
    box: str = later("")


class PointReleased(Event):
    """Locks or blanks came off a point: why. Before the permit's end that is isolation lost."""

    kind: ClassVar[str] = "point-released"
    point: str
    why: str


class BasisStated(Event):
    """Why every hazard of the space is gone: what was inspected and tested, for a reclassification, (c)(7)(iii)."""

    kind: ClassVar[str] = "basis-stated"
    basis: str


class LevelStated(Event):
    """Today's liquid or sludge level: depth of its surface below the portal in metres; None means a dry floor."""

    kind: ClassVar[str] = "level-stated"
    depth_m: Number | None
    how: str


class SpaceOpened(Event):
    """The cover is off: how that was made harmless first, and how the opening is guarded."""

    kind: ClassVar[str] = "space-opened"
    guarded: str


class VentilationStarted(Event):
    """Air is blown: flow in cubic metres an hour, where it is drawn, how a stop would be noticed."""

    kind: ClassVar[str] = "ventilation-started"
    flow_m3_h: Number
    intake: str
    stop_noticed_by: str
    power: str = later("")


class VentilationStopped(Event):
    """The fan stopped or was shut off."""

    kind: ClassVar[str] = "ventilation-stopped"
    why: str


class InstrumentAssigned(Event):
    """An instrument was taken for this permit: to test the air, or worn where people work (continuous monitoring).

    The register's entry is copied, so that the permit stays whole when the instrument is changed later.
    """

    kind: ClassVar[str] = "instrument-assigned"
    instrument: str
    registered: InstrumentRegistered
    duty: Literal["test", "worn"]
    hose_m: Number | None = None


class InstrumentReturned(Event):
    """The instrument no longer serves this permit; a swap is an assignment and a return."""

    kind: ClassVar[str] = "instrument-returned"
    instrument: str
    why: Literal["done", "swapped", "failed", "dropped", "battery-flat"]


class HoseTested(Event):
    """The joined hose was blocked at its far end: seconds until the pump stopped, None when it did not within 30 s."""

    kind: ClassVar[str] = "hose-tested"
    instrument: str
    stopped_s: Number | None


class Figure(Value):
    """One gas at one place. ``state`` keeps four things apart; ``figure`` stands only with 'measured'."""

    gas: str
    unit: str
    state: Literal["measured", "not-measured", "fault", "over-range"] = "measured"
    figure: Number | None = None


class ReadingsTaken(Event):
    """A set of readings at one point: the worst values seen during the hold.

    ``point_m`` is the depth below the portal, None for upwind and through the lid. ``lowered`` is when the probe came
    to rest there, ``taken`` when the figures were noted. ``as_typed`` means that an odd figure was queried and kept.
    ``temperature_c`` and ``humidity_pct`` (relative, over water) are those of the air at that place, None unless read.
    """

    kind: ClassVar[str] = "readings-taken"
    phase: Phase
    point_m: Number | None
    instrument: str
    lowered: Moment | None
    taken: Moment
    figures: tuple[Figure, ...]
    called_in_by: str | None = None
    as_typed: bool = False
    temperature_c: Number | None = later(None)
    humidity_pct: Number | None = later(None)


class ReadingCorrected(Event):
    """A figure was wrong: the set it belongs to (its version in this stream), the gas, old and new, and why."""

    kind: ClassVar[str] = "reading-corrected"
    set_version: int
    gas: str
    old: str
    new: Number
    reason: str


class PersonNamed(Event):
    """A person was named for a part on this permit."""

    kind: ClassVar[str] = "person-named"
    person: str
    part: Literal["entrant", "attendant", "supervisor"]


class PersonUnnamed(Event):
    """The person no longer has that part. Whoever is inside stays on the tally all the same."""

    kind: ClassVar[str] = "person-unnamed"
    person: str
    part: Literal["entrant", "attendant", "supervisor"]


class RescueConfirmed(Event):
    """Rescue said that it can come: who answered for it, from when it no longer can, minutes it needs."""

    kind: ClassVar[str] = "rescue-confirmed"
    answered_by: str
    good_until: Moment
    response_min: Number


class RescueCallTried(Event):
    """The means of summoning rescue was tried: which, who answered, after how many seconds."""

    kind: ClassVar[str] = "rescue-call-tried"
    means: str
    answered_by: str
    seconds: Number


class Briefed(Event):
    """The crew was briefed on one page: hazards, limits, signals, results. Everyone's ink, witnessed."""

    kind: ClassVar[str] = "briefed"
    inks: tuple[Ink, ...]


class Authorised(Event):
    """The entry supervisor authorised entry for these hours, for what stood in the record at ``on_version``."""

    kind: ClassVar[str] = "authorised"
    begins: Moment
    ends: Moment
    on_version: int
    entrants: tuple[str, ...]
    ink: Ink | None


class PageFiled(Event):
    """A page was signed and filed in the same transaction as its act."""

    kind: ClassVar[str] = "page-filed"
    milestone: Literal["authorised", "amended", "ended", "closed-out"]
    sha256: str
    length: int


class WatchTaken(Event):
    """The first attendant took the watch."""

    kind: ClassVar[str] = "watch-taken"
    person: str


class Relieved(Event):
    """The watch changed hands: three facts said and agreed by the incoming attendant."""

    kind: ClassVar[str] = "relieved"
    outgoing: str
    incoming: str
    inside: tuple[str, ...]
    last_set: int | None
    open_alarms: tuple[str, ...]


class WentIn(Event):
    """Part of the body broke the plane of the opening. ``against``: the obstacles that stood then."""

    kind: ClassVar[str] = "went-in"
    person: str
    against: tuple[str, ...] = ()


class WentOut(Event):
    """Out: a person id, or the label of someone who went in unnamed."""

    kind: ClassVar[str] = "went-out"
    person: str


class SomeoneWentIn(Event):
    """Someone not on the permit went in: a fact, never refused, never judged. ``label`` is 'unknown 1' and so on."""

    kind: ClassVar[str] = "someone-went-in"
    label: str


class SomeoneNamed(Event):
    """Who the unknown was: name as given, and what they are."""

    kind: ClassVar[str] = "someone-named"
    label: str
    name: str
    what: Literal["rescuer", "unauthorised", "entrant", "other"]


class ContactMade(Event):
    """The attendant spoke with everyone inside."""

    kind: ClassVar[str] = "contact-made"


class ConditionReported(Event):
    """Something changed in or near the space; the form's table says what each kind bars."""

    kind: ClassVar[str] = "condition-reported"
    condition: str
    note: str = ""


class ConditionCleared(Event):
    """The condition is gone: what was found."""

    kind: ClassVar[str] = "condition-cleared"
    condition: str
    found: str


class BreakBegun(Event):
    """Everyone is out for a break: opening guarded or covered and by whom, fan and locks left how, torches outside."""

    kind: ClassVar[str] = "break-begun"
    guarded: str
    left: str
    torches_out: bool


class BreakEnded(Event):
    """Back from the break: isolation looked at again and found how. Entry waits for a full retest and endorsement."""

    kind: ClassVar[str] = "break-ended"
    isolation_found: str


class StopOrdered(Event):
    """Everyone out. Anyone may order it, nothing is asked; ``cause`` is 'pressed' or what the station saw."""

    kind: ClassVar[str] = "stop-ordered"
    cause: str


class StopDetermined(Event):
    """The supervisor's finding about a stop. Where a prohibited condition arose, the permit ends with that cause."""

    kind: ClassVar[str] = "stop-determined"
    finding: Literal["prohibited-condition", "none-arose"]
    reason: str


class Reendorsed(Event):
    """The supervisor endorsed entry again after a break or a stop, on the retest that stood in the record."""

    kind: ClassVar[str] = "reendorsed"
    after: Literal["break", "stop", "amendment"]
    ink: Ink | None = None


class Extended(Event):
    """The authorised hours were made longer, before their end, by the supervisor's signature."""

    kind: ClassVar[str] = "extended"
    ends: Moment
    reason: str
    ink: Ink | None = None


class WorkStepChanged(Event):
    """The work changed its step within the purpose that was signed: what comes next. The air is tested anew."""

    kind: ClassVar[str] = "work-step-changed"
    step: str


class SupervisionHandedOver(Event):
    """Another entry supervisor took over and found conditions as the permit says."""

    kind: ClassVar[str] = "supervision-handed-over"
    outgoing: str
    incoming: str


class Ended(Event):
    """Authority to enter ceased, once and for good. The United States form prints each as 'canceled: …'."""

    kind: ClassVar[str] = "ended"
    cause: Literal["work-complete", "prohibited-condition", "expired", "never-entered"]
    reason: str = ""
    ink: Ink | None = None


class ClosedOut(Event):
    """Nobody inside, tools counted, space closed off, locks off.

    ``debrief`` is what host and contractor told each other, (c)(8)(v), (c)(9)(iii); ``fire_watch_until`` when the watch
    after hot work ended.
    """

    kind: ClassVar[str] = "closed-out"
    tools: str
    cover: str
    locks: str
    debrief: str = later("")
    fire_watch_until: Moment | None = later(None)


class Noted(Event):
    """A remark, kept with the permit."""

    kind: ClassVar[str] = "noted"
    text: str


EVENTS: tuple[type[Event], ...] = (
    PermitOpened,
    WorkDescribed,
    HoursPlanned,
    Answered,
    HazardHeld,
    HazardAdded,
    PointIsolated,
    PointReleased,
    BasisStated,
    LevelStated,
    SpaceOpened,
    VentilationStarted,
    VentilationStopped,
    InstrumentAssigned,
    InstrumentReturned,
    HoseTested,
    ReadingsTaken,
    ReadingCorrected,
    PersonNamed,
    PersonUnnamed,
    RescueConfirmed,
    RescueCallTried,
    Briefed,
    Authorised,
    PageFiled,
    WatchTaken,
    Relieved,
    WentIn,
    WentOut,
    SomeoneWentIn,
    SomeoneNamed,
    ContactMade,
    ConditionReported,
    ConditionCleared,
    BreakBegun,
    BreakEnded,
    StopOrdered,
    StopDetermined,
    Reendorsed,
    Extended,
    WorkStepChanged,
    SupervisionHandedOver,
    Ended,
    ClosedOut,
    Noted,
)
