"""Workings for showing, never for permitting."""

from __future__ import annotations

from lamproom.air import bodies, limiting_oxygen, long_shifts, means, warm_space
from lamproom.air.workings import Entry, figure, word
from lamproom.words import say

FOR_SHOWING = (
    Entry(
        "rest_of_shift",
        (figure("limit", "ppm"), figure("shift_min", "min"), figure("peak", "ppm"), figure("peak_min", "min")),
        lambda g: means.rest_of_shift(g["limit"], g["shift_min"], g["peak"], g["peak_min"]),
        ("limit=10", "shift_min=480", "peak=50", "peak_min=10"),
    ),
    Entry(
        "lead_limit",
        (figure("hours_a_day", "h"),),
        lambda g: long_shifts.lead_limit(g["hours_a_day"]),
        ("hours_a_day=10",),
    ),
    Entry(
        "bulletin_factor",
        (figure("temperature", "°C"),),
        lambda g: warm_space.bulletin_factor(g["temperature"]),
        ("temperature=100",),
    ),
    Entry(
        "burgess_wheeler",
        (figure("lel", "vol%"), figure("temperature", "°C"), figure("heat", "kcal/mol")),
        lambda g: warm_space.burgess_wheeler(g["lel"], g["temperature"], g["heat"]),
        ("lel=5.0", "temperature=100", "heat=212.79"),
    ),
    Entry(
        "limiting_oxygen",
        (word("fuel"),),
        lambda g: limiting_oxygen.limiting_oxygen(g.word("fuel")),
        ("fuel=methane",),
    ),
    Entry(
        "old_tube_oxygen",
        (figure("tube_oxygen", "vol%"),),
        lambda g: limiting_oxygen.old_tube_oxygen(g["tube_oxygen"]),
        ("tube_oxygen=12",),
    ),
    Entry(
        "estimated_oxygen",
        (figure("lel", "vol%"), figure("oxygen_per_fuel", "mol/mol")),
        lambda g: limiting_oxygen.estimated_oxygen(g["lel"], g["oxygen_per_fuel"]),
        ("lel=1.9", "oxygen_per_fuel=6.5"),
    ),
    Entry(
        "monoxide_guide",
        (figure("minutes", "min"),),
        lambda g: bodies.monoxide_guide(g["minutes"]),
        ("minutes=20",),
    ),
    Entry(
        "carboxyhemoglobin",
        (figure("ppm", "ppm"), figure("minutes", "min")),
        lambda g: bodies.carboxyhemoglobin(g["ppm"], g["minutes"]),
        ("ppm=35", "minutes=480"),
    ),
    Entry(
        "same_effect",
        (figure("ppm", "ppm"), figure("minutes", "min"), figure("wanted_min", "min"), figure("exponent")),
        lambda g: bodies.same_effect(g["ppm"], g["minutes"], g["wanted_min"], g["exponent"]),
        ("ppm=293", "minutes=60", "wanted_min=30", "exponent=3.5"),
    ),
    Entry(
        "heat_limit",
        (figure("watts", "W"), word("used_to_heat", needed=False)),
        lambda g: bodies.heat_limit(g["watts"], g.word("used_to_heat") == say("air.result.yes")),
        ("watts=300", "used_to_heat=yes"),
    ),
    Entry(
        "wbgt",
        (figure("wet_bulb", "°C"), figure("globe", "°C"), figure("air_celsius", "°C", needed=False)),
        lambda g: bodies.wbgt(g["wet_bulb"], g["globe"], g.get("air_celsius")),
        ("wet_bulb=25", "globe=45", "air_celsius=32"),
    ),
    Entry(
        "sealed_minutes",
        (
            figure("volume_of_space", "m³"),
            figure("people"),
            word("activity", needed=False),
            figure("carbon_dioxide", "vol%", needed=False),
            figure("oxygen", "vol%", needed=False),
        ),
        lambda g: bodies.sealed_minutes(
            g["volume_of_space"],
            g["people"],
            g.word("activity", "rescue"),
            g.get("carbon_dioxide"),
            g.get("oxygen"),
        ),
        ("volume_of_space=28.3", "people=1", "carbon_dioxide=0.5"),
    ),
    Entry(
        "grain_flow",
        (figure("bushels_min", "bu/min"),),
        lambda g: bodies.grain_flow(g["bushels_min"]),
        ("bushels_min=68",),
    ),
)
