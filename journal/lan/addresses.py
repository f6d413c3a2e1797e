"""The names and addresses by which other devices reach this machine."""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Iterable
from dataclasses import dataclass

import ifaddr

Address = ipaddress.IPv4Address | ipaddress.IPv6Address
Network = ipaddress.IPv4Network | ipaddress.IPv6Network


@dataclass(frozen=True, slots=True)
class Place:
    """Where the machine stands on its networks: host names in lower case, addresses, and the networks of those.

    Loopback and link-local addresses are left out: nobody else reaches the one, and browsers cannot name the other.
    """

    names: tuple[str, ...]
    addresses: tuple[Address, ...]
    networks: tuple[Network, ...]

    @property
    def best(self) -> str:
        """The name or address to show first: an IPv4 address, for not every phone resolves names."""
        first = next((a for a in self.addresses if a.version == 4), None) or next(iter(self.addresses), None)
        return in_url(first) if first else self.names[0]


def in_url(address: Address) -> str:
    """Return an address as it stands in a URL (RFC 3986, 3.2.2)."""
    return f"[{address}]" if address.version == 6 else str(address)


def host_names(more: Iterable[str] = ()) -> tuple[str, ...]:
    """Return the machine's names: its own, the one that multicast DNS gives it (RFC 6762), and those given."""
    own = socket.gethostname().lower().rstrip(".")
    short = own.split(".")[0]
    names = (own, f"{short}.local", *(name.strip().lower().rstrip(".") for name in more))
    return tuple(dict.fromkeys(name for name in names if name and name != "localhost"))


def place(more_names: Iterable[str] = ()) -> Place:
    """Return where this machine stands now."""
    found = [
        ipaddress.ip_interface(f"{ip.ip if ip.is_IPv4 else ip.ip[0]}/{ip.network_prefix}")
        for adapter in ifaddr.get_adapters()
        for ip in adapter.ips
    ]
    outward = _outward()
    reached = sorted(
        (each for each in found if not (each.ip.is_loopback or each.ip.is_link_local)),
        key=lambda each: (each.ip != outward, each.version, int(each.ip)),
    )
    return Place(
        names=host_names(more_names),
        addresses=tuple(dict.fromkeys(each.ip for each in reached)),
        networks=tuple(dict.fromkeys(each.network for each in reached)),
    )


def _outward() -> Address | None:
    """Return the address that this machine uses towards others (the one of its default route), None without any.

    Connecting a datagram socket sends nothing; the address is one for documentation (RFC 5737).
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("203.0.113.1", 9))
        except OSError:
            return None
        return ipaddress.ip_address(probe.getsockname()[0])
