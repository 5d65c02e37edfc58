"""A permit's pages against the same count of bare drawing calls on a bare canvas."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab.pdfgen import canvas as rl
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.pdfgen.textobject import PDFTextObject
from tests.benchmarks.floors import Ratio, paired
from tests.stories.lives import DAY_TABLE, in_memory

from lamproom.office import replay
from lamproom.office.page.permit_page import permit_page
from lamproom.office.pages import fingerprint_of, pages_after, site_name
from lamproom.paper.permit_page import render_permit

Call = tuple[int, str, tuple[Any, ...], dict[str, Any], int | None]
"""Which object (0 the canvas), which method, its arguments, and the object that it made (a text or a path)."""

DRAWING: dict[type, tuple[str, ...]] = {
    rl.Canvas: (
        "drawString", "drawRightString", "drawCentredString", "line", "lines", "rect", "circle", "ellipse", "drawPath",
        "drawText", "setFont", "setLineWidth", "setDash", "setLineCap", "setLineJoin", "setStrokeColor", "setFillColor",
        "setFillGray", "setStrokeGray", "saveState", "restoreState", "translate", "scale", "rotate", "clipPath",
        "showPage", "beginText", "beginPath", "bezier", "arc", "wedge", "polygon", "grid", "roundRect",
    ),
    PDFTextObject: (
        "setTextOrigin", "setFont", "textOut", "textLine", "textLines", "moveCursor", "setRise", "setWordSpace",
        "setCharSpace", "setLeading", "setFillColor", "setTextRenderMode", "setHorizScale", "setTextTransform",
    ),
    PDFPathObject: ("moveTo", "lineTo", "curveTo", "close", "rect", "circle", "ellipse", "arc", "arcTo"),
}  # fmt: skip


def measure(machine: Path, rounds: int = 15) -> Ratio:
    """The closed-out permit of the day, drawn; and exactly the drawing calls that made it, on a bare canvas."""
    shift = in_memory(machine)
    replay.set_up(shift)
    replay.live(shift, DAY_TABLE)
    pages = pages_after(shift.office, shift.permits["A"])
    content = permit_page(pages, site_name(shift.office), fingerprint_of(bytes(32)), shift.office.now())
    calls = _recorded(lambda: render_permit(content))
    return paired(
        f"a permit's pages / the same {len(calls)} drawing calls, bare",
        lambda: render_permit(content),
        lambda: _bare(calls),
        rounds,
        2.0,
    )


def _recorded(draw: Callable[[], bytes]) -> list[Call]:
    """Every drawing call that reached the canvas from outside, in order, with what it was given."""
    calls: list[Call] = []
    known: dict[int, int] = {}
    alive: list[Any] = []
    depth = 0
    kept = {
        (kind, name): getattr(kind, name) for kind, names in DRAWING.items() for name in names if hasattr(kind, name)
    }

    def recording(name: str, real: Any) -> Any:
        def call(self: Any, *args: Any, **kwargs: Any) -> Any:
            nonlocal depth
            depth += 1
            try:
                made = real(self, *args, **kwargs)
            finally:
                depth -= 1
            if depth == 0:
                number = None
                if name in ("beginText", "beginPath"):
                    alive.append(made)
                    number = known[id(made)] = len(alive)
                given = tuple(_Made(known[id(a)]) if id(a) in known else a for a in args)
                calls.append((known.get(id(self), 0), name, given, kwargs, number))
            return made

        return call

    try:
        for (kind, name), real in kept.items():
            setattr(kind, name, recording(name, real))
        draw()
    finally:
        for (kind, name), real in kept.items():
            setattr(kind, name, real)
    return calls


@dataclass(frozen=True, slots=True)
class _Made:
    """An argument that is a text or a path made before."""

    number: int


def _bare(calls: list[Call]) -> bytes:
    """The same calls on a bare canvas."""
    out = BytesIO()
    page = rl.Canvas(out, pagesize=(612, 792))
    made: dict[int, Any] = {0: page}
    for on, name, args, kwargs, number in calls:
        given = tuple(made[a.number] if isinstance(a, _Made) else a for a in args)
        result = getattr(made[on], name)(*given, **kwargs)
        if number is not None:
            made[number] = result
    page.save()
    return out.getvalue()
