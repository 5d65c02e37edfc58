"""Substances: their published figures, each with its source and how sure we are of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from types import MappingProxyType


class Sure(Enum):
    """How a figure was checked. One from memory counts as unknown in a decision until a named person confirms it."""

    SEEN = "seen"
    """Read in a copy of the source."""
    LIBRARY = "library"
    """Given by an open reference library that cites the source."""
    MEMORY = "from memory"
    """Remembered, not yet read again."""
    SHEET = "safety data sheet"
    """From the maker's safety data sheet, entered by a named person."""


class Exposure(Enum):
    """What is known of a substance's exposure limits."""

    LIMITED = "limited"
    """Published limits exist; see ``limits``."""
    NONE_EXISTS = "none exists"
    """No exposure limit exists: oxygen and LEL govern."""
    NOT_FOUND = "not found"
    """Nobody found one yet: an obstacle until a named person enters a figure with its source."""
    ENTERED = "entered"
    """A named person of the site entered limits with their source."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A published figure: ``value`` in the unit its field names, ``source`` with edition, and how sure."""

    value: Decimal
    source: str
    sure: Sure


@dataclass(frozen=True, slots=True)
class ExposureLimit:
    """A published exposure limit in ppm. ``kind`` is its averaging: 'TWA', 'STEL', 'ceiling', 'peak' or 'IDLH'.

    ``adopter`` is who set it: 'OSHA' (enforceable), 'NIOSH' (recommended), 'HSE' (Great Britain), 'site'. ``minutes``
    is the time of a ceiling that is a mean, or that a peak may last; None where the kind says all.
    """

    adopter: str
    kind: str
    ppm: Figure
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class Substance:
    """One substance. None in a field means that no such figure exists or none is known; it never means zero.

    ``molar_mass`` in g/mol; ``lel`` and ``uel`` in vol% in air, None for what does not burn;
    ``ionization`` in eV; ``lel_low`` is the lowest published LEL where sources disagree; ``also`` are other names;
    ``skin``: it is taken in through the skin; ``asphyxiant``: it harms by pushing air out.
    """

    name: str
    cas: str
    formula: str
    molar_mass: Figure | None
    lel: Figure | None
    uel: Figure | None
    ionization: Figure | None
    exposure: Exposure
    limits: tuple[ExposureLimit, ...] = ()
    lel_low: Figure | None = None
    note: str = ""
    also: tuple[str, ...] = ()
    skin: bool = False
    asphyxiant: bool = False

    @property
    def burns(self) -> bool:
        """Whether it has a lower limit in air."""
        return self.lel is not None


def relative_density(substance: Substance) -> Decimal | None:
    """Density of the gas against air, M / 28.964, two decimals; None when there is no molar mass.

    Real gases near their boiling point are up to 6 % denser. Density never excuses a level from being tested.
    Source: definition; dry air 28.964 g/mol, US Standard Atmosphere 1976 (from memory).
    """
    if substance.molar_mass is None:
        return None
    return (substance.molar_mass.value / Decimal("28.964")).quantize(Decimal("0.01"))


def enforceable(substance: Substance) -> ExposureLimit | None:
    """The enforceable limit that is strictest as an instant value; None when the law has none.

    >>> from lamproom.air.substance_table import SUBSTANCES
    >>> str(enforceable(SUBSTANCES["hydrogen sulfide"]).ppm.value)
    '20'
    """
    lawful = [one for one in substance.limits if one.adopter == "OSHA" and one.kind != "peak"]
    return min(lawful, key=lambda one: one.ppm.value, default=None)


def unconfirmed(substance: Substance) -> tuple[str, ...]:
    """The fields whose figures rest on memory alone, by name; limits as 'OSHA TWA'."""
    fields: Mapping[str, Figure | None] = {
        "molar_mass": substance.molar_mass,
        "lel": substance.lel,
        "uel": substance.uel,
        "ionization": substance.ionization,
    }
    names = [name for name, figure in fields.items() if figure is not None and figure.sure is Sure.MEMORY]
    names += [f"{one.adopter} {one.kind}" for one in substance.limits if one.ppm.sure is Sure.MEMORY]
    return tuple(names)


def table(substances: tuple[Substance, ...]) -> Mapping[str, Substance]:
    """The substances by name, read-only. ValueError when two share a name or a CAS number."""
    by_name = {one.name: one for one in substances}
    if len(by_name) != len(substances) or len({one.cas for one in substances}) != len(substances):
        raise ValueError("two substances share a name or a CAS number")
    return MappingProxyType(by_name)
