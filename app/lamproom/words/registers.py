"""Sentences of the registers and of the first start."""

SENTENCES: dict[str, str] = {
    # what was typed
    "registers.typed.missing": "Type this.",
    "registers.typed.answer": "Answer yes or no.",
    "registers.typed.choose": "Choose one.",
    "registers.typed.choose_some": "Choose at least one.",
    "registers.typed.whole": "Type a whole number above 0.",
    "registers.typed.day": "'{text}' is no day. Type it as 2026-11-25 or 25 Nov 2026.",
    "registers.typed.clock": "'{text}' is no time. Type it as 09:42, hours from 00 to 23.",
    "registers.typed.wrong": "Not recorded yet. To put right: {n}.",
    "registers.day_hint": "2026-11-25",
    "registers.clock_hint": "09:42",
    # roles
    "registers.role.supervisor": "entry supervisor",
    "registers.role.attendant": "attendant",
    "registers.role.entrant": "entrant",
    "registers.role.tester": "tester",
    "registers.role.keeper": "keeper",
    "registers.role.office": "safety office",
    "registers.role_line": "{role}: {does}",
    "registers.role_note.supervisor": "authorizes entry and ends permits",
    "registers.role_note.attendant": "keeps the watch outside",
    "registers.role_note.entrant": "goes in",
    "registers.role_note.tester": "tests the air",
    "registers.role_note.keeper": "keeps instruments, people and codes",
    "registers.role_note.office": "files and reviews permits",
    # first start
    "registers.first.title": "Set up this site",
    "registers.first.what": (
        "Done once. You become the first person of this site and keep the authority that lets others sign."
    ),
    "registers.first.you": "You",
    "registers.first.site": "Site",
    "registers.first.site_name": "Name of the site",
    "registers.first.zone": "Time zone",
    "registers.first.begin": "Begin this site",
    "registers.first.machine_ahead": (
        "This machine's clock runs {minutes} min ahead of your watch. Set the clock of this machine right, then begin."
    ),
    # people
    "registers.person.name": "Name",
    "registers.person.roles": "Roles",
    "registers.person.trainer": "Trained by",
    "registers.person.trained_on": "Trained on",
    "registers.person.code": "Code",
    "registers.person.code_again": "Code again",
    "registers.code_rules": (
        "At least {minimum} characters, digits allowed. No name, no date, no row such as 1 2 3 4. "
        "A code signs for you; tell it to nobody."
    ),
    "registers.codes_differ": "The two codes differ. Type the same code twice.",
    "registers.person.trained": "{role}: {day} by {trainer}",
    "registers.person.trained_until": "{role}: {day} by {trainer}, to {until}",
    # time
    "registers.time.head": "Time",
    "registers.time.zone_first": "Choose the time zone first; then compare with another watch.",
    "registers.time.machine": "This machine says {clock} on {day}. What does another watch say?",
    "registers.time.watch": "Watch",
    "registers.time.day": "Day",
}
