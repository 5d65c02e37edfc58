"""The sounds, measured from their samples, and the silence that is always reported."""

import io
import threading
import wave as wav

import numpy as np
import pytest

from lamproom.desk.sound import RATE, LoudspeakerOutput, Pattern, Sound, SoundState, samples, wave


def runs(pattern):
    """(sounding, seconds) in order: sounding where the level over 10 ms is above a hundredth of full scale."""
    made = samples(pattern).astype(float)
    block = RATE // 100
    loud = [np.abs(made[i : i + block]).max() > 327 for i in range(0, len(made) - block + 1, block)]
    found = []
    for one in loud:
        if found and found[-1][0] == one:
            found[-1][1] += 0.01
        else:
            found.append([one, 0.01])
    return [(bool(on), round(seconds, 1)) for on, seconds in found]


def test_everyone_out_has_the_three_pulse_pattern():
    """ISO 8201: 0.5 s on and 0.5 s off, three times, the last off 1.5 s; a cycle of 4 s."""
    on, off = (True, 0.5), (False, 0.5)
    assert runs(Pattern.EVERYONE_OUT) == [on, off, on, off, on, (False, 1.5)]
    assert len(samples(Pattern.EVERYONE_OUT)) == 4 * RATE


def test_no_other_sound_has_three_pulses():
    """ISO 8201 keeps the pattern for evacuation alone."""
    for pattern in Pattern:
        if pattern is not Pattern.EVERYONE_OUT:
            assert sum(on for on, _seconds in runs(pattern)) < 3


def test_the_limit_sound_never_pauses():
    assert runs(Pattern.LIMIT) == [(True, 0.5)]


def test_late_is_two_beeps_each_half_minute():
    found = runs(Pattern.LATE)
    assert [on for on, _seconds in found] == [True, False, True, False]
    assert len(samples(Pattern.LATE)) == 30 * RATE


@pytest.mark.parametrize("pattern", list(Pattern))
def test_the_energy_lies_where_ears_under_defenders_hear_it(pattern):
    """Between 500 and 2500 Hz, more than half below 1500 Hz (after ISO 7731, from memory)."""
    made = samples(pattern).astype(float)
    power = np.abs(np.fft.rfft(made)) ** 2
    hertz = np.fft.rfftfreq(len(made), 1 / RATE)
    share = lambda low, high: power[(hertz >= low) & (hertz < high)].sum() / power.sum()  # noqa: E731
    assert share(500, 2500) > 0.95
    assert share(500, 1500) > 0.5


def test_the_soft_beep_is_softer_and_nothing_clips():
    peak = {pattern: int(np.abs(samples(pattern).astype(int)).max()) for pattern in Pattern}
    assert peak[Pattern.SOON] < peak[Pattern.LATE] < peak[Pattern.EVERYONE_OUT] <= 32_767


def test_a_wave_file_can_be_read_by_others():
    with wav.open(io.BytesIO(wave(Pattern.EVERYONE_OUT))) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        assert file.getnframes() == 4 * RATE


class FakeOutput:
    """A loudspeaker that a test plugs in, pulls out and listens to; ``pull`` asks for samples as a device would."""

    def __init__(self, names=("Loudspeaker",), breaks=False):
        self.names, self.breaks = names, breaks
        self.source = None
        self.started = threading.Event()

    def devices(self):
        return None if self.names is None else list(self.names)

    def start(self, source):
        if self.breaks:
            raise OSError("device busy")
        self.source = source
        self.started.set()

    def stop(self):
        self.source = None

    def pull(self, frames):
        return np.frombuffer(self.source.send(frames), dtype="<i2")


@pytest.fixture
def sounding():
    made = []

    def build(output, again=0.05):
        states = []
        sound = Sound(output, states.append)
        sound.AGAIN = again
        made.append(sound)
        return sound, states

    yield build
    for sound in made:
        sound.close()


def test_a_pattern_goes_round_until_it_is_stopped(qtbot, sounding):
    output = FakeOutput()
    sound, _states = sounding(output, again=60)
    sound.play(Pattern.LIMIT)
    assert output.started.wait(5)
    qtbot.waitUntil(lambda: sound.state is SoundState.PLAYING)
    cycle = samples(Pattern.LIMIT)
    heard = np.concatenate([output.pull(len(cycle) // 2 + 7) for _ in range(5)])
    assert np.array_equal(heard, np.resize(cycle, len(heard)))
    sound.stop()
    qtbot.waitUntil(lambda: output.source is None and sound.state is SoundState.READY)


def test_a_single_beep_ends_by_itself(qtbot, sounding):
    output = FakeOutput()
    sound, _states = sounding(output)
    sound.play(Pattern.SOON)
    assert output.started.wait(5)
    length = len(samples(Pattern.SOON))
    output.pull(length)
    assert not output.pull(100).any()
    qtbot.waitUntil(lambda: sound.state is SoundState.READY and sound.playing is None)


@pytest.mark.parametrize(
    ("output", "state"),
    [
        (FakeOutput(names=()), SoundState.NO_DEVICE),
        (FakeOutput(names=None), SoundState.NO_LIBRARY),
        (FakeOutput(breaks=True), SoundState.FAILED),
    ],
    ids=["no device", "no library", "busy"],
)
def test_silence_is_a_state_and_never_an_exception(qtbot, sounding, output, state):
    sound, states = sounding(output, again=60)
    sound.play(Pattern.EVERYONE_OUT)
    qtbot.waitUntil(lambda: sound.state is state)
    assert state in states
    assert sound.playing is Pattern.EVERYONE_OUT  # it should sound, and does not: the screen can say so


def test_a_device_plugged_in_later_takes_up_the_order(qtbot, sounding):
    output = FakeOutput(names=())
    sound, _states = sounding(output)
    sound.play(Pattern.EVERYONE_OUT)
    qtbot.waitUntil(lambda: sound.state is SoundState.NO_DEVICE)
    output.names = ("Loudspeaker",)
    assert output.started.wait(5)
    qtbot.waitUntil(lambda: SoundState.PLAYING in _states)


def test_a_device_that_asks_for_nothing_more_is_reported(qtbot, sounding):
    """A device that was pulled out says nothing: it only stops asking."""
    output = FakeOutput()
    sound, states = sounding(output)
    sound.play(Pattern.EVERYONE_OUT)
    qtbot.waitUntil(lambda: SoundState.FAILED in states)


def test_this_machine_answers_with_a_state_whatever_it_has(qtbot, sounding):
    """With the real library: a device or none, and a discarding one counts as none."""
    output = LoudspeakerOutput()
    sound, _states = sounding(output)
    sound.check()
    qtbot.waitUntil(lambda: sound.state is not SoundState.UNTRIED, timeout=20_000)
    assert sound.state in (SoundState.READY, SoundState.NO_DEVICE, SoundState.NO_LIBRARY, SoundState.FAILED)
    assert "Discard all samples (playback) or generate zero samples (capture)" not in (output.devices() or [])
