"""The one table of colours, the sizes of letters and targets, and what a widget asks to know how it looks.

Colours are those of ISO 3864-4 in their usual screen approximations, darkened for the sun theme so that they
keep their contrast on a washed-out screen. Red, yellow and blue appear only with their meaning (IEC 60073).
No other file holds a colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, IntEnum
from types import MappingProxyType

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QWidget


class Theme(Enum):
    """The three looks: light (desk and trailer by day), dark (night only), sun (portal, outdoors)."""

    LIGHT = "light"
    DARK = "dark"
    SUN = "sun"


class Role(Enum):
    """What a colour means; the only way to ask for one."""

    GROUND = "ground"
    PANEL = "panel"
    TEXT = "text"
    SECOND = "second text"
    INK = "ink"
    INK_LABEL = "label on ink"
    EDGE = "control border"
    DANGER = "danger fill"
    DANGER_LABEL = "label on danger"
    DANGER_EDGE = "border of danger"
    DANGER_TEXT = "danger as text"
    CAUTION = "caution fill"
    CAUTION_LABEL = "label on caution"
    CAUTION_EDGE = "border of caution"
    CAUTION_TEXT = "caution as text"
    MUST = "must-do fill"
    MUST_LABEL = "label on must-do"
    WITHIN = "within limits, line only"
    FOCUS = "focus ring"
    FOCUS_GAP = "gap inside the focus ring"
    RULE = "rule between rows"
    HATCH = "hatch line"
    PAPER = "preview paper"
    PAPER_INK = "ink on preview paper"


def _colours(*values: str) -> Mapping[Role, str]:
    return MappingProxyType(dict(zip(Role, values, strict=True)))


# One column for each theme, one line for each role, in the order of Role.
COLOURS: Mapping[Theme, Mapping[Role, str]] = MappingProxyType(
    {
        theme: _colours(*column)
        for theme, column in zip(
            Theme,
            zip(
                # light, dark, sun
                ("#FFFFFF", "#16191C", "#FFFFFF"),  # ground
                ("#F3F4F6", "#20262B", "#FFFFFF"),  # panel
                ("#1A1A1A", "#F2F2F2", "#000000"),  # text
                ("#4A4F55", "#B8BEC4", "#000000"),  # second text
                ("#1A1A1A", "#F2F2F2", "#000000"),  # ink
                ("#FFFFFF", "#16191C", "#FFFFFF"),  # label on ink
                ("#5F656C", "#8A929A", "#000000"),  # control border
                ("#9B2423", "#9B2423", "#7A0C0C"),  # danger fill
                ("#FFFFFF", "#FFFFFF", "#FFFFFF"),  # label on danger
                ("#9B2423", "#FFFFFF", "#000000"),  # border of danger
                ("#9B2423", "#FF9A92", "#7A0C0C"),  # danger as text
                ("#F9A800", "#F9A800", "#FFCC33"),  # caution fill
                ("#000000", "#000000", "#000000"),  # label on caution
                ("#000000", "#F9A800", "#000000"),  # border of caution
                ("#6B4700", "#FFC24D", "#000000"),  # caution as text
                ("#005387", "#8CCBF7", "#003A66"),  # must-do fill
                ("#FFFFFF", "#000000", "#FFFFFF"),  # label on must-do
                ("#175A39", "#7FDBA8", "#0B4A2B"),  # within limits
                ("#005387", "#8CCBF7", "#000000"),  # focus ring
                ("#FFFFFF", "#16191C", "#FFFFFF"),  # gap inside the focus ring
                ("#C9CDD2", "#3A4248", "#000000"),  # rule
                ("#7F868D", "#6C757D", "#000000"),  # hatch
                ("#FFFFFF", "#FFFFFF", "#FFFFFF"),  # preview paper
                ("#1A1A1A", "#1A1A1A", "#1A1A1A"),  # ink on preview paper
                strict=True,
            ),
            strict=True,
        )
    }
)


class Letter(IntEnum):
    """Heights of letters in logical pixels, 96 to the inch; capitals are 0.668 of it."""

    COUNT = 148
    GLANCE = 108
    VALUE = 40
    NAME = 37
    BIG = 32
    TITLE = 26
    HEAD = 22
    BODY = 20
    TABLE = 18
    OFFICE = 17
    SMALL = 16
    TICK = 14


class Place(IntEnum):
    """Where a control is used, as the least height of its target in logical pixels (24 px is the law of the web)."""

    OFFICE = 38
    TRAILER = 46
    PORTAL = 76


RADIUS = 4
MARGIN = 24
GAP = 12
FOCUS_WIDTH = 3
_THEME, _SCALE = "lamproomTheme", "lamproomScale"


@dataclass(frozen=True, slots=True)
class Look:
    """A theme at a scale of text; everything that draws asks one for its colours and lengths."""

    theme: Theme = Theme.LIGHT
    scale: float = 1.0

    def colour(self, role: Role) -> QColor:
        """The colour of a role in this theme."""
        return QColor(COLOURS[self.theme][role])

    def px(self, length: float) -> int:
        """A logical length at this scale, whole pixels."""
        return round(length * self.scale)

    @property
    def sun(self) -> bool:
        """True outdoors: bold letters, strokes of 2 px or more, no grey."""
        return self.theme is Theme.SUN

    @property
    def drawn(self) -> Look:
        """The look inside a drawing: its letters grow only as far as its true lengths leave room."""
        return Look(self.theme, min(self.scale, 1.2))

    def edge(self, place: Place = Place.TRAILER) -> float:
        """The width of a control's border."""
        if self.sun:
            return 3.0
        return 2.0 if place is Place.PORTAL else 1.0

    @property
    def emphasis(self) -> float:
        """The width of a border that stresses: a slip, a chosen row."""
        return 3.0 if self.sun else 2.0

    @property
    def line(self) -> float:
        """The width of axes, ticks and plot lines; never thin in the sun."""
        return 2.4 if self.sun else 1.2


