"""The guided check before use: each alarm answered apart, the inlet blocked and timed, the fresh-air set-up."""

from __future__ import annotations

from lamproom.desk.bench.act_page import ActPage
from lamproom.desk.bench.pump_block import PumpBlock
from lamproom.desk.desk import Desk
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter
from lamproom.office.check_before_use import check_before_use
from lamproom.office.views.bench import InstrumentView, check_from
from lamproom.words import say


class CheckPage(ActPage):
    """Recorded once, when everything is answered; a wrong answer is recorded as it is and bars the instrument."""

    def __init__(self, desk: Desk, view: InstrumentView) -> None:
        super().__init__(desk, "check", view.id)
        self._has_pump = view.has_pump
        q = self.questions
        q.yes_no("self-test", say("bench_screen.check.power"))
        q.yes_no("heard", say("bench_screen.check.heard"))
        q.yes_no("seen", say("bench_screen.check.seen"))
        q.yes_no("felt", say("bench_screen.check.felt"))
        q.yes_no("display", say("bench_screen.check.display"))
        q.yes_no("housing", say("bench_screen.check.housing"))
        sets = "; ".join(
            say("bench_screen.set_point", name=line.name, figures=line.alarm_at, unit=line.unit)
            for line in view.sensors
            if line.alarm_at
        )
        q.yes_no("set-points", say("bench_screen.check.set_points"), hint=sets)
        q.figure("battery", say("bench_screen.check.battery"), say("bench_screen.h"), width=90)
        self._block = PumpBlock(desk, view.block_s)
        self._owner = f"instrument/{view.id}/check"
        if view.has_pump:
            q.add(Label(say("bench_screen.check.pump"), Letter.TABLE, bold=True))
            self._block.set_answer(desk.draft(self._owner, "block"))
            self._block.answered.connect(lambda answer: desk.keep_draft(self._owner, "block", answer))
            q.add(self._block)
        q.head(say("bench_screen.check.air"))
        q.line("place", say("bench_screen.check.place"))
        q.line("why-clean", say("bench_screen.check.why"))
        q.side_by_side()
        q.figure("before", say("bench_screen.check.before"), say("bench_screen.vol"), width=90)
        q.figure("after", say("bench_screen.check.after"), say("bench_screen.vol"), width=90)
        q.side_by_side_ends()
        q.yes_no("beside", say("bench_screen.check.beside"))
        q.end()
        self.record_with(say("bench_screen.check.record"), self._record)

    def _record(self) -> None:
        filled = check_from({**self.questions.answers(), "block": self._block.answer}, self._has_pump)
        troubles = dict(filled.troubles)
        self._block.show_trouble(troubles.pop("block", ""))
        self.show_troubles(troubles)
        person = self.person()
        if filled.value is None or person is None:
            return
        if self.desk.do(check_before_use, self.instrument, filled.value, by=person):
            self._block.set_answer("")
            self.desk.keep_draft(self._owner, "block", "")
            self.done()
