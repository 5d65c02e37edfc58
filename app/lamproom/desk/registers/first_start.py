"""The first start: the site's name and zone, its first person with a code, and the time of another watch."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import Label
from lamproom.desk.questions import Questions, scrolled
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Role
from lamproom.office.begin_site import begin_site
from lamproom.office.views.registers import ROLES, code_words, founding_from, role_line, zones
from lamproom.office.views.typed import day_words
from lamproom.words import Refusal, say, say_count

FOUNDER = "P-01"
"""The id of the first person; ids are this site's own and are never given again."""


class FirstStart(QWidget):
    """Shown instead of every screen until the site has begun. Signal: ``begun()``."""

    begun = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        page = QVBoxLayout(self)
        page.setContentsMargins(24, 16, 24, 12)
        page.setSpacing(10)
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(SignLabel(Sign.LAMP, say("desk.name"), 30))
        top.addWidget(Label(say("registers.first.title"), Letter.TITLE, bold=True))
        top.addStretch(1)
        page.addLayout(top)
        page.addWidget(Label(say("registers.first.what"), Letter.TABLE, tone=Role.SECOND, wrap=True))
        columns = QHBoxLayout()
        columns.setSpacing(40)
        self._site = Questions(desk, "first", "first")
        self._person = Questions(desk, "first", "first")
        self._ask_site(self._site)
        self._ask_person(self._person)
        columns.addWidget(scrolled(self._person), 1)
        columns.addWidget(scrolled(self._site), 1)
        page.addLayout(columns, 1)
        self._begin = Button(say("registers.first.begin"), Kind.MAIN)
        self._begin.setObjectName("first.begin")
        self._begin.clicked.connect(self._do)
        self._why = Label("", Letter.TABLE, tone=Role.DANGER_TEXT, wrap=True)
        self._missing = Button("", Kind.LINK)
        self._missing.setObjectName("first.missing")
        self._missing.clicked.connect(self._show_first)
        self._missing.hide()
        foot = QHBoxLayout()
        foot.setSpacing(16)
        foot.addWidget(self._why, 1)
        foot.addWidget(self._missing)
        foot.addWidget(self._begin)
        page.addLayout(foot)
        desk.ticked.connect(self._tell_time)
        self._tell_time()

    def _ask_person(self, q: Questions) -> None:
        q.head(say("registers.first.you"))
        q.line("name", say("registers.person.name"))
        options = [Option(role, role_line(role)) for role in ROLES]
        q.choice("roles", say("registers.person.roles"), options, many=True)
        q.side_by_side()
        q.line("trainer", say("registers.person.trainer"), width=260)
        q.line("trained-on", say("registers.person.trained_on"), hint=say("registers.day_hint"), width=190)
        q.end()

    def _ask_site(self, q: Questions) -> None:
        q.head(say("registers.first.site"))
        q.line("site", say("registers.first.site_name"))
        q.drop("zone", say("registers.first.zone"), [Option(zone, zone.replace("_", " ")) for zone in zones()])
        q.head(say("registers.person.code"))
        q.note(code_words(self._desk.office))
        q.side_by_side()
        q.line("code", say("registers.person.code"), secret=True, width=220)
        q.line("code-again", say("registers.person.code_again"), secret=True, width=220)
        q.head(say("registers.time.head"))
        self._machine = q.note("")
        q.note(say("registers.first.second_watch"))
        q.side_by_side()
        q.line("watch", say("registers.time.watch"), hint=say("registers.clock_hint"), width=150)
        q.line("day", say("registers.time.day"), hint=say("registers.day_hint"), width=190)
        q.end()

    def _tell_time(self) -> None:
        now = self._desk.office.clock.sample().wall
        zone = self._site.text("zone")
        if not zone:
            self._machine.setText(say("registers.time.zone_first"))
            return
        local = now.astimezone(ZoneInfo(zone))
        self._machine.setText(say("registers.time.machine", clock=local.strftime("%H:%M"), day=day_words(local.date())))

    def _show_first(self) -> None:
        (self._person if self._person.troubled else self._site).reach_first()

    def _do(self) -> None:
        answers = {**self._site.answers(), **self._person.answers()}
        filled = founding_from(self._desk.office, answers, self._site.text("code"), self._site.text("code-again"))
        self._site.show_troubles(self._site.own(filled.troubles), counted=False)
        self._person.show_troubles(self._person.own(filled.troubles), counted=False)
        self._why.setText("")
        self._missing.setVisible(bool(filled.troubles))
        self._missing.set_words(say_count("registers.first.missing", len(filled.troubles)))
        founding = filled.value
        if founding is None:
            return
        try:
            begin_site(
                self._desk.office,
                founding.name,
                founding.zone,
                FOUNDER,
                founding.founder_name,
                founding.roles,
                founding.training,
                founding.code,
                founding.watch_says,
            )
        except Refusal as refusal:
            self._why.setText(str(refusal))
            return
        self._site.clear()
        self._person.clear()
        self._desk.set_person(FOUNDER)
        self.begun.emit()
