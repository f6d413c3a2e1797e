"""What makes the page an app of the phone: its manifest, its service worker, and the pages that need no machine."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from fastapi import APIRouter
from starlette.responses import JSONResponse, Response

from api.pages.render import render

STATIC = Path(__file__).parent.parent / "static"
TEMPLATES = Path(__file__).parent
WORKER = STATIC / "worker.js"
PAGES = ("/queue", "/away", "/manifest.webmanifest")
MANIFEST = {
    "name": "Mouldbook",
    "short_name": "Mouldbook",
    "description": "Spoken notes of mould making, kept on this phone until they are with the machine",
    "id": "/",
    "start_url": "/moulds",
    "scope": "/",
    "display": "standalone",
    "background_color": "#ece8df",
    "theme_color": "#0a5360",
    "icons": [
        {"src": "/static/icon.svg", "sizes": "any", "type": "image/svg+xml"},
        {"src": "/static/icon-192.png", "sizes": "192x192", "type": "image/png"},
        {"src": "/static/icon-512.png", "sizes": "512x512", "type": "image/png"},
        {"src": "/static/icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
    ],
}
router = APIRouter(include_in_schema=False)


def shell_files() -> list[Path]:
    """Return the styles and scripts that every phone keeps."""
    return [path for path in sorted(STATIC.rglob("*")) if path.is_file() and path != WORKER]


def shell_version() -> str:
    """Return a name that changes when a style, a script or a template does."""
    summed = hashlib.sha256()
    for path in (*shell_files(), WORKER, *sorted(TEMPLATES.glob("*.html"))):
        summed.update(path.name.encode() + b"\0" + path.read_bytes())
    return summed.hexdigest()[:16]


@router.get("/manifest.webmanifest")
def manifest() -> Response:
    """Say how the page is installed."""
    return JSONResponse(MANIFEST, media_type="application/manifest+json", headers={"cache-control": "no-cache"})


@router.get("/service-worker.js")
def service_worker() -> Response:
    """Return the worker with the version and the files of the shell before it: a change in any makes a new worker."""
    files = [f"/static/{path.relative_to(STATIC).as_posix()}" for path in shell_files()]
    shell = json.dumps({"version": shell_version(), "files": [*files, *PAGES]})
    script = f"const SHELL = {shell};\n{WORKER.read_text(encoding='utf-8')}"
    return Response(script, media_type="text/javascript", headers={"cache-control": "no-cache"})


@router.get("/queue")
def queue() -> Response:
    """Show what is still on this phone; the phone itself knows, not the machine."""
    return render("queue.html", here="queue")


@router.get("/away")
def away() -> Response:
    """Show what can be done without the machine."""
    return render("away.html")