def mark_look(widget: QWidget, look: Look) -> None:
    """Note the look on a window; its descendants find it with ``look_of``."""
    widget.setProperty(_THEME, look.theme.value)
    widget.setProperty(_SCALE, look.scale)


def look_of(widget: QWidget | None) -> Look:
    """The look noted on the nearest ancestor; light at 100 % where none is."""
    while widget is not None:
        theme = widget.property(_THEME)
        if theme is not None:
            return Look(Theme(theme), float(widget.property(_SCALE)))
        widget = widget.parentWidget()
    return Look()


def palette(look: Look) -> QPalette:
    """The palette of a window: ground, text and selection, so that Qt's own widgets and dialogs follow the theme."""
    ground, panel, text = look.colour(Role.GROUND), look.colour(Role.PANEL), look.colour(Role.TEXT)
    made = QPalette()
    for role, colour in (
        (QPalette.ColorRole.Window, ground),
        (QPalette.ColorRole.Base, ground),
        (QPalette.ColorRole.AlternateBase, panel),
        (QPalette.ColorRole.Button, ground),
        (QPalette.ColorRole.WindowText, text),
        (QPalette.ColorRole.Text, text),
        (QPalette.ColorRole.ButtonText, text),
        (QPalette.ColorRole.ToolTipBase, ground),
        (QPalette.ColorRole.ToolTipText, text),
        (QPalette.ColorRole.Highlight, look.colour(Role.INK)),
        (QPalette.ColorRole.HighlightedText, look.colour(Role.INK_LABEL)),
        (QPalette.ColorRole.Link, text),
        (QPalette.ColorRole.PlaceholderText, look.colour(Role.SECOND)),
    ):
        made.setColor(role, colour)
    return made


def style_sheet(look: Look) -> str:
    """The style sheet of a window: what Qt's own widgets take from it. Letters are set by the widgets themselves."""
    c = {role: COLOURS[look.theme][role] for role in Role}
    edge, emphasis = f"{look.edge():g}px", f"{look.emphasis:g}px"
    pad = look.px(10)
    return f"""
    QWidget[ground="panel"] {{ background-color: {c[Role.PANEL]}; }}
    QWidget[ground="ground"] {{ background-color: {c[Role.GROUND]}; }}
    QFrame[frame="rule"] {{ background-color: {c[Role.RULE]}; border: 0; }}
    QFrame[frame="edge"] {{ background-color: {c[Role.EDGE]}; border: 0; }}
    QScrollArea {{ border: 0; background-color: transparent; }}
    QScrollArea > QWidget > QWidget[ground="clear"] {{ background-color: transparent; }}
    QLineEdit, QPlainTextEdit, QComboBox {{
        background-color: {c[Role.GROUND]}; color: {c[Role.TEXT]};
        border: {edge} solid {c[Role.EDGE]}; border-radius: {RADIUS}px; padding: 0 {pad}px;
        selection-background-color: {c[Role.INK]}; selection-color: {c[Role.INK_LABEL]};
    }}
    QPlainTextEdit {{ padding: {look.px(4)}px {look.px(6)}px; }}
    QLineEdit[trouble="true"], QPlainTextEdit[trouble="true"] {{ border: {emphasis} solid {c[Role.DANGER_TEXT]}; }}
    QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled {{
        border-style: dashed; color: {c[Role.SECOND]};
    }}
    QLineEdit:read-only {{ border-style: dashed; }}
    QComboBox::drop-down {{ border: 0; width: {look.px(36)}px; }}
    QComboBox::down-arrow {{ image: none; }}
    QComboBox QAbstractItemView {{
        background-color: {c[Role.GROUND]}; color: {c[Role.TEXT]}; border: {emphasis} solid {c[Role.INK]};
        selection-background-color: {c[Role.INK]}; selection-color: {c[Role.INK_LABEL]}; outline: 0;
    }}
    QComboBox QAbstractItemView::item {{ min-height: {look.px(46)}px; padding: 0 {pad}px; }}
    QTableView {{
        background-color: transparent; color: {c[Role.TEXT]}; border: 0; gridline-color: transparent;
        selection-background-color: {c[Role.PANEL]}; selection-color: {c[Role.TEXT]}; outline: 0;
    }}
    QTableView::item {{ border: 0; border-bottom: 1px solid {c[Role.RULE]}; padding: 0 {look.px(6)}px; }}
    QHeaderView {{ background-color: transparent; border: 0; }}
    QHeaderView::section {{
        background-color: transparent; color: {c[Role.SECOND]}; border: 0;
        border-bottom: {emphasis} solid {c[Role.EDGE]}; padding: {look.px(4)}px {look.px(6)}px;
    }}
    QHeaderView::section {{
        font-size: {look.px(Letter.SMALL)}px; font-weight: {700 if look.sun else 400};
    }}
    QScrollBar:vertical {{ background-color: {c[Role.GROUND]}; width: {look.px(14)}px; margin: 0; }}
    QScrollBar:horizontal {{ background-color: {c[Role.GROUND]}; height: {look.px(14)}px; margin: 0; }}
    QScrollBar::handle {{ background-color: {c[Role.EDGE]}; border: 3px solid {c[Role.GROUND]}; min-height: 32px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ height: 0; width: 0; }}
    QToolTip {{ background-color: {c[Role.GROUND]}; color: {c[Role.TEXT]}; border: 1px solid {c[Role.EDGE]}; }}
    """
