"""The table of substances, a source beside every figure.

OSHA's limits are enforceable, NIOSH's recommended, HSE's (EH40, all from memory until confirmed) are British. Where
sources disagree on a lower flammable limit, the lowest stands in ``lel_low``; an instrument's own basis must be known
before a reading is converted.
"""

from __future__ import annotations

from lamproom.air.gases import GASES
from lamproom.air.substances import Substance, table
from lamproom.air.vapors import VAPORS

SUBSTANCES = table((*GASES, *VAPORS))


def named(text: str) -> Substance | None:
    """The substance of that name, synonym, formula or CAS number, whatever the case; None when none is in the table.

    >>> named("MEK").name, named("7783-06-4").name, named("granite")
    ('methyl ethyl ketone', 'hydrogen sulfide', None)
    """
    wanted = text.strip().casefold()
    for one in SUBSTANCES.values():
        if wanted in {one.name.casefold(), one.cas, *(also.casefold() for also in one.also)}:
            return one
    return next((one for one in SUBSTANCES.values() if one.formula.casefold() == wanted), None)
