"""Cautions on paper: those that stood when the page's signature was given, and those that the portal needs."""

from __future__ import annotations

from lamproom.office.page.parts import Pages
from lamproom.paper import content as c
from lamproom.permit.cautions import cautions
from lamproom.words import say

AT_THE_PORTAL: frozenset[str] = frozenset({"instrument-runs-out", "near-permit", "past-half"})
"""What people at the opening can act on; the rest is for whoever signs."""


def told(pages: Pages) -> tuple[c.CautionRow, ...]:
    """The cautions that stood at authorization; on a draft those of now."""
    rows = (c.CautionRow(one.sentence.say(), one.rule) for one in cautions(pages.signed or pages.facts))
    return tuple(dict.fromkeys(rows))


def at_the_portal(pages: Pages) -> tuple[c.Said, ...]:
    """Those of now that the posted page carries."""
    lines = (one.sentence.say() for one in cautions(pages.facts) if one.code in AT_THE_PORTAL)
    words = " ".join(dict.fromkeys(lines))
    return (c.Said(say("page.know_lead"), words),) if words else ()
