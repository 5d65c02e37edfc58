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
}
