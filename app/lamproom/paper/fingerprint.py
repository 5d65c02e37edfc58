"""The page's fingerprint: a short code that ties the paper to its record.

SHA-256 over the canonical record, written in Crockford's base 32 (no I, L, O, U, so that it can be read aloud and
typed from a wet page). Twelve signs in fours stand in the foot; the QR carries the same twelve and ten more.
"""

from __future__ import annotations

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
PRINTED = 12
IN_QR = 22

_HEARD_AS = str.maketrans({"I": "1", "L": "1", "O": "0"})


def code_of(digest: bytes) -> str:
    """The 22 signs (110 bits) of a SHA-256 digest of the canonical record."""
    if len(digest) != 32:
        raise ValueError("a SHA-256 digest has 32 bytes")
    number = int.from_bytes(digest, "big")
    return "".join(SIGNS[(number >> (256 - 5 * (place + 1))) & 31] for place in range(IN_QR))


def in_fours(code: str) -> str:
    """The twelve printed signs in groups of four: '07TW H6JV K3FR'."""
    return " ".join(code[start : start + 4] for start in range(0, PRINTED, 4))


def as_typed(text: str) -> str:
    """A code as someone typed it, brought to its signs: spaces and hyphens dropped, O read as 0, I and L as 1."""
    return "".join(text.split()).replace("-", "").upper().translate(_HEARD_AS)


def qr_text(number: str, version: int, code: str) -> str:
    """What the QR says: no web address, only marks of the alphanumeric mode (ISO/IEC 18004)."""
    return f"LR1:{number.upper()}:{version}:{code[:IN_QR]}"
