"""A permit told in one JSON document, for checking from a file: what is registered, and everything that happened.

The document is read strictly: a word that nobody declared is refused with its place. What is not said stays unsaid and
counts against entry where a rule needs it. Figures may stand as numbers or as text; they keep the digits that were
written. Times are ISO 8601 with their offset from UTC.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from importlib import resources
from typing import Annotated, Any, Literal, Union
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints, ValidationError, create_model

from lamproom.bench import events as b
from lamproom.bench.events import Number
from lamproom.bench.happening import Event, Moment
from lamproom.permit import events as e
from lamproom.permit.people import PersonTrained, Role
from lamproom.permit.space import Hazard, HazardKind, IsolationPoint, Portal, RescuePlan, SpaceEvaluated
from lamproom.words import Refusal, say, sentence

LONGEST = 5_000_000
"""Characters; a permit told in more is none."""


def _known_zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise ValueError(say("intake.why.zone")) from error
    return name


class _Told(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class _Act(BaseModel):
    """When it was recorded, and by whom: a person id of the document; nobody means the station alone."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    at: Moment
    by: str | None = None


Id = Annotated[str, StringConstraints(min_length=1)]
"""What a thing of the document is called by its other parts."""


class TheSpace(_Told):
    """The space as registered. Lengths in metres, the altitude above the sea. ``openings``: the first is the way in."""

    id: str
    name: str
    place: str
    shape: Literal["vertical-shaft", "vertical-tank", "silo", "horizontal-tank", "vault"]
    depth_m: Number
    across_m: Number
    openings: Annotated[tuple[Portal, ...], Field(min_length=1)]
    contents: str
    body_can_enter: bool
    limited_way: bool
    not_for_occupancy: bool
    bad_air_possible: bool
    engulfment_possible: bool
    trapping_shape: bool
    other_hazard: bool
    altitude_m: Number | None = None


class TheEvaluation(SpaceEvaluated):
    """What a qualified person found out about the space. Nothing of it is taken for granted: that there is no point to
    isolate is said as an empty list, that every source can be shut off as null."""


class ThePerson(_Told):
    """A person by id, with roles, employer and training."""

    id: Id
    name: str = ""
    employer: str = "own"
    roles: tuple[Role, ...] = ()
    training: tuple[PersonTrained, ...] = ()
    left: bool = False


class TheFreshAir(b.FreshAir):
    """A fresh-air set-up; whether it was done beside the portal is said, not taken for granted."""

    beside_portal: bool


class TheSensor(b.Sensor):
    """A sensor of an instrument."""


class TheInstrument(b.InstrumentRegistered):
    """An instrument as registered, and what happened to it. ``holder``: the permit that has it out now."""

    id: Id
    battery_h: Number
    calibration_days: int
    sensors: tuple[TheSensor, ...] = ()
    holder: Id | None = None
    happened: tuple[OnBench, ...] = ()


class Near(_Told):
    """Another permit that runs now, as far as it touches this one (see ``OtherPermit`` of the rules): who watches
    there, what is worn there and which locks came off there is said, if only that there is none."""

    number: str
    space: str = ""
    near: bool = True
    attendant: str | None
    worn: tuple[str, ...]
    unlocked: tuple[str, ...]


class FigureRead(e.Figure):
    """One gas as read. ``lel_vol``: the LEL in % vol that a percentage stands on; kept for later rules."""

    lel_vol: Number | None = None


class ReadingsTaken(_Act, _Told):
    """A set of readings. ``at`` is when it was typed. ``place``: this space, outside it, or another space. ``phase``
    unsaid is what the state of the space makes it. ``id`` is a name that a correction can use."""

    what: Literal["readings-taken"]
    id: str = ""
    place: Literal["this-space", "outside", "another-space"] = "this-space"
    phase: e.Phase | None = None
    point_m: Number | None = None
    instrument: str
    lowered: Moment | None = None
    taken: Moment
    figures: tuple[FigureRead, ...]
    called_in_by: str | None = None
    as_typed: bool = False
    temperature_c: Number | None = None
    humidity_pct: Number | None = None


