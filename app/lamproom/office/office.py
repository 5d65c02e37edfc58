"""The one door to a site: read what is known, record what happened. Acts are functions that are given this door."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from uuid import uuid4
from zoneinfo import ZoneInfo

from lamproom.bench import state as bench
from lamproom.bench.happening import Event, Happening
from lamproom.bench.state import Instrument
from lamproom.office.clock import Clock, Judged, Mark, confirmed_as, judge, moved_on, started_over
from lamproom.office.key_signers import PersonSigner
from lamproom.office.key_signers import Signer as OwnSigner
from lamproom.office.keys import KeyRing
from lamproom.permit import people, site, space
from lamproom.permit import state as permit_state
from lamproom.permit.facts import Facts, OtherPermit, touching
from lamproom.permit.form import Form, fingerprint, read_form
from lamproom.permit.people import Person
from lamproom.permit.site import Site
from lamproom.permit.space import Space
from lamproom.permit.state import Permit
from lamproom.record.envelope import Envelope, Signer, from_bytes, seal
from lamproom.record.journal import Entry, File, Journal, Sealed
from lamproom.record.kinds import data_of, happened
from lamproom.words import Refusal, sentence

SITE = "site"


@dataclass(frozen=True, slots=True)
class ToRecord:
    """An event that an act wants recorded, and the stream it belongs to."""

    stream: str
    event: Event


class Office:
    """A site that is open: its journal, its clock, its keys, its forms.

    Everything read here is the fold of the journal; nothing is remembered that the journal does not hold, apart from
    the folds themselves. ``station`` names this machine. ``forms`` are the texts of the forms at hand, by id.
    """

    def __init__(self, journal: Journal, clock: Clock, keys: KeyRing, station: str, forms: Mapping[str, str]) -> None:
        self.journal = journal
        self.clock = clock
        self.keys = keys
        self.station = station
        self.forms = forms
        self._past: dict[str, list[Happening]] = {}
        self._permits: dict[str, Permit] = {}
        self._instruments: dict[str, Instrument] = {}
        self._mark: Mark | None = None
        self._listeners: list[Callable[[frozenset[str]], None]] = []
        self._site = site.fold(self.happenings(SITE), Site())
        self._mark = self._last_mark()
        self._station_signer: OwnSigner | None = None

    # Time -------------------------------------------------------------------------------------------------------------

    def judged(self) -> Judged:
        """The time as judged now; the highest time seen moves on."""
        judged = judge(self._mark, self.clock.sample())
        self._mark = moved_on(self._mark, judged)
        return judged

    def now(self) -> datetime:
        """The judged time (UTC)."""
        return self.judged().now

    def _last_mark(self) -> Mark | None:
        """The mark that the journal's newest own entries leave; entries of other stations never move it."""
        mark: Mark | None = None
        for entry in self.journal.entries():
            if self._site.void(entry.number):
                continue
            envelope = from_bytes(entry.sealed.body)
            if envelope.station != self.station:
                continue
            fresh = (
                mark is None
                or mark.boot != envelope.boot
                or envelope.kind
                in (
                    site.TimeConfirmed.kind,
                    site.ClockDeclaredWrong.kind,
                )
            )
            anchor = envelope.at if fresh or mark is None else mark.anchor
            anchor_ns = envelope.boot_ns if fresh or mark is None else mark.anchor_ns
            if mark is None or envelope.at >= mark.now or envelope.kind == site.ClockDeclaredWrong.kind:
                mark = Mark(envelope.at, envelope.boot, envelope.boot_ns, anchor, anchor_ns, not envelope.unconfirmed)
        return mark

    def accept_watch(self, watch_says: datetime) -> None:
        """A named person read another watch; the act that records it has been checked by its caller."""
        judged = self.judged()
        self._mark = confirmed_as(judged.sample, watch_says, judged.now)

    @contextmanager
    def accepting_watch(self, watch_says: datetime) -> Iterator[None]:
        """Accept a watch while the act that says so is stored; when it is not stored, nothing was accepted."""
        before = self._mark
        self.accept_watch(watch_says)
        try:
            yield
        except BaseException:
            self._mark = before
            raise

    def start_clock_over(self, watch_says: datetime) -> None:
        """Two named people declared the clock wrong: from here on the watch alone counts."""
        self._mark = started_over(self.clock.sample(), watch_says)

    # Reading ----------------------------------------------------------------------------------------------------------

    @property
    def site(self) -> Site:
        return self._site

    @property
    def begun(self) -> bool:
        """Has the site been set up?"""
        return self._site.begun is not None

    @property
    def zone(self) -> ZoneInfo:
        """The zone in which people here read times; UTC until the site is set up."""
        return ZoneInfo(self._site.begun.zone if self._site.begun else "UTC")

    def happenings(self, stream: str) -> Sequence[Happening]:
        """Everything that happened in a stream, in order."""
        if stream not in self._past:
            void = self._site.void if stream != SITE else lambda _number: False
            self._past[stream] = [happened(entry, void(entry.number)) for entry in self.journal.stream(stream)]
        return self._past[stream]

    def names(self) -> Mapping[str, str]:
        """How people are called, by id."""
        return {person: details.get("name", person) for person, details in self.journal.personal().items()}

    def ids(self, kind: str) -> tuple[str, ...]:
        """Ids of all streams of a kind ('permit', 'space', 'instrument', 'person'), in order of first mention."""
        prefix = f"{kind}/"
        return tuple(stream.removeprefix(prefix) for stream in self.journal.streams(prefix))

    def permit(self, number: str) -> Permit:
        """A permit's state. Refused when there is none of that number."""
        if number not in self._permits:
            past = self.happenings(f"permit/{number}")
            if not past:
                raise Refusal(sentence("office.no_permit", number=number))
            self._permits[number] = permit_state.fold(past)
        return self._permits[number]

    def instrument(self, id: str) -> Instrument:
        """An instrument's state; one that was never registered has an empty state."""
        if id not in self._instruments:
            self._instruments[id] = bench.fold(self.happenings(f"instrument/{id}"), Instrument(id))
        return self._instruments[id]

    def person(self, id: str) -> Person:
        return people.fold(self.happenings(f"person/{id}"), Person(id))

    def space(self, id: str) -> Space:
        return space.fold(self.happenings(f"space/{id}"), Space(id))

    def form(self, id: str) -> tuple[Form, str]:
        """A form at hand with its text. Refused when there is none of that id, or it loosens its regime."""
        text = self.forms.get(id)
        if text is None:
            raise Refusal(sentence("office.no_form", form=id))
        return read_form(text), text

    def facts(self, number: str, at: datetime | None = None, acting: str | None = None) -> Facts:
        """Everything a judgement of this permit may look at, now or at a given time; with who is about to act on it."""
        permit = self.permit(number)
        judged = self.judged()
        named = {*permit.entrants, *permit.attendants} | {id for id in (permit.supervisor, acting) if id}
        form = permit.form
        return Facts(
            permit=permit,
            instruments={id: self.instrument(id) for id in permit.instruments},
            people={id: self.person(id) for id in named},
            at=at or judged.now,
            clock_confirmed=judged.confirmed,
            figures_confirmed=not form.memory_figures or fingerprint(permit.opened.form) in self._site.confirmed,
            names=self.names(),
            others=self._others(permit),
        )

    def _others(self, permit: Permit) -> tuple[OtherPermit, ...]:
        """The permits that run now beside this one: those near it, and those that share its people or its locks."""
        running = (self.permit(number) for number in self.ids("permit") if number != permit.number)
        return tuple(touching(permit, other) for other in running if other.running)

    # Recording --------------------------------------------------------------------------------------------------------

    def station_signer(self) -> OwnSigner:
        """The station's own signer, opened once: events without a code are signed by it."""
        if self._station_signer is None:
            self._station_signer = self.keys.station_signer()
        return self._station_signer

    def unlock(self, person: str, code: str) -> PersonSigner:
        """The signer of a person who gave their code. A wrong code is an event of its own, shown to its owner."""
        try:
            return self.keys.unlock(person, code, self.now())
        except Refusal:
            left = self.keys.wrong_tries(person)
            if self.begun and person in self.ids("person") and code:
                self.record([ToRecord(f"person/{person}", people.CodeFailed(tries_left=max(10 - left, 0)))], by=None)
            raise

    def sealed(
        self,
        wanted: Iterable[ToRecord],
        by: str | None,
        act: str,
        signer: Signer | None = None,
        following: Sequence[Sealed] = (),
    ) -> tuple[Sealed, ...]:
        """The events sealed one after the other at this moment, not yet stored; for acts that file a page with them.

        ``following`` are events of the same act that were sealed before these.
        """
        judged = self.judged()
        tails = {sealed.stream: (sealed.version, sealed.hash) for sealed in following}
        done: list[Sealed] = []
        for one in wanted:
            version, previous = tails.get(one.stream) or self.journal.tail(one.stream)
            sealed = seal(self._envelope(one, version + 1, previous, by, act, judged), signer or self.station_signer())
            tails[one.stream] = (sealed.version, sealed.hash)
            done.append(sealed)
        return tuple(done)

    def _envelope(
        self, one: ToRecord, version: int, previous: bytes, by: str | None, act: str, judged: Judged
    ) -> Envelope:
        return Envelope(
            stream=one.stream,
            version=version,
            previous=previous,
            kind=one.event.kind,
            kind_version=one.event.kind_version,
            act=act,
            by=by,
            station=self.station,
            at=judged.now,
            wall=judged.sample.wall,
            boot=judged.sample.boot,
            boot_ns=judged.sample.boot_ns,
            zone=self.zone.key,
            unconfirmed=not judged.confirmed,
            data=data_of(one.event),
        )

    def store(self, sealed: Sequence[Sealed], files: Sequence[File] = ()) -> tuple[Entry, ...]:
        """Store one act, then take its happenings into what is known, then tell whoever listens."""
        entries = self.journal.append(sealed, files)
        self._take_in(entries)
        return entries

    def record(
        self, wanted: Sequence[ToRecord], by: str | None, act: str | None = None, signer: Signer | None = None
    ) -> tuple[Entry, ...]:
        """One act: sealed, stored in one transaction, acknowledged after the commit. A repeated act id is one act."""
        if act is not None and (before := self.journal.act(act)):
            return before
        act = act or new_act()
        return self.store(self.sealed(wanted, by, act, signer))

    def _take_in(self, entries: Sequence[Entry]) -> None:
        streams = frozenset(entry.sealed.stream for entry in entries)
        for entry in entries:
            stream = entry.sealed.stream
            self._instruments.pop(stream.removeprefix("instrument/"), None)
            past = self._past.get(stream)
            if past is not None and (not past or past[-1].version < entry.sealed.version):
                happening = happened(entry)
                past.append(happening)
                number = stream.removeprefix("permit/")
                if number in self._permits and stream.startswith("permit/"):
                    self._permits[number] = permit_state.apply(self._permits[number], happening)
        if SITE in streams:
            self._site = site.fold(self.happenings(SITE), Site())
        for listener in self._listeners:
            listener(streams)

    def forget(self) -> None:
        """Fold everything anew: after the clock was declared wrong, or when another program wrote to the journal."""
        self._past.clear()
        self._permits.clear()
        self._instruments.clear()
        self._site = site.fold(self.happenings(SITE), Site())

    def listen(self, listener: Callable[[frozenset[str]], None]) -> None:
        """Tell a screen which streams changed, after each stored act."""
        self._listeners.append(listener)


def new_act() -> str:
    """A fresh act id: 32 hex digits; the same id given twice is one act."""
    return uuid4().hex
