"""Which panel a name opens."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QWidget

from lamproom.desk.watch.acts_panels import (
    BackPanel,
    BreakPanel,
    ClearPanel,
    ClosePanel,
    NamePanel,
    NotePanel,
    ReleasePanel,
    SoundPanel,
    StepPanel,
    TakePanel,
)
from lamproom.desk.watch.authority_panels import DeterminePanel, EndorsePanel, EndPanel, ExtendPanel, RelievePanel
from lamproom.desk.watch.correct_panel import CorrectPanel
from lamproom.desk.watch.lists_panels import ConditionsPanel, LogPanel, MorePanel, StandsPanel
from lamproom.desk.watch.panel import Panel, Post
from lamproom.desk.watch.reading_panel import ReadingPanel

PANELS: dict[str, Callable[..., Panel]] = {
    "reading": ReadingPanel,
    "correct": CorrectPanel,
    "log": LogPanel,
    "conditions": ConditionsPanel,
    "clear": ClearPanel,
    "more": MorePanel,
    "stands": StandsPanel,
    "take": TakePanel,
    "relieve": RelievePanel,
    "break": BreakPanel,
    "back": BackPanel,
    "determine": DeterminePanel,
    "endorse": EndorsePanel,
    "extend": ExtendPanel,
    "step": StepPanel,
    "release": ReleasePanel,
    "end": EndPanel,
    "close": ClosePanel,
    "note": NotePanel,
    "name": NamePanel,
    "sound": SoundPanel,
}

TARGETS = {
    "reading": "reading",
    "determine": "determine",
    "back": "back",
    "reendorse": "endorse",
    "end": "end",
    "take": "take",
}
"""The second word of an obstacle's target in 'watch/…', and the panel that clears it."""


def made_panel(name: str, post: Post, parent: QWidget, what: dict[str, Any]) -> Panel:
    """The panel of a name; ``what`` are its own values, such as the figure to correct."""
    return PANELS[name](post, parent, **what)
