"""Descriptions of the permit that a new one follows, put into its fields as half typed: nothing of them is recorded."""

from __future__ import annotations

from lamproom.desk.desk import Desk
from lamproom.office.views.new_permits import descriptions


def carry_over(desk: Desk, number: str) -> None:
    """Keep each description as a draft of its field; whoever prepares the permit reads it and records it anew."""
    for key, text in descriptions(desk.office, number).items():
        desk.keep_draft(f"permit/{number}", f"workbook.{key}", text)
