"""Record a change that the posted page tells: once entry is authorized, the permit's page is filed anew with it."""

from __future__ import annotations

from lamproom.bench.happening import Event
from lamproom.office.key_signers import Signer
from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import on_permit


def amend(
    office: Office, number: str, event: Event, *, by: str | None, act: str | None = None, signer: Signer | None = None
) -> None:
    """Record the change; while the permit runs, with its page in the same transaction, signed by ``signer``, else by
    the station. Before and after that it is a change like any other. Refused, with why, when the permit takes it no
    more."""
    if not office.permit(number).running:
        on_permit(office, number, event, by=by, act=act, signer=signer)
        return
    record_with_page(office, number, [event], by, "amended", signer or office.station_signer(), act)
