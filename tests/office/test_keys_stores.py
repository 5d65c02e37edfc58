"""Keys go through the real stores as through the small one of the other tests."""

from datetime import UTC, datetime

import pytest

from lamproom.office.device import DeviceSecret
from lamproom.office.key_box import CHEAPEST
from lamproom.office.keys import KeyRing
from lamproom.record.memory import MemoryJournal
from lamproom.record.opening import open_journal
from lamproom.words import Refusal

NOW = datetime(2031, 5, 6, 12, 0, tzinfo=UTC)
DEVICE = DeviceSecret(bytes(range(32)), in_os_store=True)


@pytest.fixture(params=["memory", "sqlite"])
def opened(request, tmp_path):
    """A way to open the store: for SQLite anew each time, as after a restart."""
    held = [MemoryJournal()] if request.param == "memory" else []

    def open_it():
        if request.param == "memory":
            return held[0]
        for journal in held:
            journal.close()
        held[:] = [open_journal(tmp_path / "site")]
        return held[0]

    yield open_it
    held[0].close()


def test_a_site_begun_opened_again_enrolls_signs_and_counts(opened):
    KeyRing(opened(), DEVICE, CHEAPEST).begin_site("Site", "Trailer 2", "p-f", "Ines Marrow", "lid-4-otter", NOW)
    KeyRing(opened(), DEVICE, CHEAPEST).enrol("p-a", "Ann Pell", "481730", "lid-4-otter", NOW)
    KeyRing(opened(), DEVICE, CHEAPEST).change_code("p-a", "481730", "940857", NOW)
    for left in range(4, 0, -1):
        with pytest.raises(Refusal) as refused:
            KeyRing(opened(), DEVICE, CHEAPEST).unlock("p-a", "481730", NOW)
        assert f"{left} tr" in str(refused.value)
    ring = KeyRing(opened(), DEVICE, CHEAPEST)
    signer = ring.unlock("p-a", "940857", NOW)
    assert ring.chain_for(signer.key)[1] == ring.root_certificate()
    assert signer.wrong_tries_before == 4 and ring.people() == ("p-f", "p-a")


def test_a_reset_leaves_the_new_key_in_use_and_the_old_certificate_to_read(opened):
    ring = KeyRing(opened(), DEVICE, CHEAPEST)
    ring.begin_site("Site", "Trailer 2", "p-f", "Ines Marrow", "lid-4-otter", NOW)
    ring.enrol("p-a", "Ann Pell", "481730", "lid-4-otter", NOW)
    ring.enrol("p-b", "Bob Quist", "kranichfeld", "lid-4-otter", NOW)
    old = ring.unlock("p-a", "481730", NOW).key
    ring.reset_code("p-a", "940857", "lid-4-otter", "p-b", "kranichfeld", NOW)
    again = KeyRing(opened(), DEVICE, CHEAPEST)
    assert again.unlock("p-a", "940857", NOW).key != old
    assert again.chain_for(old)
