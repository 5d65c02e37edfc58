"""Rules of codes: which one may be chosen, and how often a wrong one may be typed. No store, no clock.

Sources: NIST SP 800-63B-4 (length, blocklist, throttling, no composition rules, no forced change). The figures of
the throttle (5 free tries, then 30 s doubling to 1 h, off at 10) are this program's own.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from lamproom.words import Sentence, sentence

LONGEST = 128
FREE_TRIES = 5
LIMIT = 10
FIRST_WAIT = timedelta(seconds=30)
LONGEST_WAIT = timedelta(hours=1)

_ROWS = ("0123456789", "1234567890", "abcdefghijklmnopqrstuvwxyz", "qwertyuiop", "asdfghjkl", "zxcvbnm")
_COLUMNS = ("741852963", "147258369", "159357", "753951", "789456123", "123654789", "789456", "456123", "456789")
_COMMON = frozenset(
    """password passw0rd password1 letmein welcome admin administrator iloveyou monkey dragon baseball football sunshine
    princess master shadow superman trustno1 starwars whatever freedom secret changeme default lamproom permit
    safety supervisor attendant confined 112358 314159 271828 246810 135790 135791 159753 147852 142536 520520 696969
    1q2w3e 1q2w3e4r q1w2e3r4 1qaz2wsx zaq12wsx 11223344 00112233 12344321 123321 password12 password123 qwerty123
    abc123 abcd1234 a1b2c3 letmein1 welcome1 admin123 1234abcd 112233 445566 778899 998877 332211 101010 202020
    010203 030201 102030 123abc""".split()
)
"""A small list of those that lists of leaked passwords have near the top (from memory), and words of this trade."""


def clean(code: str) -> str:
    """The code as it is counted and made a key: one form for each character, whatever keyboard typed it (NFKC)."""
    return unicodedata.normalize("NFKC", code)


def weak(code: str, minimum: int, avoid: Iterable[str] = ()) -> list[Sentence]:
    """Every reason why this code may not be chosen; empty when it may.

    ``minimum`` in characters (``DeviceSecret.minimum_code``); ``avoid``: words of the owner (name, badge, birth).
    """
    code = clean(code)
    plain = _plain(code)
    reasons: list[Sentence] = []
    if len(code) < minimum:
        reasons.append(sentence("keys.code_short", length=len(code), minimum=minimum))
    if len(code) > LONGEST:
        reasons.append(sentence("keys.code_long", length=len(code), maximum=LONGEST))
    if code != code.strip() or any(unicodedata.category(mark)[0] == "C" for mark in code):
        reasons.append(sentence("keys.code_spaces"))
    if code and len(set(plain)) <= 2:
        reasons.append(sentence("keys.code_one_character"))
    elif _repeats(plain):
        reasons.append(sentence("keys.code_repeat"))
    if _runs(plain):
        reasons.append(sentence("keys.code_run"))
    if _is_date(code):
        reasons.append(sentence("keys.code_date"))
    if plain in _COMMON or plain.rstrip("0123456789") in _COMMON:
        reasons.append(sentence("keys.code_common"))
    if _personal(plain, avoid):
        reasons.append(sentence("keys.code_personal"))
    return reasons


def together(reasons: Sequence[Sentence]) -> Sentence:
    """All reasons as one sentence to be said; at least one is needed."""
    said = reasons[-1]
    for reason in reversed(reasons[:-1]):
        said = sentence("keys.both", first=reason, rest=said)
    return said


def _plain(code: str) -> str:
    return "".join(mark for mark in code.casefold() if mark.isalnum()) or code


def _repeats(plain: str) -> bool:
    """A block said at least twice makes up the whole: 123123, abab."""
    return any(
        len(plain) % size == 0 and plain == plain[:size] * (len(plain) // size)
        for size in range(1, len(plain) // 2 + 1)
    )


def _runs(plain: str) -> bool:
    """The whole goes along the digits, the alphabet or keys side by side, in one way or in two of three and more."""
    if len(plain) < 3:
        return False
    if _along(plain):
        return True
    return any(_along(plain[:cut]) and _along(plain[cut:]) for cut in range(3, len(plain) - 2))


def _along(part: str) -> bool:
    ways = (*_ROWS, *_COLUMNS)
    return any(part in way or part in way[::-1] for way in ways)


def _is_date(code: str) -> bool:
    """Six or eight digits, separators apart, that are a day of 1900 to 2099 in the order of any country."""
    if re.fullmatch(r"[0-9./\- ]+", code) is None:
        return False
    digits = re.sub(r"[^0-9]", "", code)
    if len(digits) == 6:
        a, b, c = int(digits[:2]), int(digits[2:4]), int(digits[4:])
        # 2000 is a leap year, so the 29th of February counts for either century
        return any(_day(2000, m, d) for m, d in ((a, b), (b, a), (b, c)))
    if len(digits) == 8:
        first, last = int(digits[:4]), int(digits[4:])
        front = any(_day(last, m, d) for m, d in ((first // 100, first % 100), (first % 100, first // 100)))
        back = any(_day(first, m, d) for m, d in ((last // 100, last % 100), (last % 100, last // 100)))
        return front or back
    return False


def _day(year: int, month: int, day: int) -> bool:
    if not (1900 <= year <= 2099 and 1 <= month <= 12):
        return False
    after = date(year + month // 12, month % 12 + 1, 1)
    return 1 <= day <= (after - timedelta(days=1)).day


def _personal(plain: str, avoid: Iterable[str]) -> bool:
    for words in avoid:
        for word in (words, *words.split()):
            owned = _plain(clean(word))
            if len(owned) >= 4 and (owned in plain or (len(plain) >= 4 and plain in owned)):
                return True
            if len(owned) >= 3 and owned == plain.strip("0123456789"):
                return True  # a short name with figures round it; inside a longer word it is chance (Ann, planning)
    return False


# Wrong tries ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Tries:
    """Wrong codes since the last right one: how many, when the last was begun, and where a wait began anew.

    ``again`` is set when the clock was found set back behind ``last``: the whole wait is then counted from there.
    """

    failures: int = 0
    last: datetime | None = None
    again: datetime | None = None

    @property
    def off(self) -> bool:
        return self.failures >= LIMIT

    def wait(self, now: datetime) -> timedelta:
        """How long the next try still has to wait, by the judged time ``now``; zero when it need not."""
        whole = wait_after(self.failures)
        if self.last is None or not whole:
            return timedelta(0)
        if now >= self.last:
            return max(self.last + whole - now, timedelta(0))
        if self.again is None or now < self.again:
            return whole
        return max(self.again + whole - now, timedelta(0))

    def seen(self, now: datetime) -> Tries:
        """Note a clock set back behind the last try, so that the wait runs from there, whole and not for years."""
        if self.last is None or now >= self.last or (self.again is not None and self.again <= now):
            return self
        return replace(self, again=now)

    def one_more(self, now: datetime) -> Tries:
        """With one try more, counted before it is known whether it was right."""
        return Tries(self.failures + 1, now)


def wait_after(failures: int) -> timedelta:
    """The wait that follows this many wrong tries in a row: none up to 4, 30 s after 5, doubling, at most 1 h."""
    if failures < FREE_TRIES:
        return timedelta(0)
    doublings = min(failures - FREE_TRIES, 20)
    return min(FIRST_WAIT * int(2**doublings), LONGEST_WAIT)


def tries_text(tries: Tries) -> str:
    """The tries as they stand in a setting."""
    return " ".join((str(tries.failures), _time_text(tries.last), _time_text(tries.again)))


def tries_from(text: str | None) -> Tries:
    """The tries from a setting. None is no tries; text nobody of us wrote counts as off, never as a fresh start."""
    if text is None:
        return Tries()
    parts = text.split(" ")
    if len(parts) != 3 or not re.fullmatch(r"[0-9]{1,4}", parts[0]):
        return Tries(LIMIT)
    try:
        return Tries(int(parts[0]), _time_from(parts[1]), _time_from(parts[2]))
    except ValueError:
        return Tries(LIMIT)


def _time_text(at: datetime | None) -> str:
    return "-" if at is None else at.isoformat()


def _time_from(text: str) -> datetime | None:
    if text == "-":
        return None
    at = datetime.fromisoformat(text)
    if at.tzinfo is None:
        raise ValueError(text)
    return at
