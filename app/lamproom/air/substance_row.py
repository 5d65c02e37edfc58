"""How a substance of the table is written, so that its figures stand close together.

A figure is "value sure source": "12.5 S IDLH" is 12.5, seen, in the source of that key. Sure is S (seen), L (an open
library that cites the source) or M (from memory). A limit is "adopter kind figure", then the minutes of its averaging
if they are not those of its kind; several are parted by semicolons.
"""

from __future__ import annotations

from decimal import Decimal

from lamproom.air.substances import Exposure, ExposureLimit, Figure, Substance, Sure

_SURE = {"S": Sure.SEEN, "L": Sure.LIBRARY, "M": Sure.MEMORY}

SOURCES = {
    "Z1": "29 CFR 1910.1000 Table Z-1",
    "Z2": "29 CFR 1910.1000 Table Z-2",
    "1017": "29 CFR 1910.1017(c)",
    "1028": "29 CFR 1910.1028(c)",
    "1047": "29 CFR 1910.1047(c)",
    "1048": "29 CFR 1910.1048(c)",
    "1052": "29 CFR 1910.1052(c)",
    "IDLH": "NIOSH documentation for IDLH values (1994)",
    "2016": "NIOSH 2016-174, IDLH value profile",
    "2017": "NIOSH 2017-202, IDLH value profile",
    "Guide": "NIOSH Pocket Guide to Chemical Hazards",
    "Database": "OSHA Occupational Chemical Database",
    "Sampling": "OSHA sampling pages that quote NIOSH",
    "HazMap": "NIOSH recommendation as a hazard database prints it",
    "University": "a university's confined space page; NIOSH (1994)",
    "County": "a county record that cites the NIOSH Pocket Guide to Chemical Hazards",
    "CCCBDB": "NIST Computational Chemistry Comparison and Benchmark Database, as an open chemistry package prints it",
    "WebBook": "NIST Chemistry WebBook",
    "NFPA": "NFPA 497 (2008)",
    "IEC": "IEC 60079-20-1 (2010)",
    "Wikidata": "NIOSH Pocket Guide to Chemical Hazards, as an open library keeps it",
    "EH40": "EH40/2005, 4th ed. (2020), Table 1",
}
_ATOMIC = "atomic masses, IUPAC"


def substance(
    name: str,
    cas: str,
    formula: str,
    mass: str | None,
    *,
    also: tuple[str, ...],
    limits: str,
    lel: str | None = None,
    uel: str | None = None,
    lel_low: str | None = None,
    ionization: str | None = None,
    skin: bool = False,
    asphyxiant: bool = False,
    note: str = "",
) -> Substance:
    """A row as a substance; ``limits`` may be 'none exists' or 'not found'. Any slip in a row is a fault (ValueError).

    >>> substance("argon", "7440-37-1", "Ar", "39.948", also=("Ar",), limits="none exists").exposure.value
    'none exists'
    """
    without = {state.value: state for state in (Exposure.NONE_EXISTS, Exposure.NOT_FOUND)}
    return Substance(
        name,
        cas,
        formula,
        None if mass is None else Figure(Decimal(mass), _ATOMIC, Sure.LIBRARY),
        _figure(lel),
        _figure(uel),
        _figure(ionization),
        without.get(limits, Exposure.LIMITED),
        () if limits in without else tuple(_limit(one.split()) for one in limits.split(";")),
        _figure(lel_low),
        note,
        also,
        skin,
        asphyxiant,
    )


def _figure(text: str | None) -> Figure | None:
    if text is None:
        return None
    value, sure, source = text.split()
    return Figure(Decimal(value), SOURCES[source], _SURE[sure])


def _limit(words: list[str]) -> ExposureLimit:
    adopter, kind, value, sure, source, *minutes = words
    figure = Figure(Decimal(value), SOURCES[source], _SURE[sure])
    return ExposureLimit(adopter, kind, figure, int(minutes[0]) if minutes else None)
