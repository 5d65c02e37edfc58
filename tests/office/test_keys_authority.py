"""Certificates of the site, judged by the library's own verifier of RFC 5280 chains and by nothing of ours."""

from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509 import verification
from cryptography.x509.oid import NameOID

from lamproom.office import authority
from lamproom.words import Refusal

NOW = datetime(2031, 5, 6, 12, 0, 0, 700_000, tzinfo=UTC)
ROOT_KEY = authority.new_key()
ROOT = authority.found("Osprel Bend Waterworks", ROOT_KEY, NOW)
KEY = authority.new_key()


def issue(name="Rosamund Vale", root=ROOT, root_key=ROOT_KEY, now=NOW, years=5):
    return authority.issue(name, "p-1", "Trailer 2", KEY.public_key(), root, root_key, now, years)


def verifies(leaf, root, at):
    """The verdict of the library's path validation, with a root of our own and no web names."""
    verifier = (
        verification.PolicyBuilder()
        .store(verification.Store([root]))
        .time(at)
        .extension_policies(
            ca_policy=verification.ExtensionPolicy.webpki_defaults_ca(),
            ee_policy=verification.ExtensionPolicy.permit_all().require_present(
                x509.KeyUsage, verification.Criticality.CRITICAL, None
            ),
        )
        .build_client_verifier()
    )
    try:
        verifier.verify(leaf, [])
    except verification.VerificationError:
        return False
    return True


def test_a_certificate_verifies_against_its_root_and_against_no_other():
    other_key = authority.new_key()
    other = authority.found("Osprel Bend Waterworks", other_key, NOW)  # the same name, another authority
    leaf = issue()
    assert verifies(leaf, ROOT, NOW) and authority.issued_by(leaf, ROOT)
    assert not verifies(leaf, other, NOW) and not authority.issued_by(leaf, other)


def test_a_person_cannot_issue_certificates():
    """RFC 5280, 4.2.1.9: only a certificate marked so is an authority."""
    leaf = issue()
    forged = authority.issue("Anyone", "p-9", "Trailer 2", KEY.public_key(), leaf, KEY, NOW)
    assert not authority.issued_by(forged, leaf)
    assert not verifies(forged, leaf, NOW)


def test_key_usage_is_digital_signature_and_content_commitment_and_critical():
    """RFC 5280, 4.2.1.3: content commitment is the bit once called nonRepudiation."""
    usage = issue().extensions.get_extension_for_class(x509.KeyUsage)
    assert usage.critical
    assert usage.value.digital_signature and usage.value.content_commitment
    assert not usage.value.key_cert_sign and not usage.value.key_encipherment and not usage.value.key_agreement
    root = ROOT.extensions.get_extension_for_class(x509.KeyUsage).value
    assert root.key_cert_sign and root.crl_sign and not root.digital_signature


def test_names_and_years_are_those_of_the_site_and_the_person():
    assert ROOT.subject.rfc4514_string() == "CN=Osprel Bend Waterworks site authority"
    leaf = issue()
    assert authority.common_name(leaf) == "Rosamund Vale"
    assert leaf.subject.get_attributes_for_oid(NameOID.USER_ID)[0].value == "p-1@Trailer 2"
    assert ROOT.not_valid_before_utc == NOW.replace(microsecond=0)
    assert ROOT.not_valid_after_utc.year == 2051 and leaf.not_valid_after_utc.year == 2036


def test_a_certificate_never_outlives_its_root():
    late = issue(now=NOW.replace(year=2049))
    assert late.not_valid_after_utc == ROOT.not_valid_after_utc
    assert verifies(late, ROOT, NOW.replace(year=2050))


def test_a_certificate_stands_from_its_beginning_to_its_end():
    leaf = issue()
    end = leaf.not_valid_after_utc
    assert authority.covers(leaf, NOW) and authority.covers(leaf, end)
    assert not authority.covers(leaf, end + timedelta(seconds=1)) and not verifies(leaf, ROOT, end + timedelta(days=1))
    assert not authority.covers(leaf, NOW - timedelta(seconds=1))


def test_a_leap_day_has_its_day_in_a_common_year():
    assert authority.years_after(datetime(2028, 2, 29, tzinfo=UTC), 5) == datetime(2033, 2, 28, tzinfo=UTC)


@pytest.mark.parametrize("name", ["Łukasz Ó Briain-Jääskeläinen", "N" * 200, "李 雷", "  Two   spaces "])
def test_any_name_stands_on_a_certificate_of_64_characters_at_most(name):
    """RFC 5280, appendix A: ub-common-name is 64."""
    said = authority.common_name(issue(name))
    assert 0 < len(said) <= 64 and said[:5] == " ".join(name.split())[:5]
    root = authority.found(name, ROOT_KEY, NOW)
    assert authority.common_name(root).endswith(" site authority") and len(authority.common_name(root)) <= 64


def test_nobody_without_a_name_gets_a_certificate():
    with pytest.raises(Refusal):
        issue(" ")


def test_a_fingerprint_is_the_sha256_of_the_der_in_groups_of_four():
    shown = authority.fingerprint(ROOT)
    assert shown.replace(" ", "").lower() == ROOT.fingerprint(SHA256()).hex()
    assert {len(group) for group in shown.split(" ")} == {4} and len(shown.split(" ")) == 16


def test_a_signature_is_accepted_for_its_data_and_key_only():
    leaf = issue()
    signature = KEY.sign(b"event", ec.ECDSA(SHA256()))
    assert authority.signed(leaf, b"event", signature)
    assert not authority.signed(leaf, b"evenT", signature)
    assert not authority.signed(ROOT, b"event", signature)
    assert not authority.signed(leaf, b"event", b"") and not authority.signed(leaf, b"event", signature[:-1])
