"""Sentences of the room 'record': why something was not stored, and what a check of the record found."""

SENTENCES: dict[str, str] = {
    # Nothing was stored, and the user can act.
    "record.overtaken": (
        "Not recorded: {stream} has changed. You saw {seen} entries, it now has {now}. "
        "Look at it again, then repeat what you did."
    ),
    "record.repeated_otherwise": (
        "Not recorded: this act ({act}) is already stored with other contents. Start the act again from its beginning."
    ),
    "record.disk_full": (
        "Not recorded: the disk that holds {where} is full. Free some space and try again. Until then use paper."
    ),
    "record.locked": (
        "Not recorded: another program has kept {where} busy for {seconds} seconds. "
        "Close the other program and try again."
    ),
    "record.read_only": (
        "Not recorded: {where} cannot be written to. Allow writing to its folder, or choose another folder. "
        "Until then use paper."
    ),
    "record.cannot_open": (
        "{where} cannot be opened. Check that its folder exists and that you may write to it. Until then use paper."
    ),
    "record.disk_error": (
        "The disk failed at {where} ({cause}). Whether the last act was recorded is not known, so the record is "
        "closed. Entry is not allowed; use paper. Check the disk, then start Lamproom again."
    ),
    "record.closed": (
        "The record {where} is closed, and nothing more is stored. Entry is not allowed; use paper. "
        "Start Lamproom again to check the record."
    ),
    "record.damaged": (
        "The record {where} is damaged ({cause}). Nothing was changed. Keep the file as it is, "
        "and restore the newest backup into another folder. Until then use paper."
    ),
    "record.page_altered": (
        "The filed page {name} is not the page that was filed: its fingerprint no longer fits. "
        "Take the page from a backup, and have the record checked."
    ),
    "record.not_ours": (
        "{where} is a database of another program, not a record of Lamproom. Nothing was changed. "
        "Choose another folder."
    ),
    "record.newer": (
        "The record {where} was written by a newer Lamproom: it has format {found}, this one reads up to {known}. "
        "Nothing was changed. Install the newer Lamproom."
    ),
    "record.remote": (
        "{where} lies on a network folder ({type}), where a record can be damaged without notice. "
        "Choose a folder on a disk of this computer."
    ),
    "record.old_library": (
        "The built-in database is version {found}; a record needs {needed} or newer. Install Lamproom again."
    ),
    "record.setting_not_held": (
        "The record {where} cannot be kept durably here: {name} is {found} instead of {wanted}. "
        "Choose a folder on a disk of this computer."
    ),
    # Something read that cannot be understood.
    "record.unreadable": "The entry cannot be read: {cause}.",
    "record.unreadable.not_utf8": "it is not text (byte {at})",
    "record.unreadable.not_json": "it is not well formed (character {at})",
    "record.unreadable.too_deep": "it is nested too deeply",
    "record.unreadable.twice": "'{name}' stands in it twice",
    "record.unreadable.number": "it holds the number {number}, which is not a whole number of the allowed size",
    "record.unreadable.fields": "fields missing: {missing}; fields unknown: {unknown}",
    "record.unreadable.none": "none",
    "record.unreadable.value": "'{name}' holds a value that does not belong there",
    "record.unreadable.other_writing": "it is not written in the one way that entries are written",
    "record.certificate": (
        "A certificate cannot be used to check signatures: it must be an X.509 certificate with an ECDSA P-256 key."
    ),
    # What a check of the record found.
    "record.flaw.gap": "Entry {number} stands where entry {expected} should: entries are missing or out of order.",
    "record.flaw.chain": "Entry {number} does not continue the entry before it: the record was changed here.",
    "record.flaw.version": (
        "{stream}: entry {version} stands where its entry {expected} should: entries are missing or out of order."
    ),
    "record.flaw.previous": (
        "{stream}, entry {version} does not continue the entry before it: the record was changed here."
    ),
    "record.flaw.body": "{stream}, entry {version} was changed after it was signed.",
    "record.flaw.unreadable": "{stream}, entry {version}: {cause}",
    "record.flaw.columns": "{stream}, entry {version} is filed under other words than those signed: {names}.",
    "record.flaw.signature": "{stream}, entry {version}: the signature does not fit.",
    "record.flaw.key": "{stream}, entry {version} is signed with a key this site does not know ({key}).",
    "record.flaw.witness": (
        "The record once reached entry {number} with fingerprint {print}. It no longer does: "
        "its end was cut off, or an older copy was put back."
    ),
    "record.flaw.page": "{name} is not the file that was exported: {found}.",
    "record.flaw.page.missing": "it is missing",
    "record.flaw.page.changed": "its contents were changed",
    "record.flaw.page.extra": "it was added later",
    "record.flaw.manifest": "The list of contents (manifest.json) cannot be read.",
    "record.flaw.repacked": "The ZIP was changed or packed anew: its bytes are not those that were exported.",
    "record.flaw.line": "Line {line} of journal.jsonl cannot be read.",
    "record.flaw.head": "The export should end with entry {number}, fingerprint {print}; it does not.",
    # Backup and export.
    "record.exists": "{where} already exists. Nothing was written. Choose a new name.",
    "record.backup_failed": (
        "The backup {where} does not read back as it was written ({cause}), so it was removed. "
        "Try another disk, and have the record checked."
    ),
    "record.backup_short": "it ends at entry {found} instead of {wanted}",
    "record.not_an_export": "{where} is not an export of Lamproom: {cause}.",
    "record.not_an_export.no_manifest": "it has no list of contents (manifest.json)",
    "record.not_an_export.no_zip": "it is neither a folder nor a ZIP file that can be read",
    "record.not_an_export.too_large": "it holds more than {limit}",
    "record.cannot_write": (
        "{where} cannot be written ({cause}). Check the disk and its space, or choose another place."
    ),
    "record.readme": (
        "EXPORT OF A LAMPROOM RECORD\n"
        "\n"
        "This folder holds {entries} entries and {pages} filed pages of one site, up to entry {number}\n"
        "with fingerprint {print}.\n"
        "\n"
        "manifest.json  every file of this export with its size and SHA-256, and the keys of the site.\n"
        "journal.jsonl  one entry on each line, in the order of the site. 'body' is the exact text that was signed;\n"
        "               'hash', 'chain' are hexadecimal, 'signature' is base64 (ECDSA P-256, DER).\n"
        "certificates/  the certificates that check the signatures, named by SHA-256 of the public key.\n"
        "pages/         the filed pages, named by their SHA-256.\n"
        "\n"
        "How to check it without Lamproom, for each line (all texts as UTF-8, \\n is one byte 0A):\n"
        "1. hash  = SHA-256 of 'lamproom event 1\\n' followed by body.\n"
        "2. The signature is over 'lamproom signature 1\\n' followed by the 32 bytes of hash.\n"
        "3. 'previous' in body is the hash of the entry before it in the same stream; zeros for the first.\n"
        "4. chain = SHA-256 of 'lamproom chain 1\\n', the 32 bytes of the chain before (zeros for the first),\n"
        "   the 32 bytes of hash, the bytes of signature, and key as text.\n"
        "5. The chain of the last line is the fingerprint above. Compare it with a printed permit or a backup:\n"
        "   a record that agrees only with itself proves little.\n"
        "\n"
        "Entries name people by number. Names stand on the filed pages, not in the entries.\n"
        "Private keys and half-typed drafts are not part of an export.\n"
    ),
    "record.unknown_kind": (
        "{stream} holds an event of a kind this Lamproom does not know ({kind}, version {version}). "
        "Open the site with the newer Lamproom that wrote it."
    ),
    "record.unreadable_event": (
        "Event {version} of {stream} ({kind}) does not hold what its kind must hold. "
        "Do not rely on it; restore a verified backup."
    ),
}
