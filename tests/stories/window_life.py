"""The day's rows lived in the real window: each row told to the hands as clicks, keys and ink."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from tests.stories.hands import Hands

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.sound import Pattern, SoundState
from lamproom.desk.watch.watch_screen import WatchScreen
from lamproom.desk.window import MainWindow, screen_of
from lamproom.desk.workbook.workbook_screen import WorkbookScreen
from lamproom.office import replay
from lamproom.office.shift_table import Row

GASES = ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide")


class Loudspeaker:
    """A station that can be heard; it remembers what it was told to play."""

    def __init__(self) -> None:
        self.played: list[Pattern] = []
        self.state = SoundState.READY

    def check(self) -> SoundState:
        return self.state

    def play(self, pattern: Pattern) -> None:
        self.played.append(pattern)

    def stop(self) -> None:
        """Be quiet."""

    def close(self) -> None:
        """Nothing to give back."""


class WindowLife:
    """A shift in a window that stays open. The clock is turned by hand to each row, as time would pass."""

    def __init__(self, shift: replay.Shift) -> None:
        self.shift = shift
        load_fonts()
        self._workbook: WorkbookScreen | None = None
        self.sound = Loudspeaker()
        self.desk = Desk(shift.office)
        self.window = MainWindow(self.desk, self._screen)
        self.window.resize(1366, 768)
        self.window.show()
        self.hands = Hands(self.window)
        self.said: list[tuple[str, str]] = []
        self.desk.said.connect(lambda kind, words: self.said.append((kind, words)))
        self.counts: dict[int, list[str]] = {}
        self.times: dict[int, float] = {}

    def _screen(self, place: str, desk: Desk) -> QWidget:
        """The real screens; the Watch with a loudspeaker, which the machine of the tests has not."""
        made = WatchScreen(desk, self.sound) if place == "watch" else screen_of(place, desk)
        if isinstance(made, WorkbookScreen):
            self._workbook = made
        return made

    def live(self, row: Row) -> None:
        """One row, done by hand at its time; what it cost in inputs is kept by the row's line."""
        before = len(self.hands.inputs)
        heard = len(self.said)
        began = self.hands.seconds
        if row.get("lowered"):
            self._turn_to(row, row["lowered"])
        else:
            self._turn_to(row)
        _ACTS[row.act](self, row)
        refused = [words for kind, words in self.said[heard:] if kind == "refused"]
        assert not refused or row.get("refused") == "yes", f"line {row.line} was refused: {refused}"
        self.counts[row.line] = self.hands.inputs[before:]
        self.times[row.line] = self.hands.seconds - began

    def close(self) -> None:
        """Put the window away."""
        self.window.close()
        self.window.deleteLater()
        self.hands.settle()

    # Time, people, places ---------------------------------------------------------------------------------------------

    def _turn_to(self, row: Row, clock: str = "") -> None:
        """Time passes until the row's moment (or another of its times), and the screens see it pass."""
        shift = self.shift
        at = row.moment(shift.day, shift.office.zone)
        if clock:
            at = shift.at(row, "lowered")
        shift.clock.turn_to(at)
        self.tick()

    def tick(self) -> None:
        self.desk.ticked.emit()
        self.hands.settle()

    def sit(self, row: Row) -> None:
        """The row's person sits down at the desk, by the name in the bar."""
        person = self.shift.person(row.who)
        if self.desk.person != person:
            self.to_bar()
            self.hands.press("window.person")
            self.hands.press(f"person.{person}")

    def to_bar(self) -> None:
        """Leave the Watch, which hides the bar."""
        if self.window.place == "watch":
            self.hands.press("watch.more")
            self.hands.press("watch.more.board")

    def show(self, place: str) -> None:
        """Go to a place by its tab."""
        self.to_bar()
        if self.window.place != place:
            self.hands.press(f"window.{place}")

    def sheet(self, row: Row, sheet: str) -> None:
        """The row's permit in the Workbook, at a sheet, with the row's person at the desk."""
        self.sit(row)
        permit = self.shift.permit(row)
        if self._open[0] != permit:
            self.show("board")
            self.hands.press(f"board.open.{permit}")
        self.show("workbook")
        if self._open[1] != sheet:  # the Workbook goes on by itself where nothing is left to do
            self.hands.press(f"workbook.sheet.{sheet}")

    def watch(self, row: Row) -> None:
        """The row's permit on the Watch."""
        permit = self.shift.permit(row)
        if self.window.place != "watch":
            self.show("board")
            self.hands.press(f"board.open.{permit}")

    @property
    def _open(self) -> tuple[str, str]:
        """The permit and the sheet that the Workbook has open, as a person sees them."""
        return self._workbook.at if self._workbook is not None else ("", "")

    def instrument(self, row: Row, act: str) -> None:
        """The row's instrument at the Bench, at one of its acts."""
        self.sit(row)
        self.show("bench")
        self.hands.press(f"bench.row.{row['instrument']}")
        self.hands.press(f"bench.act.{act}")


