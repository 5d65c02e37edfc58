"""Take the record out: the whole site as an open bundle, or a verified copy of its file."""

from __future__ import annotations

from pathlib import Path

from lamproom.office.office import Office
from lamproom.record.backup import Backup, back_up
from lamproom.record.export import Export
from lamproom.record.export import export as export_journal
from lamproom.record.sqlite import SqliteJournal
from lamproom.words import Refusal, sentence


def export_site(office: Office, target: Path) -> Export:
    """Every event as signed, every page and certificate, with a manifest; the same input gives the same bytes."""
    return export_journal(office.journal, target)


def back_up_site(office: Office, target: Path) -> Backup:
    """A verified copy of the site's file under a new name. Refused for a site that is not kept in a file."""
    if not isinstance(office.journal, SqliteJournal):
        raise Refusal(sentence("office.not_in_file"))
    return back_up(office.journal, target)
