"""Panels of acts that need a code: relief, determination, endorsement, end. Each says the facts that it rests on."""

from __future__ import annotations

from typing import Literal, cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lamproom.desk.carry_over import begin_again, may_follow
from lamproom.desk.desk import Question
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place
from lamproom.desk.watch.cells import Cell
from lamproom.desk.watch.panel import Panel, Pick, Post
from lamproom.office.determine import determine
from lamproom.office.end_permit import end_permit
from lamproom.office.extend import extend
from lamproom.office.reendorse import reendorse
from lamproom.office.relieve import relieve
from lamproom.office.views.closing import time_after
from lamproom.office.views.watch import WatchView, causes, findings, may_relieve, supervisors
from lamproom.office.views.watch_log import log_sets
from lamproom.permit import events as e
from lamproom.permit.words import clock
from lamproom.words import Refusal, say, say_count

Cause = Literal["work-complete", "prohibited-condition", "expired", "never-entered"]


class RelievePanel(Panel):
    """Three facts said and pressed one by one, then who takes over, and the code."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "relieve", say("watch.relieve", name=_on_watch(post)), say("watch.relieve.act"))
        self._facts = [Cell(f"watch.relieve.{fact}", "", size=Letter.TABLE) for fact in ("inside", "set", "alarms")]
        for at, cell in enumerate(self._facts):
            cell.setCheckable(True)
            self.body.addWidget(cell, at, 0)
        people = [(id, name, "") for id, name in may_relieve(post.office, post.number)]
        self._who = Pick("watch.relieve.who", say("watch.relieve.who"), people, lone=True)
        self.body.addWidget(self._who, 0, 1)
        self.body.addWidget(self.field("code", say("watch.code_plain"), secret=True), 1, 1, 2, 1)
        self.body.setColumnStretch(0, 6)
        self.body.setColumnStretch(1, 5)
        self._said: tuple[str, ...] = ()
        self._inside: tuple[str, ...] = ()
        self._last: int | None = None
        self._open: tuple[str, ...] = ()

    def refresh(self, view: WatchView) -> None:
        """The three facts at this moment; one that changed is to be said again."""
        permit = self.post.permit
        self._inside = tuple(trip.who for trip in permit.tally.inside)
        self._last = permit.sets[-1].version if permit.sets else None
        self._open = tuple(
            [alarm.what for alarm in view.alarms] + [cell.words for cell in view.conditions if cell.since]
        )
        names = ", ".join(row.name for row in view.people if row.inside) or say("watch.relieve.nobody")
        sets = log_sets(self.post.office, self.post.number)
        words = say("watch.relieve.no_set")
        if sets:
            figures = ", ".join(
                f"{figure.name} {figure.figure} {figure.unit}".replace(" ", "\u00a0") for figure in sets[0].figures
            )
            words = f"{sets[0].time} {sets[0].place}, {figures}"
        said = (
            say("watch.relieve.inside", names=names),
            say("watch.relieve.set", words=words),
            say("watch.relieve.alarms", words=", ".join(self._open) or say("watch.relieve.no_alarms")),
        )
        for cell, new, old in zip(self._facts, said, self._said or ("", "", ""), strict=True):
            cell.set_words(new)
            if new != old:
                cell.setChecked(False)
        self._said = said

    def act(self) -> None:
        """Take over."""
        who = self._who.value()
        if not all(cell.isChecked() for cell in self._facts):
            self.post.say(Sign.MUST, say("watch.relieve.agree"))
        elif not who:
            self.post.say(Sign.MUST, say("watch.who"))
        elif self.post.do(relieve, who, self.text("code"), self._inside, self._last, self._open):
            self.done()
        else:
            self._fields["code"].set_text("")


def _on_watch(post: Post) -> str:
    """Who hands over."""
    who = post.permit.attendant or ""
    return post.office.names().get(who, who)


class _Signed(Panel):
    """Supervisor and code."""

    def signing(self) -> tuple[Pick, QWidget]:
        """The two things that a signature needs."""
        people = [(id, name, "") for id, name in supervisors(self.post.office)]
        pick = Pick(f"watch.{self.name}.supervisor", say("watch.supervisor"), people, lone=True)
        if self.post.permit.supervisor is not None:
            pick.choose(self.post.permit.supervisor)  # the one in charge; the code says whether it is
        return pick, self.field("code", say("watch.code_plain"), secret=True)

    def failed(self) -> None:
        """The code is typed again; the reason stays."""
        self._fields["code"].set_text("")


class DeterminePanel(_Signed):
    """The supervisor's finding about a stop."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "determine", say("watch.determine"), say("watch.determine.act"))
        options = [(one.value, one.words, one.barred) for one in findings(post.office, post.number)]
        self._finding = Pick("watch.determine.finding", say("watch.finding"), options, long=True)
        self.body.addWidget(self.field("reason", say("watch.determine.reason")), 0, 0)
        self.body.addWidget(self._finding, 1, 0)
        self._who, code = self.signing()
        self.body.addWidget(self._who, 0, 1)
        self.body.addWidget(code, 1, 1)
        self.body.setColumnStretch(0, 3)
        self.body.setColumnStretch(1, 2)

    def act(self) -> None:
        """Sign the finding."""
        finding = cast(Literal["prohibited-condition", "none-arose"], self._finding.value())
        if not finding:
            self.post.say(Sign.MUST, say("watch.finding.choose"))
        elif not self._who.value():
            self.post.say(Sign.MUST, say("watch.who"))
        elif self.post.do(determine, finding, self.text("reason"), self._who.value(), self.text("code")):
            post, signed = self.post, self._who.value()
            self.done()
            if finding == "prohibited-condition" and may_follow(post.office, post.number):
                again = ("watch.again", say("watch.again"), lambda: begin_again(post.desk, post.number, signed))
                post.foot.say_it(Sign.MUST, say("watch.canceled_so", number=post.number), (again,))
        else:
            self.failed()


