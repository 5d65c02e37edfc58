"""Workings of one moment: oxygen, water, flammable gas, units, where and how long to test."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from lamproom.air import flammable_mixture as mixture
from lamproom.air import humidity, oxygen, sampling, units, warm_space
from lamproom.air.entry_figure import entry_working
from lamproom.air.flammable import Factor, as_vapor, toxic_at_lel
from lamproom.air.flammable_units import lel_in_ppm, ppm_in_lel, rebased
from lamproom.air.share import share_of_limit
from lamproom.air.substance_table import named
from lamproom.air.working import Unworkable, Working
from lamproom.air.workings import Entry, Given, figure, gases, word
from lamproom.words import sentence

_MOIST = (
    figure("outside_celsius", "°C", needed=False),
    figure("outside_humidity", "%", needed=False),
    figure("inside_celsius", "°C", needed=False),
    figure("inside_humidity", "%", needed=False),
)
_PRESSURE = figure("pressure", "Pa", needed=False)
_MIXTURE = gases("gas", "", "share", "lel")


def _moist(given: Given, where: str) -> humidity.Moist | None:
    celsius, share = given.get(f"{where}_celsius"), given.get(f"{where}_humidity")
    return None if celsius is None or share is None else humidity.Moist(celsius, share)


def _both(given: Given) -> tuple[humidity.Moist, humidity.Moist]:
    outside, inside = _moist(given, "outside"), _moist(given, "inside")
    if outside is None or inside is None:
        raise Unworkable(sentence("air.unworkable.not_moist"))
    return outside, inside


def _pressure(given: Given) -> Decimal:
    return given.at("pressure", humidity.STANDARD_PASCAL)


def _as_vapor(given: Given) -> Working:
    factor, sheet, dated = given.get("factor"), given.word("sheet"), given.word("sheet_date")
    vapor = given.word("vapor")
    if factor is None or not sheet or not dated:
        return as_vapor(given["percent_lel"], vapor, None)
    try:
        day = date.fromisoformat(dated)
    except ValueError as error:
        raise Unworkable(sentence("air.unworkable.no_date", text=dated)) from error
    return as_vapor(given["percent_lel"], vapor, Factor(vapor, factor, sheet, day))


def _entry_figure(given: Given) -> Working:
    found = named(given.word("substance"))
    if found is None:
        raise Unworkable(sentence("air.unworkable.no_substance", name=given.word("substance")))
    return entry_working(found, given.words.get("adopted", ("OSHA",)))


def _inerts(given: Given) -> dict[str, mixture.Inert]:
    shares, coefficients = given.part("inert", 0), given.part("inert", 1)
    return {gas: mixture.Inert(shares[gas], coefficients[gas]) for gas in shares}


OF_AIR = (
    Entry(
        "unaccounted",
        (
            figure("oxygen", "vol%"),
            figure("base", "vol%"),
            figure("tolerance", "vol%", needed=False),
            gases("measured", "ppm", "measured", needed=False),
            figure("water", "ppm", needed=False),
        ),
        lambda g: oxygen.unaccounted(
            g["oxygen"], g["base"], g.part("measured", 0), g.at("tolerance", oxygen.TOLERANCE), g.get("water")
        ),
        ("oxygen=20.5", "base=20.9", "tolerance=0.1", "measured=methane:5000", "water=1000"),
    ),
    Entry(
        "water_vapor",
        (*_MOIST, _PRESSURE),
        lambda g: humidity.water_vapor(_moist(g, "outside"), _moist(g, "inside"), _pressure(g)),
        ("outside_celsius=5", "outside_humidity=70", "inside_celsius=22", "inside_humidity=100", "pressure=101325"),
    ),
    Entry(
        "damp_oxygen",
        (figure("base", "vol%"), *_MOIST, _PRESSURE),
        lambda g: humidity.damp_oxygen(g["base"], *_both(g), _pressure(g)),
        ("base=20.9", "outside_celsius=5", "outside_humidity=70", "inside_celsius=22", "inside_humidity=100"),
    ),
    Entry(
        "saturation_pressure",
        (figure("temperature", "°C"),),
        lambda g: humidity.saturation_pressure(g["temperature"]),
        ("temperature=22",),
    ),
    Entry(
        "partial_pressure",
        (figure("oxygen", "vol%"), figure("pressure", "Pa"), figure("base", "vol%", needed=False)),
        lambda g: oxygen.partial_pressure(g["oxygen"], g["pressure"], g.at("base", oxygen.FRESH_AIR)),
        ("oxygen=19.5", "pressure=84559.7"),
    ),
    Entry(
        "air_pressure",
        (figure("altitude", "m"),),
        lambda g: oxygen.standard_pressure(g["altitude"]),
        ("altitude=1500",),
    ),
    Entry(
        "entry_figure",
        (word("substance"), word("adopted", needed=False)),
        _entry_figure,
        ("substance=toluene", "adopted=OSHA"),
    ),
    Entry(
        "share_of_limit",
        (figure("level"), figure("limit")),
        lambda g: share_of_limit(g["level"], g["limit"]),
        ("level=7", "limit=10"),
    ),
    Entry(
        "toxic_at_lel",
        (figure("percent_lel", "% LEL"), figure("lel", "vol%"), figure("limit", "ppm")),
        lambda g: toxic_at_lel(g["percent_lel"], g["lel"], g["limit"]),
        ("percent_lel=10", "lel=1.2", "limit=1"),
    ),
    Entry(
        "lel_in_ppm",
        (figure("percent_lel", "% LEL"), figure("lel", "vol%")),
        lambda g: lel_in_ppm(g["percent_lel"], g["lel"]),
        ("percent_lel=10", "lel=5.0"),
    ),
    Entry(
        "ppm_in_lel",
        (figure("ppm", "ppm"), figure("lel", "vol%")),
        lambda g: ppm_in_lel(g["ppm"], g["lel"]),
        ("ppm=600", "lel=1.2"),
    ),
    Entry(
        "rebased",
        (figure("percent_lel", "% LEL"), figure("lel", "vol%"), figure("wanted_lel", "vol%")),
        lambda g: rebased(g["percent_lel"], g["lel"], g["wanted_lel"]),
        ("percent_lel=10", "lel=5.0", "wanted_lel=4.4"),
    ),
    Entry(
        "as_vapor",
        (
            figure("percent_lel", "% LEL"),
            word("vapor"),
            figure("factor", needed=False),
            word("sheet", needed=False),
            word("sheet_date", needed=False),
        ),
        _as_vapor,
        ("percent_lel=3", "vapor=toluene", "factor=2.6", "sheet=sheet-12", "sheet_date=2026-03-01"),
    ),
    Entry(
        "mixture_lel",
        (_MIXTURE,),
        lambda g: mixture.mixture_lel(g.part("gas", 0), g.part("gas", 1)),
        ("gas=methane:80:5.0", "gas=propane:20:2.1"),
    ),
    Entry(
        "mixture_uel",
        (gases("gas", "", "share", "uel"),),
        lambda g: mixture.mixture_uel(g.part("gas", 0), g.part("gas", 1)),
        ("gas=methane:80:15", "gas=propane:20:9.5"),
    ),
    Entry(
        "mixture_percent_lel",
        (gases("gas", "vol%", "volume", "lel"),),
        lambda g: mixture.mixture_percent_lel(g.part("gas", 0), g.part("gas", 1)),
        ("gas=hexane:0.8:1.2", "gas=methane:2.0:5.3", "gas=ethylene:0.5:3.1"),
    ),
    Entry(
        "inert_lel",
        (_MIXTURE, gases("inert", "", "inert", "coefficient")),
        lambda g: mixture.inert_lel(g.part("gas", 0), g.part("gas", 1), _inerts(g)),
        ("gas=hydrogen:15:4", "gas=methane:15:4.4", "inert=carbon-dioxide:30:1.5", "inert=nitrogen:40:1"),
    ),
    Entry(
        "warm_lel",
        (figure("lel", "vol%"), figure("temperature", "°C"), figure("heat", "kcal/mol", needed=False)),
        lambda g: warm_space.warm_lel(g["lel"], g["temperature"], g.get("heat")),
        ("lel=5.0", "temperature=100", "heat=212.79"),
    ),
    Entry(
        "points",
        (
            figure("depth", "m"),
            figure("level_depth", "m", needed=False),
            figure("first_below", "m", needed=False),
            figure("last_above", "m", needed=False),
            figure("spacing", "m", needed=False),
        ),
        lambda g: sampling.points(
            g["depth"],
            g.get("level_depth"),
            g.at("first_below", sampling.TOP),
            g.at("last_above", sampling.ABOVE),
            g.at("spacing", sampling.SPACING),
        ),
        ("depth=4.2", "spacing=1.2"),
    ),
    Entry(
        "hose_delay",
        (figure("hose", "m"), figure("bore", "mm"), figure("flow", "L/min")),
        lambda g: sampling.hose_delay(g["hose"], g["bore"], g["flow"]),
        ("hose=10", "bore=4", "flow=0.5"),
    ),
    Entry(
        "wait",
        (
            figure("hose", "m", needed=False),
            figure("bore", "mm", needed=False),
            figure("flow", "L/min", needed=False),
            figure("flushes", needed=False),
            figure("response", "s"),
        ),
        lambda g: sampling.wait(
            g.get("hose"), g.get("bore"), g.get("flow"), g.at("flushes", Decimal(0)), g["response"]
        ),
        ("hose=10", "bore=4", "flow=0.5", "flushes=2", "response=30"),
    ),
    Entry(
        "ppm_to_mg",
        (figure("ppm", "ppm"), figure("molar_mass", "g/mol"), figure("molar_volume", "L/mol", needed=False)),
        lambda g: units.ppm_to_mg(g["ppm"], g["molar_mass"], g.at("molar_volume", units.UNITED_STATES)),
        ("ppm=5000", "molar_mass=44.0095"),
    ),
    Entry(
        "mg_to_ppm",
        (figure("mg", "mg/m³"), figure("molar_mass", "g/mol"), figure("molar_volume", "L/mol", needed=False)),
        lambda g: units.mg_to_ppm(g["mg"], g["molar_mass"], g.at("molar_volume", units.UNITED_STATES)),
        ("mg=9000", "molar_mass=44.0095"),
    ),
    Entry(
        "molar_volume",
        (figure("temperature", "°C"), _PRESSURE),
        lambda g: units.molar_volume(g["temperature"], _pressure(g)),
        ("temperature=25",),
    ),
    Entry(
        "vapor_density",
        (figure("molar_mass", "g/mol"), figure("share_percent", "vol%", needed=False)),
        lambda g: units.vapor_density(g["molar_mass"], g.at("share_percent", Decimal(100))),
        ("molar_mass=72.149", "share_percent=0.15"),
    ),
    Entry(
        "saturated_density",
        (figure("molar_mass", "g/mol"), figure("vapor_pressure", "Pa"), _PRESSURE),
        lambda g: units.saturated_density(g["molar_mass"], g["vapor_pressure"], _pressure(g)),
        ("molar_mass=92.138", "vapor_pressure=2910"),
    ),
)
