"""What every screen is given: the office, who is at the desk, and one way to do an act and tell what changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Concatenate, ParamSpec

from PySide6.QtCore import QObject, QTimer, Signal

from lamproom.office.office import Office
from lamproom.words import Refusal

P = ParamSpec("P")


@dataclass(frozen=True, slots=True)
class Question:
    """A question that must be answered before an act: kept for authorizing, ending and correcting.

    ``yes`` and ``no`` are the words on the buttons (verbs); ``harmful`` marks that yes is never the default.
    """

    text: str
    facts: tuple[str, ...]
    yes: str
    no: str
    harmful: bool = True


class Desk(QObject):
    """The bridge between screens and office. Screens get plain views, call ``do``, and repaint on ``changed``.

    Signals: ``changed(frozenset)`` the streams an act touched; ``ticked()`` once a second; ``went(str, dict)`` the
    place to show and where in it; ``said(str, str)`` kind ('done' or 'refused') and the sentence; ``person_changed()``.
    """

    changed = Signal(object)
    ticked = Signal()
    went = Signal(str, dict)
    said = Signal(str, str)
    person_changed = Signal()

    def __init__(self, office: Office, person: str | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.office = office
        self._person = person
        self.asker: Callable[[Question], bool] | None = None
        """Whoever shows a question; the window sets it, a test may answer in its place."""
        office.listen(self.changed.emit)
        self._timer = QTimer(self)
        self._timer.setInterval(1000)
        self._timer.timeout.connect(self.ticked)
        self._timer.start()

    @property
    def person(self) -> str | None:
        """The person at the desk: in whose name ordinary acts are recorded; None until someone said so."""
        return self._person

    def set_person(self, person: str | None) -> None:
        """Someone sat down at the desk. No code is asked: acts of authority ask for it themselves."""
        self._person = person
        self.office.journal.put_setting("person", person or "")
        self.person_changed.emit()

    def do(self, act: Callable[Concatenate[Office, P], object], *args: P.args, **kwargs: P.kwargs) -> bool:
        """Do an act. A refusal is said, not raised, and False is given back; what was typed stays with the screen."""
        try:
            act(self.office, *args, **kwargs)
        except Refusal as refusal:
            self.said.emit("refused", refusal.why.say())
            return False
        return True

    def go(self, place: str, **where: str) -> None:
        """Show a place: 'board', 'workbook', 'watch', 'bench', 'filing', 'registers'; ``where`` is the screen's own."""
        self.went.emit(place, where)

    def ask(self, question: Question) -> bool:
        """Put a question to the person; False where nobody can answer."""
        return self.asker(question) if self.asker is not None else False

    def keep_draft(self, owner: str, field: str, text: str) -> None:
        """Keep half-typed text, so that a power cut costs at most the last second."""
        if text:
            self.office.journal.put_draft(owner, field, text)
        else:
            self.office.journal.drop_draft(owner, field)

    def draft(self, owner: str, field: str) -> str:
        """The text kept for a field, empty where there is none."""
        return self.office.journal.drafts(owner).get(field, "")
