"""The secret of this computer is made once, kept from others, and never replaced in silence."""

import os
import stat

import pytest

from lamproom.office.device import DeviceSecret, StoreSilent, device_secret
from lamproom.words import Refusal


class Store:
    """A key store as an operating system has it; it can be locked."""

    def __init__(self):
        self.kept = None
        self.locked = False

    def read(self):
        if self.locked:
            raise StoreSilent("locked")
        return self.kept

    def write(self, text):
        if self.locked:
            raise StoreSilent("locked")
        self.kept = text


def test_the_same_secret_of_32_bytes_comes_back_at_each_start(tmp_path):
    first = device_secret(tmp_path / "device")
    assert len(first.value) == 32
    assert device_secret(tmp_path / "device") == first
    assert device_secret(tmp_path / "another").value != first.value


@pytest.mark.skipif(os.name != "posix", reason="modes of files are POSIX")
def test_only_its_owner_reads_the_file_even_when_a_copy_opened_it(tmp_path):
    device_secret(tmp_path)
    (file,) = tmp_path.iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    file.chmod(0o644)
    device_secret(tmp_path)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_codes_need_six_characters_with_the_systems_store_and_eight_without(tmp_path):
    """NIST SP 800-63B-4: activation secrets should have 6, passwords 8 characters."""
    assert device_secret(tmp_path / "a", Store()).minimum_code == 6
    assert device_secret(tmp_path / "b").minimum_code == 8


def test_with_the_systems_store_the_secret_stands_in_no_file(tmp_path):
    store = Store()
    secret = device_secret(tmp_path, store)
    assert secret.in_os_store and secret.value.hex() == store.kept
    for file in tmp_path.iterdir():
        assert secret.value.hex() not in file.read_text() and secret.value not in file.read_bytes()
    assert device_secret(tmp_path, store) == secret


def test_a_store_that_is_locked_on_the_first_day_is_not_relied_on(tmp_path):
    store = Store()
    store.locked = True
    secret = device_secret(tmp_path, store)
    assert not secret.in_os_store
    store.locked = False
    assert device_secret(tmp_path, store) == secret


@pytest.mark.parametrize("trouble", ["locked", "gone", "emptied", "another"])
def test_a_store_that_no_longer_gives_the_secret_is_refused_and_nothing_new_is_made(tmp_path, trouble):
    store = Store()
    secret = device_secret(tmp_path, store)
    before = store.kept
    store.locked = trouble == "locked"
    store.kept = {"emptied": None, "another": "ab" * 32}.get(trouble, before)
    with pytest.raises(Refusal) as refused:
        device_secret(tmp_path, None if trouble == "gone" else store)
    assert "key store" in str(refused.value)
    store.locked, store.kept = False, before
    assert device_secret(tmp_path, store) == secret


@pytest.mark.parametrize("damage", [b"", b"x", b"lamproom device secret 1\n00\n", b"\xff" * 90])
def test_a_damaged_file_is_refused_by_name_and_left_as_it_is(tmp_path, damage):
    device_secret(tmp_path)
    (file,) = tmp_path.iterdir()
    file.write_bytes(damage)
    with pytest.raises(Refusal) as refused:
        device_secret(tmp_path)
    assert str(file) in str(refused.value)
    assert file.read_bytes() == damage


def test_a_folder_that_cannot_be_made_is_refused_with_its_name(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Refusal) as refused:
        device_secret(tmp_path / "file" / "device")
    assert str(tmp_path / "file") in str(refused.value)


def test_a_secret_does_not_show_itself_when_printed():
    secret = DeviceSecret(b"\x07" * 32, in_os_store=False)
    assert "07" not in repr(secret) and "\\x" not in repr(secret)
