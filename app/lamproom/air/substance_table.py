"""The table of substances: data only, a source beside every figure.

US limits. OSHA's are enforceable, NIOSH's are recommended. Where two sources disagree on a lower flammable limit, the
lower one stands in ``lel_low``; an instrument's own basis must be known before a reading is converted.
"""

from __future__ import annotations

from decimal import Decimal

from lamproom.air.substances import Exposure, ExposureLimit, Figure, Substance, Sure, table

_NFPA = "NFPA 497 (2008)"
_IEC = "IEC 60079-20-1 (2010)"
_Z1 = "29 CFR 1910.1000 Table Z-1"
_Z2 = "29 CFR 1910.1000 Table Z-2"
_BENZENE = "29 CFR 1910.1028(c)"
_NIOSH = "NIOSH documentation for IDLH values (1994)"
_POCKET = "NIOSH Pocket Guide to Chemical Hazards"
_ATOMIC = "atomic masses, IUPAC"


def _seen(value: str, source: str) -> Figure:
    return Figure(Decimal(value), source, Sure.SEEN)


def _library(value: str, source: str) -> Figure:
    return Figure(Decimal(value), source, Sure.LIBRARY)


def _memory(value: str, source: str) -> Figure:
    return Figure(Decimal(value), source, Sure.MEMORY)


def _mass(value: str) -> Figure:
    return _library(value, _ATOMIC)


