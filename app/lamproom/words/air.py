"""Sentences of the room 'air'."""

SENTENCES: dict[str, str] = {
    # typed figures: what was typed, where it went wrong, what to type
    "air.figure.nothing": (
        "Nothing is typed. Type the figure with digits, such as 20.9. A missing reading is not a zero."
    ),
    "air.figure.unreadable": "“{text}” is not a figure: {why} The spot: {marked}",
    "air.figure.letter_o": "“{found}” is a letter, not a zero. Type 0.",
    "air.figure.letter_l": "“{found}” is not the digit one. Type 1.",
    "air.figure.exponent": "powers of ten are not read. Type all the digits, such as 1000.",
    "air.figure.plus": "a plus sign is not read. Type the figure alone.",
    "air.figure.minus": "a minus sign stands only in front, and only once.",
    "air.figure.second_sign": "a second decimal sign. Type one point or comma, and no thousands sign.",
    "air.figure.space": "a space inside the figure. Type the digits together.",
    "air.figure.bare_sign": "a digit is missing beside the decimal sign. Type 0.5, not .5, and 20, not 20.",
    "air.figure.leading_zero": "a zero too many in front. Type 20.9, not 020.9.",
    "air.figure.other_digit": "“{found}” is not one of the digits 0 to 9.",
    "air.figure.unit": "the unit is already there. Type the figure alone.",
    "air.figure.too_long": "more than {most} digits. Type what the instrument shows.",
    "air.figure.stranger": "“{found}” is not a digit, a point or a comma.",
    "air.figure.read_as": (
        "“{text}” is read as {shown}. A comma is a decimal sign. If you mean {other}, type {other}."
    ),
    # where to test
    "air.sampling.no_depth": (
        "The depth of the space must be more than 0 m. It says {depth} m. Measure it from the portal to the floor."
    ),
    "air.sampling.level_below_floor": (
        "Today's level at {level} m lies below the floor at {depth} m. Measure both from the portal again."
    ),
    "air.sampling.no_air": "Today's level stands at the portal: there is no air to test. Lower the level first.",
    "air.sampling.nothing_flows": (
        "The wait needs a {what} of more than 0. It says {value}. Enter it from the instrument."
    ),
    "air.sampling.below_zero": "The wait needs a {what} of 0 or more. It says {value}. Enter it from the instrument.",
    "air.sampling.flow": "pump flow in L/min",
    "air.sampling.bore": "hose bore in mm",
    "air.sampling.hose": "hose length in m",
    "air.sampling.flushes": "number of flushes",
    "air.sampling.response": "response time in seconds",
    "air.point.only": "only point",
    "air.point.top": "top",
    "air.point.middle": "middle",
    "air.point.middle_of_many": "middle {n}",
    "air.point.bottom": "bottom",
    # a figure that cannot be what it is called: which, what it says, what it can be
    "air.unworkable.no_reading": "The {what} says “{value}”, which is no reading. Enter what the instrument shows.",
    "air.unworkable.below": "The {what} must be {low} or more. It says {value}. Enter the figure again.",
    "air.unworkable.outside": "The {what} must be from {low} to {high}. It says {value}. Enter the figure again.",
    "air.unworkable.not_above": "The {what} must be more than 0. It says {value}. Enter the figure again.",
    "air.unworkable.hides_gas": "A tolerance of {tolerance} would hide gas. Enter 0 or more.",
    "air.unworkable.no_shares": "A mixture needs at least one gas, and each share above 0. Enter the shares again.",
    "air.unworkable.no_lel": "There is no LEL for {gas}. Enter one with its source.",
    "air.unworkable.no_loc": "No limiting oxygen of “{fuel}” is in the table. It has {known}.",
    "air.unworkable.no_readings": "There are no readings to work with. Enter at least one, each with its figure.",
    "air.unworkable.over_million": "A reading is over 1,000,000 ppm, more than all there is. Enter it again.",
    "air.unworkable.no_stay": "Nobody was inside before this moment, so there is no exposure to work out.",
    "air.unworkable.two_gases": "The readings are of different gases. Work out one gas at a time.",
    "air.unworkable.not_twa": (
        "A {kind} is not lowered for a long shift: only 8-hour limits are. Hold each reading to it as it is."
    ),
    "air.unworkable.out_of_order": "The readings are not in the order of their times. Give the oldest first.",
    "air.unworkable.no_activity": "No rates of breathing are known for “{activity}”. The table has {known}.",
    "air.unworkable.no_target": "Give a share of carbon dioxide or of oxygen to reach.",
    "air.unworkable.no_sheet": (
        "A substance of the site needs a name, the reference of its safety data sheet and who entered it."
    ),
    "air.unworkable.lel_over_uel": "The LEL of {lel} vol% is not below the UEL of {uel} vol%. Read the sheet again.",
    "air.unworkable.no_kind": "“{kind}” is no kind of limit. Use TWA, STEL, ceiling or peak.",
    "air.unworkable.not_moist": "Give temperature and humidity of both sides, at set-up and inside.",
    "air.unworkable.no_date": "“{text}” is not a date. Type it as 2026-03-01.",
    "air.unworkable.no_substance": (
        "“{name}” is not in the table of substances. A site adds its own from the safety data sheet."
    ),
    # workings: the name of what is worked out, its formula, its inputs, where it holds
    "air.working.unaccounted": "Unaccounted for: gas or vapor that fills the place of missing oxygen",
    "air.formula.unaccounted": (
        "(base − oxygen − tolerance) ÷ 20.9 × 1,000,000 − measured gases − extra water vapor; never below 0"
    ),
    "air.validity.unaccounted": (
        "Up to this much of another gas, if the oxygen was displaced and not used up. It is not a reading of that gas."
    ),
    "air.working.partial_pressure": "Oxygen partial pressure",
    "air.formula.partial_pressure": "oxygen ÷ 100 × air pressure",
    "air.validity.partial_pressure": (
        "Shown beside this place's own fresh air, {fresh} mmHg. "
        "Volume percent decides; this figure never allows an entry."
    ),
    "air.working.air_pressure": "Air pressure at this altitude",
    "air.formula.air_pressure": "101,325 × (1 − 0.0065 h ÷ 288.15)^5.25588, h = 6,356,766 z ÷ (6,356,766 + z)",
    "air.validity.air_pressure": (
        "Standard atmosphere, 0 to 11,000 m. Weather moves the real pressure by about 3 % either way."
    ),
    "air.working.saturation_pressure": "Most water vapor that air can hold, as a pressure",
    "air.formula.saturation_pressure": "611.2 × exp(17.62 t ÷ (243.12 + t))",
    "air.validity.saturation_pressure": "Over water, −45 to 60 °C.",
    "air.working.water_vapor": "Extra water vapor: what a space holds above the air of the set-up; below 0 if drier",
    "air.formula.water_vapor": (
        "(water inside − water outside) ÷ (1 − water outside) × 1,000,000, water = humidity × saturation pressure "
        "÷ air pressure"
    ),
    "air.validity.water_vapor": (
        "Only with temperature and humidity read both where the instrument was set up and inside. "
        "If one is not known, water explains nothing."
    ),
    "air.working.damp_oxygen": "Oxygen reading that water vapor alone would leave",
    "air.formula.damp_oxygen": "fresh air oxygen × (1 − water inside) ÷ (1 − water outside)",
    "air.validity.damp_oxygen": (
        "What water alone would make of it. A lower reading has another cause; an equal one does not prove water."
    ),
    "air.working.hose_delay": "Time until the first sample air reaches the sensor",
    "air.formula.hose_delay": "π ÷ 4 × bore² × hose length ÷ flow",
    "air.validity.hose_delay": "Only if the joined hose passed its leak test and the pump runs freely.",
    "air.working.points": "Depths at which the air is tested before entry",
    "air.formula.points": "first point, then evenly to the last above the level, never farther apart than the most",
    "air.validity.points": "Points reachable from the portal. Measure today's level first.",
    "air.working.lel_in_ppm": "A flammable gas reading in ppm",
    "air.formula.lel_in_ppm": "% LEL × LEL × 100",
    "air.validity.lel_in_ppm": "With the LEL that the reading was made with. 10,000 ppm are 1 vol%.",
    "air.working.ppm_in_lel": "ppm in % LEL",
    "air.formula.ppm_in_lel": "ppm ÷ (LEL × 100)",
    "air.validity.ppm_in_lel": "A LEL differs between books: name the one that is used.",
    "air.working.rebased": "A flammable gas reading against another LEL",
    "air.formula.rebased": "% LEL × LEL of the reading ÷ other LEL",
    "air.validity.rebased": "For the same gas. For another vapor the maker's factor is needed.",
    "air.working.entry_figure": "Acceptable entry figure of a substance",
    "air.formula.entry_figure": "the lowest adopted limit, whatever its averaging",
    "air.validity.entry_figure": (
        "Each single reading is held to it. Stricter limits that were not adopted: {cautions}. A figure from memory "
        "counts only once someone has confirmed it."
    ),
    "air.working.wait": "Wait at each point",
    "air.formula.wait": "hose volume ÷ flow × (1 + flushes) + response time, rounded up",
    "air.formula.wait_diffusion": "response time, rounded up",
    "air.validity.wait": "Only if the joined hose passed its leak test and the pump runs freely.",
    "air.working.toxic_at_lel": "Toxic level that a flammable gas reading can hide, in times its limit",
    "air.formula.toxic_at_lel": "% LEL ÷ 100 × LEL × 10,000 ÷ limit",
    "air.validity.toxic_at_lel": (
        "{percent} % LEL of this vapor is {ppm} ppm, {times} times its limit of {limit} ppm."
    ),
    "air.working.as_vapor": "Flammable gas reading as another vapor",
    "air.formula.as_vapor": "reading × factor",
    "air.validity.as_vapor": (
        "Only with the factor of the instrument's maker, for this sensor and this vapor. "
        "Without it the reading says nothing of this vapor."
    ),
    "air.working.mixture_lel": "LEL of the mixture",
    "air.formula.mixture_lel": "1 ÷ sum of (share of the fuel ÷ its LEL)",
    "air.validity.mixture_lel": (
        "Le Chatelier's rule: lower limits, gases that do not react with each other, near 25 °C."
    ),
    "air.working.mixture_uel": "UEL of the mixture",
    "air.formula.mixture_uel": "1 ÷ sum of (share of the fuel ÷ its UEL)",
    "air.validity.mixture_uel": (
        "For showing, never for permitting. The rule is weaker for upper limits, and air can bring any rich mixture "
        "below its UEL."
    ),
    "air.working.mixture_percent_lel": "A measured mixture against its own LEL",
    "air.formula.mixture_percent_lel": "sum of (volume percent ÷ LEL) × 100",
    "air.validity.mixture_percent_lel": "Each gas counts with its own LEL; a gas that nobody measured does not count.",
    "air.working.inert_lel": "LEL of a gas that is part inert",
    "air.formula.inert_lel": "the lower of Le Chatelier with the inert gas as dilution, and ISO 10156",
    "air.validity.inert_lel": "As dilution {dilution} vol%, by ISO 10156:2017 {standard} vol%. Near 25 °C.",
    "air.working.warm_lel": "LEL lowered for a warm space",
    "air.formula.warm_lel": "LEL × (1 − (temperature − 25) ÷ 875), or lower by the other published rules",
    "air.validity.warm_lel": ("At or below 25 °C the figure stays. It is only ever lowered. Not above 300 °C."),
    "air.working.bulletin_factor": "Factor on an LEL for temperature, by Bulletin 627",
    "air.formula.bulletin_factor": "1 − 0.000721 × (temperature − 25)",
    "air.validity.bulletin_factor": (
        "For showing, never for permitting: it overstates the LEL of methane, methanol and formaldehyde when warm."
    ),
    "air.working.burgess_wheeler": "LEL of a warm space from the heat of combustion",
    "air.formula.burgess_wheeler": "LEL − 0.75 ÷ heat of combustion × (temperature − 25)",
    "air.validity.burgess_wheeler": "For showing, never for permitting: other rules are lower for some fuels.",
    "air.working.limiting_oxygen": "Least oxygen that lets a fuel burn",
    "air.formula.limiting_oxygen": "measured, with nitrogen; the lower of the two vessels",
    "air.validity.limiting_oxygen": "For showing, never for permitting. People need far more oxygen than a flame does.",
    "air.working.old_tube_oxygen": "Least oxygen for burning, from an old tube figure",
    "air.formula.old_tube_oxygen": "printed − 2 from 10 vol% up, else printed × 0.85",
    "air.validity.old_tube_oxygen": "For showing, never for permitting. Old tube figures lie too high.",
    "air.working.estimated_oxygen": "Least oxygen for burning, estimated",
    "air.formula.estimated_oxygen": "LEL × oxygen needed per fuel",
    "air.validity.estimated_oxygen": "For showing, never for permitting. An estimate for planning only.",
    # why a flammable reading counts as not taken
    "air.void.no_reading": "The flammable gas sensor gave no figure.",
    "air.void.over_range": (
        "The flammable gas reading of {percent} % LEL is over the sensor's range of {top} % LEL. "
        "In a rich mixture it can fall back and read low."
    ),
    "air.void.oxygen_unread": "Oxygen was not read with it, so nobody knows whether the flammable gas sensor worked.",
    "air.void.low_oxygen": (
        "Oxygen is {oxygen} vol%, and this flammable gas sensor needs {needs} vol%. It may read too low."
    ),
    "air.void.enriched": (
        "Oxygen is {oxygen} vol%, above {above} vol%. LEL figures are made for ordinary air and do not hold here."
    ),
    "air.result.unknown": "unknown",
    "air.result.not_reached": "not reached at this level",
    "air.working.dose_mean": "Mean from a dose",
    "air.formula.dose_mean": "dose ÷ minutes of the limit",
    "air.validity.dose_mean": "The minutes are those of the limit, not those spent inside.",
    "air.working.short_term": "Highest 15-minute mean",
    "air.validity.short_term": (
        "The worst 15 minutes that there were, at any time. Upper estimate from readings of the space, not personal "
        "sampling; in a gap between readings the higher neighbor counts."
    ),
    "air.working.highest_mean": "Highest mean over a window",
    "air.formula.highest_mean": "the most that any window of that length held ÷ its minutes",
    "air.validity.highest_mean": (
        "For a ceiling that a rule judges as a mean. Upper estimate from readings of the space; in a gap between "
        "readings the higher neighbor counts."
    ),
    "air.working.shift": "Shift mean over 8 hours",
    "air.validity.shift": (
        "The divisor is 8 hours whatever the length of the shift. Upper estimate from readings of the space, not "
        "personal sampling; in a gap between readings the higher neighbor counts."
    ),
    "air.working.shift_mean": "Shift mean over 8 hours, from spans",
    "air.formula.shift_mean": "sum of (minutes × level) ÷ 480",
    "air.validity.shift_mean": (
        "A break counts as 0 only for someone truly out of it. Any unit, the same for all levels and for the result."
    ),
    "air.working.additive": "Gases of like effect together, as a share of their common limit",
    "air.formula.additive": "sum of (level ÷ limit)",
    "air.validity.additive": (
        "Above 1 the mixture is over its limit. It only adds: each gas is also held to its own limit."
    ),
    "air.working.minutes_above": "Time above a ceiling",
    "air.formula.minutes_above": "all time above the ceiling, the most in any window of that length",
    "air.validity.minutes_above": "In a gap between readings the higher neighbor counts.",
    "air.working.rest_of_shift": "Highest level for the rest of a shift after an excursion",
    "air.formula.rest_of_shift": "(limit × shift − peak × minutes) ÷ (shift − minutes)",
    "air.validity.rest_of_shift": "For showing, never for permitting. Each reading is held to its own figure.",
    "air.working.minutes_to_limit": "Leave by: time until a mean reaches its limit if the air stays so",
    "air.formula.minutes_to_limit": "(limit × minutes − dose) ÷ level",
    "air.validity.minutes_to_limit": (
        "Not a time that one may stay: the next reading moves it, and each reading is held to its own figure."
    ),
    "air.formula.short_term": "the most that any 15 minutes held ÷ 15",
    "air.formula.shift": "all that was taken in ÷ 480",
    "air.formula.short_term_limit": "first moment when the dose of the last minutes reaches limit × minutes",
    "air.validity.short_term_limit": (
        "Not a time that one may stay: the next reading moves it. What is older than the window is counted out."
    ),
    "air.working.daily_limit": "Limit for a longer day",
    "air.formula.daily_limit": "limit × (8 ÷ hours) × (24 − hours) ÷ 16, never above the limit",
    "air.validity.daily_limit": "For 8-hour limits only. Ceilings, peaks and 15-minute limits stay as they are.",
    "air.working.weekly_limit": "Limit for a longer week",
    "air.formula.weekly_limit": "limit × (40 ÷ hours) × (168 − hours) ÷ 128, never above the limit",
    "air.validity.weekly_limit": "For 8-hour limits only. Ceilings, peaks and 15-minute limits stay as they are.",
    "air.working.lead_limit": "Limit of lead for a longer day, by its own rule",
    "air.formula.lead_limit": "400 ÷ hours, never above 50",
    "air.validity.lead_limit": "For showing, never for permitting. A milder rule, and for lead alone.",
    "air.input.dose": "dose",
    "air.input.minutes": "minutes",
    "air.input.level": "level",
    "air.input.limit_of": "{gas}: limit",
    "air.input.ceiling": "ceiling",
    "air.input.window": "window",
    "air.input.shift_min": "length of the shift",
    "air.input.peak": "level of the excursion",
    "air.input.peak_min": "length of the excursion",
    "air.input.rest_min": "rest of the shift after the excursion",
    "air.input.hours_a_day": "hours a day",
    "air.input.hours_a_week": "hours a week",
    "air.result.not_falling": "not falling",
    "air.result.no_rise": "no rise",
    "air.result.none": "none",
    "air.result.none_exists": "none exists",
    "air.result.not_found": "not found",
    "air.result.yes": "yes",
    "air.result.no": "no",
    "air.result.not_heading": "not heading for its limit",
    "air.working.minutes_to_level": "When a reading will meet its limit at the present pace",
    "air.formula.minutes_to_level": "(limit − level) ÷ pace",
    "air.validity.minutes_to_level": "The steepest pace lately seen. A caution only: each reading is judged by itself.",
    "air.working.furthest": "How far a display can have moved in a time",
    "air.formula.furthest": "level + (top − level) × (1 − 10^(−seconds ÷ response time))",
    "air.validity.furthest": "A sensor of first order. A larger jump is a fault, a slip or another instrument.",
    "air.working.oxygen_left": "Oxygen that a flammable gas leaves at most",
    "air.formula.oxygen_left": "fresh air oxygen × (1 − gas ÷ 100)",
    "air.validity.oxygen_left": "More oxygen than this says that one of the two sensors is wrong.",
    "air.working.ppm_to_mg": "ppm in mg/m³",
    "air.formula.ppm_to_mg": "ppm × molar mass ÷ molar volume",
    "air.validity.ppm_to_mg": (
        "24.45 L/mol is 25 °C (United States), 24.05526 is 20 °C (United Kingdom). Compare in the unit of the limit."
    ),
    "air.working.mg_to_ppm": "mg/m³ in ppm",
    "air.formula.mg_to_ppm": "mg/m³ × molar volume ÷ molar mass",
    "air.validity.mg_to_ppm": (
        "24.45 L/mol is 25 °C (United States), 24.05526 is 20 °C (United Kingdom). Compare in the unit of the limit."
    ),
    "air.working.molar_volume": "Volume of a mole of gas",
    "air.formula.molar_volume": "8.314463 × (temperature + 273.15) ÷ pressure",
    "air.validity.molar_volume": "Ideal gas. Rules print 24.45 and 24.055; keep to the one of the limit.",
    "air.working.vapor_density": "Density against air",
    "air.formula.vapor_density": "1 + share × (molar mass ÷ 28.964 − 1)",
    "air.validity.vapor_density": (
        "Where a gas tends to go. Gases mix: every point is tested all the same. Real gases are up to 6 % denser."
    ),
    "air.working.saturated_density": "Density against air of air full of vapor",
    "air.formula.saturated_density": "1 + vapor pressure ÷ air pressure × (molar mass ÷ 28.964 − 1)",
    "air.validity.saturated_density": (
        "The most that it can be over its liquid. Gases mix: every point is tested all the same."
    ),
    "air.working.monoxide_guide": "Carbon monoxide by the WHO guideline",
    "air.formula.monoxide_guide": "figure of the next longer of 15, 30, 60 and 480 min",
    "air.validity.monoxide_guide": "For showing, never for permitting. A guideline for the public.",
    "air.working.carboxyhemoglobin": "Carboxyhemoglobin, estimated",
    "air.formula.carboxyhemoglobin": "log10 % = 0.85753 × log10 ppm + 0.62995 × log10 minutes − 2.29519",
    "air.validity.carboxyhemoglobin": "For showing, never for permitting. People at rest, none in the blood before.",
    "air.working.same_effect": "Level that does the same in another time",
    "air.formula.same_effect": "ppm × (minutes ÷ wanted minutes)^(1 ÷ exponent)",
    "air.validity.same_effect": "For showing, never for permitting. The exponent belongs to one substance.",
    "air.working.heat_limit": "Limit of heat (WBGT, mean of an hour)",
    "air.formula.heat_limit": "56.7 − 11.5 × log10 W used to heat, 59.9 − 14.1 × log10 W not",
    "air.validity.heat_limit": "For showing, never for permitting. One layer of light clothing.",
    "air.working.wbgt": "Wet bulb globe temperature",
    "air.formula.wbgt": "0.7 × wet bulb + 0.3 × globe; in the sun 0.7 × wet bulb + 0.2 × globe + 0.1 × air",
    "air.validity.wbgt": "For showing, never for permitting. Natural wet bulb; mean of an hour.",
    "air.working.sealed_minutes": "Time in a sealed space until its air has a given share",
    "air.formula.sealed_minutes": "volume × change of share ÷ (people × rate)",
    "air.validity.sealed_minutes": (
        "For showing, never for permitting. Carbon dioxide comes long before want of oxygen."
    ),
    "air.working.grain_flow": "Flow of grain",
    "air.formula.grain_flow": "bushels × 1.2444",
    "air.validity.grain_flow": (
        "For showing, never for permitting. A person in flowing grain is helpless after {low_s} to {high_s} seconds."
    ),
    "air.input.bound": "limit that it is heading for",
    "air.input.pace": "pace",
    "air.input.seconds": "seconds between the two",
    "air.input.top": "top of the range",
    "air.input.bottom": "bottom of the range",
    "air.input.flammable_vol": "flammable gas",
    "air.input.ppm": "level",
    "air.input.mg": "level",
    "air.input.molar_volume": "molar volume",
    "air.input.share_percent": "share of the gas in the air",
    "air.input.vapor_pressure": "vapor pressure of the liquid",
    "air.input.wanted_min": "wanted time",
    "air.input.exponent": "exponent of the substance",
    "air.input.watts": "heat that the body makes",
    "air.input.used_to_heat": "used to heat",
    "air.input.wet_bulb": "natural wet bulb",
    "air.input.globe": "globe",
    "air.input.air_celsius": "air in the sun",
    "air.input.people": "people",
    "air.input.activity": "what they do",
    "air.input.carbon_dioxide": "carbon dioxide to reach",
    "air.input.bushels_min": "flow of grain",
    "air.result.never": "never",
    "air.result.cannot_tell": "cannot tell",
    "air.working.share_of_limit": "How much of its limit a reading takes up",
    "air.formula.share_of_limit": "level ÷ limit × 100, rounded up",
    "air.validity.share_of_limit": "One reading, one place, one moment. Both figures in one unit.",
    "air.working.round_volume": "Volume of a round space",
    "air.formula.round_volume": "π ÷ 4 × across² × depth of air",
    "air.validity.round_volume": "Only where it is round and as wide all the way down. Measure any other.",
    "air.input.across": "width across",
    "air.input.first_below": "first point below the portal",
    "air.input.last_above": "last point above the level",
    "air.input.spacing": "at most between two points",
    "air.working.mixing_factor": "Mixing factor from a text's mixing efficiency",
    "air.formula.mixing_factor": "1 ÷ efficiency",
    "air.validity.mixing_factor": (
        "Lamproom's mixing factor is 1 or more: effective flow = flow ÷ mixing factor. Some texts name its inverse."
    ),
    "air.working.air_changes": "Air changes an hour of a fan",
    "air.formula.air_changes": "flow × 60 ÷ volume",
    "air.validity.air_changes": (
        "With the flow measured at the duct's end. How much of it reaches each corner is another matter."
    ),
    "air.working.purge_changes": "Air changes that a purge takes",
    "air.formula.purge_changes": "mixing factor × ln((start − supply) ÷ (target − supply))",
    "air.validity.purge_changes": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. No source inside. Only a reading allows."
    ),
    "air.working.purge_time": "Time that a purge takes",
    "air.formula.purge_time": "mixing factor × volume ÷ flow × ln((start − supply) ÷ (target − supply))",
    "air.validity.purge_time": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. Flow measured at the duct's end, no source "
        "inside. Only a reading allows."
    ),
    "air.working.steady_state": "Level that a steady source keeps up",
    "air.formula.steady_state": "supply + source × mixing factor ÷ flow × 1,000,000",
    "air.validity.steady_state": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. A steady source, after a long time."
    ),
    "air.working.flow_needed": "Flow that keeps a steady source at a limit",
    "air.formula.flow_needed": "mixing factor × source ÷ (limit − supply) × 1,000,000",
    "air.validity.flow_needed": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. At the limit, not under it. Only a reading "
        "allows."
    ),
    "air.working.build_up_time": "Time until a source has filled a space to a level",
    "air.formula.build_up_time": (
        "−volume ÷ Q × ln((source − Q × level) ÷ (source − Q × start)), Q = flow ÷ mixing factor"
    ),
    "air.validity.build_up_time": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. A steady source; near it the level is reached "
        "sooner."
    ),
    "air.working.level_after": "Level after a time of ventilation",
    "air.formula.level_after": (
        "supply + (start − supply) × e^(−n t) + source ÷ (n × volume) × (1 − e^(−n t)), "
        "n = flow ÷ mixing factor ÷ volume"
    ),
    "air.validity.level_after": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. It goes to what supply and source keep up, "
        "not to 0. Only a reading allows."
    ),
    "air.working.vapor_source": "Vapor from a liquid that evaporates",
    "air.formula.vapor_source": "liters × density ÷ molar mass × molar volume",
    "air.validity.vapor_source": "Ideal gas at 101,325 Pa.",
    # the acceptable entry figure
    "air.entry.figure": "{gas}: each reading is held to {ppm} ppm, by {basis}.",
    "air.entry.none_exists": "{gas}: no exposure limit exists. Oxygen and the flammable gas reading govern.",
    "air.entry.not_found": (
        "{gas}: no exposure limit that this form goes by was found. Enter one with its source, and who entered it."
    ),
    # the fit of a purge
    "air.decay.too_few": (
        "Cannot tell: {used} readings count, and it takes {fewest}. Take more at the same point, each with its time."
    ),
    "air.decay.not_falling": (
        "Not falling: {used} readings show no fall beyond their scatter. Look for a source, a short circuit of the air "
        "or a stopped fan."
    ),
    "air.decay.falling": "Falling: {used} readings, effective air changes {changes} an hour.",
    "air.rebound.too_few": (
        "Cannot tell: {used} readings count, and it takes {fewest}. Take more at the same point with the fan stopped."
    ),
    "air.rebound.no_rise": "No rise: {used} readings show none beyond their scatter.",
    "air.rebound.rising": "Rising after the fan stopped: {used} readings show a source of {source} m³/min.",
    "air.working.decay_rate": "Decay constant from readings",
    "air.formula.decay_rate": "best steady + height × e^(−rate × time) through the readings",
    "air.validity.decay_rate": ("95 % interval. A constant source, one point, an even flow. Only a reading allows."),
    "air.working.effective_changes": "Effective air changes an hour from readings",
    "air.formula.effective_changes": "decay constant × 60",
    "air.validity.effective_changes": (
        "95 % interval. A constant source, one point, an even flow. Only a reading allows."
    ),
    "air.working.fitted_mixing": "Mixing factor from readings",
    "air.formula.fitted_mixing": "flow ÷ (volume × decay constant)",
    "air.validity.fitted_mixing": (
        "Mixing factor 1 or more: effective flow = flow ÷ mixing factor. Under 1 the flow or the volume is wrong. "
        "95 % interval."
    ),
    "air.working.fitted_steady": "Level that the readings fall toward",
    "air.formula.fitted_steady": "steady level of the best curve",
    "air.validity.fitted_steady": "What a constant source keeps up at this flow, with no interval of its own.",
    "air.working.time_to": "When a falling level will meet a target",
    "air.formula.time_to": "first + ln(height ÷ (target − steady)) ÷ decay constant",
    "air.validity.time_to": "95 % interval. It says when to read again. Only a reading allows.",
    "air.working.rebound": "Strength of the source from the rise after the fan stopped",
    "air.formula.rebound": "volume × slope of the readings ÷ 1,000,000",
    "air.validity.rebound": (
        "95 % interval. At least this much: what leaks out or has spread unevenly is not seen. For the first rise only."
    ),
    "air.input.efficiency": "mixing efficiency of the text",
    "air.input.fan_flow": "flow of the fan, measured at the duct's end",
    "air.input.volume_of_space": "volume of the space",
    "air.input.start": "level at the start",
    "air.input.target": "target level",
    "air.input.mixing": "mixing factor, 1 or more",
    "air.input.supply": "level in the supplied air",
    "air.input.source": "source inside",
    "air.input.liters_min": "liquid that evaporates",
    "air.input.density": "density of the liquid",
    "air.input.molar_mass": "molar mass",
    "air.input.resolution": "step of the instrument's display",
    "air.input.oxygen": "oxygen",
    "air.input.base": "fresh air oxygen at this space",
    "air.input.tolerance": "tolerance of the oxygen reading",
    "air.input.water": "extra water vapor",
    "air.unknown": "not known, nothing taken off",
    "air.input.outside_celsius": "temperature at set-up",
    "air.input.outside_humidity": "relative humidity at set-up",
    "air.input.inside_celsius": "temperature inside",
    "air.input.inside_humidity": "relative humidity inside",
    "air.input.humidity": "relative humidity",
    "air.input.water_share": "share of water in the air",
    "air.input.measured_any": "measured gas",
    "air.input.measured": "gas that another sensor measured",
    "air.input.pressure": "air pressure",
    "air.input.altitude": "altitude",
    "air.input.hose": "hose length",
    "air.input.bore": "hose bore",
    "air.input.flow": "pump flow",
    "air.input.flushes": "flushes",
    "air.input.response": "response time",
    "air.input.percent_lel": "flammable gas reading",
    "air.input.lel": "LEL",
    "air.input.limit": "limit",
    "air.input.temperature": "temperature",
    "air.input.share_of": "{gas}: share of the fuel",
    "air.input.uel_of": "{gas}: UEL",
    "air.input.volume_of": "{gas}: measured",
    "air.input.inert_of": "{gas}: share of the inert gas",
    "air.input.coefficient_of": "{gas}: coefficient against nitrogen",
    "air.input.share": "share of each fuel",
    "air.input.uel": "UEL of each fuel",
    "air.input.volume": "measured volume of each gas",
    "air.input.inert": "share of each inert gas",
    "air.input.coefficient": "coefficient of an inert gas against nitrogen",
    "air.input.uel_alone": "UEL",
    "air.input.ionization": "ionization energy",
    "air.input.substance": "substance, by name, formula or CAS number",
    "air.input.adopted": "adopted limit, such as OSHA or NIOSH TWA",
    "air.input.wanted_lel": "other LEL",
    "air.input.sheet": "the maker's sheet",
    "air.input.sheet_date": "date of the maker's sheet",
    "air.input.depth": "floor below the portal",
    "air.input.level_depth": "today's level below the portal",
    "air.input.reading": "reading with its minute",
    "air.input.until": "minute up to which it counts",
    "air.input.every": "interval of a log",
    "air.input.span": "minutes at a level",
    "air.input.gas": "gas with its figures",
    "air.input.kind": "kind of limit: TWA, STEL, ceiling",
    "air.input.vapor": "vapor",
    "air.input.factor": "maker's factor for this vapor",
    "air.input.heat": "heat of combustion",
    "air.input.fuel": "fuel",
    "air.input.tube_oxygen": "printed limiting oxygen of a narrow tube",
    "air.input.oxygen_per_fuel": "oxygen that burns one part of fuel",
    "air.input.lel_of": "{gas}: LEL",
    # workings by name: how they are asked for, what was wrong, how they are told
    "air.workings.figure": "FIGURE",
    "air.workings.word": "WORD",
    "air.workings.gas": "GAS",
    "air.workings.many": " (may come many times)",
    "air.workings.optional": " (may be left out)",
    "air.workings.example": "Example: {example}",
    "air.workings.no_such": "There is no working named “{name}”. Type: lamproom working",
    "air.workings.no_such_near": "There is no working named “{name}”. Near it: {near}.",
    "air.workings.no_sign": "“{text}” has no equals sign. Type the name, = and the figure together.",
    "air.workings.no_key": "{name} does not ask for “{key}”. It asks for: {known}.",
    "air.workings.missing": "{key} is missing ({what}). Type it as {written}.",
    "air.workings.twice": "{key} was given twice. Give it once.",
    "air.workings.gas_twice": "{key} names one gas twice. Give each gas once.",
    "air.workings.parts": "“{text}” is not whole. Type it as {written}.",
    "air.workings.unreadable": "{key}: {why}",
    "air.workings.several": "{n} things are wrong. {all}",
    "air.workings.too_large": "These figures are too large or too small for {name}. Check them and their units.",
    "air.told.result": "  result: {result}",
    "air.told.interval": "  95 % interval: {low} to {high}",
    "air.told.open": "without end",
    "air.told.formula": "  formula: {formula}",
    "air.told.input": "  {name}: {value}",
    "air.told.input_from": "  {name}: {value} ({source})",
    "air.told.source": "  source: {source}",
    "air.told.holds": "  holds: {validity}",
    # how a gas is named to people
    "air.gas.oxygen": "Oxygen",
    "air.gas.flammable": "Flammable gas",
    "air.gas.hydrogen-sulfide": "Hydrogen sulfide",
    "air.gas.carbon-monoxide": "Carbon monoxide",
    "air.gas.carbon-dioxide": "Carbon dioxide",
    "air.gas.methane": "Methane",
    "air.gas.nitrogen": "Nitrogen",
    "air.gas.argon": "Argon",
    "air.gas.hydrogen": "Hydrogen",
    "air.gas.ammonia": "Ammonia",
    "air.gas.chlorine": "Chlorine",
    "air.gas.sulfur-dioxide": "Sulfur dioxide",
    "air.gas.benzene": "Benzene",
    "air.gas.toluene": "Toluene",
    "air.gas.gasoline-vapor": "Gasoline vapor",
    "air.gas.nitric-oxide": "Nitric oxide",
    "air.gas.nitrogen-dioxide": "Nitrogen dioxide",
    "air.gas.hydrogen-cyanide": "Hydrogen cyanide",
    "air.gas.phosphine": "Phosphine",
    "air.gas.propane": "Propane",
    "air.gas.n-butane": "n-butane",
    "air.gas.n-pentane": "n-pentane",
    "air.gas.n-hexane": "n-hexane",
    "air.gas.n-heptane": "n-heptane",
    "air.gas.n-octane": "n-octane",
    "air.gas.o-xylene": "o-xylene",
    "air.gas.styrene": "Styrene",
    "air.gas.methanol": "Methanol",
    "air.gas.ethanol": "Ethanol",
    "air.gas.isopropanol": "Isopropanol",
    "air.gas.acetone": "Acetone",
    "air.gas.methyl-ethyl-ketone": "Methyl ethyl ketone",
    "air.gas.ethyl-acetate": "Ethyl acetate",
    "air.gas.ethylene": "Ethylene",
    "air.gas.acetylene": "Acetylene",
    "air.gas.ethylene-oxide": "Ethylene oxide",
    "air.gas.vinyl-chloride": "Vinyl chloride",
    "air.gas.hydrogen-chloride": "Hydrogen chloride",
    "air.gas.ozone": "Ozone",
    "air.gas.methyl-mercaptan": "Methyl mercaptan",
    "air.gas.carbon-disulfide": "Carbon disulfide",
    "air.gas.helium": "Helium",
    "air.gas.dichloromethane": "Dichloromethane",
    "air.gas.trichloroethylene": "Trichloroethylene",
    "air.gas.formaldehyde": "Formaldehyde",
    "air.gas.isobutylene": "Isobutylene",
    "air.gas.methyl-bromide": "Methyl bromide",
    "air.gas.diesel-vapor": "Diesel vapor",
}
