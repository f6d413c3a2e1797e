"""Who may do what, and from where: one guard in front of every route.

Three questions, in this order: may this caller talk to us at all (`caller_of`), does a request
that changes something come from our own page, and is its body within the limit. Every answer
leaves with headers that keep the page to its own scripts, styles and data.
"""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.problems import Problem, problem_response

POLICY_VIOLATION = 1008  # RFC 6455, 7.4.1
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
# Room for the multipart boundaries and the fields that travel with a file.
FORM_OVERHEAD_BYTES = 64 * 1024
# No inline script or style, nothing from elsewhere: a hostile note or file name cannot run anything.
CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "media-src 'self' blob:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "content-security-policy": CONTENT_POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "microphone=(self), camera=(self), geolocation=()",
}


@dataclass(frozen=True, slots=True)
class Caller:
    """Who asks. Today always somebody at the machine itself; a paired device will carry its name."""

    device: str


def _is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def caller_of(scope: Scope, headers: Headers) -> Caller | None:
    """Return who asks, or None when this caller may not.

    Local requests are allowed, when they also name this machine: a page elsewhere whose name was
    made to point at 127.0.0.1 does not. Tokens of paired devices are to be looked up here.
    """
    client = scope.get("client")
    name = urlsplit(f"//{headers.get('host', '')}").hostname or ""
    if client and _is_loopback(client[0]) and _is_loopback(name):
        return Caller(device="this machine")
    return None


def from_own_page(scope: Scope, headers: Headers) -> bool:
    """Tell whether a request comes from our own page, or from a program that is no browser."""
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = headers.get("origin")
    scheme = {"ws": "http", "wss": "https"}.get(scope["scheme"], scope["scheme"])
    return origin is None or origin == f"{scheme}://{headers.get('host', '')}"


def _refusal(scope: Scope, headers: Headers, max_bytes: int) -> Problem | None:
    if caller_of(scope, headers) is None:
        return Problem(403, "This device is not allowed in: open the page on the machine that runs Mouldbook.")
    if scope["method"] in SAFE_METHODS:
        return None
    if not from_own_page(scope, headers):
        return Problem(403, "Changes are taken from Mouldbook's own pages only: open the page and do it there.")
    length = headers.get("content-length", "")
    if length.isdigit() and int(length) > max_bytes + FORM_OVERHEAD_BYTES:
        return too_large(max_bytes)
    return None


def too_large(max_bytes: int) -> Problem:
    """Return the problem of a body over the limit, which names the limit."""
    limit = f"{max_bytes / 1e6:g} MB"
    return Problem(
        413, f"This is over the limit of {limit} at once: send a shorter recording, or fewer or smaller photos."
    )


class Guard:
    """ASGI middleware: refuses strangers and foreign pages, counts bodies as they arrive, adds headers."""

    def __init__(self, app: ASGIApp, max_bytes: int) -> None:
        self.app = app
        self.max_bytes = max_bytes

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        if scope["type"] == "websocket":
            await self._websocket(scope, headers, receive, send)
            return
        send = _with_headers(send)
        refusal = _refusal(scope, headers, self.max_bytes)
        if refusal is not None:
            await problem_response(scope, refusal)(scope, receive, send)
            return
        await self.app(scope, self._counted(receive), send)

    async def _websocket(self, scope: Scope, headers: Headers, receive: Receive, send: Send) -> None:
        """Let a WebSocket through from our own pages only: browsers put no other fence around them."""
        if caller_of(scope, headers) is None or not from_own_page(scope, headers):
            await send({"type": "websocket.close", "code": POLICY_VIOLATION})
            return
        await self.app(scope, receive, send)

    def _counted(self, receive: Receive) -> Receive:
        taken = 0

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > self.max_bytes + FORM_OVERHEAD_BYTES:
                raise too_large(self.max_bytes)
            return message

        return counted


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    return sending