class EndorsePanel(_Signed):
    """The supervisor lets entry go on after a break or a stop."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "endorse", say("watch.endorse"), say("watch.endorse.act"))
        self._stands = Label("", Letter.BODY, bold=True, wrap=True)
        self.body.addWidget(self._stands, 0, 0, 1, 2, Qt.AlignmentFlag.AlignTop)
        self._who, code = self.signing()
        self.body.addWidget(self._who, 1, 0)
        self.body.addWidget(code, 1, 1)
        self.body.setRowStretch(2, 1)

    def refresh(self, view: WatchView) -> None:
        """What still stands, in its own words."""
        left = [one for one in view.obstacles if one.code != "reendorse"]
        words = say("watch.endorse.clear")
        if left:
            words = say_count("watch.endorse.stands", len(left), first=left[0].sentence)
        if words != self._stands.text():
            self._stands.setText(words)

    def act(self) -> None:
        """Endorse."""
        if not self._who.value():
            self.post.say(Sign.MUST, say("watch.who"))
        elif self.post.do(reendorse, self._who.value(), self.text("code")):
            self.done()
        else:
            self.failed()


class ExtendPanel(_Signed):
    """The supervisor signs longer hours for the task that is not done yet."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        until = post.permit.until
        ends = clock(until, post.permit.zone) if until is not None else ""
        super().__init__(post, parent, "extend", say("watch.extend", ends=ends), say("watch.extend.act"))
        self.body.addWidget(self.field("ends", say("watch.extend.ends")), 0, 0)
        self.body.addWidget(self.field("reason", say("watch.extend.reason")), 1, 0)
        self._who, code = self.signing()
        self.body.addWidget(self._who, 0, 1)
        self.body.addWidget(code, 1, 1)
        self.body.setColumnStretch(0, 3)
        self.body.setColumnStretch(1, 2)

    def act(self) -> None:
        """Sign the new end."""
        until = self.post.permit.until
        if not self._who.value():
            self.post.say(Sign.MUST, say("watch.who"))
            return
        try:
            ends = time_after(self.post.office, until or self.post.office.now(), self.text("ends"))
        except Refusal as refusal:
            self.post.say(Sign.MUST, str(refusal))
            return
        if self.post.do(extend, ends, self.text("reason"), self._who.value(), self.text("code")):
            self.done()
        else:
            self.failed()


class EndPanel(_Signed):
    """Authority to enter ceases; asked once, with the facts."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "end", say("watch.end"), say("watch.end.act"))
        options = [(cause, words, "") for cause, words in causes(post.office, post.number)]
        self._cause = Pick("watch.end.cause", say("watch.end.cause"), options)
        self.body.addWidget(self._cause, 0, 0, 1, 2)
        self.body.addWidget(self.field("reason", say("watch.end.reason"), optional=True), 1, 0)
        self._who, code = self.signing()
        self.body.addWidget(self._who, 0, 2)
        self.body.addWidget(code, 1, 1)
        self._ink: InkPad | None = None
        self._with_ink = Cell("watch.end.ink", say("watch.ink"), size=Letter.TABLE)
        self._with_ink.clicked.connect(self._sign)
        self.body.addWidget(self._with_ink, 1, 2, Qt.AlignmentFlag.AlignBottom)
        self.body.setRowMinimumHeight(1, 104)
        self.body.setColumnStretch(0, 3)
        self.body.setColumnStretch(1, 3)
        self.body.setColumnStretch(2, 2)

    def _sign(self) -> None:
        """The pad takes the place of cause and remark, which are kept."""
        if self._ink is None:
            name = self.post.office.names().get(self._who.value(), "")
            self._ink = InkPad(name, place=Place.PORTAL, by_key=False)
            self._ink.setObjectName("watch.end.pad")
            self.body.addWidget(self._ink, 0, 0, 2, 2)
            self._ink.hide()
        shown = self._ink.isHidden()
        self._ink.setVisible(shown)
        for widget in (self._cause, self._fields["reason"], self._fields["code"]):
            widget.setVisible(not shown)
        self._with_ink.set_words(say("watch.close_panel" if shown else "watch.ink"))

    def _drawn(self) -> e.Ink | None:
        strokes = self._ink.strokes() if self._ink is not None else []
        if not strokes:
            return None
        return e.Ink(person=self._who.value(), strokes=tuple(tuple(stroke) for stroke in strokes))

    def act(self) -> None:
        """End it, after one question that restates the facts."""
        chosen, who = self._cause.value(), self._who.value()
        if not chosen or not who:
            self.post.say(Sign.MUST, say("watch.end.choose") if not chosen else say("watch.who"))
            return
        cause = cast(Cause, chosen)
        permit = self.post.permit
        question = Question(
            say("watch.end.question", number=permit.number, space=permit.opened.registered.name),
            (say("watch.end.inside", count=len(permit.tally.inside)),),
            say("watch.end.act"),
            say("watch.end.keep"),
        )
        if not self.post.desk.ask(question):
            return
        if self.post.do(end_permit, cause, self.text("reason"), who, self.text("code"), self._drawn()):
            self.done()
        else:
            self.failed()
