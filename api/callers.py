"""Who asks: somebody at the machine itself, or a device that was paired, by its token.

A device shows its token as a cookie that scripts cannot read, or as a bearer token (RFC 6750). On the network
tokens are only looked at over https.
"""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass
from datetime import datetime, timedelta
from urllib.parse import urlsplit

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.requests import cookie_parser
from starlette.types import Scope

from journal.keep.views import DeviceView
from journal.shop import Shop

# The prefix makes browsers hold it to this very host, over https, for every path (RFC 6265bis, 4.1.3.2).
COOKIE = "__Host-device"
COOKIE_LASTS_S = 400 * 24 * 3600  # browsers cut off what is longer (RFC 6265bis, 5.5)
RENEW_COOKIE_AFTER = timedelta(days=1)
SECURE = frozenset({"https", "wss"})


@dataclass(frozen=True, slots=True)
class Caller:
    """Who asks: at the machine itself (`device` is None), or a paired device with the token that it showed."""

    device: DeviceView | None = None
    token: str = ""

    @property
    def here(self) -> bool:
        """Whether somebody asks at the machine itself."""
        return self.device is None


@dataclass(frozen=True, slots=True)
class Names:
    """The machine's names on its network, in lower case."""

    lan: frozenset[str] = frozenset()

    def here(self, scope: Scope, headers: Headers) -> bool:
        """Tell whether a request is made at the machine itself, to one of its own names.

        A page elsewhere whose name was made to point at 127.0.0.1 does not name this machine.
        """
        client = scope.get("client")
        return client is not None and _is_loopback(client[0]) and _is_loopback(_host(headers))

    def on_lan(self, scope: Scope, headers: Headers) -> bool:
        """Tell whether a request comes over https and names this machine, or an address: those point where they say."""
        host = _host(headers)
        return scope["scheme"] in SECURE and (host in self.lan or _address(host) is not None)


def _host(headers: Headers) -> str:
    try:
        return (urlsplit(f"//{headers.get('host', '')}").hostname or "").rstrip(".")
    except ValueError:
        return ""


def _address(host: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        return ipaddress.ip_address(host)
    except ValueError:
        return None


def _is_loopback(host: str) -> bool:
    address = _address(host)
    return host == "localhost" if address is None else address.is_loopback


async def caller_of(scope: Scope, headers: Headers, names: Names) -> Caller | None:
    """Return who asks, or None when this caller may not."""
    if names.here(scope, headers):
        return Caller()
    token = _token(headers)
    if not token or not names.on_lan(scope, headers):
        return None
    shop: Shop = scope["app"].state.shop
    device = await run_in_threadpool(shop.store.device_of, token, shop.now())
    return None if device is None else Caller(device, token)


def _token(headers: Headers) -> str:
    kind, _, bearer = headers.get("authorization", "").partition(" ")
    if kind.lower() == "bearer":
        return bearer.strip()
    return cookie_parser(headers.get("cookie", "")).get(COOKIE, "")


def device_cookie(token: str) -> str:
    """Return the header that makes a browser keep the token, out of reach of scripts and of other sites."""
    return f"{COOKIE}={token}; Max-Age={COOKIE_LASTS_S}; Path=/; Secure; HttpOnly; SameSite=Lax"


def renewed_cookie(caller: Caller | None, headers: Headers, now: datetime) -> str | None:
    """Return the cookie anew for a browser that was not here for a day: one that is used never ends."""
    if caller is None or caller.device is None or COOKIE not in headers.get("cookie", ""):
        return None
    return device_cookie(caller.token) if now - caller.device.seen_at > RENEW_COOKIE_AFTER else None
