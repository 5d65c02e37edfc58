"""This machine beside the Watch: whether it can be heard, and how full its battery is."""

from __future__ import annotations

import ctypes
import sys
from pathlib import Path
from typing import Protocol

from lamproom.desk.sound import Pattern, SoundState

POWER = Path("/sys/class/power_supply")
_UNKNOWN = 255


class Sounding(Protocol):
    """What the Watch needs of the sound; a test gives a recorder."""

    @property
    def state(self) -> SoundState:
        """What is known now."""

    def play(self, pattern: Pattern) -> None:
        """Sound a pattern in place of any other."""

    def stop(self) -> None:
        """Silence."""

    def check(self) -> None:
        """Look for a device; the state tells."""


def battery() -> int | None:
    """Per cent of this machine's battery, None where it has none or does not say."""
    if sys.platform == "win32":
        return _windows_battery()
    charges = [_charge(folder / "capacity") for folder in sorted(POWER.glob("BAT*"))]
    return next((charge for charge in charges if charge is not None), None)


def _charge(file: Path) -> int | None:
    """What a battery says of itself; one that is being taken out says nothing, and nothing is claimed for it."""
    try:
        text = file.read_text(encoding="ascii").strip()
    except OSError:
        return None
    return int(text) if text.isdigit() else None


def _windows_battery() -> int | None:
    class Power(ctypes.Structure):
        _fields_ = (
            ("line", ctypes.c_byte),
            ("flag", ctypes.c_byte),
            ("percent", ctypes.c_ubyte),
            ("reserved", ctypes.c_byte),
            ("left", ctypes.c_ulong),
            ("full", ctypes.c_ulong),
        )

    power = Power()
    if not ctypes.windll.kernel32.GetSystemPowerStatus(ctypes.byref(power)):  # type: ignore[attr-defined,unused-ignore]
        return None
    return None if power.percent == _UNKNOWN else int(power.percent)
