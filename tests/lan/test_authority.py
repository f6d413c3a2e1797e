"""The authority of the shop: kept safe, limited to the shop's network, and its certificate kept up to date."""

from __future__ import annotations

import ipaddress
import stat
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from journal.lan.addresses import Place, host_names, in_url, place
from journal.lan.authority import RENEW_BEFORE, Authority, Certified, LanError

NOW = datetime(2026, 5, 4, 8, 0, tzinfo=UTC)
HERE = Place(
    ("workshop", "workshop.local"),
    (ipaddress.ip_address("192.168.1.20"), ipaddress.ip_address("fd00::20")),
    (ipaddress.ip_network("192.168.1.0/24"), ipaddress.ip_network("fd00::/64")),
)


def certificate(certified: Certified) -> x509.Certificate:
    return x509.load_pem_x509_certificate(certified.chain.read_bytes())


def vouched(authority: Authority, leaf: x509.Certificate, name: str, at: datetime = NOW) -> None:
    """Verify as a browser would. Raises VerificationError."""
    try:
        subject: x509.DNSName | x509.IPAddress = x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        subject = x509.DNSName(name)
    verifier = PolicyBuilder().store(Store([authority.certificate])).time(at).build_server_verifier(subject)
    verifier.verify(leaf, [])


@pytest.fixture
def authority(tmp_path: Path) -> Authority:
    return Authority.open(tmp_path / "lan", HERE, NOW)


def test_nobody_but_the_owner_may_read_the_keys(tmp_path: Path, authority: Authority) -> None:
    authority.certify(HERE, NOW)
    folder = tmp_path / "lan"
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert {stat.S_IMODE(each.stat().st_mode) for each in folder.iterdir()} == {0o600}


def test_the_authority_stays_the_same(tmp_path: Path, authority: Authority) -> None:
    again = Authority.open(tmp_path / "lan", replace(HERE, names=("other",)), NOW + timedelta(days=4000))
    assert again.fingerprint == authority.fingerprint
    assert again.der == authority.der


@pytest.mark.parametrize("name", ["workshop", "workshop.local", "192.168.1.20", "fd00::20", "127.0.0.1", "localhost"])
def test_the_certificate_vouches_for_every_name_and_address(authority: Authority, name: str) -> None:
    certified = authority.certify(HERE, NOW)
    assert certified.left_out == ()
    vouched(authority, certificate(certified), name)


def test_the_certificate_vouches_for_nothing_else(authority: Authority) -> None:
    leaf = certificate(authority.certify(HERE, NOW))
    for name in ("elsewhere.example", "192.168.1.21"):
        with pytest.raises(VerificationError):
            vouched(authority, leaf, name)


def test_a_stolen_authority_vouches_for_no_site_of_the_internet(tmp_path: Path, authority: Authority) -> None:
    public = ipaddress.ip_address("198.18.0.1")
    elsewhere = replace(HERE, names=("bank.example",), addresses=(*HERE.addresses, public))
    certified = authority.certify(elsewhere, NOW)
    assert certified.left_out == ("bank.example", "198.18.0.1")
    forged = authority._new_certificate(ec.generate_private_key(ec.SECP256R1()), ("bank.example",), (public,), NOW)
    with pytest.raises(VerificationError):
        vouched(authority, forged, "bank.example")


def test_the_certificate_is_kept_until_something_changes(authority: Authority) -> None:
    first = certificate(authority.certify(HERE, NOW))
    assert certificate(authority.certify(HERE, NOW + timedelta(days=100))) == first
    moved = replace(HERE, addresses=(ipaddress.ip_address("192.168.1.77"),))
    second = certificate(authority.certify(moved, NOW + timedelta(days=100)))
    assert second != first
    vouched(authority, second, "192.168.1.77", NOW + timedelta(days=100))


def test_the_certificate_is_renewed_well_before_it_ends(authority: Authority) -> None:
    first = authority.certify(HERE, NOW)
    late = first.ends - RENEW_BEFORE + timedelta(days=1)
    second = authority.certify(HERE, late)
    assert second.ends > first.ends
    vouched(authority, certificate(second), "workshop.local", first.ends + timedelta(days=1))


def test_a_damaged_certificate_of_the_machine_is_made_anew(tmp_path: Path, authority: Authority) -> None:
    certified = authority.certify(HERE, NOW)
    certified.chain.write_bytes(b"-----BEGIN CERTIFICATE-----\n")
    vouched(authority, certificate(authority.certify(HERE, NOW)), "workshop")
    certified.key.write_bytes((tmp_path / "lan" / "authority-key.pem").read_bytes())
    vouched(authority, certificate(authority.certify(HERE, NOW)), "workshop")


@pytest.mark.parametrize("lost", ["authority.pem", "authority-key.pem"])
def test_an_authority_that_lost_half_is_never_replaced_unasked(tmp_path: Path, authority: Authority, lost: str) -> None:
    (tmp_path / "lan" / lost).unlink()
    with pytest.raises(LanError, match="bring it back from a copy"):
        Authority.open(tmp_path / "lan", HERE, NOW)


def test_an_authority_that_has_ended_says_so(tmp_path: Path, authority: Authority) -> None:
    with pytest.raises(LanError, match="has ended"):
        Authority.open(tmp_path / "lan", HERE, NOW + timedelta(days=21 * 365))


def test_two_shops_have_two_authorities(tmp_path: Path, authority: Authority) -> None:
    other = Authority.open(tmp_path / "other", HERE, NOW)
    assert other.certificate.subject != authority.certificate.subject
    with pytest.raises(VerificationError):
        vouched(other, certificate(authority.certify(HERE, NOW)), "workshop.local")


def test_the_fingerprint_is_that_of_the_certificate(authority: Authority) -> None:
    assert bytes.fromhex(authority.fingerprint.replace(":", "")) == authority.certificate.fingerprint(hashes.SHA256())


def test_where_this_machine_stands() -> None:
    here = place(("Mould-Shop.example ", ""))
    assert "mould-shop.example" in here.names
    assert all(name == name.lower() and name != "localhost" for name in here.names)
    assert not any(address.is_loopback or address.is_link_local for address in here.addresses)
    assert all(any(a in n for n in here.networks) for a in here.addresses)


def test_names_are_said_once() -> None:
    assert len(host_names(("a.lan", "a.lan.", "A.lan"))) == len(host_names()) + 1


def test_an_address_of_six_groups_stands_in_brackets() -> None:
    assert in_url(ipaddress.ip_address("fd00::20")) == "[fd00::20]"
    assert replace(HERE, addresses=HERE.addresses[1:]).best == "[fd00::20]"
    assert HERE.best == "192.168.1.20"
