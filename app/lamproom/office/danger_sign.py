"""The danger sign of a space, to be printed and hung at its opening: 29 CFR 1910.146(c)(2)."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.paper.content import DangerSign
from lamproom.permit.space import permit_required
from lamproom.words import Refusal, sentence


def danger_sign_pdf(office: Office, space: str, paper: Literal["letter", "a4"] = "letter") -> bytes:
    """The sign as PDF bytes, as the register knows the space now. Refused for a space that is unknown, or that its
    seven answers do not make permit-required."""
    from lamproom.paper.danger_sign import render_danger_sign

    registered = office.space(space).registered
    if registered is None:
        raise Refusal(sentence("office.no_space", space=space))
    if not permit_required(registered):
        raise Refusal(sentence("office.no_danger_sign", name=registered.name))
    now = office.now()
    local = now.astimezone(office.zone)
    sign = DangerSign(
        site=office.site.begun.name if office.site.begun else "",
        space_id=space,
        space_name=registered.name,
        space_place=registered.place,
        printed=f"{local.day} {local.strftime('%b %Y')}",
        printed_at=now,
    )
    return render_danger_sign(sign, paper)


def danger_sign_name(office: Office, space: str) -> str:
    """The name under which the sign is saved: the space, no personal names."""
    registered = office.space(space).registered
    name = registered.name if registered is not None else space
    words = "".join(c if c.isascii() and c.isalnum() else "-" for c in name).strip("-").lower()
    return f"danger-sign-{words}.pdf"
