"""Vapors of liquids, of the table of substances: data only. How a figure is written stands in ``substance_row.py``."""

from __future__ import annotations

from lamproom.air.substance_row import substance

VAPORS = (
    substance(
        "n-butane",
        "106-97-8",
        "C4H10",
        "58.122",
        also=("butane",),
        lel="1.6 S Guide",
        uel="8.4 S Guide",
        lel_low="1.4 L IEC",
        ionization="10.63 S Guide",
        limits="NIOSH TWA 800 S Guide; NIOSH IDLH 1600 S 2016; HSE TWA 600 M EH40; HSE STEL 750 M EH40",
        asphyxiant=True,
        note="LEL 1.6 (NIOSH), 1.9 (NFPA 497), 1.4 (IEC).",
    ),
    substance(
        "n-pentane",
        "109-66-0",
        "C5H12",
        "72.149",
        also=("pentane",),
        lel="1.5 L NFPA",
        uel="7.8 L NFPA",
        lel_low="1.1 L IEC",
        ionization="10.34 M Guide",
        limits=(
            "OSHA TWA 1000 S Z1; NIOSH TWA 120 S IDLH; NIOSH ceiling 610 S IDLH 15; NIOSH IDLH 1500 S IDLH; "
            "HSE TWA 600 M EH40"
        ),
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "n-hexane",
        "110-54-3",
        "C6H14",
        "86.175",
        also=("hexane",),
        lel="1.1 L NFPA",
        uel="7.5 L NFPA",
        lel_low="1 L IEC",
        ionization="10.18 S Guide",
        limits="OSHA TWA 500 S Z1; NIOSH TWA 50 S Guide; NIOSH IDLH 1100 S Guide; HSE TWA 20 M EH40",
        note="One OSHA page prints 500 ppm as NIOSH limit; the Pocket Guide has 50. The IDLH is 10 % of the LEL.",
    ),
    substance(
        "n-heptane",
        "142-82-5",
        "C7H16",
        "100.202",
        also=("heptane",),
        lel="1.05 S IDLH",
        uel="6.7 L NFPA",
        lel_low="0.85 L IEC",
        ionization="9.9 M Guide",
        limits=(
            "OSHA TWA 500 S Z1; NIOSH TWA 85 S IDLH; NIOSH ceiling 440 S IDLH 15; NIOSH IDLH 750 S IDLH; "
            "HSE TWA 500 M EH40"
        ),
        note="NFPA 497 rounds the LEL to 1.0.",
    ),
    substance(
        "n-octane",
        "111-65-9",
        "C8H18",
        "114.229",
        also=("octane",),
        lel="1 L NFPA",
        uel="6.5 L NFPA",
        lel_low="0.8 L IEC",
        ionization="9.82 M Guide",
        limits="OSHA TWA 500 S Z1; NIOSH TWA 75 S IDLH; NIOSH ceiling 385 S IDLH 15; NIOSH IDLH 1000 S IDLH",
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "benzene",
        "71-43-2",
        "C6H6",
        "78.112",
        also=("benzol",),
        lel="1.2 S IDLH",
        uel="7.8 L NFPA",
        ionization="9.24 S County",
        limits=(
            "OSHA TWA 1 S 1028; OSHA STEL 5 S 1028; NIOSH TWA 0.1 S IDLH; NIOSH STEL 1 S IDLH; "
            "NIOSH IDLH 500 S IDLH; HSE TWA 1 M EH40"
        ),
        skin=True,
        note=("Carcinogen. 10 % of its LEL is 1,200 times its limit: a flammable reading cannot protect against it."),
    ),
    substance(
        "toluene",
        "108-88-3",
        "C7H8",
        "92.138",
        also=(
            "methylbenzene",
            "toluol",
        ),
        lel="1.1 L NFPA",
        uel="7.1 L NFPA",
        lel_low="1 L IEC",
        ionization="8.82 S County",
        limits=(
            "OSHA TWA 200 S Z2; OSHA ceiling 300 S Z2; OSHA peak 500 S Z2 10; NIOSH TWA 100 S IDLH; "
            "NIOSH STEL 150 S IDLH; NIOSH IDLH 500 S IDLH; HSE TWA 50 M EH40; HSE STEL 100 M EH40"
        ),
        note="Construction and shipyards: 200 ppm TWA, no ceiling.",
    ),
    substance(
        "o-xylene",
        "95-47-6",
        "C8H10",
        "106.165",
        also=(
            "xylene",
            "1,2-dimethylbenzene",
        ),
        lel="0.9 L Wikidata",
        uel="6.7 L Wikidata",
        ionization="8.56 S Guide",
        limits=(
            "OSHA TWA 100 S Z1; NIOSH TWA 100 S IDLH; NIOSH STEL 150 S IDLH; NIOSH IDLH 900 S IDLH; "
            "HSE TWA 50 M EH40; HSE STEL 100 M EH40"
        ),
        note="NIOSH prints LEL 0.9 to 1.1 for the isomers together.",
    ),
    substance(
        "styrene",
        "100-42-5",
        "C8H8",
        "104.149",
        also=(
            "vinylbenzene",
            "phenylethylene",
        ),
        lel="0.9 L NFPA",
        uel="6.8 L NFPA",
        ionization="8.4 S Guide",
        limits=(
            "OSHA TWA 100 S Z2; OSHA ceiling 200 S Z2; OSHA peak 600 S Z2 5; NIOSH TWA 50 S Guide; "
            "NIOSH STEL 100 S Guide; NIOSH IDLH 700 S Guide; HSE TWA 100 M EH40; HSE STEL 250 M EH40"
        ),
        note="The peak is 5 min in any 3 h.",
    ),
    substance(
        "methanol",
        "67-56-1",
        "CH4O",
        "32.042",
        also=(
            "methyl alcohol",
            "wood alcohol",
        ),
        lel="6 L NFPA",
        uel="36 L NFPA",
        ionization="10.84 S CCCBDB",
        limits=(
            "OSHA TWA 200 S Z1; NIOSH TWA 200 S IDLH; NIOSH STEL 250 S IDLH; NIOSH IDLH 6000 M IDLH; "
            "HSE TWA 200 M EH40; HSE STEL 250 M EH40"
        ),
        skin=True,
        note="Taken in through the skin.",
    ),
    substance(
        "ethanol",
        "64-17-5",
        "C2H6O",
        "46.068",
        also=(
            "ethyl alcohol",
            "alcohol",
        ),
        lel="3.3 L NFPA",
        uel="19 L NFPA",
        lel_low="3.1 L IEC",
        ionization="10.47 S Guide",
        limits="OSHA TWA 1000 S Z1; NIOSH TWA 1000 S Guide; NIOSH IDLH 3300 S Guide; HSE TWA 1000 M EH40",
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "isopropanol",
        "67-63-0",
        "C3H8O",
        "60.095",
        also=(
            "isopropyl alcohol",
            "2-propanol",
        ),
        lel="2 L NFPA",
        uel="12.7 L NFPA",
        ionization="10.1 S Guide",
        limits=(
            "OSHA TWA 400 S Z1; NIOSH TWA 400 S Guide; NIOSH STEL 500 S Guide; NIOSH IDLH 2000 S Guide; "
            "HSE TWA 400 M EH40; HSE STEL 500 M EH40"
        ),
        note="The UEL is for 93 °C. The IDLH is 10 % of the LEL.",
    ),
    substance(
        "acetone",
        "67-64-1",
        "C3H6O",
        "58.079",
        also=("2-propanone",),
        lel="2.5 L NFPA",
        uel="12.8 L NFPA",
        ionization="9.69 M Guide",
        limits=(
            "OSHA TWA 1000 S Z1; NIOSH TWA 250 S Sampling; NIOSH IDLH 2500 S Sampling; HSE TWA 500 M EH40; "
            "HSE STEL 1500 M EH40"
        ),
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "methyl ethyl ketone",
        "78-93-3",
        "C4H8O",
        "72.106",
        also=(
            "2-butanone",
            "MEK",
        ),
        lel="1.4 L NFPA",
        uel="11.4 L NFPA",
        ionization="9.54 M Guide",
        limits=(
            "OSHA TWA 200 S Z1; NIOSH TWA 200 M Guide; NIOSH STEL 300 M Guide; NIOSH IDLH 3000 M Guide; "
            "HSE TWA 200 M EH40; HSE STEL 300 M EH40"
        ),
        note="The LEL of 1.4 is for 93 °C; others print 1.5 and 1.9.",
    ),
    substance(
        "ethyl acetate",
        "141-78-6",
        "C4H8O2",
        "88.105",
        also=("acetic ester",),
        lel="2 L NFPA",
        uel="11.5 L NFPA",
        ionization="10.01 M Guide",
        limits=(
            "OSHA TWA 400 S Z1; NIOSH TWA 400 S IDLH; NIOSH IDLH 2000 S IDLH; HSE TWA 200 M EH40; HSE STEL 400 M EH40"
        ),
        note="The IDLH is 10 % of the LEL.",
    ),
    substance(
        "gasoline vapor",
        "8006-61-9",
        "mixture",
        None,
        also=(
            "petrol",
            "gasoline",
        ),
        lel="1.4 L NFPA",
        uel="7.6 L NFPA",
        limits="not found",
        note="A mixture: no one molar mass or ionization energy. Denser than air. Check benzene separately.",
    ),
    substance(
        "vinyl chloride",
        "75-01-4",
        "C2H3Cl",
        "62.498",
        also=("chloroethene",),
        lel="3.6 L NFPA",
        uel="33 L NFPA",
        ionization="9.99 S Guide",
        limits="OSHA TWA 1 S 1017; OSHA ceiling 5 S 1017 15; HSE TWA 1 M EH40",
        note="Carcinogen.",
    ),
    substance(
        "carbon disulfide",
        "75-15-0",
        "CS2",
        "76.141",
        also=("CS2",),
        lel="1.3 L NFPA",
        uel="50 L NFPA",
        lel_low="0.6 L IEC",
        ionization="10.08 M Guide",
        limits=(
            "OSHA TWA 20 S Z2; OSHA ceiling 30 S Z2; OSHA peak 100 S Z2 30; NIOSH TWA 1 S IDLH; "
            "NIOSH STEL 10 S IDLH; NIOSH IDLH 500 S IDLH; HSE TWA 5 M EH40"
        ),
        skin=True,
        note="Taken in through the skin. Ignites at about 90 °C.",
    ),
    substance(
        "dichloromethane",
        "75-09-2",
        "CH2Cl2",
        "84.933",
        also=("methylene chloride",),
        lel="13 L Wikidata",
        uel="23 L Wikidata",
        ionization="11.32 M Guide",
        limits=(
            "OSHA TWA 25 S 1052; OSHA STEL 125 S 1052; NIOSH IDLH 2300 S IDLH; HSE TWA 100 M EH40; HSE STEL 200 M EH40"
        ),
        note=(
            "Carcinogen. Old pages still print OSHA limits of 500, 1000 and 2000 ppm. Turns into carbon "
            "monoxide in the body."
        ),
    ),
    substance(
        "trichloroethylene",
        "79-01-6",
        "C2HCl3",
        "131.388",
        also=(
            "trichloroethene",
            "TCE",
        ),
        lel="8 L Wikidata",
        uel="10.5 L Wikidata",
        ionization="9.45 M Guide",
        limits=(
            "OSHA TWA 100 S Z2; OSHA ceiling 200 S Z2; OSHA peak 300 S Z2 5; NIOSH TWA 25 S IDLH; "
            "NIOSH IDLH 1000 M IDLH; HSE TWA 100 M EH40; HSE STEL 150 M EH40"
        ),
        note="Carcinogen. The peak is 5 min in any 2 h.",
    ),
    substance(
        "methyl bromide",
        "74-83-9",
        "CH3Br",
        "94.939",
        also=("bromomethane",),
        lel="10 L Wikidata",
        uel="16 L Wikidata",
        ionization="10.54 M Guide",
        limits="OSHA ceiling 20 M Z1; NIOSH IDLH 250 M Guide; HSE TWA 5 M EH40; HSE STEL 15 M EH40",
        skin=True,
        note="Fumigant, carcinogen, taken in through the skin.",
    ),
    substance(
        "diesel vapor",
        "8008-20-6",
        "mixture",
        None,
        also=(
            "kerosene",
            "diesel fuel",
        ),
        lel="0.7 L NFPA",
        uel="5 L NFPA",
        limits="not found",
        note="A mixture. At room temperature its vapor does not reach the LEL, but mist and hot surfaces can.",
    ),
)