class ReadingCorrected(_Act, _Told):
    """A figure of a named set put right."""

    what: Literal["reading-corrected"]
    reading: str
    gas: str
    old: str
    new: Number
    reason: str


class Briefed(_Act, _Told):
    """The crew was briefed: who signed for it."""

    what: Literal["briefed"]
    people: tuple[str, ...]


class InstrumentAssigned(_Act, _Told):
    """An instrument of the document was taken for this permit. Of a pump that tests, ``hose_m`` is said: null without
    a hose."""

    what: Literal["instrument-assigned"]
    instrument: str
    duty: Literal["test", "worn"]
    hose_m: Number | None = None


class Authorised(_Act, _Told):
    """The supervisor authorised the planned hours. Unsigned, it is none."""

    what: Literal["authorised"]
    signed: bool = False


class Reendorsed(_Act, _Told):
    """The supervisor endorsed entry again. Unsigned, it is none."""

    what: Literal["reendorsed"]
    signed: bool = False


class StopDetermined(_Act, _Told):
    """What the supervisor found about a stop. Unsigned, it is none."""

    what: Literal["stop-determined"]
    finding: Literal["prohibited-condition", "none-arose"]
    reason: str
    signed: bool = False


class Extended(_Act, _Told):
    """Longer hours. Unsigned, they are none."""

    what: Literal["extended"]
    ends: Moment
    reason: str
    signed: bool = False


class Ended(_Act, _Told):
    """The end, with its cause."""

    what: Literal["ended"]
    cause: Literal["work-complete", "prohibited-condition", "expired", "never-entered"]
    reason: str = ""


class Relieved(_Act, _Told):
    """The watch changed hands at this moment, with what the record showed then."""

    what: Literal["relieved"]
    incoming: str


class WentIn(_Act, _Told):
    """A person of the document went in."""

    what: Literal["went-in"]
    person: str


class SomeoneNamed(_Act, _Told):
    """Who the unknown was: name as given, and ``who`` they are."""

    what: Literal["someone-named"]
    label: str
    name: str
    who: Literal["rescuer", "unauthorised", "entrant", "other"]


_OWN: tuple[type[_Told], ...] = (
    ReadingsTaken,
    ReadingCorrected,
    Briefed,
    InstrumentAssigned,
    Authorised,
    Reendorsed,
    StopDetermined,
    Extended,
    Ended,
    Relieved,
    WentIn,
    SomeoneNamed,
)
_NOT_TOLD = (e.PermitOpened, e.PageFiled)


_TOLD_CLOSER: dict[type[Event], dict[str, Any]] = {
    b.CheckedBeforeUse: {"fresh_air": (TheFreshAir, ...)},
    e.HazardAdded: {"sort": (HazardKind, ...)},
}
"""Fields that the record takes as unsaid for a reason of its own, and that a document says."""


def _told_as(event: type[Event]) -> type[BaseModel]:
    """An event of the record as the document tells it: the same fields, with what, when and by whom."""
    fields: dict[str, Any] = {"what": (Literal[event.kind], ...), **_TOLD_CLOSER.get(event, {})}
    return create_model(event.__name__, __base__=(event, _Act), __doc__=event.__doc__, **fields)


def _kind(model: type[BaseModel]) -> str:
    return str(model.model_fields["what"].annotation.__args__[0])  # type: ignore[union-attr]


_NAMED = {_kind(model) for model in _OWN}
ON_PERMIT: tuple[type[BaseModel], ...] = (
    *_OWN,
    *(_told_as(event) for event in e.EVENTS if event.kind not in _NAMED and event not in _NOT_TOLD),
)
"""Everything that can happen to a permit, as the document tells it."""
OnPermit = Annotated[Union[ON_PERMIT], Field(discriminator="what")]  # type: ignore[valid-type]  # noqa: UP007

