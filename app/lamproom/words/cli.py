"""Sentences of the command line."""

SENTENCES: dict[str, str] = {
    "cli.about": (
        "Confined-space entry permits: is the instrument fit, what is in the air, who is inside, when must we stop. "
        "Without a command the window opens."
    ),
    "cli.site": "the folder of the site (otherwise the user's own)",
    "cli.demo": "live an invented shift; without --out its site then opens in the window",
    "cli.demo_out": "live it without a window and leave site, PDFs and export in this folder",
    "cli.verify": ("is a permit's PDF genuine? Exit 0 genuine, 1 altered, 2 unreadable, 3 origin not confirmed"),
    "cli.root": "the fingerprint of the site's authority, as printed or told by the site",
    "cli.json": "answer as JSON",
    "cli.working": "work out one figure about the air by its name, with its formula, inputs and source",
    "cli.working_more": (
        "lamproom working NAME KEY=FIGURE ... works one thing out; with NAME --help it tells what it asks for. Names:"
    ),
    "cli.export": "take the whole record out as an open bundle (a folder, or a file that ends in .zip)",
    "cli.backup": "write a verified copy of the site's file under a new name",
    "cli.self_test": "try everything this program needs on this machine",
    "cli.demo_left": "The shift is lived. In {folder}:",
    "cli.verdict.0": "{file}: genuine",
    "cli.verdict.1": "{file}: ALTERED",
    "cli.verdict.2": "{file}: cannot be read",
    "cli.verdict.3": "{file}: unaltered, origin not confirmed",
    "cli.found.right": "[right]",
    "cli.found.wrong": "[WRONG]",
    "cli.found.unknown": "[not known]",
    "cli.cannot_read": "{file} cannot be read: {why}. Name a file that exists and that you may read.",
    "cli.exported": "{count} entries written to {target}.",
    "cli.backed_up": "{count} entries copied to {target} and verified.",
    "cli.self_test_passed": "Everything this program needs works here.",
    "cli.self_test_failed": "Something this program needs does not work here. Use paper until it is mended.",
    "cli.assess": "judge a permit that is told in a JSON document",
    "cli.assess_more": "Judge a permit told in a JSON document. Exit 0 allowed, 1 refused, 2 unreadable.",
    "cli.assess_file": "the document, or - for standard input",
    "cli.assess_example": "print a complete permit that is allowed",
    "cli.assess_schema": "print the JSON Schema of the document",
    "cli.assess_stage": "what is asked; otherwise the next act open in the permit's state",
    "cli.assess_at": "the moment asked about, ISO 8601 with its offset; otherwise the document's own",
    "cli.assess_what": "Name a document, or - for standard input; --example prints one.",
    "cli.no_text": "{file} is no text in UTF-8.",
    "cli.no_moment": "{text} is no moment. Write it as 2026-11-17T09:30:00-06:00.",
}