# The bench ------------------------------------------------------------------------------------------------------------


def _check(life: WindowLife, row: Row) -> None:
    life.instrument(row, "check")
    hands = life.hands
    for question in ("self-test", "heard", "seen", "felt", "display", "housing", "set-points"):
        hands.press(f"bench.check.{question}.{row[question]}")
    hands.write("bench.check.battery", row["battery-h"])
    if row.get("block-s"):
        from datetime import timedelta

        hands.press("bench.check.block")
        life.shift.clock.pass_time(timedelta(seconds=float(row["block-s"])))
        hands.press("bench.check.block")
    hands.write("bench.check.place", row["place"])
    hands.write("bench.check.why-clean", row["why-clean"])
    hands.write("bench.check.before", row["before"])
    hands.write("bench.check.after", row["after"])
    hands.press(f"bench.check.beside.{row['beside-portal']}")
    hands.press("bench.check.record")


def _bump(life: WindowLife, row: Row) -> None:
    life.instrument(row, "bump")
    life.hands.pick("bench.bump.which", lambda _value, words: row["cylinder"] in words)
    for gas in GASES:
        reading, _, seconds = row[gas].partition(" in ")
        life.hands.write(f"bench.bump.{gas}.reading", reading)
        life.hands.write(f"bench.bump.{gas}.seconds", seconds)
    life.hands.press("bench.bump.record")


# The workbook ---------------------------------------------------------------------------------------------------------


def _open(life: WindowLife, row: Row) -> None:
    life.sit(row)
    life.show("workbook")
    if life.hands.sees("workbook.others"):
        life.hands.press("workbook.others")
    life.hands.press(f"workbook.new.{row['space']}")
    life.shift.permits[row["permit"]] = life.shift.office.ids("permit")[-1]


def _purpose(life: WindowLife, row: Row) -> None:
    life.sheet(row, "space")
    life.hands.write("workbook.space.purpose", row["purpose"])


def _hours(life: WindowLife, row: Row) -> None:
    life.sheet(row, "space")
    life.hands.write("workbook.space.begins", row["begins"])
    life.hands.write("workbook.space.ends", row["ends"])


def _answer(life: WindowLife, row: Row) -> None:
    item = life.shift.office.permit(life.shift.permit(row)).form.item(row["item"])
    assert item is not None
    life.sheet(row, item.sheet)
    name = f"workbook.{item.sheet}.{item.id}"
    if row.get("as-evaluated") == "yes":
        life.hands.press(f"{name}.as-evaluated")
        return
    life.hands.press(f"{name}.{row['answer'].replace(' ', '-')}")
    if row.get("found"):
        life.hands.write(f"{name}.found", row["found"])


def _hazard(life: WindowLife, row: Row) -> None:
    life.sheet(row, "hazards")
    life.hands.press(f"workbook.hazards.{row['hazard']}.as-evaluated")


def _isolate(life: WindowLife, row: Row) -> None:
    life.sheet(row, "isolation")
    name = f"workbook.isolation.{row['point']}"
    owner, second = life.shift.person(row["owner"]), life.shift.person(row["verified-by"])
    life.hands.write(f"{name}.lock", row["lock"])
    life.hands.pick(f"{name}.owner", lambda value, _words: value == owner)
    life.hands.press(f"{name}.dead.{row['dead']}")
    life.hands.pick(f"{name}.verified", lambda value, _words: value == second)


def _name(life: WindowLife, row: Row) -> None:
    life.sheet(row, "people")
    life.hands.press(f"workbook.people.{row['part']}.{life.shift.person(row['person'])}")


def _assign(life: WindowLife, row: Row) -> None:
    life.sheet(row, "instruments")
    name = f"workbook.instruments.{row['instrument']}"
    registered = life.shift.office.instrument(row["instrument"]).registered
    if row["duty"] == "test" and registered is not None and row.get("hose") not in ("", registered.hose_m):
        life.hands.press(f"{name}.other-hose")
        life.hands.write(f"{name}.hose", row["hose"])
        if not life.hands.sees(f"{name}.return"):
            life.hands.press(f"{name}.test")
    else:
        life.hands.press(f"{name}.{row['duty']}")


def _rescue(life: WindowLife, row: Row) -> None:
    life.sheet(row, "rescue")
    life.hands.write("workbook.rescue.answered-by", row["answered-by"])
    life.hands.write("workbook.rescue.until", row["good-until"])
    life.hands.write("workbook.rescue.minutes", row["minutes"])


