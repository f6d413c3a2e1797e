"""What a route works with: the shop, its queue of work, and the time on its wall."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import Depends, Request

from api.callers import Caller
from journal.flow import Incoming, Taken, take_in
from journal.shop import Shop
from journal.work import Work


def _shop(request: Request) -> Shop:
    shop: Shop = request.app.state.shop
    return shop


def _work(request: Request) -> Work:
    work: Work = request.app.state.work
    return work


def _now(request: Request) -> datetime:
    return _shop(request).now()


def _caller(request: Request) -> Caller | None:
    caller: Caller | None = request.state.caller
    return caller


def device_name(request: Request, said: str | None) -> str | None:
    """Return where something was said: the name that a paired device has here, else what the sender says of itself."""
    caller = _caller(request)
    return said if caller is None or caller.device is None else caller.device.name


ShopHere = Annotated[Shop, Depends(_shop)]
WorkHere = Annotated[Work, Depends(_work)]
Now = Annotated[datetime, Depends(_now)]
Asking = Annotated[Caller | None, Depends(_caller)]


def take(shop: Shop, work: Work, build_key: str, incoming: Incoming) -> Taken:
    """Take in a file or text, and have a new note heard and read."""
    taken = take_in(shop, build_key, incoming)
    if taken.note is not None and taken.created:
        work.queue_note(taken.note.id)
    return taken
