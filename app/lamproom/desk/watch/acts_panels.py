"""Panels of one form each: note, name someone, condition gone, break and return, close out, take the watch, sound."""

from __future__ import annotations

from datetime import datetime
from typing import Literal, cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.desk.watch.cells import Cell, slug
from lamproom.desk.watch.panel import Panel, Pick, Post
from lamproom.office.begin_break import begin_break
from lamproom.office.change_step import change_step
from lamproom.office.clear_condition import clear_condition
from lamproom.office.close_out import close_out
from lamproom.office.end_break import end_break
from lamproom.office.name_someone import name_someone
from lamproom.office.note import note
from lamproom.office.release_point import release_point
from lamproom.office.take_watch import take_watch
from lamproom.office.views.closing import closing, time_before
from lamproom.permit.words import clock
from lamproom.words import Refusal, say


class NotePanel(Panel):
    """A remark."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "note", say("watch.more.note"), say("watch.note.act"))
        self.body.addWidget(self.field("text", say("watch.note")), 0, 0)
        self.body.setRowStretch(1, 1)

    def act(self) -> None:
        """Store it."""
        if not self.text("text").strip():
            self.post.say(Sign.MUST, say("watch.note.empty"))
        elif self.post.do(note, self.text("text"), by=self.post.by):
            self.done()


class NamePanel(Panel):
    """Who the unknown was."""

    def __init__(self, post: Post, parent: QWidget, label: str = "") -> None:
        trips = post.permit.tally.trips
        label = label or next((trip.who for trip in trips if trip.unknown and not trip.name), "")
        super().__init__(post, parent, "name", say("watch.name", label=label), say("watch.name.act"))
        self._label = label
        kinds = ("rescuer", "unauthorised", "entrant", "other")
        options = [(kind, say(f"watch.name.{kind}"), "") for kind in kinds]
        self._what = Pick("watch.name.what", say("watch.name.what"), options)
        self.body.addWidget(self.field("name", say("watch.name.name")), 0, 0)
        self.body.addWidget(self._what, 1, 0)

    def act(self) -> None:
        """Store name and kind."""
        what = self._what.value()
        if not what:
            self.post.say(Sign.MUST, say("watch.name.choose"))
            return
        kind = cast(Literal["rescuer", "unauthorised", "entrant", "other"], what)
        if self.post.do(name_someone, self._label, self.text("name"), kind, by=self.post.by):
            self.done()


class ClearPanel(Panel):
    """What was found when a reported condition was gone."""

    def __init__(self, post: Post, parent: QWidget, condition: str) -> None:
        line = post.permit.form.condition(condition)
        words = line.words if line is not None else condition
        super().__init__(post, parent, "clear", say("watch.clear", words=words), say("watch.clear.act"))
        self._condition = condition
        self.body.addWidget(self.field("found", say("watch.clear.found")), 0, 0)
        if line is not None:
            self.body.addWidget(Label(line.clears, Letter.BODY, wrap=True), 1, 0)
        self.body.setRowStretch(2, 1)

    def act(self) -> None:
        """Store it; what was found must be said."""
        if not self.text("found").strip():
            self.post.say(Sign.MUST, say("office.determine_reason"))
        elif self.post.do(clear_condition, self._condition, self.text("found"), by=self.post.by):
            self.done()


class BreakPanel(Panel):
    """Everyone is out: opening, fan and locks, torches."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "break", say("watch.break"), say("watch.break.act"))
        self._torches = Cell("watch.break.torches", say("watch.break.torches"))
        self._torches.setCheckable(True)
        self.body.addWidget(self.field("guarded", say("watch.break.guarded")), 0, 0)
        self.body.addWidget(self.field("left", say("watch.break.left")), 0, 1)
        self.body.addWidget(self._torches, 1, 0)
        self.body.setRowMinimumHeight(1, 76)

    def act(self) -> None:
        """Begin the break."""
        guarded, left = self.text("guarded").strip(), self.text("left").strip()
        if not guarded or not left:
            self.post.say(Sign.MUST, say("watch.break.words"))
        elif self.post.do(begin_break, guarded, left, self._torches.isChecked(), by=self.post.by):
            self.done()


