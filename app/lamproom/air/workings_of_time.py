"""Workings over time: exposure, ventilation, the fit of a purge, where readings are heading."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

from lamproom.air import long_shifts, means, rebound, trend, ventilation
from lamproom.air.decay import Decay, Going, Timed, decay, time_to
from lamproom.air.exposure import Exposure, Stay, exposure, highest_mean, minutes_above
from lamproom.air.leave_by import minutes_to_limit
from lamproom.air.series import series
from lamproom.air.share import round_volume
from lamproom.air.working import Working, worked
from lamproom.air.workings import Entry, Given, figure, gases, pairs, word
from lamproom.words import say

# Readings are typed as minutes; a day to hang them on, of no meaning.
_START = datetime(2000, 1, 1, tzinfo=UTC)
_READINGS = pairs("reading", "", "minutes", "level")
_SPACE = (figure("volume_of_space", "m³"), figure("fan_flow", "m³/min"))
_MIXING = figure("mixing", needed=False)
_SUPPLY = figure("supply", needed=False)
_TIMED = (_READINGS, figure("resolution"), figure("response", "s", needed=False))
_SERIES = (_READINGS, figure("until", "min"), figure("every", "min", needed=False))
_PURGE = (
    "reading=2:82",
    "reading=4:67",
    "reading=6:55",
    "reading=8:45",
    "reading=10:37",
    "reading=12:30",
    "resolution=1",
)


def _moment(minutes: Decimal) -> datetime:
    return _START + timedelta(milliseconds=int(minutes * 60_000))


def _stay(given: Given) -> Stay:
    every = given.get("every")
    readings = [(_moment(minutes), level) for minutes, level in given.pairs["reading"]]
    step = None if every is None else timedelta(milliseconds=int(every * 60_000))
    air = series(say("air.input.reading"), readings, step)
    return Stay(air, min(at for at, _ in readings))


def _exposure(given: Given) -> Exposure:
    return exposure([_stay(given)], _moment(given["until"]))


def _highest_mean(given: Given) -> Working:
    return highest_mean([_stay(given)], _moment(given["until"]), timedelta(milliseconds=int(given["window"] * 60_000)))


def _above(given: Given) -> Working:
    window = given.get("window")
    span = None if window is None else timedelta(milliseconds=int(window * 60_000))
    return minutes_above([_stay(given)], given["ceiling"], _moment(given["until"]), span)


def _timed(given: Given) -> list[Timed]:
    return [Timed(minutes, level) for minutes, level in given.pairs["reading"]]


def _decay(given: Given) -> Decay:
    volume, flow = given.get("volume_of_space"), given.get("fan_flow")
    return decay(_timed(given), given["resolution"], given.at("response", Decimal(0)), volume, flow)


def _fitted(key: str, found: Decay, working: Working | None) -> Working:
    """The working of a fit, or what the readings say instead."""
    if working is not None:
        return working
    word = "cannot_tell" if found.going is Going.CANNOT_TELL else "not_falling"
    return worked(key, say(f"air.result.{word}"), "", (), found.why.say())


def _rebound(given: Given) -> Working:
    found = rebound.rebound(
        _timed(given), given["volume_of_space"], given["resolution"], given.at("response", Decimal(0))
    )
    if found.source is not None:
        return found.source
    word = "cannot_tell" if found.going is rebound.Rising.CANNOT_TELL else "no_rise"
    return worked("rebound", say(f"air.result.{word}"), "", (), found.why.say())


def _mixing(given: Given) -> Decimal:
    return given.at("mixing", ventilation.ONE)


def _supply(given: Given) -> Decimal:
    return given.at("supply", ventilation.ZERO)


EXPOSURE = (
    Entry(
        "short_term",
        _SERIES,
        lambda g: _exposure(g).short_term,
        ("reading=0:10", "reading=10:50", "reading=20:10", "until=20", "every=10"),
    ),
    Entry(
        "highest_mean",
        (*_SERIES, figure("window", "min")),
        _highest_mean,
        ("reading=0:10", "reading=10:50", "reading=20:10", "until=20", "every=10", "window=12"),
    ),
    Entry(
        "shift",
        _SERIES,
        lambda g: _exposure(g).shift,
        ("reading=0:10", "reading=10:50", "reading=20:10", "until=480"),
    ),
    Entry(
        "dose_mean",
        (figure("dose", "ppm·min"), figure("minutes", "min")),
        lambda g: means.dose_mean(g["dose"], g["minutes"]),
        ("dose=39000", "minutes=480"),
    ),
    Entry(
        "shift_mean",
        (pairs("span", "min, ppm", "minutes", "level"),),
        lambda g: means.shift_mean((minutes, level) for minutes, level in g.pairs["span"]),
        ("span=120:150", "span=120:75", "span=240:50"),
    ),
    Entry(
        "additive",
        (gases("gas", "ppm", "level", "limit_of"),),
        lambda g: means.additive({gas: (level, limit) for gas, (level, limit) in g.gases["gas"].items()}),
        ("gas=toluene:40:200", "gas=xylene:45:100"),
    ),
    Entry(
        "minutes_above",
        (*_SERIES, figure("ceiling", "ppm"), figure("window", "min", needed=False)),
        _above,
        ("reading=0:10", "reading=10:50", "reading=20:10", "until=15", "every=10", "ceiling=25"),
    ),
    Entry(
        "minutes_to_limit",
        (figure("dose", "ppm·min"), figure("level", "ppm"), figure("limit", "ppm"), figure("minutes", "min")),
        lambda g: minutes_to_limit(g["dose"], g["level"], g["limit"], g["minutes"]),
        ("dose=9600", "level=60", "limit=35", "minutes=480"),
    ),
    Entry(
        "daily_limit",
        (figure("limit", "ppm"), figure("hours_a_day", "h"), word("kind", needed=False)),
        lambda g: long_shifts.daily_limit(g["limit"], g["hours_a_day"], g.word("kind", "TWA")),
        ("limit=50", "hours_a_day=12"),
    ),
    Entry(
        "weekly_limit",
        (figure("limit", "ppm"), figure("hours_a_week", "h"), word("kind", needed=False)),
        lambda g: long_shifts.weekly_limit(g["limit"], g["hours_a_week"], g.word("kind", "TWA")),
        ("limit=50", "hours_a_week=48"),
    ),
    Entry(
        "minutes_to_level",
        (figure("level"), figure("bound"), figure("pace", "1/min")),
        lambda g: trend.minutes_to_level(g["level"], g["bound"], g["pace"]),
        ("level=6", "bound=10", "pace=0.3"),
    ),
    Entry(
        "furthest",
        (
            figure("level"),
            figure("seconds", "s"),
            figure("response", "s"),
            figure("top"),
            figure("bottom", needed=False),
        ),
        lambda g: trend.furthest(g["level"], g["seconds"], g["response"], g["top"], g.at("bottom", Decimal(0))),
        ("level=10", "seconds=10", "response=30", "top=100"),
    ),
    Entry(
        "oxygen_left",
        (figure("base", "vol%"), figure("flammable_vol", "vol%")),
        lambda g: trend.oxygen_left(g["base"], g["flammable_vol"]),
        ("base=20.9", "flammable_vol=5"),
    ),
)

VENTILATION = (
    Entry(
        "round_volume",
        (figure("across", "m"), figure("depth", "m")),
        lambda g: round_volume(g["across"], g["depth"]),
        ("across=2.4", "depth=5.1"),
    ),
    Entry(
        "air_changes",
        (figure("fan_flow", "m³/min"), figure("volume_of_space", "m³")),
        lambda g: ventilation.air_changes(g["fan_flow"], g["volume_of_space"]),
        ("fan_flow=25", "volume_of_space=50"),
    ),
    Entry(
        "mixing_factor",
        (figure("efficiency"),),
        lambda g: ventilation.mixing_factor(g["efficiency"]),
        ("efficiency=0.2",),
    ),
    Entry(
        "purge_changes",
        (figure("start"), figure("target"), _MIXING, _SUPPLY),
        lambda g: ventilation.purge_changes(g["start"], g["target"], _mixing(g), _supply(g)),
        ("start=20", "target=1.4", "mixing=5"),
    ),
    Entry(
        "purge_time",
        (*_SPACE, figure("start"), figure("target"), _MIXING, _SUPPLY),
        lambda g: ventilation.purge_time(
            g["volume_of_space"], g["fan_flow"], g["start"], g["target"], _mixing(g), _supply(g)
        ),
        ("volume_of_space=60", "fan_flow=20", "start=400", "target=20", "mixing=3"),
    ),
    Entry(
        "steady_state",
        (figure("source", "m³/min"), figure("fan_flow", "m³/min"), _MIXING, _SUPPLY),
        lambda g: ventilation.steady_state(g["source"], g["fan_flow"], _mixing(g), _supply(g)),
        ("source=0.0005", "fan_flow=20", "mixing=3"),
    ),
    Entry(
        "flow_needed",
        (figure("source", "m³/min"), figure("limit", "ppm"), _MIXING, _SUPPLY),
        lambda g: ventilation.flow_needed(g["source"], g["limit"], _mixing(g), _supply(g)),
        ("source=0.0005", "limit=50", "mixing=3"),
    ),
    Entry(
        "build_up_time",
        (*_SPACE, figure("source", "m³/min"), figure("level", "ppm"), _MIXING, figure("start", "ppm", needed=False)),
        lambda g: ventilation.build_up_time(
            g["volume_of_space"], g["fan_flow"], g["source"], g["level"], _mixing(g), g.at("start", ventilation.ZERO)
        ),
        ("volume_of_space=60", "fan_flow=20", "source=0.005", "level=200"),
    ),
    Entry(
        "level_after",
        (
            figure("minutes", "min"),
            *_SPACE,
            figure("start", "ppm"),
            figure("source", "m³/min", needed=False),
            _MIXING,
            _SUPPLY,
        ),
        lambda g: ventilation.level_after(
            g["minutes"],
            g["volume_of_space"],
            g["fan_flow"],
            g["start"],
            g.at("source", ventilation.ZERO),
            _mixing(g),
            _supply(g),
        ),
        ("minutes=10", "volume_of_space=60", "fan_flow=20", "start=400", "supply=5"),
    ),
    Entry(
        "vapor_source",
        (
            figure("liters_min", "L/min"),
            figure("density", "kg/L"),
            figure("molar_mass", "g/mol"),
            figure("temperature", "°C", needed=False),
        ),
        lambda g: ventilation.vapor_source(
            g["liters_min"], g["density"], g["molar_mass"], g.at("temperature", Decimal(20))
        ),
        ("liters_min=0.0118", "density=1.32", "molar_mass=133.4"),
    ),
    Entry("decay_rate", _TIMED, lambda g: _fitted("decay_rate", found := _decay(g), found.rate), _PURGE),
    Entry(
        "effective_changes",
        _TIMED,
        lambda g: _fitted("effective_changes", found := _decay(g), found.changes),
        _PURGE,
    ),
    Entry(
        "fitted_mixing",
        (*_TIMED, *_SPACE),
        lambda g: _fitted("fitted_mixing", found := _decay(g), found.mixing),
        (*_PURGE, "volume_of_space=60", "fan_flow=20"),
    ),
    Entry("fitted_steady", _TIMED, lambda g: _fitted("fitted_steady", found := _decay(g), found.steady), _PURGE),
    Entry(
        "time_to",
        (*_TIMED, figure("target")),
        lambda g: time_to(_decay(g), g["target"]),
        (*_PURGE, "target=20"),
    ),
    Entry(
        "rebound",
        (*_TIMED, figure("volume_of_space", "m³")),
        _rebound,
        (
            "reading=0:20",
            "reading=1:25",
            "reading=2:31",
            "reading=3:35",
            "reading=4:40",
            "resolution=1",
            "volume_of_space=60",
        ),
    ),
)
