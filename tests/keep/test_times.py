"""Times: an instant to sort by, and the wall clock it was read from."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from journal.keep.store import Store
from journal.keep.times import Moment
from journal.keep.views import NewNote
from tests.keep.made import build_of

LONDON = ZoneInfo("Europe/London")
# The clocks go back on 2026-10-25 at 01:00 UTC: half past one comes twice.
FIRST_HALF_PAST_ONE = datetime(2026, 10, 25, 1, 30, tzinfo=LONDON, fold=0)
SECOND_HALF_PAST_ONE = datetime(2026, 10, 25, 1, 30, tzinfo=LONDON, fold=1)


def test_the_wall_time_comes_back_over_a_clock_change(store: Store) -> None:
    build = build_of(store)
    second, _ = store.add_note(build.id, NewNote(SECOND_HALF_PAST_ONE, text="second"))
    first, _ = store.add_note(build.id, NewNote(FIRST_HALF_PAST_ONE, text="first"))
    assert [note.text for note in store.notes(build.id)] == ["first", "second"]
    assert first.recorded_at.isoformat() == "2026-10-25T01:30:00+01:00"
    assert second.recorded_at.isoformat() == "2026-10-25T01:30:00+00:00"
    assert second.recorded_at - first.recorded_at == timedelta(hours=1)


@pytest.mark.parametrize("offset", ["+05:45", "-09:30", "+14:00", "-00:00"])
def test_any_offset_comes_back(store: Store, offset: str) -> None:
    build = build_of(store)
    at = datetime.fromisoformat(f"2026-05-04T14:10:00.123456{offset}")
    note, _ = store.add_note(build.id, NewNote(at, text="words"))
    assert store.note(note.id).recorded_at.isoformat() == at.isoformat()


def test_sqlite_holds_utc_and_gives_aware_times_back(tmp_path: Path) -> None:
    path = tmp_path / "mouldbook.db"
    with Store(f"sqlite:///{path}") as store:
        store.migrate()
        build = build_of(store)
        note, _ = store.add_note(build.id, NewNote(FIRST_HALF_PAST_ONE, text="words"))
        with store.reading() as session:
            from journal.keep.tables import NoteRow

            row = session.get(NoteRow, note.id)
            assert row is not None
            assert row.recorded_at == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
            assert row.recorded_at.tzinfo is UTC
    connection = sqlite3.connect(path)
    [raw] = connection.execute("SELECT recorded_at, recorded_offset_s FROM note").fetchall()
    connection.close()
    assert raw == ("2026-10-25 00:30:00.000000", 3600)


def test_a_time_without_an_offset_is_refused() -> None:
    with pytest.raises(ValueError, match="offset"):
        Moment.of(datetime(2026, 5, 4))  # noqa: DTZ001