ON_BENCH: tuple[type[BaseModel], ...] = tuple(
    _told_as(event) for event in b.EVENTS if event is not b.InstrumentRegistered
)
"""Everything that can happen to an instrument, as the document tells it."""
OnBench = Annotated[Union[ON_BENCH], Field(discriminator="what")]  # type: ignore[valid-type]  # noqa: UP007


class PermitDocument(_Told):
    """A whole permit. ``at`` is the moment at which it is judged; what lies after it is not looked at.

    ``form`` is the id of a form that comes with the program, ``form_text`` a whole form instead. ``clock_confirmed``:
    a named person confirmed the machine's time; ``figures_confirmed``: someone confirmed figures that rest on memory.
    """

    lamproom: Literal["permit 1"]
    at: Moment
    zone: Annotated[str, AfterValidator(_known_zone)]
    number: str = "00-0000"
    form: str = "us-general-industry"
    form_text: str | None = None
    route: e.Route = "permit"
    renews: str | None = None
    clock_confirmed: bool = False
    figures_confirmed: bool = False
    opened: _Act
    space: TheSpace
    evaluation: TheEvaluation
    people: tuple[ThePerson, ...] = ()
    instruments: tuple[TheInstrument, ...] = ()
    others: tuple[Near, ...]
    happened: tuple[OnPermit, ...] = ()


class Unreadable(Refusal):
    """A document that cannot be read; the sentence names the field."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        self.faults = faults
        super().__init__(sentence("intake.unreadable", first=faults[0], more=len(faults) - 1))


def read_document(text: str) -> PermitDocument:
    """The permit that a text tells. Raises Unreadable, every fault with the field's place, when it is none."""
    if len(text) > LONGEST:
        raise Unreadable((say("intake.why.long"),))
    try:
        told = json.loads(
            text, parse_float=str, parse_int=str, parse_constant=_no_constant, object_pairs_hook=_no_twins
        )
    except json.JSONDecodeError as error:
        raise Unreadable((say("intake.why.json", line=error.lineno, column=error.colno),)) from error
    except RecursionError as error:
        raise Unreadable((say("intake.why.deep"),)) from error
    if not isinstance(told, dict):
        raise Unreadable((say("intake.why.no_object"),))
    try:
        document = PermitDocument.model_validate(told)
    except ValidationError as error:
        raise Unreadable(tuple(_fault(one["loc"], one["type"], one["msg"]) for one in error.errors())) from error
    faults = (
        *_twice(document),
        *_far_off(document, ""),
        *_too_deep(document),
        *_blank(document, ""),
        *_no_retest(document),
    )
    if faults:
        raise Unreadable(faults)
    return document


def _no_constant(word: str) -> Any:
    raise Unreadable((say("intake.why.constant", word=word),))


