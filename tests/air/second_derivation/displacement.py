"""How much of something else must be in the air for oxygen to read this low: Dalton's law, and nothing more.

Air inside = (1 - w - x) of dry fresh air + w of water + x of something else, all shares of volume. The instrument was
set up in, or read, fresh air that held w0 of water. Hence reading / fresh = (1 - w - x) / (1 - w0). Saturation pressure
of water after A. L. Buck, 'New equations for computing vapor pressure and enhancement factor', J. Appl. Meteorol. 20
(1981) 1527, equation ew1 with f (constants from memory, checked against 611.2 Pa at 0 C and 2339 Pa at 20 C of the
steam tables within 0.5 %). Nothing of the program is imported here.
"""

from __future__ import annotations

import math

STANDARD_PRESSURE_HPA = 1013.25


def saturation_pressure_hpa(celsius: float, pressure_hpa: float = STANDARD_PRESSURE_HPA) -> float:
    """Buck (1981): 6.1121 exp(17.502 T / (240.97 + T)), moist air at ``pressure_hpa``; over liquid water, hPa."""
    enhancement = 1.0007 + 3.46e-6 * pressure_hpa
    return enhancement * 6.1121 * math.exp(17.502 * celsius / (240.97 + celsius))


def water_share(celsius: float, humidity_percent: float, pressure_hpa: float = STANDARD_PRESSURE_HPA) -> float:
    """Share of volume that is water vapour (Dalton)."""
    return humidity_percent / 100 * saturation_pressure_hpa(celsius, pressure_hpa) / pressure_hpa


def read_if_only_water(fresh: float, outside: float, inside: float) -> float:
    """What the instrument reads inside if water alone differs, % of volume; shares of water outside and inside."""
    return fresh * (1 - inside) / (1 - outside)


def something_else_ppm(fresh: float, reading: float, outside: float = 0.0, inside: float = 0.0) -> float:
    """All that is neither dry air nor water, ppm of volume."""
    return ((1 - inside) - reading / fresh * (1 - outside)) * 1e6


def unaccounted_ppm(
    fresh: float, reading: float, tolerance: float, measured_ppm: float, outside: float = 0.0, inside: float = 0.0
) -> float:
    """What is left after the gases measured, water, and oxygen as much higher as the instrument may be wrong; >= 0."""
    return max(0.0, something_else_ppm(fresh, reading + tolerance, outside, inside) - measured_ppm)
