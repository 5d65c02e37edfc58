"""What sounds at this station and why: the alarms that stand, what was silenced, what was acknowledged."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from lamproom.desk.sound import Pattern, Sound, SoundState
from lamproom.desk.watch.station import Sounding, battery
from lamproom.office.views.watch import Station
from lamproom.office.views.watch_alarms import Alarm, Attention
from lamproom.words import say

PATTERNS = {
    "everyone-out": Pattern.EVERYONE_OUT,
    "limit": Pattern.LIMIT,
    "late": Pattern.LATE,
    "soon": Pattern.SOON,
}
_SILENT = (SoundState.NO_DEVICE, SoundState.NO_LIBRARY, SoundState.FAILED)


class Bell:
    """Holds the station's sound, made at first need. ``given`` is a recorder in tests; ``told`` hears of its state.

    ``lost``: an order was given and not recorded.
    """

    def __init__(self, given: Sounding | None, told: Callable[[object], None]) -> None:
        self._given, self._told = given, told
        self._sound: Sounding | None = None
        self._attention = Attention()
        self._wanted: Pattern | None = None
        self.lost = False

    def begin(self) -> Sounding:
        """The sound; the first time a device is looked for."""
        if self._sound is None:
            self._sound = self._given or Sound(told=self._told)
            self._sound.check()
        return self._sound

    def forget(self) -> None:
        """Nothing is silenced or acknowledged any more: another permit, or an order."""
        self._attention = Attention()

    def station(self, tried: str) -> Station:
        """What this machine says of itself; ``tried`` is when someone last heard it."""
        state = self._sound.state if self._sound is not None else SoundState.UNTRIED
        silent = state in _SILENT
        if state is SoundState.PLAYING:
            words = say("watch.sound.on")
        elif silent:
            words = say("watch.sound.failed" if state is SoundState.FAILED else "watch.sound.none")
        else:
            words = say("watch.sound.tried", time=tried) if tried else say("watch.sound.untried")
        return Station(words, silent, battery())

    def order(self) -> None:
        """Everyone out, at once."""
        self.forget()
        self._play(Pattern.EVERYONE_OUT)

    def try_it(self) -> None:
        """One short sound, never taken for an order."""
        self.begin().play(Pattern.TRIAL)

    def ring(self, standing: tuple[Alarm, ...], at: datetime) -> None:
        """Sound what is to be heard now, or be quiet."""
        self._attention.keep(standing)
        if self._sound is None or self.lost:
            return
        alarm = self._attention.sounding(standing, at)
        if alarm is not None:
            self._play(PATTERNS[alarm.pattern])
        elif self._wanted is not None:
            self.hush()

    def _play(self, pattern: Pattern) -> None:
        self.begin().play(pattern)
        self._wanted = pattern if pattern.repeats else None

    def hush(self) -> None:
        """Quiet."""
        self._wanted = None
        self.begin().stop()

    def silence(self, standing: tuple[Alarm, ...], at: datetime) -> None:
        """Quiet for a short time for everything that stands."""
        self._attention.silence(standing, at)
        self.hush()

    def acknowledge(self, standing: tuple[Alarm, ...], at: datetime) -> Alarm | None:
        """The first alarm that nobody acknowledged is acknowledged; None when there is none."""
        return self._attention.acknowledge(standing, at)

    def unseen(self, standing: tuple[Alarm, ...]) -> Alarm | None:
        """The first alarm that nobody acknowledged."""
        return self._attention.unseen(standing)

    def silent_for(self, standing: tuple[Alarm, ...], at: datetime) -> int:
        """Seconds that the silence still lasts."""
        return self._attention.silent_for(standing, at)