def _no_twins(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    seen: dict[str, Any] = {}
    for key, value in pairs:
        if key in seen:
            raise Unreadable((say("intake.why.twins", field=key),))
        seen[key] = value
    return seen


def _fault(loc: tuple[int | str, ...], kind: str, message: str) -> str:
    """One fault: the field's place as a person would look for it, and what is wrong there."""
    place = ""
    for part in loc:
        if isinstance(part, int):
            place += f"[{part + 1}]"
        elif part not in _KINDS:
            place += f".{part}" if place else part
    if kind == "extra_forbidden":
        return say("intake.fault.unknown", field=place)
    if kind == "missing":
        return say("intake.fault.missing", field=place)
    return say("intake.fault.wrong", field=place, why=message)


_KINDS = {_kind(model) for model in (*ON_PERMIT, *ON_BENCH)}


def _twice(document: PermitDocument) -> tuple[str, ...]:
    """Ids that stand for two things."""
    faults = []
    for field, ids in (
        ("people", [person.id for person in document.people]),
        ("instruments", [one.id for one in document.instruments]),
        ("evaluation.hazards", [hazard.id for hazard in document.evaluation.hazards]),
        ("evaluation.isolation", [point.id for point in document.evaluation.isolation]),
        ("happened (id of readings)", [r.id for r in _sets(document) if r.id]),
    ):
        faults += [say("intake.fault.twice", field=field, id=id) for id in sorted({i for i in ids if ids.count(i) > 1})]
    return tuple(faults)


def _far_off(value: Any, place: str) -> Iterator[str]:
    """Times that no permit of this century has: rules reckon with days before and after them."""
    if isinstance(value, BaseModel):
        for name in value.model_fields_set:
            yield from _far_off(getattr(value, name), f"{place}.{name}" if place else name)
    elif isinstance(value, tuple):
        for index, one in enumerate(value, 1):
            yield from _far_off(one, f"{place}[{index}]")
    elif isinstance(value, date) and not 2000 <= value.year < 2100:
        yield say("intake.fault.wrong", field=place, why=say("intake.why.century"))


MUST_SAY: tuple[tuple[type[BaseModel], tuple[str, ...]], ...] = (
    (TheSpace, ("id", "name", "place", "contents")),
    (Portal, ("name",)),
    (SpaceEvaluated, ("by_name", "qualified_as", "communication", "equipment")),
    (Hazard, ("name", "shows", "control")),
    (IsolationPoint, ("name", "holds", "how")),
    (RescuePlan, ("service", "then", "retrieval")),
    (TheInstrument, ("name", "serial")),
    (b.Sensor, ("gas", "unit", "technology")),
    (b.FreshAir, ("place",)),
    (b.Cylinder, ("name", "lot")),
)
"""What the registers and the bench do not take blank, a document does not say blank."""


def _blank(value: Any, place: str) -> Iterator[str]:
    if isinstance(value, BaseModel):
        asked = {name for model, names in MUST_SAY if isinstance(value, model) for name in names}
        for name in type(value).model_fields:
            inner, where = getattr(value, name), f"{place}.{name}" if place else name
            if name in asked and not inner.strip():
                yield say("intake.fault.wrong", field=where, why=say("intake.why.blank"))
            yield from _blank(inner, where)
    elif isinstance(value, tuple):
        for index, one in enumerate(value, 1):
            yield from _blank(one, f"{place}[{index}]")


def _no_retest(document: PermitDocument) -> Iterator[str]:
    """Where people work is tested again: 29 CFR 1910.146(d)(5)(ii). A reclassified space has no air to watch."""
    if document.route != "reclassified" and not document.evaluation.retest_points_m:
        yield say("intake.fault.wrong", field="evaluation.retest_points_m", why=say("intake.why.no_retest"))


DEEPEST_M = 1000
"""Meters; deeper than any space that is entered by such a permit, and a slip of the hand."""


def _too_deep(document: PermitDocument) -> tuple[str, ...]:
    space = document.space
    return tuple(
        say("intake.fault.wrong", field=f"space.{name}", why=say("intake.why.deep_space", most=DEEPEST_M))
        for name in ("depth_m", "across_m")
        if not 0 < Decimal(getattr(space, name)) <= DEEPEST_M
    )


def _sets(document: PermitDocument) -> tuple[ReadingsTaken, ...]:
    told: tuple[Any, ...] = document.happened
    return tuple(one for one in told if isinstance(one, ReadingsTaken))


TheInstrument.model_rebuild()


def example() -> str:
    """A complete permit, invented, that is allowed: to copy from."""
    return resources.files(__package__).joinpath("example_permit.json").read_text(encoding="utf-8").rstrip("\n")


def schema() -> dict[str, Any]:
    """The JSON Schema of the document. Figures may stand as numbers or as text."""
    told: dict[str, Any] = _figures_free(PermitDocument.model_json_schema())
    return told


def _figures_free(value: Any) -> Any:
    if isinstance(value, dict):
        freed = {key: _figures_free(inner) for key, inner in value.items()}
        if freed.get("type") == "string" and str(freed.get("pattern", "")).startswith("^-?[0-9]+"):
            freed["type"] = ["string", "number"]
        return freed
    return [_figures_free(inner) for inner in value] if isinstance(value, list) else value
