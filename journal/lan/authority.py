"""A certificate authority for one shop, and the certificate that it gives the machine.

Browsers give a page the microphone only where they trust its certificate. The authority's key never leaves the
data folder, and its certificate says that it may vouch for nothing but the shop's own network (name constraints,
RFC 5280, 4.2.1.10): a phone that trusts it trusts it with nothing else.
"""

from __future__ import annotations

import ipaddress
import os
import re
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from journal.lan.addresses import Address, Network, Place

AUTHORITY_LASTS = timedelta(days=20 * 365)
# Phones refuse a server's certificate that lasts more than 825 days, some browsers more than 398: from memory.
CERTIFICATE_LASTS = timedelta(days=397)
RENEW_BEFORE = timedelta(days=60)
CLOCKS_DIFFER = timedelta(days=1)  # a phone whose clock is behind must not find it not valid yet
# Names and networks that no public authority answers for: RFC 6762 (local), RFC 8375 (home.arpa), the reserved
# internal; RFC 1918, RFC 6598, RFC 3927, RFC 4193, RFC 4291.
PRIVATE_NAMES = ("localhost", "local", "home.arpa", "internal", "lan")
PRIVATE_NETWORKS: tuple[Network, ...] = tuple(
    ipaddress.ip_network(each)
    for each in (
        "127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10",
        "::1/128", "fc00::/7", "fe80::/10",
    )
)  # fmt: skip
_NAME = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*")


class LanError(Exception):
    """What keeps the page off the shop's network; the message says what to do."""


@dataclass(frozen=True, slots=True)
class Certified:
    """The machine's certificate: its files (PEM; chain and key), and what of the place it does not vouch for."""

    chain: Path
    key: Path
    ends: datetime
    left_out: tuple[str, ...]


class Authority:
    """The certificate authority of a shop, kept in one folder that only its owner may read."""

    def __init__(self, folder: Path, key: ec.EllipticCurvePrivateKey, certificate: x509.Certificate) -> None:
        self._folder = folder
        self._key = key
        self.certificate = certificate

    @classmethod
    def open(cls, folder: Path, place: Place, now: datetime) -> Authority:
        """Return the authority kept in the folder; make one when there is none yet.

        Raises LanError when one is there but cannot be read or has ended: devices trust it, so it is never
        replaced unasked.
        """
        key_file, certificate_file = folder / "authority-key.pem", folder / "authority.pem"
        if not key_file.exists() and not certificate_file.exists():
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            key, certificate = _new_authority(place, now)
            _write(certificate_file, certificate.public_bytes(serialization.Encoding.PEM))
            _write(key_file, _pem(key))
            return cls(folder, key, certificate)
        try:
            certificate = x509.load_pem_x509_certificate(certificate_file.read_bytes())
            key = _private(key_file)
        except (OSError, ValueError) as error:
            raise _unusable(folder, "cannot be read") from error
        if key.public_key() != certificate.public_key():
            raise _unusable(folder, "has a key and a certificate that do not belong together")
        if certificate.not_valid_after_utc <= now:
            raise _unusable(folder, "has ended")
        return cls(folder, key, certificate)

    @property
    def der(self) -> bytes:
        """The certificate as phones take it in (DER)."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """The SHA-256 of the certificate, in pairs of digits, to compare by eye."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(":").upper()

    def certify(self, place: Place, now: datetime) -> Certified:
        """Return the machine's certificate; a new one when names or addresses changed or the old one nears its end.

        Names and addresses that the authority may not vouch for are left out and named.
        """
        names, addresses, left_out = self._allowed(place)
        chain_file, key_file = self._folder / "machine.pem", self._folder / "machine-key.pem"
        kept = _kept(chain_file, key_file)
        if kept is None or not self._still_good(kept, names, addresses, now):
            key = ec.generate_private_key(ec.SECP256R1())
            kept = self._new_certificate(key, names, addresses, now)
            both = kept, self.certificate
            _write(key_file, _pem(key))
            _write(chain_file, b"".join(each.public_bytes(serialization.Encoding.PEM) for each in both))
        return Certified(chain_file, key_file, kept.not_valid_after_utc, left_out)

    def _allowed(self, place: Place) -> tuple[tuple[str, ...], tuple[Address, ...], tuple[str, ...]]:
        constraints = self.certificate.extensions.get_extension_for_class(x509.NameConstraints).value
        permitted = constraints.permitted_subtrees or []
        roots = [each.value for each in permitted if isinstance(each, x509.DNSName)]
        ranges = [each.value for each in permitted if isinstance(each, x509.IPAddress)]
        networks = [each for each in ranges if isinstance(each, ipaddress.IPv4Network | ipaddress.IPv6Network)]
        named = ("localhost", *place.names)
        names = tuple(n for n in named if _NAME.fullmatch(n) and any(n == r or n.endswith(f".{r}") for r in roots))
        loopback: tuple[Address, ...] = (ipaddress.ip_address("127.0.0.1"), ipaddress.ip_address("::1"))
        reached = (*loopback, *place.addresses)
        addresses = tuple(a for a in reached if any(a in network for network in networks))
        left_out = [*(n for n in named if n not in names), *(str(a) for a in reached if a not in addresses)]
        return names, addresses, tuple(left_out)

    def _still_good(
        self, kept: x509.Certificate, names: tuple[str, ...], addresses: tuple[Address, ...], now: datetime
    ) -> bool:
        try:
            kept.verify_directly_issued_by(self.certificate)
        except (InvalidSignature, ValueError, TypeError):
            return False
        of_it = kept.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        same = set(of_it.get_values_for_type(x509.DNSName)) == set(names) and set(
            of_it.get_values_for_type(x509.IPAddress)
        ) == set(addresses)
        return same and kept.not_valid_before_utc <= now < kept.not_valid_after_utc - RENEW_BEFORE

    def _new_certificate(
        self, key: ec.EllipticCurvePrivateKey, names: tuple[str, ...], addresses: tuple[Address, ...], now: datetime
    ) -> x509.Certificate:
        alternatives = [*(x509.DNSName(name) for name in names), *(x509.IPAddress(address) for address in addresses)]
        ends = min(now + CERTIFICATE_LASTS, self.certificate.not_valid_after_utc)
        builder = _builder(_subject("Mouldbook on this machine"), self.certificate.subject, key.public_key(), now, ends)
        of_authority = self.certificate.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
        return (
            builder.add_extension(x509.SubjectAlternativeName(alternatives), critical=False)
            .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
            .add_extension(_usage(digital_signature=True), critical=True)
            .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
            .add_extension(x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(of_authority), critical=False)
            .sign(self._key, hashes.SHA256())
        )


