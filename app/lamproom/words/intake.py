"""Sentences about documents that are read from files."""

SENTENCES: dict[str, str] = {
    "intake.unreadable": "The document cannot be read. {first} ({more} more like it.)",
    "intake.why.long": "It is longer than 5,000,000 characters.",
    "intake.why.json": "It is no JSON from line {line}, column {column} on. Mend it there.",
    "intake.why.deep": "It is nested too deeply.",
    "intake.why.no_object": "It must begin with {{ and hold one permit.",
    "intake.why.constant": "{word} is no figure. Write the digits.",
    "intake.why.twins": "Field {field} stands twice in one place. Keep one.",
    "intake.why.zone": "no time zone of that name is known",
    "intake.why.deep_space": "write meters, more than 0 and at most {most}",
    "intake.why.blank": "it is blank",
    "intake.why.no_retest": "name at least one depth that is tested again during work",
    "intake.why.century": "no permit of this century has it",
    "intake.fault.unknown": "Field {field} is not known here. Take it out, or spell it as the schema does.",
    "intake.fault.missing": "Field {field} is missing.",
    "intake.fault.wrong": "Field {field}: {why}.",
    "intake.fault.twice": "{field}: {id} stands for two. Give each its own.",
}