def _call(life: WindowLife, row: Row) -> None:
    life.sheet(row, "rescue")
    life.hands.press("workbook.rescue.means-as-planned")
    life.hands.write("workbook.rescue.call-answered-by", row["answered-by"])
    life.hands.write("workbook.rescue.seconds", row["seconds"])


def _hose(life: WindowLife, row: Row) -> None:
    life.sheet(row, "instruments")
    name = f"workbook.instruments.{row['instrument']}.leak"
    life.hands.write(name, row["stopped-s"])
    if life.hands.sees(f"{name}.record"):
        life.hands.press(f"{name}.record")


def _level(life: WindowLife, row: Row) -> None:
    life.sheet(row, "isolation")
    if row["depth"] == "dry":
        life.hands.press("workbook.isolation.level.dry")
    else:
        life.hands.write("workbook.isolation.level", row["depth"])
    life.hands.write("workbook.isolation.level.how", row["how"])


def _guard(life: WindowLife, row: Row) -> None:
    life.sheet(row, "isolation")
    life.hands.write("workbook.isolation.open", row["guarded"])


def _fan(life: WindowLife, row: Row) -> None:
    life.sheet(row, "isolation")
    life.hands.write("workbook.isolation.fan", row["flow"])
    life.hands.write("workbook.isolation.fan.intake", row["intake"])
    life.hands.write("workbook.isolation.fan.noticed", row["noticed-by"])


def _read(life: WindowLife, row: Row) -> None:
    if row["phase"] in ("work", "after-break"):
        _read_on_watch(life, row)
        return
    life.sheet(row, "air-test")
    hands = life.hands
    key = {"upwind": "upwind", "through-lid": "lid", "duct": "duct"}.get(row["phase"], f"point/{row.get('at')}")
    place = f"workbook.air-test.place.{key}"
    if not hands.checked(place):
        hands.press(place)
    if hands.sees("workbook.air-test.lowered"):
        hands.press("workbook.air-test.lowered")
    life._turn_to(row)
    for gas in GASES:
        hands.write(f"workbook.air-test.figure.{gas}", row[gas])


def _brief(life: WindowLife, row: Row) -> None:
    life.sheet(row, "people")
    if not life.hands.checked("workbook.people.briefing"):
        life.hands.press("workbook.people.briefing")
    for seed, name in enumerate(row["people"].split(",")):
        life.hands.draw(f"workbook.people.ink.{life.shift.person(name.strip())}", seed + row.line)
    life.hands.press("workbook.people.brief")


def _authorise(life: WindowLife, row: Row) -> None:
    life.sheet(row, "review")
    person = life.shift.person(row.who)
    if row.get("refused") != "yes":
        life.hands.draw("workbook.review.ink", row.line)
        life.hands.write("workbook.review.code", life.shift.code(person))
        life.hands.press_and_answer("workbook.review.authorise", "question.yes")
    else:
        life.hands.press("workbook.review.authorise")
    life.hands.wait_until(
        lambda: row.get("refused") == "yes" or life.shift.office.permit(life.shift.permit(row)).authorised is not None
    )


# The watch ------------------------------------------------------------------------------------------------------------


def _code(life: WindowLife, row: Row, panel: str) -> None:
    """The row's person and code on a panel of authority, then F2; a lone supervisor is chosen already."""
    person = life.shift.person(row.who)
    name = f"watch.{panel}.supervisor.{person}"
    if life.hands.sees(name) and not life.hands.checked(name):
        life.hands.press(f"watch.{panel}.supervisor.{person}")
    life.hands.write(f"watch.{panel}.code", life.shift.code(person))


def _more(life: WindowLife, row: Row, panel: str) -> None:
    life.watch(row)
    life.hands.press("watch.more")
    life.hands.press(f"watch.more.{panel}")


def _next(life: WindowLife, row: Row, panel: str, field: str) -> None:
    """The large key that says what comes next, where it is this; else the way through More."""
    life.watch(row)
    if life.hands.sees("watch.next"):
        life.hands.press("watch.next")
    if not life.hands.sees(f"watch.{panel}.{field}"):
        _more(life, row, panel)


def _read_on_watch(life: WindowLife, row: Row) -> None:
    life.watch(row)
    hands = life.hands
    if not hands.sees("watch.reading.oxygen"):
        hands.key(Qt.Key.Key_F2)
    if row["phase"] == "after-break":
        hands.press("watch.reading.lowered")
        life._turn_to(row)
    for gas in GASES:
        hands.write(f"watch.reading.{gas}", row[gas])
    sets = len(life.shift.office.permit(life.shift.permit(row)).sets)
    hands.key(Qt.Key.Key_F2)
    if len(life.shift.office.permit(life.shift.permit(row)).sets) == sets:
        raise AssertionError(f"line {row.line}: the set was not stored")


