"""The sounds: waveforms made here, played by a small library in a thread of its own; silence is always reported.

The everyone-out sound has the three-pulse temporal pattern of ISO 8201 (0.5 s on, 0.5 s off, three times, then
1.5 s off) and no other sound has it. Energy lies between 500 and 2500 Hz with the strongest part below 1500 Hz, for
people in ear defenders (ISO 7731). A tablet's loudspeaker is never the primary alarm.
"""

from __future__ import annotations

import io
import queue
import threading
import wave as wav
from collections.abc import Callable, Generator
from enum import Enum
from itertools import count
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

RATE = 44_100
"""Samples a second; 16 bits, one channel."""

_PULSE = ((700.0, 0.5), (1050.0, 0.3), (2100.0, 0.2))
_LOW, _HIGH = ((800.0, 0.7), (1600.0, 0.3)), ((1100.0, 0.7), (2200.0, 0.3))
_RAMP = 0.008

Samples = NDArray[np.int16]


class Pattern(Enum):
    """What sounds; its value is the loudness, 1 for all the device gives."""

    EVERYONE_OUT = 1.0
    LIMIT = 0.95
    LATE = 0.8
    SOON = 0.4
    TRIAL = 0.9

    @property
    def repeats(self) -> bool:
        """True where it goes on until stopped."""
        return self not in (Pattern.SOON, Pattern.TRIAL)


class SoundState(Enum):
    """What is known of the sound; anything but READY and PLAYING must be shown."""

    UNTRIED = "untried"
    READY = "ready"
    PLAYING = "playing"
    NO_DEVICE = "no device"
    NO_LIBRARY = "no library"
    FAILED = "failed"


def _tone(parts: tuple[tuple[float, float], ...], seconds: float, loud: float) -> NDArray[np.float64]:
    """Partials of (hertz, share), with short ramps so that no click is louder than the tone."""
    at = np.arange(round(seconds * RATE)) / RATE
    tone = np.sum([share * np.sin(2 * np.pi * hertz * at) for hertz, share in parts], axis=0)
    ramp = np.minimum(1.0, np.minimum(at, at[::-1]) / _RAMP)
    shaped: NDArray[np.float64] = tone / np.max(np.abs(tone)) * loud * ramp
    return shaped


def _silence(seconds: float) -> NDArray[np.float64]:
    return np.zeros(round(seconds * RATE))


def samples(pattern: Pattern) -> Samples:
    """One cycle of a pattern as 16-bit samples at RATE."""
    loud = pattern.value
    if pattern in (Pattern.EVERYONE_OUT, Pattern.TRIAL):
        pulse = _tone(_PULSE, 0.5, loud)
        pieces = [pulse, _silence(0.5), pulse, _silence(0.5), pulse, _silence(1.5)]
        if pattern is Pattern.TRIAL:
            # One short pulse: heard, and never taken for an order.
            pieces = [_tone(_PULSE, 0.25, loud), _silence(0.25)]
    elif pattern is Pattern.LIMIT:
        pieces = [_tone(_LOW, 0.25, loud), _tone(_HIGH, 0.25, loud)]
    elif pattern is Pattern.LATE:
        beep = _tone(_LOW, 0.15, loud)
        pieces = [beep, _silence(0.15), beep, _silence(30 - 0.45)]
    else:
        pieces = [_tone(_LOW, 0.2, loud), _silence(0.3)]
    joined: Samples = np.round(np.concatenate(pieces) * 32_000).astype(np.int16)
    return joined


def wave(pattern: Pattern) -> bytes:
    """One cycle of a pattern as a WAV file."""
    buffer = io.BytesIO()
    with wav.open(buffer, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples(pattern).astype("<i2").tobytes())
    return buffer.getvalue()


Source = Generator[bytes, int, None]


class Output(Protocol):
    """Where the samples go. ``start`` may raise OSError, which becomes a state."""

    def devices(self) -> list[str] | None:
        """Names of what can be heard; None without the library."""

    def start(self, source: Source) -> None:
        """Begin to ask ``source`` for samples."""

    def stop(self) -> None:
        """Ask no more."""


