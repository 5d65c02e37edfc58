"""Figures that people type: the one parser, and the two ways to write a figure back.

A figure is digits with at most one decimal sign, a point or a comma. A comma is a decimal sign everywhere and never
a thousands sign. Whatever else is typed is refused with its spot marked, because a slip that is quietly repaired
(2O.9 read as 209, 1e3 read as 13) becomes a reading that nobody took.
"""

from __future__ import annotations

import re
from decimal import Decimal

from lamproom.words import Refusal, Sentence, sentence

MOST_DIGITS = 12
_FIGURE = re.compile(r"[-\u2212]?(?:0|[1-9][0-9]*)(?:[.,][0-9]+)?")
_THOUSANDS_LOOK = re.compile(r"[-\u2212]?[1-9][0-9]{0,2},[0-9]{3}")
_MINUS = "-\u2212"


class Unreadable(Refusal):
    """What was typed is no figure. ``text`` keeps it as typed; ``at`` is the place of the first wrong character."""

    def __init__(self, text: str, at: int, why: Sentence) -> None:
        self.text = text
        self.at = at
        super().__init__(why)


def read_figure(text: str) -> Decimal:
    """The figure that was typed, with its digits kept: "20,90" is Decimal("20.90").

    Accepts digits 0 to 9, one point or comma between digits, a minus sign in front, spaces around.
    Raises Unreadable for all else, the empty text included: a missing reading is not a zero.

    >>> read_figure(" 20,9 ")
    Decimal('20.9')
    >>> read_figure("1,250")
    Decimal('1.250')
    """
    typed = text.strip()
    if not typed:
        raise Unreadable(text, 0, sentence("air.figure.nothing"))
    if _FIGURE.fullmatch(typed) is None:
        raise _unreadable(text, typed)
    digits = [i for i, c in enumerate(typed) if c.isdigit()]
    if len(digits) > MOST_DIGITS:
        too_long = sentence("air.figure.too_long", most=MOST_DIGITS)
        raise _marked(text, typed, digits[MOST_DIGITS], too_long)
    return Decimal(typed.replace(",", ".").replace("\u2212", "-"))


def read_as(text: str) -> Sentence | None:
    """The caution for a comma that looks like a thousands sign ("1,250" is 1.250); None when nothing can be mistaken.

    For a toxic gas the mistake is the deadly way round: a person means 1250 ppm and 1.250 is stored. A screen shows
    this sentence beside the field before the figure is taken.
    """
    typed = text.strip()
    if _THOUSANDS_LOOK.fullmatch(typed) is None:
        return None
    return sentence("air.figure.read_as", text=typed, shown=shown(read_figure(typed)), other=typed.replace(",", ""))


def canonical(value: Decimal) -> str:
    """The figure as a record keeps it: plain digits, a point, no exponent, trailing zeros kept, no negative zero.

    >>> canonical(Decimal("20.90"))
    '20.90'
    >>> canonical(Decimal("1E+3"))
    '1000'
    """
    if not value.is_finite():
        raise ValueError(f"{value} is not a figure that a record can keep")
    return format(abs(value) if value.is_zero() else value, "f")


def shown(value: Decimal | str) -> str:
    """The figure as a person reads it: a zero before the point, a true minus sign, no thousands signs.

    A string must be a figure of the record (see ``canonical``); anything else is a ValueError, a fault of ours.

    >>> shown(Decimal(".5")), shown("-0.1"), shown("4500")
    ('0.5', '−0.1', '4500')
    """
    if isinstance(value, str):
        if re.fullmatch(r"-?[0-9]*\.?[0-9]+", value) is None:
            raise ValueError(f"{value!r} is not a figure of the record")
        value = Decimal(value)
    return canonical(value).replace("-", "\u2212")


def _unreadable(text: str, typed: str) -> Unreadable:
    at, why = _first_wrong(typed)
    return _marked(text, typed, at, why)


def _marked(text: str, typed: str, at: int, why: Sentence) -> Unreadable:
    marked = f"{_printable(typed[:at])}[{_printable(typed[at : at + 1])}]{_printable(typed[at + 1 :])}"
    offset = len(text) - len(text.lstrip())
    return Unreadable(
        text, offset + at, sentence("air.figure.unreadable", text=_printable(typed), why=why, marked=marked)
    )


def _first_wrong(typed: str) -> tuple[int, Sentence]:
    """Where a text that is no figure first leaves the rule, and the sentence for that slip."""
    signs = 0
    for at, found in enumerate(typed):
        before = typed[at - 1] if at else ""
        if found in "0123456789":
            if before == "0" and _starts_number(typed, at - 1):
                return at - 1, sentence("air.figure.leading_zero")
        elif found in ".,":
            signs += 1
            if signs > 1:
                return at, sentence("air.figure.second_sign")
            if before not in tuple("0123456789") or at == len(typed) - 1:
                return at, sentence("air.figure.bare_sign")
        elif not (found in _MINUS and at == 0 and len(typed) > 1):
            return at, _why(found, typed[:at])
    raise AssertionError(f"{typed!r} was refused, yet nothing in it is wrong")


def _starts_number(typed: str, at: int) -> bool:
    return at == 0 or (at == 1 and typed[0] in _MINUS)


def _why(found: str, before: str) -> Sentence:
    after_digit = before[-1:].isdigit()
    if found in "oO":
        return sentence("air.figure.letter_o", found=found)
    if found in "lI|":
        return sentence("air.figure.letter_l", found=found)
    if found in "eE" and after_digit:
        return sentence("air.figure.exponent")
    if found == "+":
        return sentence("air.figure.plus")
    if found in _MINUS:
        return sentence("air.figure.minus")
    if found.isspace():
        return sentence("air.figure.space")
    if found in "%pP" and after_digit:
        return sentence("air.figure.unit")
    if found.isnumeric():
        return sentence("air.figure.other_digit", found=found)
    return sentence("air.figure.stranger", found=_printable(found))


def _printable(text: str) -> str:
    """Control and bidirectional marks would turn the quotation itself unreadable."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "\ufffd" for c in text)