def _take(life: WindowLife, row: Row) -> None:
    life.watch(row)
    if not life.hands.sees(f"watch.take.{life.shift.person(row.who)}"):
        _more(life, row, "take")
    life.hands.press(f"watch.take.{life.shift.person(row.who)}")


def _in(life: WindowLife, row: Row) -> None:
    life.watch(row)
    life.hands.press(f"watch.in.{life.shift.person(row['person'])}")


def _out(life: WindowLife, row: Row) -> None:
    life.watch(row)
    life.hands.press(f"watch.out.{life.shift.person(row['person'])}")


def _contact(life: WindowLife, row: Row) -> None:
    life.watch(row)
    life.hands.press("watch.contact")


def _correct(life: WindowLife, row: Row) -> None:
    life.watch(row)
    newest = life.shift.office.permit(life.shift.permit(row)).sets[-1].version
    life.hands.press("watch.log")
    life.hands.press(f"watch.log.{newest}.{row['gas']}")
    life.hands.write("watch.correct.new", row["new"])
    life.hands.press("watch.correct.type")
    life.hands.write("watch.correct.other", row["reason"])
    if life.hands.sees("watch.correct.new"):
        life.hands.key(Qt.Key.Key_F2)


def _break(life: WindowLife, row: Row) -> None:
    _more(life, row, "break")
    life.hands.write("watch.break.guarded", row["guarded"])
    life.hands.write("watch.break.left", row["left"])
    life.hands.press("watch.break.torches")
    life.hands.key(Qt.Key.Key_F2)


def _back(life: WindowLife, row: Row) -> None:
    _next(life, row, "back", "found")
    life.hands.write("watch.back.found", row["isolation-found"])
    life.hands.key(Qt.Key.Key_F2)


def _endorse(life: WindowLife, row: Row) -> None:
    _next(life, row, "endorse", "code")
    _code(life, row, "endorse")
    life.hands.key(Qt.Key.Key_F2)


def _evacuate(life: WindowLife, row: Row) -> None:
    life.watch(row)
    life.hands.press("watch.evacuate")


def _determine(life: WindowLife, row: Row) -> None:
    _next(life, row, "determine", "reason")
    life.hands.write("watch.determine.reason", row["reason"])
    life.hands.press(f"watch.determine.finding.{row['finding']}")
    _code(life, row, "determine")
    life.hands.key(Qt.Key.Key_F2)


def _relieve(life: WindowLife, row: Row) -> None:
    _more(life, row, "relieve")
    person = life.shift.person(row.who)
    for fact in ("inside", "set", "alarms"):
        life.hands.press(f"watch.relieve.{fact}")
    name = f"watch.relieve.who.{person}"
    if life.hands.sees(name) and not life.hands.checked(name):
        life.hands.press(name)
    life.hands.write("watch.relieve.code", life.shift.code(person))
    life.hands.key(Qt.Key.Key_F2)


def _end(life: WindowLife, row: Row) -> None:
    _more(life, row, "end")
    life.hands.press(f"watch.end.cause.{row['cause']}")
    life.hands.write("watch.end.reason", row["reason"])
    _code(life, row, "end")
    life.hands.answer_next("question.yes")
    life.hands.key(Qt.Key.Key_F2)


def _close(life: WindowLife, row: Row) -> None:
    _more(life, row, "close")
    for what in ("tools", "cover", "locks"):
        life.hands.write(f"watch.close.{what}", row[what])
    life.hands.key(Qt.Key.Key_F2)


_ACTS: dict[str, Callable[[WindowLife, Row], None]] = {
    "check before use": _check,
    "bump test": _bump,
    "open permit": _open,
    "describe work": _purpose,
    "plan hours": _hours,
    "answer": _answer,
    "hold hazard": _hazard,
    "isolate point": _isolate,
    "name person": _name,
    "assign instrument": _assign,
    "confirm rescue": _rescue,
    "try call": _call,
    "test hose": _hose,
    "take readings": _read,
    "state level": _level,
    "open space": _guard,
    "start fan": _fan,
    "brief": _brief,
    "authorise": _authorise,
    "take watch": _take,
    "go in": _in,
    "go out": _out,
    "make contact": _contact,
    "correct reading": _correct,
    "begin break": _break,
    "end break": _back,
    "reendorse": _endorse,
    "order stop": _evacuate,
    "determine": _determine,
    "relieve": _relieve,
    "end permit": _end,
    "close out": _close,
}