class LoudspeakerOutput:
    """The machine's own output, through miniaudio."""

    def __init__(self) -> None:
        self._device: Any = None

    def devices(self) -> list[str] | None:
        """The playback devices, without the one that discards what it gets."""
        try:
            import miniaudio  # type: ignore[import-untyped]
        except ImportError:
            return None
        try:
            found = miniaudio.Devices().get_playbacks()
        except miniaudio.MiniaudioError as fault:
            raise OSError(str(fault)) from fault
        return [one["name"] for one in found if not one["name"].startswith(("Discard all samples", "NULL "))]

    def start(self, source: Source) -> None:
        """Open the default device."""
        import miniaudio

        self.stop()
        try:
            self._device = miniaudio.PlaybackDevice(
                output_format=miniaudio.SampleFormat.SIGNED16, nchannels=1, sample_rate=RATE, buffersize_msec=80
            )
            self._device.start(source)
        except miniaudio.MiniaudioError as fault:
            self.stop()
            raise OSError(str(fault)) from fault

    def stop(self) -> None:
        """Close the device."""
        if self._device is not None:
            self._device.close()
            self._device = None


class Sound:
    """Plays one pattern at a time. Nothing here blocks or raises for want of a device: read ``state``.

    ``told`` is called from the sound's own thread whenever the state changes; a window passes a signal's ``emit``.
    While a pattern should sound and cannot, the device is tried again every two seconds.
    """

    AGAIN = 2.0

    def __init__(self, output: Output | None = None, told: Callable[[SoundState], None] | None = None) -> None:
        self._output = output or LoudspeakerOutput()
        self._told = told
        self._state = SoundState.UNTRIED
        self._orders: queue.SimpleQueue[Pattern | str] = queue.SimpleQueue()
        self._playing: Pattern | None = None
        self._asked = 0
        self._ended = False
        self._thread = threading.Thread(target=self._run, name="sound", daemon=True)
        self._thread.start()

    @property
    def state(self) -> SoundState:
        """What is known now."""
        return self._state

    @property
    def playing(self) -> Pattern | None:
        """What should sound now, heard or not."""
        return self._playing

    def play(self, pattern: Pattern) -> None:
        """Sound a pattern in place of any other. The same pattern goes on without a break."""
        if self._playing is not pattern or not pattern.repeats:
            self._playing = pattern
            self._orders.put(pattern)

    def stop(self) -> None:
        """Silence."""
        self._playing = None
        self._orders.put("stop")

    def check(self) -> None:
        """Look for a device; the state tells."""
        self._orders.put("check")

    def close(self) -> None:
        """Stop and end the thread."""
        self._playing = None
        self._orders.put("close")
        self._thread.join(timeout=3)

    def _set(self, state: SoundState) -> None:
        if state is not self._state:
            self._state = state
            if self._told:
                self._told(state)

    def _run(self) -> None:
        heard = 0
        while True:
            try:
                order = self._orders.get(timeout=self.AGAIN)
            except queue.Empty:
                # A device that was pulled out asks for no more samples, and says nothing.
                heard = self._look_after(heard)
                continue
            if order == "close":
                self._output.stop()
                return
            if isinstance(order, Pattern):
                heard = self._asked
                self._begin(order)
            elif order == "stop":
                self._output.stop()
                self._set(SoundState.READY if self._state is SoundState.PLAYING else self._state)
            else:
                self._find()

    def _find(self) -> bool:
        try:
            names = self._output.devices()
        except OSError:
            self._set(SoundState.FAILED)
            return False
        if not names:
            self._set(SoundState.NO_LIBRARY if names is None else SoundState.NO_DEVICE)
            return False
        if self._state is not SoundState.PLAYING:
            self._set(SoundState.READY)
        return True

    def _begin(self, pattern: Pattern) -> None:
        if not self._find():
            return
        try:
            source = self._source(pattern)
            next(source)
            self._output.start(source)
        except OSError:
            self._set(SoundState.FAILED)
            return
        self._ended = False
        self._set(SoundState.PLAYING)

    def _look_after(self, heard: int) -> int:
        pattern = self._playing
        if self._ended:
            self._output.stop()
            self._playing = None if pattern and not pattern.repeats else pattern
            self._ended = False
            self._set(SoundState.READY)
        elif pattern is not None and (self._state is not SoundState.PLAYING or self._asked == heard):
            self._output.stop()
            self._set(SoundState.FAILED if self._state is SoundState.PLAYING else self._state)
            self._begin(pattern)
        return self._asked

    def _source(self, pattern: Pattern) -> Source:
        """The endless (or single) run of samples; asked for a number of frames each time, gives their bytes."""
        cycle = samples(pattern)
        wanted = yield b""
        place = 0
        for _turn in count():
            self._asked += 1
            if pattern.repeats:
                at = np.arange(place, place + wanted) % len(cycle)
                piece = cycle[at]
            else:
                piece = np.zeros(wanted, dtype=np.int16)
                rest = cycle[place : place + wanted]
                piece[: len(rest)] = rest
                self._ended = place >= len(cycle)
            place += wanted
            wanted = yield piece.tobytes()