class BackPanel(Panel):
    """Back from the break: isolation looked at again."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "back", say("watch.back"), say("watch.back.act"))
        self.body.addWidget(self.field("found", say("watch.back.found")), 0, 0)
        self.body.setRowStretch(1, 1)

    def act(self) -> None:
        """End the break."""
        if self.post.do(end_break, self.text("found"), by=self.post.by):
            self.done()
            self.post.open("reading")


class StepPanel(Panel):
    """The next step of the same work: what is done now may change the air."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "step", say("watch.step"), say("watch.step.act"))
        self.body.addWidget(self.field("step", say("watch.step.what")), 0, 0)
        self.body.addWidget(Label(say("watch.step.means"), Letter.BODY, wrap=True), 1, 0)
        self.body.setRowStretch(2, 1)

    def act(self) -> None:
        """Store it."""
        if self.post.do(change_step, self.text("step"), by=self.post.by):
            self.done()


class ReleasePanel(Panel):
    """Isolation came off: one press on the point calls everyone out. Never refused, nothing else is asked."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "release", say("watch.release"))
        points = post.permit.opened.evaluated.isolation
        if not points:
            self.set_title(say("watch.release.none"))
        for at, point in enumerate(points):
            cell = Cell(f"watch.release.{slug(point.id)}", point.name, sign=Sign.DANGER, size=Letter.TITLE)
            cell.clicked.connect(lambda _checked=False, id=point.id: self._press(id))
            self.body.addWidget(cell, at // 3, at % 3)
        self.body.setRowStretch(len(points) // 3 + 1, 1)

    def begin(self) -> None:
        """No key that calls everyone out has the keyboard until someone goes to it."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _press(self, point: str) -> None:
        if self.post.do(release_point, point, say("watch.release.why"), by=self.post.by):
            self.post.leave()


class ClosePanel(Panel):
    """Tools, cover, locks; where asked, what host and contractor told each other and how long a fire watch stayed."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "close", say("watch.close"), say("watch.close.act"))
        self.body.addWidget(self.field("tools", say("watch.close.tools")), 0, 0)
        self.body.addWidget(self.field("cover", say("watch.close.cover")), 0, 1)
        self.body.addWidget(self.field("locks", say("watch.close.locks")), 1, 0)
        self._asks = closing(post.office, post.number)
        if self._asks.debrief:
            self.body.addWidget(self.field("debrief", say("watch.close.debrief")), 1, 1)
        if self._asks.fire_watch:
            at = (2, 0) if self._asks.debrief else (1, 1)
            self.body.addWidget(self.field("fire-watch", say("watch.close.fire_watch")), *at)
        self.body.setRowStretch(3, 1)

    def act(self) -> None:
        """Close out; the office refuses while something is missing."""
        words = (self.text("tools"), self.text("cover"), self.text("locks"))
        more: dict[str, str | datetime] = {}
        if self._asks.debrief:
            more["debrief"] = self.text("debrief")
        if self._asks.fire_watch and self.text("fire-watch").strip():
            try:
                more["fire_watch_until"] = time_before(
                    self.post.office, self.post.office.now(), self.text("fire-watch")
                )
            except Refusal as refusal:
                self.post.say(Sign.MUST, str(refusal))
                return
        if self.post.do(close_out, *words, by=self.post.by, **more):
            self.done()


class TakePanel(Panel):
    """Who takes the watch: one press on a name."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "take", say("watch.take"))
        names = post.office.names()
        people = post.permit.attendants
        if not people:
            self.set_title(say("watch.take.none"))
        for at, person in enumerate(people):
            cell = Cell(f"watch.take.{slug(person)}", names.get(person, person), size=Letter.TITLE)
            cell.clicked.connect(lambda _checked=False, who=person: self._take(who))
            self.body.addWidget(cell, at // 3, at % 3)
        self.body.setRowStretch(2, 1)

    def _take(self, person: str) -> None:
        if self.post.do(take_watch, person):
            self.done()


class SoundPanel(Panel):
    """Was it heard? The answer is kept with the permit."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "sound", say("watch.sound_try"))
        for at, (value, words) in enumerate((("heard", True), ("not", False))):
            cell = Cell(f"watch.sound.{value}", say(f"watch.sound_try.{value}"), size=Letter.TITLE)
            cell.clicked.connect(lambda _checked=False, answer=words: self._answer(answer))
            self.body.addWidget(cell, 0, at)
        self.body.setRowMinimumHeight(0, 112)
        self.body.setRowStretch(1, 1)

    def _answer(self, heard: bool) -> None:
        words = say("watch.sound_try.note_heard" if heard else "watch.sound_try.note_not")
        if self.post.do(note, words, by=self.post.by):
            office = self.post.office
            tried = clock(office.now(), office.zone) if heard else ""
            office.journal.put_setting("watch-sound-tried", tried)
            self.done()
