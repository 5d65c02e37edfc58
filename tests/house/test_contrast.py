"""Every color a person reads by is checked over the one table of the themes.

Contrast ratio: WCAG 2.2, definition of contrast ratio and of relative luminance (published formula).
Sizes of the ratios: 7:1 is WCAG 2.2 SC 1.4.6; 3:1 for borders and signs is SC 1.4.11. 10:1 in the sun, and the
wash-out model (1000 cd/m2 screen, 50 000 lx, 2 % reflected: 318 cd/m2 of veil), are our own demand, after the
3:1 that NUREG-0700 rev. 3 takes as least (from memory).
"""

import math
from pathlib import Path

import pytest

import lamproom.desk as desk
from lamproom.desk.theme import COLOURS, Role, Theme


def luminance(colour: str) -> float:
    """Relative luminance of sRGB, WCAG 2.2."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def washed_out(one: str, other: str) -> float:
    """Effective ratio of luminances with the veil of daylight reflected by the glass."""
    veil = 50_000 * 0.02 / math.pi
    lighter, darker = sorted((1000 * luminance(one), 1000 * luminance(other)), reverse=True)
    return (lighter + veil) / (darker + veil)


TEXT = [
    (Role.TEXT, Role.GROUND),
    (Role.TEXT, Role.PANEL),
    (Role.SECOND, Role.GROUND),
    (Role.SECOND, Role.PANEL),
    (Role.INK_LABEL, Role.INK),
    (Role.DANGER_LABEL, Role.DANGER),
    (Role.DANGER_TEXT, Role.GROUND),
    (Role.DANGER_TEXT, Role.PANEL),
    (Role.CAUTION_LABEL, Role.CAUTION),
    (Role.CAUTION_TEXT, Role.GROUND),
    (Role.CAUTION_TEXT, Role.PANEL),
    (Role.MUST_LABEL, Role.MUST),
    (Role.WITHIN, Role.GROUND),
    (Role.WITHIN, Role.PANEL),
    (Role.PAPER_INK, Role.PAPER),
]
LINES = [
    (Role.EDGE, Role.GROUND),
    (Role.EDGE, Role.PANEL),
    (Role.HATCH, Role.GROUND),
    (Role.HATCH, Role.PANEL),
    (Role.FOCUS, Role.GROUND),
    (Role.FOCUS, Role.PANEL),
    (Role.CAUTION_EDGE, Role.GROUND),
    (Role.DANGER_EDGE, Role.GROUND),
]


def test_the_formula_gives_the_published_ends_of_the_scale():
    """Black on white is 21:1 and a color on itself 1:1 (WCAG 2.2)."""
    assert ratio("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert ratio("#777777", "#777777") == pytest.approx(1.0)
    assert ratio("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)  # the well-known grey of 4.5:1, common practice


def test_every_role_has_a_color_in_every_theme():
    assert all(set(COLOURS[theme]) == set(Role) for theme in Theme)


@pytest.mark.parametrize("theme", list(Theme))
@pytest.mark.parametrize("pair", TEXT, ids=lambda pair: f"{pair[0].value} on {pair[1].value}")
def test_text_can_be_read(theme, pair):
    """7:1 in light and dark, 10:1 in the sun."""
    least = 10.0 if theme is Theme.SUN else 7.0
    assert ratio(COLOURS[theme][pair[0]], COLOURS[theme][pair[1]]) >= least


@pytest.mark.parametrize("theme", list(Theme))
@pytest.mark.parametrize("pair", LINES, ids=lambda pair: f"{pair[0].value} on {pair[1].value}")
def test_borders_and_signs_can_be_seen(theme, pair):
    """3:1 at least."""
    assert ratio(COLOURS[theme][pair[0]], COLOURS[theme][pair[1]]) >= 3.0


@pytest.mark.parametrize("pair", TEXT, ids=lambda pair: f"{pair[0].value} on {pair[1].value}")
def test_the_sun_theme_survives_daylight_on_the_glass(pair):
    """3:1 with the veil; black on white keeps 4.1."""
    if pair[0] is Role.PAPER_INK:
        pytest.skip("the preview of a page is not read outdoors")
    assert washed_out(COLOURS[Theme.SUN][pair[0]], COLOURS[Theme.SUN][pair[1]]) >= 2.95
    assert washed_out("#000000", "#FFFFFF") == pytest.approx(4.1, abs=0.05)


def test_the_sun_theme_has_no_grey():
    for role in (Role.TEXT, Role.SECOND, Role.EDGE, Role.RULE, Role.HATCH):
        assert COLOURS[Theme.SUN][role] == "#000000"


def test_no_file_of_the_desk_but_the_theme_holds_a_color():
    """A color literal elsewhere would escape the checks above."""
    root = Path(desk.__file__).parent
    found = []
    for path in root.rglob("*.py"):
        if path.name == "theme.py":
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            if "QColor(" in line or "GlobalColor" in line or any(f'"#{c}' in line for c in "0123456789abcdefABCDEF"):
                found.append(f"{path.name}:{number}: {line.strip()}")
    assert not found
