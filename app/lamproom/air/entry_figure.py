"""The acceptable entry figure of a substance: the strictest adopted basis, held against every single reading."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from lamproom.air.limits import PPM, Kind, Limit, limit_of
from lamproom.air.substances import Exposure, ExposureLimit, Substance, Sure
from lamproom.air.working import Input, Working, of, worked
from lamproom.words import Sentence, say, sentence


@dataclass(frozen=True, slots=True)
class EntryFigure:
    """What a reading of a toxic substance is held to.

    ``limit`` is None where none is found or none exists; ``why`` says which, in words. ``basis`` is the published limit
    behind it. ``cautions`` are the bases that were not adopted and are stricter, strictest first. ``unconfirmed`` are
    adopted bases that rest on memory alone: they count as unknown until a named person confirms them.
    """

    exposure: Exposure
    limit: Limit | None
    basis: ExposureLimit | None
    why: Sentence
    cautions: tuple[ExposureLimit, ...] = ()
    unconfirmed: tuple[ExposureLimit, ...] = ()


def basis_name(limit: ExposureLimit) -> str:
    """A published limit by its short name: 'OSHA TWA'."""
    return f"{limit.adopter} {limit.kind}"


def entry_figure(
    substance: Substance, adopted: Collection[str] = ("OSHA", "site"), confirmed: Collection[str] = ()
) -> EntryFigure:
    """The strictest limit, as an instant value, of the bases that a form or site adopted.

    ``adopted`` names whole adopters ('OSHA') or single bases ('NIOSH ceiling'); ``confirmed`` names bases of memory
    that a named person has confirmed. A peak never counts (it is the higher figure beside a ceiling), an IDLH only
    where it is adopted by its own name. Decision: each reading is held to it, because 190 ppm of carbon monoxide for
    2 h is a shift mean of 47.5 and must still bar.

    >>> from lamproom.air.substance_table import SUBSTANCES
    >>> found = entry_figure(SUBSTANCES["carbon monoxide"], ("OSHA", "NIOSH TWA"))
    >>> str(found.limit.high), found.limit.basis, [basis_name(one) for one in found.cautions]
    ('35', 'NIOSH documentation for IDLH values (1994) (NIOSH TWA)', ['HSE TWA'])
    """
    ours = [one for one in substance.limits if _counts(one, adopted)]
    unsure = tuple(one for one in ours if one.ppm.sure is Sure.MEMORY and basis_name(one) not in confirmed)
    known = [one for one in ours if one not in unsure]
    basis = min(known, key=lambda one: one.ppm.value, default=None)
    if basis is None:
        return EntryFigure(_state(substance), None, None, _why(substance), _cautions(substance, ours, None), unsure)
    name = f"{basis.ppm.source} ({basis_name(basis)})"
    limit = limit_of(Kind.TOXIC, substance.name, PPM, None, basis.ppm.value, name)
    why = sentence("air.entry.figure", gas=substance.name, ppm=f"{basis.ppm.value:f}", basis=name)
    return EntryFigure(substance.exposure, limit, basis, why, _cautions(substance, ours, basis), unsure)


def _counts(one: ExposureLimit, adopted: Collection[str]) -> bool:
    if one.kind in ("peak", "IDLH"):
        return one.kind == "IDLH" and basis_name(one) in adopted
    return one.adopter in adopted or basis_name(one) in adopted


def _cautions(
    substance: Substance, ours: list[ExposureLimit], basis: ExposureLimit | None
) -> tuple[ExposureLimit, ...]:
    others = [one for one in substance.limits if one not in ours and one.kind not in ("peak", "IDLH")]
    stricter = [one for one in others if basis is None or one.ppm.value < basis.ppm.value]
    return tuple(sorted(stricter, key=lambda one: one.ppm.value))


def _state(substance: Substance) -> Exposure:
    """Limits that nobody adopted are as good as not found."""
    return Exposure.NONE_EXISTS if substance.exposure is Exposure.NONE_EXISTS else Exposure.NOT_FOUND


def _why(substance: Substance) -> Sentence:
    if substance.exposure is Exposure.NONE_EXISTS:
        return sentence("air.entry.none_exists", gas=substance.name)
    return sentence("air.entry.not_found", gas=substance.name)


def entry_working(substance: Substance, adopted: Collection[str]) -> Working:
    """The entry figure as a working: ppm, or the word for what is known instead.

    >>> from lamproom.air.substance_table import SUBSTANCES
    >>> str(entry_working(SUBSTANCES["toluene"], ("OSHA",)).result)
    '200'
    """
    found = entry_figure(substance, adopted)
    without = "none_exists" if found.exposure is Exposure.NONE_EXISTS else "not_found"
    result = say(f"air.result.{without}") if found.basis is None else found.basis.ppm.value
    inputs = (
        of("substance", substance.name),
        *(of("adopted", one) for one in adopted),
        *(Input(basis_name(one), f"{one.ppm.value:f}", "ppm", _source(one)) for one in substance.limits),
    )
    source = found.why.say() if found.basis is None else found.basis.ppm.source
    cautions = ", ".join(basis_name(one) for one in found.cautions) or say("air.result.none")
    return worked("entry_figure", result, "ppm", inputs, source, cautions=cautions)


def _source(one: ExposureLimit) -> str:
    return f"{one.ppm.source} ({one.ppm.sure.value})"
