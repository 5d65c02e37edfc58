"""Rows of a list that are known by a key: one that is still wanted keeps its place, its words and the keyboard."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from PySide6.QtWidgets import QBoxLayout, QWidget

Row = TypeVar("Row", bound=QWidget)


def keep_rows(box: QBoxLayout, rows: dict[str, Row], wanted: Iterable[str], make: Callable[[str], Row]) -> None:
    """Let ``rows``, which head the box, be those wanted, in that order: some kept, some made, the others let go."""
    keys = list(wanted)
    for key in [key for key in rows if key not in keys]:
        row = rows.pop(key)
        box.removeWidget(row)
        row.hide()
        row.deleteLater()
    kept = dict(rows)
    rows.clear()
    for at, key in enumerate(keys):
        row = rows[key] = kept[key] if key in kept else make(key)
        if box.indexOf(row) != at:
            box.insertWidget(at, row)
        # At once: a row that Qt shows later cannot take the keyboard now.
        row.show()
