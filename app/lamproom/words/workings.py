"""Sentences of the workings: the slip behind a figure, the purge curve, and the place to try a working."""

SENTENCES: dict[str, str] = {
    # any working as a slip
    "workings.formula": "Formula: {formula}",
    "workings.readings": "Readings",
    "workings.timed": "{minutes} min {level}",
    "workings.result": "Result",
    "workings.interval": "95 % interval",
    "workings.ends": "{a} to {b}",
    "workings.no_end": "no upper end",
    "workings.between": "95 %: {low} to {high}",
    # behind an oxygen figure
    "workings.oxygen.missing": "Missing oxygen",
    "workings.oxygen.water": "Water vapor",
    "workings.oxygen.up_here": "At this altitude",
    "workings.oxygen.altitude": "Altitude, as registered",
    "workings.oxygen.pressure": "Air pressure there",
    "workings.oxygen.part": "Part that is oxygen",
    # behind a flammable or toxic figure
    "workings.gas.against": "Against its limit",
    "workings.gas.void": "Counts as not taken. {why}",
    "workings.gas.share_how": "{level} ÷ {limit}",
    "workings.gas.reads": "Reading",
    "workings.gas.not_adopted": "{basis}, not adopted",
    "workings.gas.from_memory": "{source}; from memory",
    "workings.gas.as": "As {gas}",
    "workings.gas.hidden": "What it can hide",
    "workings.gas.hidden_title": "At 10 % of the LEL of each vapor that only this sensor sees",
    "workings.gas.hidden_how": "{ppm} at a LEL of {lel} % vol; limit {limit}",
    "workings.gas.times": "{n} times",
    "workings.gas.hidden_aside": (
        "A flammable reading of 0 says nothing of these. Measure each by a method of its own."
    ),
    "workings.gas.published": "Published limits",
    "workings.gas.published_title": "Published limits of {gas}",
    "workings.gas.lawful": "Strictest by law",
    "workings.gas.published_aside": "Each reading is held to the figure of the form, whatever the averaging here.",
    # the wait and the points of a test
    "workings.test.wait": "The wait",
    "workings.test.points": "Why these points",
    "workings.test.points_title": "Working: the points of this test",
    # where vapors tend
    "workings.tends.lighter": "{gas} tends up: {density} of the density of air",
    "workings.tends.like": "{gas} goes nowhere by its weight: {density} of the density of air",
    "workings.tends.heavier": "{gas} tends down: {density} times the density of air",
    "workings.tends.short.lighter": "{density}, lighter",
    "workings.tends.short.like": "{density}, like air",
    "workings.tends.short.heavier": "{density}, heavier",
    "workings.tends.gas": "{gas}, {formula}",
    "workings.tends.how": "{mass} ÷ 28.964",
    "workings.tends.name": "Where vapors tend",
    "workings.tends.title": "Working: density of each vapor against air",
    "workings.tends.caution": "Gases mix: test every point.",
    # the trend, beside the plot
    "workings.trend.rising": "{gas} {place} is rising: {limit} about {time} at this pace.",
    "workings.trend.falling": "{gas} {place} is falling: {limit} about {time} at this pace.",
    "workings.trend.by_now": (
        "{gas} {place} may have met {limit} by now, at the pace of the last readings. Read it again."
    ),
    "workings.trend.unmoved": "{gas} {place} has read {figure} {n} times in a row. Check that the display still moves.",
    "workings.trend.jump": (
        "{gas} {place}: from {before} to {figure} is faster than its sensor can follow. Read it again."
    ),
    "workings.trend.disagree": (
        "Oxygen {oxygen} and flammable gas {flammable} {place} cannot both be right. Read both with another instrument."
    ),
    # the purge
    "workings.purge.name": "Purge curve",
    "workings.purge.title": "{gas} {place} since the fan started at {start}",
    "workings.purge.working": "Working: the curve through these readings",
    "workings.purge.limit": "limit {figure}",
    "workings.purge.missing": "Missing oxygen",
    "workings.purge.mark": "{time}: {level}",
    "workings.purge.cannot_tell": (
        "Cannot tell yet: {used} of {fewest} readings count. Read this point again, and note the time."
    ),
    "workings.purge.never": "{why} By these readings a source keeps it from {limit}: find it and stop it.",
    "workings.purge.meets": "{limit} is met about {at}, between {low} and {high} by these readings. Read again then.",
    "workings.purge.meets_open": (
        "{limit} is met about {at}, by these readings not before {low} and perhaps never. Read again then."
    ),
    "workings.purge.another_day": "another day",
    "workings.purge.changes": "Effective air changes",
    "workings.purge.mixing": "Mixing factor, 1 or more",
    "workings.purge.steady": "Falls toward",
    "workings.purge.meets_after": "Limit met after",
    "workings.purge.aside": "It says when to read again. Only a reading allows.",
    "workings.purge.back": "Back to the test",
    # a fan planned with figures
    "workings.plan.open": "Plan with figures",
    "workings.plan.note": (
        "For planning alone: how often the fan changes the air, and how long a purge may take. Only a reading allows."
    ),
    "workings.plan.flow": "Flow at the duct's end",
    "workings.plan.volume": "Volume of the air",
    "workings.plan.mixing": "Mixing factor, 1 or more",
    "workings.plan.start": "Level now",
    "workings.plan.target": "Level to reach",
    "workings.plan.missing": "Type the figure.",
    "workings.plan.missing_too": "The time of a purge needs all three.",
    "workings.plan.changes": "Air changes",
    "workings.plan.time": "Time of a purge",
    # to try one without a permit
    "workings.try.gas": "Gas",
    "workings.try.many": "{what}, one a row",
    "workings.try.missing": "{what} is missing. Type it.",
    "workings.try.no_row": "Type at least one row of: {what}.",
    "workings.try.do": "Work it out",
    "workings.try.clear": "Clear",
    "workings.try.add": "One more row",
    "workings.try.note": "For trying out. Nothing here is recorded, and no permit sees it.",
    "workings.try.showing": "For showing, never for permitting. Nothing here is recorded, and no permit sees it.",
    "workings.try.showing_short": "for showing, never for permitting",
}
