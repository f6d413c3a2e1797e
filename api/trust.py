"""Hands out the certificate of the shop's authority, and says how a device is made to trust it.

An app of its own, served without encryption: a device that does not trust the authority yet can open nothing else.
It knows nothing of the shop. Whoever could alter what it hands out on its way is found out by the fingerprint.
"""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Receive, Scope, Send

from api.access import with_headers
from api.pages.render import render
from api.pages.shell import STATIC

FILE_NAME = "mouldbook-authority.crt"


class _Fenced:
    """ASGI middleware: the headers that keep a page to its own parts."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        await self.app(scope, receive, with_headers(send) if scope["type"] == "http" else send)


def create_trust_app(certificate: bytes, fingerprint: str, lan_port: int) -> Starlette:
    """Return the app that hands out this certificate (DER) and leads to the page on `lan_port`."""

    def instructions(request: Request) -> Response:
        pair = f"https://{request.url.hostname}:{lan_port}/pair"
        return render("trust.html", fingerprint=fingerprint, pair=pair)

    def download(request: Request) -> Response:
        named = {"content-disposition": f'attachment; filename="{FILE_NAME}"', "cache-control": "no-store"}
        return Response(certificate, media_type="application/x-x509-ca-cert", headers=named)

    app = Starlette(
        routes=[
            Route("/", instructions),
            Route("/ca.crt", download),
            Mount("/static", StaticFiles(directory=STATIC)),
        ]
    )
    app.add_middleware(_Fenced)
    return app
