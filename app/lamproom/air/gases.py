"""Gases of the table of substances: data only. How a figure is written stands in ``substance_row.py``."""

from __future__ import annotations

from lamproom.air.substance_row import substance

GASES = (
    substance(
        "oxygen",
        "7782-44-7",
        "O2",
        "31.999",
        also=("O2",),
        ionization="12.07 S CCCBDB",
        limits="none exists",
        note="Its band, 19.5 to 23.5 vol%, is a limit of the form.",
    ),
    substance(
        "hydrogen sulfide",
        "7783-06-4",
        "H2S",
        "34.081",
        also=(
            "sewer gas",
            "H2S",
        ),
        lel="4 S IDLH",
        uel="44 L NFPA",
        ionization="10.46 S CCCBDB",
        limits=(
            "OSHA ceiling 20 S Z2; OSHA peak 50 S Z2 10; NIOSH ceiling 10 S IDLH 10; NIOSH IDLH 100 S IDLH; "
            "HSE TWA 5 M EH40; HSE STEL 10 M EH40"
        ),
        note=(
            "The peak is once, up to 10 min, only with no other measurable exposure. It dulls the sense of "
            "smell. Construction and shipyards: 10 ppm TWA, not the ceiling."
        ),
    ),
    substance(
        "carbon monoxide",
        "630-08-0",
        "CO",
        "28.010",
        also=("CO",),
        lel="12.5 S IDLH",
        uel="74 S Database",
        lel_low="10.9 L IEC",
        ionization="14.01 S Database",
        limits=(
            "OSHA TWA 50 S Z1; NIOSH TWA 35 S IDLH; NIOSH ceiling 200 S IDLH; NIOSH IDLH 1200 S University; "
            "HSE TWA 20 M EH40; HSE STEL 100 M EH40"
        ),
        note="Michigan judges 200 ppm as a 5-minute mean.",
    ),
    substance(
        "methane",
        "74-82-8",
        "CH4",
        "16.042",
        also=(
            "marsh gas",
            "natural gas (mostly)",
            "CH4",
        ),
        lel="5 L NFPA",
        uel="15 L NFPA",
        lel_low="4.4 L IEC",
        ionization="12.61 S CCCBDB",
        limits="none exists",
        asphyxiant=True,
        note="Simple asphyxiant. Read with 5.0 it shows 12 % less than with 4.4.",
    ),
    substance(
        "carbon dioxide",
        "124-38-9",
        "CO2",
        "44.010",
        also=(
            "CO2",
            "carbonic acid gas",
        ),
        ionization="13.78 S CCCBDB",
        limits=(
            "OSHA TWA 5000 S Z1; NIOSH TWA 5000 S IDLH; NIOSH STEL 30000 S IDLH; NIOSH IDLH 40000 S IDLH; "
            "HSE TWA 5000 M EH40; HSE STEL 15000 M EH40"
        ),
        note="Toxic in its own right: it kills while oxygen still reads about 20 vol%.",
    ),
    substance(
        "ammonia",
        "7664-41-7",
        "NH3",
        "17.031",
        also=("NH3",),
        lel="15 S IDLH",
        uel="28 L NFPA",
        ionization="10.07 S CCCBDB",
        limits=(
            "OSHA TWA 50 S Z1; NIOSH TWA 25 S IDLH; NIOSH STEL 35 S IDLH; NIOSH IDLH 300 S IDLH; "
            "HSE TWA 25 M EH40; HSE STEL 35 M EH40"
        ),
        note="Oil mist is reported to lower its LEL toward 8 vol%.",
    ),
    substance(
        "chlorine",
        "7782-50-5",
        "Cl2",
        "70.906",
        also=("Cl2",),
        ionization="11.48 S CCCBDB",
        limits="OSHA ceiling 1 S Z1; NIOSH ceiling 0.5 S IDLH 15; NIOSH IDLH 10 S IDLH; HSE STEL 0.5 M EH40",
        note="Oxidizer. Some pages print the ceiling as a TWA.",
    ),
    substance(
        "sulfur dioxide",
        "7446-09-5",
        "SO2",
        "64.064",
        also=("SO2",),
        ionization="12.35 S CCCBDB",
        limits=(
            "OSHA TWA 5 S Z1; NIOSH TWA 2 S IDLH; NIOSH STEL 5 S IDLH; NIOSH IDLH 100 S IDLH; "
            "HSE TWA 0.5 M EH40; HSE STEL 1 M EH40"
        ),
        note="The European indicative limits are 0.5 and 1 ppm.",
    ),
    substance(
        "nitric oxide",
        "10102-43-9",
        "NO",
        "30.006",
        also=(
            "NO",
            "nitrogen monoxide",
        ),
        ionization="9.26 S CCCBDB",
        limits="OSHA TWA 25 S Z1; NIOSH TWA 25 S IDLH; NIOSH IDLH 100 S IDLH; HSE TWA 2 M EH40",
        note="Oxidizer. Turns into nitrogen dioxide in air.",
    ),
    substance(
        "nitrogen dioxide",
        "10102-44-0",
        "NO2",
        "46.005",
        also=("NO2",),
        ionization="9.75 M Guide",
        limits=(
            "OSHA ceiling 5 S Z1; NIOSH STEL 1 S IDLH; NIOSH IDLH 13 S 2017; HSE TWA 0.5 M EH40; HSE STEL 1 M EH40"
        ),
        note="Oxidizer. The IDLH was 20 ppm in 1994.",
    ),
    substance(
        "hydrogen cyanide",
        "74-90-8",
        "HCN",
        "27.025",
        also=(
            "HCN",
            "prussic acid",
        ),
        lel="5.6 L NFPA",
        uel="40 L NFPA",
        lel_low="5.4 L IEC",
        ionization="13.60 S CCCBDB",
        limits=(
            "OSHA TWA 10 S Z1; NIOSH STEL 4.7 S IDLH; NIOSH IDLH 50 S IDLH; HSE TWA 0.9 M EH40; HSE STEL 4.5 M EH40"
        ),
        skin=True,
        note="Taken in through the skin. NIOSH has a short-term limit only.",
    ),
    substance(
        "phosphine",
        "7803-51-2",
        "PH3",
        "33.998",
        also=("PH3",),
        lel="1.79 S Guide",
        ionization="9.87 S CCCBDB",
        limits=(
            "OSHA TWA 0.3 S Z1; NIOSH TWA 0.3 S Guide; NIOSH STEL 1 S Guide; NIOSH IDLH 50 S Guide; "
            "HSE TWA 0.1 M EH40; HSE STEL 0.2 M EH40"
        ),
        note="May ignite by itself in air. No upper limit is established.",
    ),
    substance(
        "hydrogen",
        "1333-74-0",
        "H2",
        "2.016",
        also=("H2",),
        lel="4 L NFPA",
        uel="75 L NFPA",
        ionization="15.43 M WebBook",
        limits="none exists",
        asphyxiant=True,
        note="Simple asphyxiant.",
    ),
    substance(
        "propane",
        "74-98-6",
        "C3H8",
        "44.096",
        also=("LP gas (mostly)",),
        lel="2.1 L NFPA",
        uel="9.5 L NFPA",
        lel_low="1.7 L IEC",
        ionization="11.07 S Guide",
        limits="OSHA TWA 1000 S Z1; NIOSH TWA 1000 S IDLH; NIOSH IDLH 2100 S IDLH",
        asphyxiant=True,
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "ethylene",
        "74-85-1",
        "C2H4",
        "28.053",
        also=("ethene",),
        lel="2.7 L NFPA",
        uel="36 L NFPA",
        lel_low="2.3 L IEC",
        ionization="10.51 S CCCBDB",
        limits="none exists",
        asphyxiant=True,
        note="Simple asphyxiant. Ontario has 200 ppm TWA.",
    ),
    substance(
        "acetylene",
        "74-86-2",
        "C2H2",
        "26.037",
        also=("ethyne",),
        lel="2.5 L NFPA",
        uel="100 L NFPA",
        lel_low="2.3 L IEC",
        ionization="11.40 S CCCBDB",
        limits="NIOSH ceiling 2500 S HazMap",
        asphyxiant=True,
        note="Can decompose without air: UEL 100. The NIOSH ceiling is 10 % of the LEL.",
    ),
    substance(
        "ethylene oxide",
        "75-21-8",
        "C2H4O",
        "44.053",
        also=("oxirane",),
        lel="3 L NFPA",
        uel="100 L NFPA",
        lel_low="2.6 L IEC",
        ionization="10.56 S Guide",
        limits=(
            "OSHA TWA 1 S 1047; OSHA STEL 5 S 1047; NIOSH TWA 0.1 S IDLH; NIOSH ceiling 5 S IDLH 10; "
            "NIOSH IDLH 800 S IDLH; HSE TWA 1 M EH40"
        ),
        note="Carcinogen. Can decompose without air: UEL 100. The NIOSH TWA is less than 0.1 ppm.",
    ),
    substance(
        "hydrogen chloride",
        "7647-01-0",
        "HCl",
        "36.461",
        also=(
            "HCl",
            "muriatic acid gas",
        ),
        ionization="12.74 S CCCBDB",
        limits=(
            "OSHA ceiling 5 S Z1; NIOSH ceiling 5 S IDLH; NIOSH IDLH 50 M IDLH; HSE TWA 1 M EH40; HSE STEL 5 M EH40"
        ),
    ),
    substance(
        "ozone",
        "10028-15-6",
        "O3",
        "47.998",
        also=("O3",),
        ionization="12.52 M Guide",
        limits="OSHA TWA 0.1 S Z1; NIOSH ceiling 0.1 S IDLH; NIOSH IDLH 5 S IDLH; HSE STEL 0.2 M EH40",
        note="Oxidizer. OSHA's figure is a mean, NIOSH's the same figure as a ceiling.",
    ),
    substance(
        "methyl mercaptan",
        "74-93-1",
        "CH4S",
        "48.107",
        also=("methanethiol",),
        lel="3.9 L NFPA",
        uel="21.8 L NFPA",
        ionization="9.44 S CCCBDB",
        limits="OSHA ceiling 10 S Z1; NIOSH ceiling 0.5 S IDLH 15; NIOSH IDLH 150 M IDLH; HSE TWA 0.5 M EH40",
        note="OSHA's ceiling is 20 times NIOSH's.",
    ),
    substance(
        "nitrogen",
        "7727-37-9",
        "N2",
        "28.013",
        also=("N2",),
        ionization="15.58 S CCCBDB",
        limits="none exists",
        asphyxiant=True,
        note="Seen only as missing oxygen: no sensor and no photoionization lamp sees it.",
    ),
    substance(
        "argon",
        "7440-37-1",
        "Ar",
        "39.948",
        also=("Ar",),
        ionization="15.76 M WebBook",
        limits="none exists",
        asphyxiant=True,
        note="Denser than air. Seen only as missing oxygen.",
    ),
    substance(
        "helium",
        "7440-59-7",
        "He",
        "4.003",
        also=("He",),
        ionization="24.59 M WebBook",
        limits="none exists",
        asphyxiant=True,
        note="Much lighter than air: it collects high. Seen only as missing oxygen.",
    ),
    substance(
        "formaldehyde",
        "50-00-0",
        "CH2O",
        "30.026",
        also=("methanal",),
        lel="7 L NFPA",
        uel="73 L NFPA",
        ionization="10.88 S CCCBDB",
        limits=(
            "OSHA TWA 0.75 S 1048; OSHA STEL 2 S 1048; NIOSH TWA 0.016 S IDLH; NIOSH ceiling 0.1 S IDLH 15; "
            "NIOSH IDLH 20 M IDLH; HSE TWA 2 M EH40; HSE STEL 2 M EH40"
        ),
        note="Carcinogen.",
    ),
    substance(
        "isobutylene",
        "115-11-7",
        "C4H8",
        "56.106",
        also=(
            "isobutene",
            "2-methylpropene",
        ),
        lel="1.6 L IEC",
        uel="10 L IEC",
        ionization="9.22 M Guide",
        limits="not found",
        note="Common reference gas for photoionization instruments. Others print LEL 1.8 and 9.24 eV.",
    ),
)
