"""Whether an instrument was surely not ready: design 4 (bench), D14, D27, D37."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal
from math import pi

from tests.oracle.record import Act, Life, number


def _bump_passed(life: Life, one: Act, bump: Act) -> bool:
    if bump["check"] != "calibration" or date.fromisoformat(bump["cylinder"]["expires"]) < life.day(bump["t"]):
        return False
    for sensor in one["sensors"]:
        result = next((r for r in bump["results"] if r["gas"] == sensor["gas"]), None)
        if result is None or result["alarm_s"] is None or Decimal(str(result["alarm_s"])) > 60:
            return False
        applied, read = Decimal(str(result["applied"])), Decimal(str(result["reading"]))
        if not Decimal("0.9") * applied <= read <= Decimal("1.1") * applied:
            return False
    return True


def _bump_failed(bump: Act) -> bool:
    """Whether a sensor surely failed; a test of another kind, or with old gas, is no test at all."""
    return any(
        r["alarm_s"] is None
        or Decimal(str(r["alarm_s"])) > 60
        or not 90 <= 100 * Decimal(str(r["reading"])) / Decimal(str(r["applied"])) <= 110
        for r in bump["results"]
    )


def _check_passed(check: Act) -> bool:
    seen = ("self_test", "alarm_heard", "alarm_seen", "alarm_felt", "display_complete", "housing_sound")
    stopped = number(check["block_stopped_s"])
    return all(check[k] for k in (*seen, "set_points_as_registered")) and stopped is not None and stopped <= 30


def not_ready(life: Life, instrument: str, moment: datetime) -> str | None:
    if (instrument, moment) not in life.fit:
        life.fit[instrument, moment] = _not_ready(life, instrument, moment)
    return life.fit[instrument, moment]


def _not_ready(life: Life, instrument: str, moment: datetime) -> str | None:
    """Why an instrument was surely not ready at a moment; None when nothing is sure."""
    one = next((i for i in life.doc["instruments"] if i["id"] == instrument), None)
    if one is None:
        return "unknown instrument"
    past = [a for a in life.bench[instrument] if a["t"] <= moment]
    start = life.duty_start(moment)
    calibrations = [a for a in past if a["what"] == "calibrated"]
    if not calibrations or not calibrations[-1]["passed"]:
        return "not calibrated"
    calibrated = calibrations[-1]
    if date.fromisoformat(calibrated["due"]) < life.day(moment):
        return "calibration past due"
    for act in past:
        if act["what"] == "taken-out-of-service" and not any(
            back["what"] == "returned-to-service" and back["t"] >= act["t"] for back in past
        ):
            return "out of service"
    return _not_checked(past, start, calibrated) or _not_bumped(life, one, past, moment, calibrated)


def _not_checked(past: list[Act], start: datetime, calibrated: Act) -> str | None:
    checks = [a for a in past if a["what"] == "checked-before-use"]
    if not checks or checks[-1]["t"] < start:
        return "no check before use in this duty period"
    if not _check_passed(checks[-1]):
        return "check before use not passed"
    air = checks[-1]["fresh_air"]
    shift = abs(Decimal(str(air["oxygen_after"])) - Decimal(str(air["oxygen_before"])))
    if shift > Decimal("0.3") and calibrated["t"] < checks[-1]["t"]:
        return "set-up moved oxygen by more than 0.3 %: calibrate"
    return None


def _not_bumped(life: Life, one: Act, past: list[Act], moment: datetime, calibrated: Act) -> str | None:
    bumps = [a for a in past if a["what"] == "bump-tested"]
    passed = [b for b in bumps if _bump_passed(life, one, b)]
    failed = [b for b in bumps if _bump_failed(b)]
    if not passed or (failed and failed[-1]["t"] >= passed[-1]["t"]):
        return "bump test missing or failed"
    if moment - passed[-1]["t"] >= timedelta(hours=24) or passed[-1]["t"] < life.duty_start(moment):
        return "bump test stale"
    if any(calibrated["t"] < b["t"] for b in failed):
        return "a bump test failed and no calibration followed"
    if any(a["what"] == "test-voided" and a["t"] > passed[-1]["t"] for a in past):
        return "bump test voided"
    return None


def in_doubt(life: Life, instrument: str, taken: datetime) -> bool:
    """Whether the next bump test after a reading failed: D14."""
    one = next(i for i in life.doc["instruments"] if i["id"] == instrument)
    later = [a for a in life.bench[instrument] if a["what"] == "bump-tested" and a["t"] > taken]
    later = [b for b in later if _bump_passed(life, one, b) or _bump_failed(b)]
    return bool(later) and _bump_failed(later[0])


def held_since(life: Life, instrument: str, moment: datetime) -> datetime | None:
    """Since when an instrument serves this permit at a moment; None when it does not."""
    since: datetime | None = None
    for act in life.all("instrument-assigned", "instrument-returned"):
        if act["instrument"] == instrument and act["t"] <= moment:
            since = act["t"] if act["what"] == "instrument-assigned" else None
    return since


def wait_of(life: Life, reading: Act) -> timedelta:
    """Hose volume over pump flow, then the slowest sensor."""
    one = next(i for i in life.doc["instruments"] if i["id"] == reading["instrument"])
    seconds = max(float(s["response_s"]) for s in one["sensors"])
    act = life.last("instrument-assigned", instrument=reading["instrument"])
    if act and act.get("hose_m") and one.get("pump_l_min") and one.get("bore_mm"):
        litres = pi / 4 * (float(one["bore_mm"]) / 100) ** 2 * float(act["hose_m"]) * 10
        seconds += 60 * litres / float(one["pump_l_min"])
    return timedelta(seconds=seconds - 1)
