"""Opening a store, and the guards in the database itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from journal.keep.store import Store
from journal.keep.views import KeepError, NewPhoto
from tests.keep.made import AT, build_of, photo, spoken, step


def test_the_folder_of_the_database_is_made(tmp_path: Path) -> None:
    with Store(f"sqlite:///{tmp_path}/new/folder/mouldbook.db") as store:
        store.migrate()
        assert store.moulds() == []


@pytest.mark.parametrize("address", ["", "nonsense", "sqlite://", "sqlite:///:memory:", "oracle9://x"])
def test_an_address_that_cannot_keep_anything_is_refused(address: str) -> None:
    with pytest.raises(KeepError):
        Store(address)


def test_a_file_that_is_no_database_is_named_as_such(tmp_path: Path) -> None:
    path = tmp_path / "mouldbook.db"
    path.write_bytes(b"this is no database, it is a text of some length" * 99)
    with Store(f"sqlite:///{path}") as store, pytest.raises(KeepError, match="not a database"):
        store.migrate()
    assert path.read_bytes().startswith(b"this is no database")


def test_sqlite_writes_ahead_waits_and_holds_foreign_keys(tmp_path: Path) -> None:
    with Store(f"sqlite:///{tmp_path}/mouldbook.db") as store:
        store.migrate()
        with store.engine.connect() as connection:
            got = {
                name: connection.execute(text(f"PRAGMA {name}")).scalar()
                for name in ("journal_mode", "foreign_keys", "busy_timeout", "synchronous")
            }
    assert got == {"journal_mode": "wal", "foreign_keys": 1, "busy_timeout": 30000, "synchronous": 2}


@pytest.mark.parametrize(
    "command",
    [
        "UPDATE change SET why = 'another'",
        "DELETE FROM change",
        "UPDATE hearing SET number = 9",
        "DELETE FROM hearing",
        "UPDATE note SET recorded_offset_s = 0",
        "UPDATE note SET media_sha256 = 'x'",
        "DELETE FROM note",
        "UPDATE reading SET reader_version = 'x'",
        "DELETE FROM reading",
        "UPDATE step SET position = 9",
        "DELETE FROM step",
        "UPDATE photo SET media_sha256 = 'x'",
        "DELETE FROM photo",
    ],
)
def test_the_database_itself_refuses_to_alter_evidence(store: Store, command: str) -> None:
    build = build_of(store)
    spoken(store, build, "mixed it", step("mix"))
    store.add_photo(build.id, NewPhoto(photo()))
    with (
        pytest.raises(DatabaseError, match="never altered"),
        store.writing() as session,
    ):
        session.execute(text(command))


def test_what_fails_half_way_leaves_nothing(store: Store) -> None:
    build = build_of(store)
    with pytest.raises(DatabaseError), store.writing() as session:  # noqa: PT012 (both are one change)
        session.execute(text("UPDATE build SET remarks = 'half'"))
        session.execute(text("UPDATE build SET outcome = 'none of ours'"))
    assert store.build(build.id).remarks == ""


def test_the_history_of_what_never_was_is_empty(store: Store) -> None:
    assert store.history("step", 77) == []
    assert build_of(store, at=AT)
