"""Who may do what, and from where: one guard in front of every route.

Three questions, in this order: may this caller talk to us at all (`caller_of`), does a request
that changes something come from our own page, and is its body within the limit. Every answer
leaves with headers that keep the page to its own scripts, styles and data.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from time import monotonic

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.callers import Caller, Names, caller_of, renewed_cookie
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


# What a device may fetch before it is paired, and when it was revoked: the shell, which holds nothing of the shop,
# shows what is still on the device, and pairs it.
OPEN_TO_GET = frozenset({"/pair", "/queue", "/away", "/service-worker.js", "/manifest.webmanifest", "/favicon.ico"})
OPEN_TO_POST = frozenset({"/pair", "/api/devices"})
OPEN_MOST_BYTES = 4096  # what a stranger may hand in: a code and a name
AGAIN_AFTER_S = 5.0  # a WebSocket stays open for hours: how often it is asked whether its device is still let in


def from_own_page(scope: Scope, headers: Headers) -> bool:
    """Tell whether a request comes from our own page, or from a program that is no browser."""
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = headers.get("origin")
    scheme = {"ws": "http", "wss": "https"}.get(scope["scheme"], scope["scheme"])
    return origin is None or origin == f"{scheme}://{headers.get('host', '')}"


def is_open(scope: Scope) -> bool:
    """Tell whether a request may be made by a device that is not paired."""
    path = scope["path"]
    if scope["method"] in SAFE_METHODS:
        return path in OPEN_TO_GET or path.startswith("/static/")
    return scope["method"] == "POST" and path in OPEN_TO_POST


def _refusal(scope: Scope, headers: Headers, max_bytes: int) -> Problem | None:
    """Return what speaks against a change that a caller we know wants to make."""
    if scope["method"] in SAFE_METHODS:
        return None
    if not from_own_page(scope, headers):
        return Problem(403, "Changes are taken from Mouldbook's own pages only: open the page and do it there.")
    length = headers.get("content-length", "")
    if length.isdigit() and int(length) > max_bytes + FORM_OVERHEAD_BYTES:
        return too_large(max_bytes)
    return None


def _stranger(scope: Scope, headers: Headers, names: Names) -> Problem:
    """Return what a caller is told whom we do not let in."""
    if names.on_lan(scope, headers):
        detail = (
            "This device is not paired with the machine, or not any more. Pair it at /pair with a code that the"
            " machine shows; what was spoken into it stays on it until then."
        )
        return Problem(401, detail, {"www-authenticate": "Bearer"})
    return Problem(403, "This device is not allowed in: open the page on the machine that runs Mouldbook.")


def too_large(max_bytes: int) -> Problem:
    """Return the problem of a body over the limit, which names the limit."""
    limit = f"{max_bytes / 1e6:g} MB"
    return Problem(
        413, f"This is over the limit of {limit} at once: send a shorter recording, or fewer or smaller photos."
    )


class Guard:
    """ASGI middleware: refuses strangers and foreign pages, counts bodies as they arrive, adds headers.

    Routes find who asks in `request.state.caller`: None for a device that is not paired, on what is open to it.
    """

    def __init__(self, app: ASGIApp, max_bytes: int, lan_names: Iterable[str] = ()) -> None:
        self.app = app
        self.max_bytes = max_bytes
        self.names = Names(frozenset(lan_names))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        caller = await caller_of(scope, headers, self.names)
        scope.setdefault("state", {})["caller"] = caller
        if scope["type"] == "websocket":
            await self._websocket(scope, headers, receive, send)
            return
        cookie = None if caller is None or caller.here else renewed_cookie(caller, headers, datetime.now(UTC))
        send = with_headers(send, cookie)
        refusal = self._refusal(scope, headers, caller)
        if refusal is not None:
            await problem_response(scope, refusal)(scope, receive, send)
            return
        await self.app(scope, _counted(receive, self._most_bytes(caller)), send)

    def _refusal(self, scope: Scope, headers: Headers, caller: Caller | None) -> Problem | None:
        if caller is None and not (is_open(scope) and self.names.on_lan(scope, headers)):
            return _stranger(scope, headers, self.names)
        return _refusal(scope, headers, self._most_bytes(caller))

    def _most_bytes(self, caller: Caller | None) -> int:
        return OPEN_MOST_BYTES if caller is None else self.max_bytes

    async def _websocket(self, scope: Scope, headers: Headers, receive: Receive, send: Send) -> None:
        """Let a WebSocket through from our own pages only: browsers put no other fence around them."""
        if scope["state"]["caller"] is None or not from_own_page(scope, headers):
            await send({"type": "websocket.close", "code": POLICY_VIOLATION})
            return
        await self.app(scope, *self._while_let_in(scope, headers, receive, send))

    def _while_let_in(self, scope: Scope, headers: Headers, receive: Receive, send: Send) -> tuple[Receive, Send]:
        """Return both ends of the WebSocket such that it ends for a device that is revoked meanwhile."""
        if scope["state"]["caller"].here:
            return receive, send
        asked, ended = monotonic(), False

        async def sending(message: Message) -> None:
            if not ended:
                await send(message)

        async def receiving() -> Message:
            nonlocal asked, ended
            message = await receive()
            if message["type"] != "websocket.receive" or monotonic() - asked < AGAIN_AFTER_S:
                return message
            asked = monotonic()
            if await caller_of(scope, headers, self.names) is not None:
                return message
            ended = True
            await send({"type": "websocket.close", "code": POLICY_VIOLATION})
            return {"type": "websocket.disconnect", "code": POLICY_VIOLATION}

        return receiving, sending


def _counted(receive: Receive, max_bytes: int) -> Receive:
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > max_bytes + FORM_OVERHEAD_BYTES:
            raise too_large(max_bytes)
        return message

    return counted


def with_headers(send: Send, cookie: str | None = None) -> Send:
    """Return a `send` that keeps the page to its own parts, and renews a device's cookie when one is given."""

    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            if cookie is not None and "set-cookie" not in headers:
                headers.append("set-cookie", cookie)
        await send(message)

    return sending
