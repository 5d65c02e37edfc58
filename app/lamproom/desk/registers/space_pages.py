"""Spaces: register and classify one; evaluate it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from lamproom.bench.bump import gas_name
from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.registers.danger_sign import DangerSignPart
from lamproom.desk.registers.entry_page import EntryPage
from lamproom.desk.registers.list_of import Column, ListOf
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.register_space import register_space
from lamproom.office.views.registers import next_id
from lamproom.office.views.spaces import (
    CONFINED,
    HAZARD_GASES,
    HELD_AS,
    PERMIT,
    SHAPES,
    SORTS,
    TEAMS,
    class_words,
    danger_words,
    evaluation_answers,
    evaluation_from,
    neighbours,
    point_row,
    rows_of,
    space_answers,
    space_facts,
    space_from,
    spaces,
    standing_items,
)
from lamproom.office.views.ways_in import ways_in
from lamproom.words import say


class RegisterSpacePage(EntryPage):
    """A space: where, how shaped, and the seven questions of 29 CFR 1910.146(b). An id registers it anew."""

    def __init__(self, desk: Desk, id: str = "") -> None:
        title = say("registers.space.change" if id else "registers.space.new")
        super().__init__(desk, f"space/{id or 'new'}/register", "registers.spaces.register", title)
        self.setObjectName("registers.spaces.new")
        self._id = id
        q = self.questions
        q.line("name", say("registers.person.name"))
        q.line("place", say("registers.space.place"))
        q.drop(
            "shape", say("registers.space.shape"), [Option(shape, say(f"registers.shape.{shape}")) for shape in SHAPES]
        )
        q.side_by_side()
        q.figure("depth", say("registers.space.depth"), "m", width=100)
        q.figure("across", say("registers.space.across"), "m", width=100)
        q.figure("altitude", say("registers.space.altitude"), "m", width=100, optional=True)
        q.side_by_side_ends()
        q.line("contents", say("registers.space.contents"))
        q.head(say("registers.space.portal"))
        q.side_by_side()
        q.line("portal", say("registers.space.portal_name"), width=320)
        q.figure("portal-width", say("registers.space.portal_width"), "m", width=100)
        q.side_by_side_ends()
        q.yes_no("vertical", say("registers.space.vertical"))
        q.yes_no("lid", say("registers.space.lid"))
        q.head(say("registers.space.confined_head"))
        for key in CONFINED:
            q.yes_no(key, say(f"registers.class.{key}"))
        q.head(say("registers.space.permit_head"))
        for key in PERMIT:
            q.yes_no(key, say(f"registers.class.{key}"))
        self._class = q.note("")
        q.end()
        q.answered.connect(lambda _key: self._say_class())
        self.button("record", say("registers.space.record"), self._record)
        if id:
            self.put(space_answers(desk.office, id))
        self._say_class()

    def _say_class(self) -> None:
        filled = space_from(self.answers())
        missing = [key for key in (*CONFINED, *PERMIT) if key in filled.troubles]
        if missing:
            self._class.setText(say("registers.space.class_open", n=len(missing)))
        elif filled.value is not None:
            self._class.setText(class_words(filled.value))

    def _record(self) -> None:
        filled = space_from(self.answers())
        self.show_troubles(filled.troubles)
        by = self.person()
        if filled.value is None or by is None:
            return
        id = self._id or next_id(self.desk.office, "space", "S")
        if self.desk.do(register_space, id, filled.value, by=by):
            self.done(id, say("registers.space.recorded", name=filled.value.name, id=id))


class EvaluateSpacePage(EntryPage):
    """The evaluation: hazards with what shows and what controls them, isolation, rescue, what never applies here."""

    def __init__(self, desk: Desk, id: str) -> None:
        title = say("registers.space.evaluate_title", name=space_facts(desk.office, id).title)
        super().__init__(desk, f"space/{id}/evaluate", "registers.spaces.evaluate", title)
        self.setObjectName("registers.spaces.evaluate")
        self._id = id
        before = evaluation_answers(desk.office, id)
        q = self.questions
        q.side_by_side()
        q.line("by", say("registers.space.by"), width=220)
        q.line("qualified", say("registers.space.qualified"), width=240)
        q.line("review", say("registers.space.review"), hint=say("registers.day_hint"), width=150)
        q.head(say("registers.space.hazards"))
        sorts = tuple(Option(sort, say(f"registers.sort.{sort}")) for sort in SORTS)
        held_as = tuple(Option(held, say(f"registers.held_as.{held}")) for held in HELD_AS)
        gases = tuple(Option(gas, gas_name(gas).say()) for gas in HAZARD_GASES)
        self.add_list(
            self._list(
                "hazards",
                [
                    Column("name", say("registers.space.hazard"), 230),
                    Column("sort", say("registers.space.sort"), options=sorts, optional=False),
                    Column("gas", say("registers.space.gas"), options=gases),
                    Column("shows", say("registers.space.shows"), 360, below=True),
                    Column("control", say("registers.space.control"), 360),
                ],
                say("registers.space.add_hazard"),
                before,
            )
        )
        q.head(say("registers.space.isolation"))
        self.add_list(
            self._list(
                "isolation",
                [
                    Column("name", say("registers.space.point"), 210),
                    Column("holds", say("registers.space.holds"), 210),
                    Column("held_as", say("registers.space.held_as"), options=held_as, optional=False, below=True),
                    Column("how", say("registers.space.how"), 270),
                ],
                say("registers.space.add_point"),
                before,
            )
        )
        q.yes_no("isolable", say("registers.space.isolable"))
        q.line("unisolable", say("registers.space.unisolable_why"), optional=True)
        q.yes_no("ventilation", say("registers.space.ventilation"))
        q.head(say("registers.space.retest"))
        depth = Column("depth", say("registers.space.retest_depth"), 100, figure=True, unit="m")
        self.add_list(self._list("retest", [depth], say("registers.space.add_depth"), before))
        self._rescue()
        self._neighbours()
        self._alternate()
        q.head(say("registers.space.standing"))
        q.note(say("registers.space.standing_note"))
        for item, question in standing_items(desk.office):
            q.line(f"standing.{item}", question, optional=True)
        q.line("remarks", say("registers.space.remarks"), optional=True, lines=2)
        q.end()
        self.button("record", say("registers.space.record_evaluation"), self._record)
        self.put(before)

    def show_question(self, key: str) -> None:
        """A question, or 'isolation/<point>': its kind of isolation, with why that is what stands in the way."""
        head, _, point = key.partition("/")
        if not point:
            super().show_question(key)
            return
        row = point_row(self.desk.office, self._id, point)
        listed = next(one.questions for one in self.lists if one.key == head)
        if row is not None:
            self.say_why(row.weak)
            listed.reach(f"isolation.{row.at}.held_as")

    def _list(self, key: str, columns: list[Column], add: str, before: object) -> ListOf:
        rows = rows_of(before, key) if isinstance(before, dict) else ()
        return ListOf(self.desk, self.owner, self.name, key, columns, add, rows=len(rows))

    def _rescue(self) -> None:
        q = self.questions
        q.head(say("registers.space.rescue"))
        q.line("service", say("registers.space.service"))
        q.line("means", say("registers.space.means"))
        q.line("then", say("registers.space.then"))
        q.figure("response", say("registers.space.response"), "min", width=90)
        q.line("retrieval", say("registers.space.retrieval"))
        q.line("communication", say("registers.space.communication"))
        q.line("equipment", say("registers.space.equipment"))
        q.head(say("registers.space.capable"))
        q.note(say("registers.space.capable_note"))
        q.choice("team", say("registers.space.team"), [Option(team, say(f"registers.team.{team}")) for team in TEAMS])
        q.side_by_side()
        q.line("judged-by", say("registers.space.judged_by"), width=320)
        q.line("judged-on", say("registers.space.judged_on"), hint=say("registers.day_hint"), width=150)
        q.side_by_side_ends()
        q.yes_no("told-hazards", say("registers.space.told_hazards"), hint="29 CFR 1910.146(k)(1)(iv)")
        q.yes_no("access-given", say("registers.space.access_given"), hint="29 CFR 1910.146(k)(1)(v)")
        q.side_by_side()
        q.line("practised-on", say("registers.space.practised_on"), hint=say("registers.day_hint"), width=190)
        q.line("first-aid-until", say("registers.space.first_aid_until"), hint=say("registers.day_hint"), width=190)
        q.side_by_side_ends()
        q.yes_no("mechanical", say("registers.space.mechanical"), hint="29 CFR 1910.146(k)(3)(ii)")

    def _neighbours(self) -> None:
        others = neighbours(self.desk.office, self._id)
        if not others:
            return
        q = self.questions
        q.head(say("registers.space.adjoining"))
        options = [Option(id, name) for id, name in others]
        q.choice("adjoining", say("registers.space.adjoining_which"), options, many=True)

    def _alternate(self) -> None:
        """The basis of 29 CFR 1910.146(c)(5): left empty it stays closed."""
        q = self.questions
        q.head(say("registers.space.alternate"))
        q.note(say("registers.space.alternate_note"))
        q.line("monitoring", say("registers.space.monitoring"), optional=True)
        q.line("inspection", say("registers.space.inspection"), optional=True)
        q.yes_no("ventilation-alone", say("registers.space.ventilation_alone"), hint="29 CFR 1910.146(c)(5)(i)(B)")
        q.side_by_side()
        q.line("decided-by", say("registers.space.decided_by"), optional=True, width=320)
        q.line(
            "decided-on", say("registers.space.decided_on"), hint=say("registers.day_hint"), optional=True, width=150
        )
        q.side_by_side_ends()

    def _record(self) -> None:
        filled = evaluation_from(self.desk.office, self.answers())
        self.show_troubles(filled.troubles)
        by = self.person()
        if filled.value is None or by is None:
            return
        if self.desk.do(evaluate_space, self._id, filled.value, by=by):
            self.done(self._id, say("registers.space.evaluated"))


class SpacePage(EntryPage):
    """A space as it stands, with the two things that can be done about it."""

    def __init__(self, desk: Desk, id: str) -> None:
        facts = space_facts(desk.office, id)
        super().__init__(desk, f"space/{id}", "registers.spaces", facts.title)
        self._id = id
        self.setObjectName(f"registers.spaces.{id}")
        danger = danger_words(desk.office.space(id).registered)
        if danger:
            self.questions.add(DangerSignPart(desk, id, danger))
        self.show_facts(facts)
        self._show_ways()
        self.questions.end()
        self.button("change", say("registers.space.change"), lambda: self._to(f"{id}/register"), main=False)
        evaluated = desk.office.space(id).evaluated is not None
        words = say("registers.space.evaluate_again" if evaluated else "registers.space.evaluate")
        self.button("to-evaluate", words, lambda: self._to(f"{id}/evaluate"))

    def _show_ways(self) -> None:
        """The worksheet: of each way in, whether it is open to this space today, and if not, why."""
        ways = ways_in(self.desk.office, self._id)
        if not ways:
            return
        self.questions.head(say("registers.space.ways"))
        for way in ways:
            name = say("registers.way_line", name=way.name, rule=way.rule)
            said = say("registers.way_open" if way.open else "registers.way_closed", name=name)
            state = StateWord(Sign.WITHIN if way.open else Sign.REFUSED, said, Letter.TABLE, side=22)
            state.setObjectName(f"registers.way.{way.route}")
            self.questions.add(state)
            if way.reasons:
                self.questions.add(Label("\n".join(way.reasons), Letter.TABLE, wrap=True))

    def _to(self, rest: str) -> None:
        self.desk.go("registers", register="spaces", id=rest)


def listed(desk: Desk) -> list[Option]:
    """The spaces of the register as rows."""
    return [Option(line.id, line.name, line.note) for line in spaces(desk.office)]


def opened(desk: Desk, id: str) -> QWidget:
    """The page of a space, of its evaluation ('S-01/evaluate'), of its change, or of a new one."""
    space, _, rest = id.partition("/")
    if space not in desk.office.ids("space"):
        return RegisterSpacePage(desk)
    if rest == "evaluate":
        return EvaluateSpacePage(desk, space)
    return RegisterSpacePage(desk, space) if rest == "register" else SpacePage(desk, space)
