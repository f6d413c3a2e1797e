"""The queue's tasks: thin calls of flow.

The database, not the queue, is the truth: a note's state stands in its row, and whatever the queue
loses is queued again at start and once a minute.
"""

from __future__ import annotations

import logging
from typing import Any

from huey import Huey, RedisHuey, SqliteHuey, crontab
from huey.consumer import Consumer
from huey.exceptions import TaskLockedException

from journal import flow
from journal.settings import Settings
from journal.shop import Shop

MOST_WAIT_S = 20.0  # a note that is kept lets those who are speaking be heard first, for so long
log = logging.getLogger(__name__)


def open_queue(settings: Settings) -> Huey:
    """Return the queue of these settings: on SQLite in the data folder, or on Redis."""
    if settings.queue_url:
        return RedisHuey("mouldbook", url=settings.queue_url, results=False)
    settings.data_dir.mkdir(parents=True, exist_ok=True)
    return SqliteHuey("mouldbook", filename=str(settings.data_dir / "queue.db"), results=False)


class _Consumer(Consumer):  # type: ignore[misc]
    """A consumer inside a server, which has its own say over signals."""

    def _set_signal_handlers(self) -> None:
        pass


class Work:
    """The queue of one shop, and its worker, which hears and reads from `start()` to `stop()`."""

    def __init__(self, shop: Shop) -> None:
        """Open the queue and register its tasks."""
        self._shop = shop
        self._queue = open_queue(shop.settings)
        self._process = self._queue.task(name="process_note")(self._process_note)
        self._queue.periodic_task(crontab(minute="*"), name="queue_waiting")(self.queue_waiting)
        self._consumer: Consumer | None = None

    def queue_note(self, note_id: int) -> None:
        """Have a kept note heard and read soon."""
        self._process(note_id)

    def queue_waiting(self) -> None:
        """Queue every note that is neither read nor failed and not queued already."""
        queued = {task.args[0] for task in self._queue.pending() if task.name == "process_note"}
        for note in self._shop.store.notes_waiting():
            if note.id not in queued:
                self.queue_note(note.id)

    def start(self, workers: int = 1) -> None:
        """Start the worker threads; what was waiting is queued first."""
        self.queue_waiting()
        self._consumer = _Consumer(self._queue, workers=workers, max_delay=0.5, check_worker_health=False)
        self._consumer.start()

    def stop(self) -> None:
        """Stop after the note in hand; what waits is queued again at the next start."""
        if self._consumer is not None:
            self._consumer.stop(graceful=True)
            self._consumer = None

    def _process_note(self, note_id: int) -> Any:
        self._shop.floor.wait(MOST_WAIT_S)
        try:
            with self._queue.lock_task(f"note-{note_id}"):
                flow.process_note(self._shop, note_id)
        except TaskLockedException:
            log.debug("note %s is in other hands", note_id)
