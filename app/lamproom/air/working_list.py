"""All workings that can be asked for by name."""

from __future__ import annotations

from lamproom.air.workings_for_showing import FOR_SHOWING
from lamproom.air.workings_of_air import OF_AIR
from lamproom.air.workings_of_time import EXPOSURE, VENTILATION

WORKINGS = (*OF_AIR, *EXPOSURE, *VENTILATION, *FOR_SHOWING)