def _new_authority(place: Place, now: datetime) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate]:
    key = ec.generate_private_key(ec.SECP256R1())
    # The name tells two shops' authorities apart in a phone's list.
    subject = _subject(f"Mouldbook authority {secrets.token_hex(3)}")
    names = dict.fromkeys((*PRIVATE_NAMES, *(name for name in place.names if _NAME.fullmatch(name))))
    networks = dict.fromkeys((*PRIVATE_NETWORKS, *place.networks))
    permitted = [*(x509.DNSName(name) for name in names), *(x509.IPAddress(network) for network in networks)]
    certificate = (
        _builder(subject, subject, key.public_key(), now, now + AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return key, certificate


def _builder(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, ends: datetime
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - CLOCKS_DIFFER)
        .not_valid_after(ends)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
    )


def _subject(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])


def _usage(digital_signature: bool = False, key_cert_sign: bool = False, crl_sign: bool = False) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=digital_signature,
        key_cert_sign=key_cert_sign,
        crl_sign=crl_sign,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _kept(chain_file: Path, key_file: Path) -> x509.Certificate | None:
    """Return the machine's certificate if it is there, whole, and of its key."""
    try:
        kept = x509.load_pem_x509_certificate(chain_file.read_bytes())
        return kept if _private(key_file).public_key() == kept.public_key() else None
    except (OSError, ValueError):
        return None


def _private(file: Path) -> ec.EllipticCurvePrivateKey:
    key = serialization.load_pem_private_key(file.read_bytes(), password=None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError("not the kind of key that is made here")
    return key


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _write(file: Path, data: bytes) -> None:
    """Write a file that only its owner may read, whole or not at all."""
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
    part.replace(file)


def _unusable(folder: Path, why: str) -> LanError:
    return LanError(
        f"the certificate authority in {folder} {why}: bring it back from a copy, or move the folder away to have a"
        " new one made (every device must then trust that one)"
    )
