"""The certificate of a shorter route as blocks: what is certified and by whom first, then what it rests on.

No item numbers of 29 CFR 1910.146(f) stand in its rail: that paragraph is waived. The paragraphs of (c)(5) or (c)(7)
stand under the names instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from lamproom.paper import air_before, air_during, permit_ending, permit_head, permit_work, readings
from lamproom.paper.content import Certificate, PermitPage
from lamproom.paper.flow import Block, Piece
from lamproom.paper.tables import Column, answered, gap, paragraph, table
from lamproom.paper.text import Rich, Run, plain, said
from lamproom.words import say

_STATEMENT, _STATEMENT_LEADING = 11.0, 14.0
_INK_SHARE = 0.5


def blocks_of(page: PermitPage, certificate: Certificate, width: float) -> list[Block]:
    """Every block in its order; what never happened is left out, what is missing is said."""
    draft, air = page.state == "draft", certificate.kind == "alternate"
    read = air or page.retests.rows or any(time for point in page.tests_before.points for time in point.times)
    happened = bool(page.retests.rows) or any(row.spans for row in page.tally.rows)
    wanted: list[Block | None] = [
        _certified(page, certificate, width),
        _ends(page, certificate, width),
        None if draft else permit_head.in_brief(page, width),
        permit_head.obstacles(page, width),
        permit_head.told(page, width),
        _bare(permit_ending.stops(page, width)) if page.stops else None,
        _named(permit_work.space(page, width), "space", page),
        _hazards(page, certificate, width),
        _basis(page, certificate, width),
        *(_limits(page, certificate, width) if read else ()),
        _checks(page, certificate, width),
        _named(air_before.instruments(page, width), "instrument", page) if read else None,
        _named(air_before.tests_before(page, width), "before", page, "before" if air else "") if read else None,
        _named(permit_work.date_and_hours(page, width), "date_and_hours", page),
        _named(permit_work.entrants(page, width), "entrants", page),
        *(_during(page, air, width) if not draft or happened else ()),
        permit_ending.breaks(page, width) if page.breaks else None,
        permit_ending.changed(page, width) if page.changed else None,
        _bare(closing) if (closing := permit_ending.closing(page, width)) is not None else None,
        None if draft else _others(page, certificate, width),
        permit_ending.cautions(page, width),
    ]
    return [block for block in wanted if block is not None]


def _named(block: Block, name: str, page: PermitPage, under: str = "") -> Block:
    """A block of the permit under its name here, without the number of an item."""
    told = say(f"paper.under.certificate.{under}", page.language) if under else ""
    return replace(block, item=0, title=say(f"paper.block.certificate.{name}", page.language), under=told)


def _bare(block: Block) -> Block:
    """A block without the paragraphs under its name: those of a permit, which are waived here."""
    return replace(block, under="")


def _certified(page: PermitPage, certificate: Certificate, width: float) -> Block:
    """The words, then date, location and person, then the signature: what the paragraph asks for."""
    pieces = [paragraph(plain(certificate.statement), width, _STATEMENT, _STATEMENT_LEADING, below=6)]
    pieces += _facts(certificate, width)
    if certificate.signature is not None:
        ink = permit_ending.row_of_signatures([certificate.signature], width * _INK_SHARE, page.language, 1)
        pieces += [gap(4), ink]
    glued = [replace(piece, glued=True) for piece in pieces[:-1]]
    under = certificate.rule.partition("1910.146")[2]
    return Block(say("paper.block.certificate", page.language), (*glued, pieces[-1]), under=under)


def _facts(certificate: Certificate, width: float) -> list[Piece]:
    """Rows without a head: each names itself."""
    none: Rich = (Run(""),)
    columns = [Column(none, 18), Column(none, 82)]
    rows = [[(Run(fact.kind, bold=True),), answered(fact.what)] for fact in certificate.facts]
    return table(columns, rows, width, size=10.0, leading=12.0)[1:]


def _hazards(page: PermitPage, certificate: Certificate, width: float) -> Block:
    block = permit_work.hazards(page, width)
    pieces = (*block.pieces, paragraph(said(certificate.hazards), width))
    title = say(f"paper.block.certificate.hazards.{certificate.kind}", page.language)
    return replace(block, item=0, title=title, under=certificate.hazards_rule, pieces=pieces)


def _basis(page: PermitPage, certificate: Certificate, width: float) -> Block:
    text = said(certificate.basis) if certificate.basis else answered("")
    title = say(f"paper.block.certificate.basis.{certificate.kind}", page.language)
    pieces = [paragraph(text, width), *(_notes(certificate.notes, width) if certificate.kind == "reclassified" else ())]
    return Block(title, tuple(pieces), under=certificate.basis_rule)


def _notes(notes: Sequence[str], width: float) -> list[Piece]:
    return [paragraph(plain(note), width, 8.5, 10.5) for note in notes]


def _limits(page: PermitPage, certificate: Certificate, width: float) -> tuple[Block, ...]:
    """The limits that hold here; beside the alternate route's stands the guidance that halves them."""
    air = certificate.kind == "alternate"
    block = _named(permit_work.acceptable(page, width), "limits", page, "limits" if air else "")
    return (replace(block, pieces=(*block.pieces, *(_notes(certificate.notes, width) if air else ()))),)


def _checks(page: PermitPage, certificate: Certificate, width: float) -> Block:
    air = certificate.kind == "alternate"
    block = permit_work.isolation(page, width)
    return _named(block, f"checks.{certificate.kind}", page, "checks" if air else "")


def _during(page: PermitPage, air: bool, width: float) -> tuple[Block | None, ...]:
    read = readings.readings(page, width) if air or page.retests.rows else None
    during = air_during.tests_during(page, width) if air or page.retests.rows else None
    return (
        _named(during, "during", page, "during" if air else "") if during is not None else None,
        _named(read, "readings", page) if read is not None else None,
        _bare(air_during.tally(page, width)),
    )


def _ends(page: PermitPage, certificate: Certificate, width: float) -> Block:
    words = paragraph(plain(certificate.ends), width, 10.0, 12.5)
    return Block(say("paper.block.certificate.ends", page.language), (words,), under=certificate.ends_rule)


def _others(page: PermitPage, certificate: Certificate, width: float) -> Block:
    """Everyone else who signed, and what a signature means; the one that certifies stands first on the page."""
    rest = tuple(one for one in page.signatures if one is not certificate.signature)
    block = permit_ending.signatures(replace(page, signatures=rest), width, none="")
    title = "paper.block.certificate.signatures" if rest else "paper.block.signatures"
    return replace(block, title=say(title, page.language), under="")
