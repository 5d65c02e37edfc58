"""What a rescue service that is judged able to come says of itself; invented, for permits that must pass."""

from __future__ import annotations

from datetime import date
from typing import Any

CAPABLE: dict[str, Any] = {
    "team": "outside",
    "evaluated_by": "R. Ansgar",
    "evaluated_on": date(2026, 5, 4),
    "told_hazards": True,
    "access_given": True,
    "mechanical": True,
}
