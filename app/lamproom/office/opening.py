"""The only file that knows all real parts: store, clock, keys, folders, forms. Tests give it others."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from platformdirs import user_data_dir

from lamproom.office.clock import Clock, MachineClock
from lamproom.office.device import DeviceSecret, device_secret, of_this_computer
from lamproom.office.key_box import USUAL, Hardness
from lamproom.office.keys import KeyRing
from lamproom.office.office import Office
from lamproom.record.journal import Journal
from lamproom.record.memory import MemoryJournal
from lamproom.record.opening import open_journal

FORM_FOLDERS = (Path(__file__).parents[3] / "forms", Path(__file__).parents[1] / "forms")
"""Where the forms lie: in the checkout, or beside the package once it is packed."""


def site_folder() -> Path:
    """The folder of the site when none is named: the platform's place for a user's data."""
    return Path(user_data_dir("lamproom", appauthor=False)) / "site"


def forms_at_hand(folder: Path | None = None) -> Mapping[str, str]:
    """The texts of all forms, by id (the file's name): the program's own, then those in the site's folder."""
    texts: dict[str, str] = {}
    for place in (*FORM_FOLDERS, *((folder / "forms",) if folder else ())):
        for file in sorted(place.glob("*.toml")):
            texts[file.stem] = file.read_text(encoding="utf-8")
    return texts


def open_office(
    folder: Path | None = None,
    clock: Clock | None = None,
    secret: DeviceSecret | None = None,
    hardness: Hardness = USUAL,
    station: str = "",
) -> Office:
    """A site on this machine, from its folder. Refused, with what to do, when the folder or file cannot be used."""
    folder = folder or site_folder()
    journal = open_journal(folder)
    name = station or journal.settings().get("station", "") or "station-1"
    if "station" not in journal.settings():
        journal.put_setting("station", name)
    return _joined(
        journal, clock or MachineClock(), secret or of_this_computer(), hardness, name, forms_at_hand(folder)
    )


def open_in_memory(clock: Clock, secret: DeviceSecret, hardness: Hardness, station: str = "station-1") -> Office:
    """The same house on a journal in memory: for tests and for trying a permit from a file."""
    return _joined(MemoryJournal(), clock, secret, hardness, station, forms_at_hand())


def in_folder(folder: Path) -> DeviceSecret:
    """A device secret of its own in a folder: for demo and tests, so that they never touch the user's."""
    return device_secret(folder)


def _joined(
    journal: Journal, clock: Clock, secret: DeviceSecret, hardness: Hardness, station: str, forms: Mapping[str, str]
) -> Office:
    return Office(journal, clock, KeyRing(journal, secret, hardness), station, forms)
