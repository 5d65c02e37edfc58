"""Out of service and back, and what ends a bump test early: a drop, a poison, a changed sensor."""

from __future__ import annotations

from lamproom.bench.events import TestVoided
from lamproom.desk.bench.act_page import ActPage
from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import rule
from lamproom.office.return_to_service import return_to_service
from lamproom.office.take_out_of_service import take_out_of_service
from lamproom.office.views.bench import CAUSES, InstrumentView, cause_words, voided_from
from lamproom.office.void_test import void_test
from lamproom.words import say


class ServicePage(ActPage):
    """One page for the three; what is asked depends on whether the instrument is in service."""

    def __init__(self, desk: Desk, view: InstrumentView) -> None:
        super().__init__(desk, "service", view.id)
        q = self.questions
        if view.out_of_service:
            q.head(say("bench_screen.service.back"))
            q.note(say("bench_screen.service.back_note"))
            q.line("done", say("bench_screen.service.done"), lines=2)
            self.record_with(say("bench_screen.service.back"), self._back, "back")
        else:
            q.head(say("bench_screen.service.out"))
            q.line("reason", say("bench_screen.service.reason"))
            q.side_by_side()
            q.add(self.button(say("bench_screen.service.out"), self._out, "out"))
            q.side_by_side_ends()
            q.add(rule())
            q.head(say("bench_screen.service.lapse"))
            options = [Option(cause, cause_words(cause)) for cause in CAUSES]
            q.choice("cause", say("bench_screen.service.cause"), options)
            q.line("note", say("bench_screen.service.note"), optional=True)
            q.side_by_side()
            q.add(self.button(say("bench_screen.service.void"), self._void, "void"))
        q.end()

    def _back(self) -> None:
        done = self.questions.text("done").strip()
        self.show_troubles({} if done else {"done": say("registers.typed.missing")})
        person = self.person()
        if done and person is not None and self.desk.do(return_to_service, self.instrument, done, by=person):
            self.done()

    def _out(self) -> None:
        reason = self.questions.text("reason").strip()
        self.show_troubles({} if reason else {"reason": say("registers.typed.missing")})
        person = self.person()
        if reason and person is not None and self.desk.do(take_out_of_service, self.instrument, reason, by=person):
            self.done()

    def _void(self) -> None:
        filled = voided_from(self.questions.answers())
        self.show_troubles(filled.troubles)
        person = self.person()
        voided: TestVoided | None = filled.value
        if voided is not None and person is not None and self.desk.do(void_test, self.instrument, voided, by=person):
            self.done()
