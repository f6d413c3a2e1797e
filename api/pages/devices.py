"""The pages of the devices: the list of them with the code for a new one, and where a device is paired."""

from __future__ import annotations

from urllib.parse import urlsplit

import segno
from fastapi import APIRouter, Request
from starlette.responses import Response

from api.callers import Caller, device_cookie
from api.context import Asking, Now, ShopHere
from api.pages.forms import Fields, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import devices as device_routes
from api.routes.devices import CODE, NameShape, NewDeviceShape, PairingShape, TriesHere
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def picture_of(address: str, title: str) -> str:
    """Return an address as a QR code (ISO/IEC 18004), in SVG; black on white, for cameras, in any colour scheme."""
    return segno.make(address, error="m", micro=False).svg_inline(
        scale=8, border=4, light="#fff", svgclass="qr", lineclass=None, omitsize=True, title=title
    )


def _devices(
    request: Request, shop: Shop, caller: Caller | None, *troubles: Problem, pairing: PairingShape | None = None
) -> Response:
    trust = f"http://{urlsplit(pairing.address).hostname}:{shop.settings.trust_port}/" if pairing else ""
    return render(
        "devices.html",
        *troubles,
        devices=shop.store.devices(),
        at_machine=caller is not None and caller.here,
        own=caller.device.id if caller and caller.device else None,
        fingerprint=request.app.state.fingerprint,
        pairing=pairing,
        trust=trust,
        pair_picture=picture_of(pairing.address, "The page that pairs this device") if pairing else "",
        trust_picture=picture_of(trust, "The page with the certificate") if pairing else "",
    )


@router.get("/devices")
def devices(request: Request, shop: ShopHere, caller: Asking) -> Response:
    """Show the devices."""
    return _devices(request, shop, caller)


@router.post("/devices/pairings")
def new_pairing(request: Request, shop: ShopHere, now: Now, caller: Asking) -> Response:
    """Show a code for a new device."""
    try:
        pairing = device_routes.new_pairing(shop, now, caller)
    except REFUSALS as error:
        return _devices(request, shop, caller, problem_of(error))
    return _devices(request, shop, caller, pairing=pairing)


@router.post("/devices/{device_id}/name")
def rename(request: Request, shop: ShopHere, now: Now, caller: Asking, device_id: int, fields: Fields) -> Response:
    """Rename a device from the form."""
    try:
        device_routes.rename(shop, now, caller, device_id, filled(NameShape, fields))
    except REFUSALS as error:
        return _devices(request, shop, caller, problem_of(error))
    return go("/devices")


@router.post("/devices/{device_id}/revoke")
def revoke(request: Request, shop: ShopHere, now: Now, caller: Asking, device_id: int) -> Response:
    """Revoke a device from the form."""
    try:
        device_routes.revoke(shop, now, caller, device_id)
    except REFUSALS as error:
        return _devices(request, shop, caller, problem_of(error))
    return go("/devices")


@router.get("/pair")
def ask_for_code(caller: Asking, code: str = "", name: str = "") -> Response:
    """Ask what the device is to be called, with the code of the address; opening it uses nothing up."""
    return _pair(caller, code[:40], name[:60])


def _pair(caller: Caller | None, code: str, name: str, *troubles: Problem) -> Response:
    device = caller.device if caller else None
    at_machine = caller is not None and caller.here
    return render("pair.html", *troubles, device=device, at_machine=at_machine, code=code, name=name, example=CODE)


@router.post("/pair")
def pair(request: Request, shop: ShopHere, now: Now, caller: Asking, tries: TriesHere, fields: Fields) -> Response:
    """Pair the device from the form, and have its browser keep the token."""
    try:
        paired = device_routes.pair(shop, now, tries, request, filled(NewDeviceShape, fields))
    except REFUSALS as error:
        return _pair(caller, fields.get("code", ""), fields.get("name", ""), problem_of(error))
    answer = go("/moulds")
    answer.headers.append("set-cookie", device_cookie(paired.token))
    return answer
