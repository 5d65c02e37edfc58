"""Where everything stands on the Watch. Header, band, count, clock, rescue, bottom row and EVACUATE never move."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRect

MARGIN, GAP = 24, 12
TILE, KEY, STRIP, HEAD = 128, 112, 76, 40
PEOPLE, AIR, COUNT = 416, 428, 276
EVACUATE, CLEAR = 300, 51
KEYPAD = 276
"""Pixels at 96 to the inch; the keys of the bottom row and the strip are as high as a gloved finger needs."""


@dataclass(frozen=True, slots=True)
class Zones:
    """The rectangles of one arrangement. ``foot`` is the line of messages; a part that is not shown is empty."""

    head: QRect
    band: QRect
    count: QRect
    clock: QRect
    gases: QRect
    people: QRect
    trend: QRect
    call: QRect
    strip: QRect
    rescue: QRect
    panel: QRect
    point: QRect
    pad: QRect
    foot: QRect
    keys: QRect
    evacuate: QRect


def zones(width: int, height: int, mode: str, crowd: int) -> Zones:
    """``mode`` is 'calm', 'out' (everyone out), 'panel' or 'reading'; ``crowd`` how many people stand in the list."""
    wide = width - 2 * MARGIN
    right = width - MARGIN
    bottom = height - GAP - KEY
    strip = bottom - GAP - STRIP
    band = max(84, min(116, height - 684))
    top = HEAD + 4 if height < 790 else HEAD + 16
    tiles = top + band + GAP
    middle = tiles + TILE + GAP
    below = strip - GAP
    air = right - AIR
    lane = MARGIN + PEOPLE + 16
    empty = QRect()
    panel = mode in ("panel", "reading")
    out = mode == "out"
    many = crowd > 3 and not panel and not out
    reach = air - 16
    clock = QRect(MARGIN + COUNT + GAP, tiles, reach - MARGIN - COUNT - GAP, TILE)
    call_left = MARGIN + round(wide * 0.56)
    if out:
        count = QRect(MARGIN, tiles, COUNT + 52, TILE)
        clock = QRect(count.right() + 1 + GAP, tiles, call_left - GAP - count.right() - GAP, TILE)
    else:
        count = QRect(MARGIN, tiles, COUNT, TILE)
    people_wide = PEOPLE if not (many or out) else (reach if many else call_left - GAP) - MARGIN
    gases_high = TILE if panel else below - tiles
    gases = QRect(air, tiles, AIR, gases_high)
    if out:
        # Rescue stands with the words to say; the figures take its place below them.
        gases = QRect(call_left, below - 152, right - call_left, 152 + GAP + STRIP)
    return Zones(
        head=QRect(MARGIN, 2 if height < 790 else 8, wide, HEAD),
        band=QRect(MARGIN, top, wide, band),
        count=count,
        clock=clock,
        gases=empty if mode == "reading" else gases,
        people=QRect(MARGIN, middle, people_wide, below - middle),
        trend=empty if panel or many or out else QRect(lane, middle, reach - lane, below - middle),
        call=QRect(call_left, tiles, right - call_left, below - 152 - GAP - tiles) if out else empty,
        strip=QRect(MARGIN, strip, PEOPLE if panel else (call_left - GAP if out else reach) - MARGIN, STRIP),
        rescue=empty if out else QRect(air, strip, AIR, STRIP),
        panel=_panel(mode, lane, middle, right, below),
        point=QRect(air, tiles, right - KEYPAD - GAP - air, TILE) if mode == "reading" else empty,
        pad=QRect(right - KEYPAD, tiles, KEYPAD, 356) if mode == "reading" else empty,
        foot=QRect(lane, strip, reach - lane, STRIP),
        keys=QRect(MARGIN, bottom, right - EVACUATE - CLEAR - MARGIN, KEY),
        evacuate=QRect(right - EVACUATE, bottom, EVACUATE, KEY),
    )


def _panel(mode: str, left: int, top: int, right: int, below: int) -> QRect:
    if mode not in ("panel", "reading"):
        return QRect()
    return QRect(left, top, (right if mode == "panel" else right - KEYPAD - GAP) - left, below - top)
