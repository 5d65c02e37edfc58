"""Did a bump test pass? Judged from what each sensor did, never from a tick."""

from __future__ import annotations

from decimal import Decimal

from lamproom.bench.events import BumpTested, Sensor, SensorResult
from lamproom.bench.rules import BenchRules
from lamproom.words import Sentence, sentence

CLEAN_OXYGEN = Decimal("20.9")
"""Oxygen of clean air, % vol (20.95 dry; instruments are set to 20.9: common practice)."""


def shortfalls(test: BumpTested, sensors: tuple[Sensor, ...], rules: BenchRules) -> tuple[Sentence, ...]:
    """Everything in which the test falls short, a sentence each; empty when it passed.

    A sensor without a result did not pass, nor one whose gas the cylinder does not hold. Oxygen must be seen to fall:
    its gas holds less oxygen than clean air.
    A calibration check compares the reading with the applied figure (per cent of applied); both kinds want the alarm
    within the rules' time. Source: agency bulletin on direct-reading instruments (bump test and calibration check).
    """
    found: list[Sentence] = []
    for sensor in sensors:
        results = [result for result in test.results if result.gas == sensor.gas]
        if not results:
            found.append(sentence("bench.sensor_not_tested", gas=gas_name(sensor.gas)))
        for result in results:
            if result.gas not in test.cylinder.gases:
                found.append(sentence("bench.not_in_cylinder", gas=gas_name(result.gas), cylinder=test.cylinder.name))
            found.extend(_short(result, sensor.unit, test.check, rules))
    if rules.check == "calibration" and test.check == "function":
        found.append(sentence("bench.only_function_check"))
    return tuple(found)


def _short(result: SensorResult, unit: str, check: str, rules: BenchRules) -> list[Sentence]:
    applied, reading = Decimal(result.applied), Decimal(result.reading)
    gas = gas_name(result.gas)
    found: list[Sentence] = []
    if result.gas == "oxygen" and applied >= CLEAN_OXYGEN:
        found.append(sentence("bench.oxygen_must_fall", applied=result.applied))
    if check == "calibration":
        share = reading / applied * 100 if applied else Decimal(0)
        if not rules.accept_low <= share <= rules.accept_high:
            found.append(
                sentence(
                    "bench.reading_off",
                    gas=gas,
                    reading=result.reading,
                    applied=result.applied,
                    unit=unit,
                    low=str(rules.accept_low),
                    high=str(rules.accept_high),
                )
            )
    if result.alarm_s is None:
        found.append(sentence("bench.no_alarm", gas=gas))
    elif Decimal(result.alarm_s) > Decimal(int(rules.alarm_within.total_seconds())):
        limit = str(int(rules.alarm_within.total_seconds()))
        found.append(sentence("bench.alarm_slow", gas=gas, seconds=result.alarm_s, limit=limit))
    return found


def gas_name(gas: str) -> Sentence:
    """How a gas is named to people: a sentence of the catalogue, so that each language has its own word."""
    return sentence(f"air.gas.{gas}")
