"""The queue and its worker, on SQLite and on Redis; the database is the truth."""

from __future__ import annotations

import shutil
import socket
import subprocess
import time
from collections.abc import Callable, Iterator

import pytest

from journal import flow
from journal.flow import Incoming
from journal.shop import Shop
from journal.work import Work, open_queue


@pytest.fixture(params=["sqlite", "redis"])
def queued_shop(request, shop, tmp_path) -> Iterator[Shop]:
    """A shop whose queue is on SQLite, or on a Redis server of its own."""
    if request.param == "sqlite":
        yield shop
        return
    if shutil.which("redis-server") is None:
        pytest.skip("redis-server is not installed")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = subprocess.Popen(
        ["redis-server", "--port", str(port), "--bind", "127.0.0.1", "--save", "", "--dir", str(tmp_path)],
        stdout=subprocess.DEVNULL,
    )
    try:
        until(lambda: _answers(port))
        shop.settings = shop.settings.model_copy(update={"queue_url": f"redis://127.0.0.1:{port}/0"})
        yield shop
    finally:
        server.terminate()
        server.wait()


def _answers(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def until(true: Callable[[], bool], seconds: float = 60) -> None:
    """Wait until something holds; fail when it never does."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "waited too long"
        time.sleep(0.05)


def take(shop: Shop, words: bytes) -> int:
    return flow.take_in(shop, "niche-9", Incoming(words)).id


def test_a_queued_note_is_read_by_the_worker(queued_shop):
    work = Work(queued_shop)
    work.start()
    try:
        note_id = take(queued_shop, b"Two coats of release wax on the flange.")
        work.queue_note(note_id)
        until(lambda: queued_shop.store.note(note_id).state == "read")
    finally:
        work.stop()
    assert [step.record.action for step in queued_shop.store.steps("niche-9")] == ["release"]


def test_what_the_queue_lost_is_queued_again_at_start(queued_shop):
    note_id = take(queued_shop, b"Two coats of release wax on the flange.")
    open_queue(queued_shop.settings).flush()
    work = Work(queued_shop)
    work.start()
    try:
        until(lambda: queued_shop.store.note(note_id).state == "read")
    finally:
        work.stop()


def test_a_note_queued_twice_is_read_once(queued_shop):
    note_id = take(queued_shop, b"Two coats of release wax on the flange.")
    work = Work(queued_shop)
    work.queue_note(note_id)
    work.queue_note(note_id)
    work.queue_waiting()
    work.start()
    try:
        until(lambda: queued_shop.store.note(note_id).state == "read")
    finally:
        work.stop()
    assert len(queued_shop.store.readings(note_id)) == 1
