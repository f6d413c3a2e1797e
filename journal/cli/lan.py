"""`mouldbook serve --lan`: the page for the machine itself, and for paired devices over https."""

from __future__ import annotations

import asyncio
import io
import signal
import socket
from collections.abc import Generator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from types import FrameType
from typing import Any
from urllib.parse import urlencode

import segno
import uvicorn
from rich.text import Text
from uvicorn.importer import import_from_string

from journal.cli import terminal
from journal.keep.devices import PAIRING_LASTS
from journal.lan.addresses import Place, place
from journal.lan.authority import Authority, Certified, LanError
from journal.settings import Settings
from journal.shop import Shop

LOOK_AGAIN_S = 60.0


@dataclass(frozen=True)
class Posture:
    """How the machine stands on the network: where, by which authority, with which certificate."""

    place: Place
    authority: Authority
    certified: Certified


def posture(settings: Settings) -> Posture:
    """Return how the machine stands on the network now; authority and certificate are made when lacking.

    Raises LanError when there is no network, or when the authority cannot be used.
    """
    here = place(settings.lan_names.split(","))
    if not here.addresses:
        raise LanError("this machine is on no network: connect it, or leave --lan out")
    now = datetime.now(UTC)
    authority = Authority.open(settings.lan, here, now)
    return Posture(here, authority, authority.certify(here, now))


def serve_lan(settings: Settings) -> None:
    """Serve until Ctrl+C: http on the machine itself, https on the network, the certificate on a port of its own."""
    settings.to_environment()  # the app is named, not imported: the page stands above the command line
    now = posture(settings)
    sockets = [
        _listen(settings.host, settings.port, "MOULDBOOK_PORT"),
        _listen(settings.lan_host, settings.lan_port, "MOULDBOOK_LAN_PORT"),
        _listen(settings.lan_host, settings.trust_port, "MOULDBOOK_TRUST_PORT"),
    ]
    app = import_from_string("api.app:create_app")()
    app.state.fingerprint = now.authority.fingerprint
    trust = import_from_string("api.trust:create_trust_app")(
        now.authority.der, now.authority.fingerprint, settings.lan_port
    )
    files = {"ssl_certfile": now.certified.chain, "ssl_keyfile": now.certified.key}
    servers = [_server(app), _server(app, **files), _server(trust)]
    asyncio.run(_run(app, settings, now, servers, sockets))


class _Server(uvicorn.Server):
    """One of several in this process: signals are handled for all of them together."""

    @contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        """Leave the signals alone."""
        yield


def _server(app: Any, **files: Any) -> _Server:
    config = uvicorn.Config(app, log_level="warning", lifespan="off", proxy_headers=False, **files)
    config.load()
    return _Server(config)


def _listen(host: str, port: int, setting: str) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host, port), family=family, backlog=2048)
    except OSError as error:
        raise LanError(
            f"port {port} at {host} is not free ({error.strerror}): choose another with {setting}"
        ) from error


async def _run(
    app: Any, settings: Settings, now: Posture, servers: list[_Server], sockets: list[socket.socket]
) -> None:
    def stop(number: int, frame: FrameType | None) -> None:
        for server in servers:
            server.handle_exit(number, frame)

    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, stop)
    async with app.router.lifespan_context(app):
        say_welcome(settings, now)
        keeping = asyncio.create_task(_keep_certified(settings, now, servers[1]))
        try:
            await asyncio.gather(*(each.serve([at]) for each, at in zip(servers, sockets, strict=True)))
        finally:
            keeping.cancel()


async def _keep_certified(settings: Settings, now: Posture, server: _Server) -> None:
    """Have the certificate follow the machine's addresses and the calendar, without a restart."""
    while True:
        await asyncio.sleep(LOOK_AGAIN_S)
        now = await asyncio.to_thread(renewed, settings, now, server.config)


def renewed(settings: Settings, now: Posture, config: uvicorn.Config) -> Posture:
    """Look where the machine stands; when its certificate had to be renewed, serve new connections with that."""
    here = place(settings.lan_names.split(","))
    if not here.addresses:
        return now  # off the network for now
    certified = now.authority.certify(here, datetime.now(UTC))
    if certified.ends != now.certified.ends or here != now.place:
        assert config.ssl is not None
        config.ssl.load_cert_chain(certified.chain, certified.key)
        terminal.say(f"This machine is now at https://{here.best}:{settings.lan_port}/")
    return Posture(here, now.authority, certified)


def say_welcome(settings: Settings, now: Posture) -> None:
    """Print where the page is, and how a device gets in."""
    terminal.say(f"Mouldbook is at http://{settings.host}:{settings.port}/ (Ctrl+C stops it)")
    terminal.say(f"Other devices reach it at https://{now.place.best}:{settings.lan_port}/ once they are paired.")
    if now.certified.left_out:
        out = ", ".join(now.certified.left_out)
        terminal.say(f"The certificate does not vouch for {out}: the authority was made for another network.")
    pairs = now.authority.fingerprint.split(":")
    terminal.say("SHA-256 of the authority's certificate, to compare on the device:")
    terminal.say("\n".join(":".join(pairs[i : i + 16]) for i in (0, 16)))
    say_pairing(settings, now.place)


def say_pairing(settings: Settings, here: Place) -> None:
    """Make a code that pairs a device, and print it with the two addresses a new device needs."""
    with closing(Shop.open(settings)) as shop:
        code = shop.store.new_pairing(shop.now())
    trust = f"http://{here.best}:{settings.trust_port}/"
    pair = f"https://{here.best}:{settings.lan_port}/pair?{urlencode({'code': code})}"
    minutes = int(PAIRING_LASTS.total_seconds() / 60)
    terminal.say(terminal.heading("1. Once for each device: trust this machine"))
    terminal.say(_picture(trust))
    terminal.say(trust)
    terminal.say(terminal.heading(f"2. Pair the device, within {minutes} minutes"))
    terminal.say(_picture(pair))
    terminal.say(pair)
    terminal.say(f"Or type the code {code} at https://{here.best}:{settings.lan_port}/pair")
    terminal.say("Another code: the page Devices on this machine, or mouldbook devices --pair")


def _picture(address: str) -> Text:
    """Return an address as a QR code (ISO/IEC 18004) in half-height blocks, black on white whatever the terminal's."""
    out = io.StringIO()
    segno.make(address, error="l", micro=False).terminal(out, compact=True, border=2)
    return Text.from_ansi(out.getvalue(), no_wrap=True, end="")
