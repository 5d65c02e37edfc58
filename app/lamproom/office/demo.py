"""The invented shift, lived through the office: into a folder with its papers, or dated to end before now."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import mkdtemp
from zoneinfo import ZoneInfo

from lamproom.office import replay
from lamproom.office.clock import HandClock, MachineClock
from lamproom.office.export import export_site
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import in_folder, open_office
from lamproom.office.pages import draft_pdf, file_name, filed_pdf, posted_on
from lamproom.office.shift_table import Row, rows_of
from lamproom.words import Refusal, say, sentence

DEMO_FOLDERS = (Path(__file__).parents[3] / "demo", Path(__file__).parents[1] / "demo")
"""Where the invented site lies: in the checkout, or beside the package once it is packed."""

FIXED_DAY = date(2026, 11, 17)
"""The day of the shift when it is lived for its papers, so that they are the same every time."""

Told = Callable[[str], None]


def demo_text(name: str) -> str:
    """A file of the invented site, as text. Refused when the program was installed without it."""
    for folder in DEMO_FOLDERS:
        if (folder / name).exists():
            return (folder / name).read_text(encoding="utf-8")
    raise Refusal(sentence("office.demo_missing"))


def shift_in(folder: Path, day: date) -> replay.Shift:
    """A shift about to be lived in a fresh folder: its own site, clock and device secret, never the user's."""
    site = replay.read_site(demo_text("site.toml"))
    begins = datetime.combine(day - timedelta(days=1), replay.SET_UP_AT, ZoneInfo(site["zone"]))
    clock = HandClock(begins.astimezone(UTC))
    office = open_office(folder / "site", clock, in_folder(folder / "machine"), CHEAPEST)
    return replay.Shift(site, day, clock, office)


def demo_in(folder: Path, told: Told) -> tuple[Path, ...]:
    """Live the shift on its fixed day and leave its papers: authorized, posted and ended pages, the refused draft, the
    export. Refused for a folder that already holds a site."""
    if (folder / "site").exists():
        raise Refusal(sentence("office.demo_folder", folder=str(folder)))
    folder.mkdir(parents=True, exist_ok=True)
    shift = shift_in(folder, FIXED_DAY)
    papers = folder / "papers"
    papers.mkdir(exist_ok=True)
    left: list[Path] = []

    def after(row: Row) -> None:
        told(_line(row))
        if row.act == "authorise" and row.get("refused") != "yes":
            number = shift.permit(row)
            posted = posted_on(shift.office, number)
            left.append(_put(papers / file_name(shift.office, number, "posted"), posted.pdf))
            if posted.said:
                told(posted.said)
            left.append(_put(papers / file_name(shift.office, number, "authorised"), filed_pdf(shift.office, number)))
        if row.act == "authorise" and row.get("refused") == "yes":
            number = shift.permit(row)
            left.append(_put(papers / file_name(shift.office, number, "draft"), draft_pdf(shift.office, number)))
        if row.act == "close out":
            number = shift.permit(row)
            left.append(
                _put(papers / file_name(shift.office, number, "ended"), filed_pdf(shift.office, number, "ended"))
            )
            left.append(_put(papers / file_name(shift.office, number, "closed-out"), filed_pdf(shift.office, number)))

    replay.set_up(shift)
    replay.live(shift, demo_text("day.txt"), after)
    left.append(export_site(shift.office, folder / "export.zip").where)
    told(say("office.demo_root", root=shift.office.site.begun.authority if shift.office.site.begun else ""))
    shift.office.journal.close()
    return tuple(left)


def _put(file: Path, content: bytes | None) -> Path:
    file.write_bytes(content or b"")
    return file


def _line(row: Row) -> str:
    return f"{row.at.strftime('%H:%M:%S')}  {row.who:<6} {row.act}" + (
        f", permit {row['permit']}" if "permit" in row.details else ""
    )


def fresh_demo(told: Told, folder: Path | None = None) -> Office:
    """Live the shift dated to end before now, in a folder of its own, then open that site on this machine's clock."""
    folder = folder or Path(mkdtemp(prefix="lamproom-demo-"))
    zone = ZoneInfo(replay.read_site(demo_text("site.toml"))["zone"])
    table = demo_text("day.txt")
    now = MachineClock().sample().wall
    last = max(row.at for row in rows_of(table))
    today = now.astimezone(zone).date()
    day = today if datetime.combine(today, last, zone) < now else today - timedelta(days=1)
    shift = shift_in(folder, day)
    told(say("office.demo_begins", folder=str(folder)))
    replay.set_up(shift)
    replay.live(shift, table, lambda row: told(_line(row)))
    shift.office.journal.put_setting("person", shift.site["founder"])
    shift.office.journal.put_setting("demo", "yes")
    shift.office.journal.close()
    codes = ", ".join(f"{p['name']}: {p['code']}" for p in shift.site["people"] if "code" in p)
    told(say("office.demo_codes", codes=codes))
    return open_office(folder / "site", None, in_folder(folder / "machine"), CHEAPEST)
