"""The app: one shop, its routes under /api, its pages, and the guard in front of both."""

from __future__ import annotations

import logging
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from threading import Thread
from typing import Any

from fastapi import FastAPI
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response
from starlette.staticfiles import StaticFiles

from api.access import Guard
from api.pages import ask as ask_page
from api.pages import bench as bench_page
from api.pages import builds as build_pages
from api.pages import clocks as clocks_part
from api.pages import compare as compare_pages
from api.pages import devices as device_pages
from api.pages import exchange as exchange_page
from api.pages import life as life_pages
from api.pages import mixes as mixes_page
from api.pages import moulds as mould_pages
from api.pages import pictures as pictures_page
from api.pages import pins as pin_pages
from api.pages import plans as plan_pages
from api.pages import recipes as recipe_pages
from api.pages import search as search_page
from api.pages import shelf as shelf_page
from api.pages import shell as shell_pages
from api.pages import steps as step_pages
from api.pages import teach as teach_pages
from api.pages import trace as trace_page
from api.problems import answer_with_problems
from api.routes import (
    ask,
    builds,
    clocks,
    compare,
    devices,
    exchange,
    live,
    media,
    mixes,
    moulds,
    notes,
    outcomes,
    photos,
    pictures,
    pins,
    plans,
    recipes,
    search,
    shelf,
    steps,
    sums,
    teach,
    trace,
    uploads,
)
from journal.hear.weights import WeightsError
from journal.lan.addresses import host_names
from journal.live import warm
from journal.settings import Settings
from journal.shop import Shop
from journal.work import Work

log = logging.getLogger(__name__)
ROUTES = (
    moulds, builds, notes, uploads, live, photos, steps, search, media, compare, trace, ask, clocks, mixes, sums, shelf,
    devices, pins, teach, exchange, recipes, plans, outcomes, pictures,
)  # fmt: skip
PAGES = (
    mould_pages,
    build_pages,
    bench_page,
    step_pages,
    search_page,
    shell_pages,
    compare_pages,
    trace_page,
    teach_pages,
    exchange_page,
    ask_page,
    clocks_part,
    mixes_page,
    shelf_page,
    device_pages,
    pin_pages,
    life_pages,
    pictures_page,
    recipe_pages,
    plan_pages,
)


class _Static(StaticFiles):
    """Our styles and scripts; a browser asks whether they are still the same, so that an update is seen at once."""

    def file_response(self, *args: Any, **kwargs: Any) -> Response:
        """Return the file, or that it has not changed."""
        answer = super().file_response(*args, **kwargs)
        answer.headers["cache-control"] = "no-cache"
        return answer


@asynccontextmanager
async def _open_shop(app: FastAPI) -> AsyncIterator[None]:
    app.state.shop = shop = Shop.open(app.state.settings)
    app.state.work = work = Work(shop)
    await run_in_threadpool(work.start)
    warming = Thread(target=_warm, args=(shop,), name="warm", daemon=True)
    warming.start()
    try:
        yield
    finally:
        await run_in_threadpool(work.stop)
        await run_in_threadpool(warming.join)  # a process that ends while weights are loaded is aborted
        shop.close()


def _warm(shop: Shop) -> None:
    """Load what hears and reads while nobody waits for it yet."""
    try:
        warm(shop)
    except WeightsError as error:
        log.warning("%s", error)


def create_app(settings: Settings | None = None) -> FastAPI:
    """Return the app of these settings; its shop and its worker open when it starts and close when it stops."""
    app = FastAPI(
        title="Mouldbook",
        summary="A voice-and-photo process journal for people who build composite and casting moulds.",
        lifespan=_open_shop,
        # The stock pages of these fetch scripts from elsewhere; /api/openapi.json serves any local viewer.
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
    )
    app.state.settings = settings or Settings()
    app.state.fingerprint = ""  # of the authority, in hex: whoever serves us on the network says so
    app.state.tries = devices.Tries()
    names = host_names(app.state.settings.lan_names.split(","))
    app.add_middleware(Guard, max_bytes=app.state.settings.max_bytes, lan_names=names)
    answer_with_problems(app)
    for part in (*ROUTES, *PAGES):
        app.include_router(part.router)
    app.mount("/static", _Static(directory=shell_pages.STATIC), name="static")
    return app
