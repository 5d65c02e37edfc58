"""Six spaces of different shapes under test: nothing read, half, all, one bad. Invented, told as documents.

Paints them to PNG, one a theme and one in greyscale: ``python -m tests.desk.workbook.six_spaces FOLDER``.
"""

from __future__ import annotations

import json
import os
import sys
from copy import deepcopy
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QPoint
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication
from tests.permits.lived import Lived, lived
from tests.permits.test_air_cases import drafted, hazard, put, sets

from lamproom.air.sampling import verification_points
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.air_picture import AirPicture
from lamproom.desk.parts.dress import dress
from lamproom.desk.theme import Look, Theme
from lamproom.desk.workbook.air_drawing import columns_of, section_of
from lamproom.intake.permit_document import read_document
from lamproom.office.views.air_test_sheet import air_test_view


@dataclass(frozen=True, slots=True)
class Space:
    """A space as registered, with today's level (empty: a dry floor) and the gases of its hazards."""

    name: str
    shape: str
    depth: str
    across: str
    portal: str
    level: str
    gases: tuple[str, ...]


SPACES = (
    Space("Lift station shaft", "vertical-shaft", "9.0", "1.8", "0.7", "8.2", ("methane", "hydrogen-sulfide")),
    Space("Lime slurry tank", "vertical-tank", "6.0", "4.5", "0.6", "", ("carbon-dioxide", "ammonia")),
    Space("Carbon silo", "silo", "12.0", "3.6", "0.6", "", ("carbon-monoxide", "carbon-dioxide")),
    Space("Fuel oil tank", "horizontal-tank", "2.4", "6.0", "0.6", "2.1", ("toluene", "n-hexane")),
    Space("Meter vault", "vault", "3.4", "4.8", "0.9", "", ("methane", "carbon-monoxide", "hydrogen-sulfide")),
    Space("Valve pit", "vault", "1.4", "1.6", "0.9", "", ("hydrogen-sulfide",)),
)
STATES = ("empty", "half", "all", "bad")


def told_of(space: Space, state: str) -> dict[str, Any]:
    """The space's permit as a document, its points read as the state says."""
    told = drafted()
    told["space"].update(name=space.name, shape=space.shape, depth_m=space.depth, across_m=space.across)
    told["space"]["openings"][0]["width_m"] = space.portal
    for gas in space.gases:
        if gas != "hydrogen-sulfide":
            hazard(gas, gas.replace("-", " ").capitalize())(told)
    assigned = next(act for act in told["happened"] if act["what"] == "instrument-assigned")
    assigned["hose_m"] = told["instruments"][0]["hose_m"] = 15
    level = next(act for act in told["happened"] if act["what"] == "level-stated")
    level["depth_m"] = space.level or None
    first = sets(told)[0]
    told["happened"] = [act for act in told["happened"] if act not in sets(told)]
    points = verification_points(Decimal(space.depth), Decimal(space.level) if space.level else None)
    count = {"empty": 0, "half": (len(points) + 1) // 2}.get(state, len(points))
    for at, point in enumerate(points[:count]):
        one = deepcopy(first)
        one["lowered"] = f"2026-11-17T08:{3 * at:02d}:00-06:00"
        one["at"] = one["taken"] = f"2026-11-17T08:{3 * at + 2:02d}:50-06:00"
        one["point_m"] = str(point)
        put(one, "oxygen", 20.8 if at else 20.9)
        put(one, "carbon-monoxide", at)
        if state == "bad" and at == count - 1:
            put(one, "oxygen", 17.2)
            put(one, "hydrogen-sulfide", 24)
            put(one, "flammable", 14)
        told["happened"].append(one)
    told["happened"].sort(key=lambda act: act["at"])
    return told


def site_of(space: Space, state: str, folder: Path) -> Lived:
    """The document lived into a site of its own."""
    return lived(read_document(json.dumps(told_of(space, state))), folder)


def picture_of(site: Lived, here: str = "") -> AirPicture:
    """The air test of the site's permit, in its own words and figures."""
    view = air_test_view(site.office, site.number)
    picture = AirPicture()
    next_place = here or (view.next_place.key if view.next_place is not None else "")
    picture.set_air(section_of(view, next_place, "07"), columns_of(view), view.old_legend)
    return picture


def main(folder: Path, wide: int = 722, high: int = 330) -> None:
    """All of them, in every theme."""
    folder.mkdir(parents=True, exist_ok=True)
    _app = QApplication(sys.argv)
    load_fonts()
    with TemporaryDirectory() as place:
        sites = {}
        for at, space in enumerate(SPACES):
            for state in STATES:
                where = Path(place) / f"{at}-{state}"
                where.mkdir()
                sites[space.name, state] = site_of(space, state, where)
        for theme in Theme:
            for at, space in enumerate(SPACES):
                sheet = QImage(wide * 2 + 20, high * 2 + 20, QImage.Format.Format_RGB32)
                sheet.fill(0x808080)
                painter = QPainter(sheet)
                for n, state in enumerate(STATES):
                    picture = picture_of(sites[space.name, state])
                    dress(picture, Look(theme))
                    picture.resize(wide, high)
                    painter.drawPixmap(QPoint((wide + 20) * (n % 2), (high + 20) * (n // 2)), picture.grab())
                painter.end()
                sheet.save(str(folder / f"{at + 1}-{space.shape}-{theme.value}.png"))
                if theme is Theme.LIGHT:
                    grey = sheet.convertToFormat(QImage.Format.Format_Grayscale8)
                    grey.save(str(folder / f"{at + 1}-{space.shape}-grey.png"))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
