"""A substance that a site adds itself, from its maker's safety data sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from lamproom.air.flammable import lel_figure
from lamproom.air.substances import Exposure, ExposureLimit, Figure, Substance, Sure
from lamproom.air.working import Unworkable, above_zero
from lamproom.words import sentence


@dataclass(frozen=True, slots=True)
class Sheet:
    """The safety data sheet a figure comes from: its ``reference``, its own ``dated`` and who entered it (``by``)."""

    reference: str
    dated: date
    by: str

    def source(self) -> str:
        """The sheet as the source of a figure."""
        return f"{self.reference}, {self.dated.isoformat()} ({self.by})"


def own_substance(
    name: str,
    sheet: Sheet,
    limits: Mapping[str, Decimal],
    *,
    cas: str = "",
    formula: str = "",
    molar_mass: Decimal | None = None,
    lel: Decimal | None = None,
    uel: Decimal | None = None,
    ionization: Decimal | None = None,
    skin: bool = False,
    asphyxiant: bool = False,
) -> Substance:
    """The substance with what its sheet says: molar mass in g/mol, LEL and UEL in vol%, ionization energy in eV,
    ``limits`` in ppm by kind ('TWA', 'STEL', 'ceiling', 'peak').

    What the sheet does not say stays unknown: without a limit its exposure is 'not found', an obstacle and never zero.
    Unworkable without a name, a reference and someone who entered it, or for a figure that cannot be.

    >>> sheet = Sheet("sheet 12", date(2026, 3, 1), "R. Alder")
    >>> limits = {"TWA": Decimal(5)}
    >>> own_substance("x", sheet, {}).exposure.value, own_substance("x", sheet, limits).exposure.value
    ('not found', 'entered')
    """
    if not (name.strip() and sheet.reference.strip() and sheet.by.strip()):
        raise Unworkable(sentence("air.unworkable.no_sheet"))
    if lel is not None and uel is not None and lel_figure("lel", lel) >= lel_figure("uel_alone", uel):
        raise Unworkable(sentence("air.unworkable.lel_over_uel", lel=str(lel), uel=str(uel)))
    strange = set(limits) - {"TWA", "STEL", "ceiling", "peak"}
    if strange:
        raise Unworkable(sentence("air.unworkable.no_kind", kind=", ".join(sorted(strange))))

    def figure(key: str, value: Decimal | None) -> Figure | None:
        return None if value is None else Figure(above_zero(key, value), sheet.source(), Sure.SHEET)

    def vol(value: Decimal | None) -> Figure | None:
        return None if value is None else figure("lel", lel_figure("lel", value))

    entered = tuple(
        ExposureLimit("site", kind, Figure(above_zero("limit", ppm), sheet.source(), Sure.SHEET))
        for kind, ppm in limits.items()
    )
    return Substance(
        name.strip(),
        cas,
        formula,
        figure("molar_mass", molar_mass),
        vol(lel),
        vol(uel),
        figure("ionization", ionization),
        Exposure.ENTERED if entered else Exposure.NOT_FOUND,
        entered,
        skin=skin,
        asphyxiant=asphyxiant,
    )