SUBSTANCES = table(
    (
        Substance(
            "oxygen",
            "7782-44-7",
            "O2",
            _mass("31.999"),
            None,
            None,
            _memory("12.07", _POCKET),
            Exposure.NONE_EXISTS,
            note="Its band, 19.5 to 23.5 vol%, is a limit of the form.",
        ),
        Substance(
            "methane",
            "74-82-8",
            "CH4",
            _mass("16.042"),
            _library("5", _NFPA),
            _library("15", _NFPA),
            _memory("12.61", _POCKET),
            Exposure.NONE_EXISTS,
            lel_low=_library("4.4", _IEC),
            note="Simple asphyxiant. Read with 5.0 it shows 12 % less than with 4.4.",
        ),
        Substance(
            "hydrogen sulfide",
            "7783-06-4",
            "H2S",
            _mass("34.081"),
            _seen("4", _NIOSH),
            _library("44", _NFPA),
            _memory("10.46", _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "ceiling", _seen("20", _Z2)),
                ExposureLimit("OSHA", "peak", _seen("50", _Z2)),
                ExposureLimit("NIOSH", "ceiling", _seen("10", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("100", _NIOSH)),
            ),
            note="The peak is once, up to 10 min, only with no other measurable exposure. It dulls the sense of smell.",
        ),
        Substance(
            "carbon monoxide",
            "630-08-0",
            "CO",
            _mass("28.010"),
            _seen("12.5", _NIOSH),
            _seen("74", "OSHA Occupational Chemical Database"),
            _seen("14.01", "OSHA Occupational Chemical Database"),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("50", _Z1)),
                ExposureLimit("NIOSH", "TWA", _seen("35", _NIOSH)),
                ExposureLimit("NIOSH", "ceiling", _seen("200", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("1200", "a university's confined space page; NIOSH (1994)")),
            ),
            lel_low=_library("10.9", _IEC),
        ),
        Substance(
            "carbon dioxide",
            "124-38-9",
            "CO2",
            _mass("44.010"),
            None,
            None,
            _memory("13.77", _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("5000", _Z1)),
                ExposureLimit("NIOSH", "TWA", _seen("5000", _NIOSH)),
                ExposureLimit("NIOSH", "STEL", _seen("30000", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("40000", _NIOSH)),
            ),
            note="Toxic in its own right: it kills while oxygen still reads about 20 vol%.",
        ),
        Substance(
            "nitrogen",
            "7727-37-9",
            "N2",
            _mass("28.013"),
            None,
            None,
            _memory("15.58", "NIST Chemistry WebBook"),
            Exposure.NONE_EXISTS,
            note="Seen only as missing oxygen: no sensor and no photoionization lamp sees it.",
        ),
        Substance(
            "argon",
            "7440-37-1",
            "Ar",
            _mass("39.948"),
            None,
            None,
            _memory("15.76", "NIST Chemistry WebBook"),
            Exposure.NONE_EXISTS,
            note="Denser than air. Seen only as missing oxygen.",
        ),
        Substance(
            "hydrogen",
            "1333-74-0",
            "H2",
            _mass("2.016"),
            _library("4", _NFPA),
            _library("75", _NFPA),
            _memory("15.43", "NIST Chemistry WebBook"),
            Exposure.NONE_EXISTS,
            note="Simple asphyxiant.",
        ),
        Substance(
            "toluene",
            "108-88-3",
            "C7H8",
            _mass("92.138"),
            _library("1.1", _NFPA),
            _library("7.1", _NFPA),
            _seen("8.82", "a county record that cites the " + _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("200", _Z2)),
                ExposureLimit("OSHA", "ceiling", _seen("300", _Z2)),
                ExposureLimit("OSHA", "peak", _seen("500", _Z2)),
                ExposureLimit("NIOSH", "TWA", _seen("100", _NIOSH)),
                ExposureLimit("NIOSH", "STEL", _seen("150", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("500", _NIOSH)),
            ),
            lel_low=_library("1.0", _IEC),
        ),
        Substance(
            "gasoline vapor",
            "8006-61-9",
            "mixture",
            None,
            _library("1.4", _NFPA),
            _library("7.6", _NFPA),
            None,
            Exposure.NOT_FOUND,
            note="A mixture: no one molar mass or ionization energy. Denser than air. Check benzene separately.",
        ),
        Substance(
            "ammonia",
            "7664-41-7",
            "NH3",
            _mass("17.031"),
            _seen("15", _NIOSH),
            _library("28", _NFPA),
            _memory("10.18", _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("50", _Z1)),
                ExposureLimit("NIOSH", "TWA", _seen("25", _NIOSH)),
                ExposureLimit("NIOSH", "STEL", _seen("35", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("300", _NIOSH)),
            ),
        ),
        Substance(
            "chlorine",
            "7782-50-5",
            "Cl2",
            _mass("70.906"),
            None,
            None,
            _memory("11.48", _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "ceiling", _seen("1", _Z1)),
                ExposureLimit("NIOSH", "ceiling", _seen("0.5", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("10", _NIOSH)),
            ),
            note="Oxidizer. NIOSH's ceiling is a 15-minute figure.",
        ),
        Substance(
            "sulfur dioxide",
            "7446-09-5",
            "SO2",
            _mass("64.064"),
            None,
            None,
            _memory("12.30", _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("5", _Z1)),
                ExposureLimit("NIOSH", "TWA", _seen("2", _NIOSH)),
                ExposureLimit("NIOSH", "STEL", _seen("5", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("100", _NIOSH)),
            ),
        ),
        Substance(
            "benzene",
            "71-43-2",
            "C6H6",
            _mass("78.112"),
            _seen("1.2", _NIOSH),
            _library("7.8", _NFPA),
            _seen("9.24", "a county record that cites the " + _POCKET),
            Exposure.LIMITED,
            (
                ExposureLimit("OSHA", "TWA", _seen("1", _BENZENE)),
                ExposureLimit("OSHA", "STEL", _seen("5", _BENZENE)),
                ExposureLimit("NIOSH", "TWA", _seen("0.1", _NIOSH)),
                ExposureLimit("NIOSH", "STEL", _seen("1", _NIOSH)),
                ExposureLimit("NIOSH", "IDLH", _seen("500", _NIOSH)),
            ),
            note="Carcinogen. 10 % of its LEL is 1,200 times its limit: a flammable reading cannot protect against it.",
        ),
    )
)
