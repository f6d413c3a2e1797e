"""Devices of the shop's network: paired with a code that the machine shows, listed, renamed, revoked.

Codes are made and devices revoked at the machine itself; a device may rename and revoke itself.
"""

from __future__ import annotations

import threading
from collections import defaultdict, deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from time import monotonic
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Request
from pydantic import BaseModel, Field

from api.callers import Caller
from api.context import Asking, Now, ShopHere
from api.problems import Problem, problems
from api.shapes.examples import example
from api.shapes.views import Shape
from journal.keep.devices import PAIRING_LASTS
from journal.keep.views import DeviceView, NotPaired
from journal.lan.addresses import place
from journal.settings import Settings

router = APIRouter(prefix="/api/devices", tags=["devices"])

DEVICE = {
    "id": 3, "name": "bench phone", "paired_at": "2026-04-13T07:55:00+01:00", "seen_at": "2026-04-13T13:12:00+01:00",
    "revoked_at": None,
}  # fmt: skip
CODE = "K7QM-2XWD"


class DeviceShape(Shape):
    """A device that was paired; `seen_at` is to the minute; one that is revoked is let in no longer."""

    model_config = example(DEVICE)

    id: int
    name: str
    paired_at: datetime
    seen_at: datetime
    revoked_at: datetime | None


class PairingShape(BaseModel):
    """A code that pairs one device, and the address of the page that takes it, until `ends_at`."""

    model_config = example(
        {"code": CODE, "address": f"https://192.168.1.20:8491/pair?code={CODE}", "ends_at": "2026-04-13T08:05:00+01:00"}
    )

    code: str
    address: str
    ends_at: datetime


class NewDeviceShape(BaseModel):
    """The code that the machine shows, and what the device is to be called."""

    model_config = example({"code": CODE, "name": "bench phone"})

    code: str = Field(min_length=1, max_length=40)
    name: str = Field(min_length=1, max_length=60)


class PairedShape(BaseModel):
    """A device that was let in, and its token: said once, kept nowhere here. Send it as a bearer token."""

    model_config = example({"device": DEVICE, "token": "3.nUu0lY0c1x3n5w0r3k6Qd6b1yXo3lQeT0mC4V9pVb0s"})

    device: DeviceShape
    token: str


class NameShape(BaseModel):
    """What a device is to be called."""

    model_config = example({"name": "layup tablet"})

    name: str = Field(min_length=1, max_length=60)


@dataclass
class Tries:
    """Counts codes that were wrong: after a few in a row nobody may try for a while."""

    clock: Callable[[], float] = monotonic
    most_each: int = 5
    most_in_all: int = 50
    window_s: float = 300.0
    _failed: dict[str, deque[float]] = field(default_factory=lambda: defaultdict(deque))
    _one_at_a_time: threading.Lock = field(default_factory=threading.Lock)

    def check(self, address: str) -> None:
        """Raise Problem 429 when too many tries failed, from this address or from all together."""
        with self._one_at_a_time:
            self._forget()
            mine = len(self._failed.get(address, ()))
            if mine >= self.most_each or sum(map(len, self._failed.values())) >= self.most_in_all:
                raise Problem(
                    429,
                    "Too many codes were wrong: wait five minutes, then have the machine show a new one.",
                    {"retry-after": str(int(self.window_s))},
                )

    def failed(self, address: str) -> None:
        """Count a wrong code."""
        with self._one_at_a_time:
            self._failed[address].append(self.clock())

    def _forget(self) -> None:
        since = self.clock() - self.window_s
        for address, times in list(self._failed.items()):
            while times and times[0] <= since:
                times.popleft()
            if not times:
                del self._failed[address]


def _tries(request: Request) -> Tries:
    tries: Tries = request.app.state.tries
    return tries


TriesHere = Annotated[Tries, Depends(_tries)]


def pairing_address(settings: Settings, code: str) -> str:
    """Return the address of the page on the network that takes this code."""
    here = place(settings.lan_names.split(","))
    return f"https://{here.best}:{settings.lan_port}/pair?{urlencode({'code': code})}"


def only_here(caller: Caller | None, what: str) -> None:
    """Raise Problem 403 unless somebody asks at the machine itself."""
    if caller is None or not caller.here:
        raise Problem(403, f"{what} is done on the machine itself: open its page there, or use mouldbook devices.")


@router.get("", summary="The devices")
def devices(shop: ShopHere) -> list[DeviceShape]:
    """Return every device that was ever paired, by name."""
    return [DeviceShape.model_validate(each) for each in shop.store.devices()]


@router.post("/pairings", status_code=201, summary="Make a code that pairs a device", responses=problems(403))
def new_pairing(shop: ShopHere, now: Now, caller: Asking) -> PairingShape:
    """Make a code that lets one device in, once, within ten minutes; at the machine itself only."""
    only_here(caller, "Pairing")
    code = shop.store.new_pairing(now)
    return PairingShape(code=code, address=pairing_address(shop.settings, code), ends_at=now + PAIRING_LASTS)


@router.post("", status_code=201, summary="Pair a device", responses=problems(403, 409, 422, 429))
def pair(shop: ShopHere, now: Now, tries: TriesHere, request: Request, said: NewDeviceShape) -> PairedShape:
    """Let a device in that knows a code of the machine, and give it its token; the code is used up."""
    address = request.client.host if request.client else ""
    tries.check(address)
    try:
        device, token = shop.store.pair(said.code, said.name, now)
    except NotPaired as error:
        tries.failed(address)
        raise Problem(403, f"{str(error)[:1].upper()}{str(error)[1:]}.") from error
    return PairedShape(device=DeviceShape.model_validate(device), token=token)


@router.put("/{device_id}/name", summary="Rename a device", responses=problems(403, 404, 409, 422))
def rename(shop: ShopHere, now: Now, caller: Asking, device_id: int, said: NameShape) -> DeviceShape:
    """Give a device another name; notes that it sent keep the name of then."""
    if not _is(caller, device_id):
        only_here(caller, "Renaming another device")
    return DeviceShape.model_validate(shop.store.rename_device(device_id, said.name, now, _who(caller)))


@router.delete("/{device_id}", summary="Revoke a device", responses=problems(403, 404))
def revoke(shop: ShopHere, now: Now, caller: Asking, device_id: int) -> DeviceShape:
    """Let a device in no longer, from its next request on."""
    if not _is(caller, device_id):
        only_here(caller, "Revoking another device")
    return DeviceShape.model_validate(shop.store.revoke_device(device_id, now, _who(caller)))


def _is(caller: Caller | None, device_id: int) -> bool:
    device: DeviceView | None = caller.device if caller else None
    return device is not None and device.id == device_id


def _who(caller: Caller | None) -> str | None:
    return caller.device.name if caller and caller.device else None
