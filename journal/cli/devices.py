"""Devices of the shop's network, from the command line."""

from __future__ import annotations

from typing import Annotated

import typer
from rich.console import RenderableType
from rich.table import Table

from journal.cli import lan, terminal
from journal.cli.opened import opened_shop
from journal.keep.views import DeviceView

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def devices(
    revoke: Annotated[str | None, typer.Option(metavar="NAME", help="Let this device in no longer.")] = None,
    rename: Annotated[
        tuple[str, str] | None, typer.Option(metavar="NAME NEW", help="Give a device another name.")
    ] = None,
    pair: Annotated[bool, typer.Option("--pair", help="Show a code that pairs a device with `serve --lan`.")] = False,
    as_json: AsJson = False,
) -> None:
    """Show the devices of the shop's network; pair, rename, revoke them."""
    with opened_shop() as shop:
        if revoke is not None:
            shop.store.revoke_device(revoke, shop.now())
        if rename is not None:
            shop.store.rename_device(rename[0], rename[1], shop.now())
        found = shop.store.devices()
        settings = shop.settings
    terminal.answer(as_json, found, devices_table(found))
    if pair:
        lan.say_pairing(settings, lan.posture(settings).place)


def devices_table(devices: list[DeviceView]) -> RenderableType:
    """Return the devices as a table."""
    if not devices:
        return "No device is paired yet: mouldbook serve --lan shows how."
    table = Table("device", "paired", "last seen", "revoked", box=None, pad_edge=False)
    for each in devices:
        revoked = f"{each.revoked_at:%Y-%m-%d %H:%M}" if each.revoked_at else ""
        table.add_row(each.name, f"{each.paired_at:%Y-%m-%d %H:%M}", f"{each.seen_at:%Y-%m-%d %H:%M}", revoked)
    return table
