"""The open microphone: a WebSocket that takes sound, and tells when somebody speaks and what was heard so far.

Sound goes up as binary messages, 16 kHz mono 16-bit little-endian; text messages are JSON. Nothing that is sent here is
kept: the recording itself comes as an upload (`api.routes.uploads`).

    up    {"do": "begin" | "end" | "reset"}             by hand; reset: the page itself was speaking
    down  {"kind": "ready"}
          {"kind": "begin" | "pause" | "resume" | "end", "number", "at_s"}
          {"kind": "heard", "number", "text", "commands", "place", "answer", "whole", "card"}
          {"kind": "trouble", "why"}
"""

from __future__ import annotations

import asyncio
import json
import logging
from typing import Any

from fastapi import APIRouter, WebSocket
from starlette.concurrency import run_in_threadpool
from starlette.websockets import WebSocketDisconnect

from api.pages.bench import card_html, first_card
from journal.flow import USER_ERRORS
from journal.hear.voice import Turn
from journal.keep.views import NotKept
from journal.live import FirstReading, OpenMicrophone
from journal.shop import Shop

log = logging.getLogger(__name__)
router = APIRouter()
NO_SUCH_BUILD = 4404  # of the range that RFC 6455 leaves to applications
MOST_BYTES = 64_000  # two seconds of sound in one message


class _Bench:
    """One open microphone and the page at its other end."""

    def __init__(self, socket: WebSocket, shop: Shop, microphone: OpenMicrophone) -> None:
        self._socket, self._shop, self._microphone = socket, shop, microphone
        self._hearing: asyncio.Task[None] | None = None
        self._again = False

    async def serve(self) -> None:
        await self._socket.send_json({"kind": "ready"})
        try:
            while True:
                message = await self._socket.receive()
                if message["type"] != "websocket.receive":
                    return
                await self._take(message)
        finally:
            self._microphone.reset()
            if self._hearing is not None:
                self._hearing.cancel()

    async def _take(self, message: Any) -> None:
        sound = message.get("bytes")
        if sound is None:
            await self._do(message.get("text") or "")
            return
        for turn in self._microphone.feed(sound[:MOST_BYTES]):
            await self._tell(turn)

    async def _do(self, text: str) -> None:
        try:
            what = json.loads(text).get("do")
        except (ValueError, AttributeError):
            return
        if what == "begin":
            self._microphone.begin()
            await self._socket.send_json({"kind": "begin", "number": self._microphone.number, "at_s": None})
        elif what == "end" and self._microphone.speaking:
            self._microphone.finish()
            self._hear()
        elif what == "reset":
            self._microphone.reset()

    async def _tell(self, turn: Turn) -> None:
        await self._socket.send_json(
            {"kind": turn.kind, "number": self._microphone.number, "at_s": round(turn.at_s, 2)}
        )
        if turn.kind == "pause":
            self._hear()

    def _hear(self) -> None:
        """Hear what there is; once more when there is more by then."""
        if self._hearing is not None and not self._hearing.done():
            self._again = True
            return
        self._hearing = asyncio.create_task(self._heard())

    async def _heard(self) -> None:
        while True:
            self._again = False
            try:
                first = await run_in_threadpool(self._microphone.read)
            except USER_ERRORS as error:
                await self._socket.send_json({"kind": "trouble", "why": str(error)})
                return
            if first is not None:
                await self._send(first)
            if not self._again:
                return

    async def _send(self, first: FirstReading) -> None:
        commands = [command.kind for command in first.commands]
        if "begin" in commands:
            self._microphone.hold()
        whole = self._microphone.number == first.number and self._microphone.paused and not self._again
        photos = [command.place for command in first.commands if command.kind == "photo"]
        await self._socket.send_json(
            {
                "kind": "heard",
                "number": first.number,
                "text": first.text,
                "commands": commands,
                "place": photos[0] if photos else None,
                "answer": first.answer,
                "whole": whole,
                "card": card_html(first_card(self._shop, first), "live"),
            }
        )


@router.websocket("/api/builds/{build_key}/live")
async def live(socket: WebSocket, build_key: str) -> None:
    """Listen at the bench of a build for as long as its page is open."""
    shop: Shop = socket.app.state.shop
    await socket.accept()
    try:
        microphone = await run_in_threadpool(OpenMicrophone, shop, build_key)
    except NotKept:
        await socket.close(NO_SUCH_BUILD)
        return
    try:
        await _Bench(socket, shop, microphone).serve()
    except WebSocketDisconnect:
        log.debug("the page at the bench of %s is gone", build_key)
