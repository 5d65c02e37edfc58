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
