"""Backups: copies that are proved, restored and repaired from."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from journal.find.query import Query
from journal.find.search import search
from journal.keep.backup import backup, check, check_backup, restore
from journal.keep.media import Media
from journal.keep.store import Store
from journal.keep.views import KeepError, NewNote, NewPhoto
from journal.record import Clip, Photo
from tests.keep.databases import new_postgresql
from tests.keep.made import AT, build_of, clip, heard, minutes, photo, spoken, step, use

SPOKEN, SEEN = b"RIFF spoken", b"JFIF seen"


@dataclass
class Workshop:
    store: Store
    media: Media
    folder: Path
    recording: str
    picture: str

    def original(self, sha256: str) -> Path:
        return self.folder / "originals" / sha256[:2] / sha256


@pytest.fixture
def workshop(store: Store, tmp_path: Path) -> Workshop:
    media = Media(str(tmp_path / "live"))
    recording, picture = media.keep(SPOKEN), media.keep(SEEN)
    build = build_of(store)
    kept = Clip(recording, "audio/wav", len(SPOKEN), 2.0, AT, "given")
    note, _ = store.add_note(build.id, NewNote(AT, clip=kept))
    store.keep_transcript(note.id, heard("mixed three hundred grams"), AT)
    store.keep_steps(note.id, [step("mix", use("hardener", 300, "g", lot="4471"))], "reader 1", AT)
    taken = Photo(picture, "image/jpeg", len(SEEN), 40, 30, AT, "file")
    shot, _ = store.add_photo(build.id, NewPhoto(taken))
    store.place_photo(shot.id, "rim", AT, 0.5, 0.5)
    store.correct_step(store.steps(build.id)[0].id, {"materials.0.amount": 87}, "lead maker", "", AT)
    store.set_outcome(build.id, "worked", "clean release", "lead maker", AT)
    return Workshop(store, media, tmp_path / "live", recording, picture)


@pytest.fixture(params=["sqlite", "postgresql"])
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """Another store, empty, of each kind."""
    address = new_postgresql() if request.param == "postgresql" else f"sqlite:///{tmp_path}/other/mouldbook.db"
    with Store(address) as opened:
        opened.migrate()
        yield opened


def everything(store: Store) -> list[object]:
    build = store.build("niche-1")
    notes, steps = store.notes(build.id), store.steps(build.id)
    return [
        store.moulds(), build, notes, steps, store.photos(build.id), store.lots(),
        [store.hearings(note.id) for note in notes], [store.readings(note.id) for note in notes],
        [store.history("step", each.id) for each in steps], store.history("build", build.id),
        search(store, Query("grams"))[0].snippet,
    ]  # fmt: skip


def test_a_backup_restores_everything_into_any_kind_of_store(workshop: Workshop, empty: Store, tmp_path: Path) -> None:
    report = backup(workshop.store, workshop.media, tmp_path / "copy", minutes(60))
    assert (report.originals, report.missing, report.altered) == (2, (), ())
    assert check_backup(tmp_path / "copy").good
    media = Media(str(tmp_path / "other-media"))
    restored = restore(empty, media, tmp_path / "copy")
    assert restored.made_at == minutes(60)
    assert everything(empty) == everything(workshop.store)
    assert media.read(workshop.recording) == SPOKEN
    assert check(empty, media).good
    # Numbering goes on after what was restored.
    spoken(empty, build_of(empty), "another", step("pour"))


def test_a_backup_is_one_plain_sqlite_file_beside_the_media(workshop: Workshop, tmp_path: Path) -> None:
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    assert sorted(path.name for path in (tmp_path / "copy").iterdir()) == [
        "manifest.json",
        "media",
        "mouldbook.db",
    ]
    connection = sqlite3.connect(tmp_path / "copy" / "mouldbook.db")
    assert connection.execute("SELECT count(*) FROM step").fetchone() == (1,)
    connection.close()


def test_a_backup_is_renewed_in_place(workshop: Workshop, empty: Store, tmp_path: Path) -> None:
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    workshop.store.add_build("niche", minutes(5))
    report = backup(workshop.store, workshop.media, tmp_path / "copy", minutes(9))
    assert report.made_at == minutes(9)
    restore(empty, Media(str(tmp_path / "other-media")), tmp_path / "copy")
    assert len(empty.builds()) == 2


def test_a_check_finds_lost_and_altered_originals_and_a_backup_repairs_them(workshop: Workshop, tmp_path: Path) -> None:
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    workshop.original(workshop.recording).unlink()
    workshop.original(workshop.picture).write_bytes(b"rotten")
    found = check(workshop.store, workshop.media)
    assert (found.missing, found.altered, found.originals) == (
        (workshop.recording,),
        (workshop.picture,),
        2,
    )
    mended = check(workshop.store, workshop.media, tmp_path / "copy")
    assert mended.good
    assert set(mended.repaired) == {workshop.recording, workshop.picture}
    assert check(workshop.store, workshop.media).good
    assert workshop.media.read(workshop.picture) == SEEN


def test_an_original_that_is_lost_here_stays_good_in_the_backup(workshop: Workshop, tmp_path: Path) -> None:
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    workshop.original(workshop.picture).write_bytes(b"rotten")
    workshop.original(workshop.recording).unlink()
    report = backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    assert (report.missing, report.altered) == ((workshop.recording,), (workshop.picture,))
    assert Media(str(tmp_path / "copy" / "media")).read(workshop.picture) == SEEN
    assert check(workshop.store, workshop.media, tmp_path / "copy").good


def test_what_no_backup_has_is_still_named(workshop: Workshop, tmp_path: Path) -> None:
    workshop.original(workshop.recording).unlink()
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    found = check(workshop.store, workshop.media, tmp_path / "copy")
    assert (found.missing, found.repaired) == ((workshop.recording,), ())


@pytest.mark.parametrize("harm", ["database", "original", "missing original", "manifest"])
def test_a_backup_that_is_not_whole_is_not_restored(workshop: Workshop, tmp_path: Path, harm: str) -> None:
    copy = tmp_path / "copy"
    backup(workshop.store, workshop.media, copy, AT)
    original = copy / "media" / "originals" / workshop.picture[:2] / workshop.picture
    if harm == "database":
        with (copy / "mouldbook.db").open("ab") as file:
            file.write(b"!")
    elif harm == "original":
        original.write_bytes(b"rotten")
    elif harm == "missing original":
        original.unlink()
    else:
        (copy / "manifest.json").write_text("{")
    with Store(f"sqlite:///{tmp_path}/empty.db") as empty:
        empty.migrate()
        with pytest.raises(KeepError, match="whole"):
            restore(empty, Media(str(tmp_path / "m")), copy)
        assert empty.moulds() == []


def test_a_folder_without_a_backup_is_said_to_have_none(tmp_path: Path) -> None:
    with pytest.raises(KeepError, match="no whole backup"):
        check_backup(tmp_path)


def test_nothing_recorded_is_overwritten_by_a_restore(workshop: Workshop, tmp_path: Path) -> None:
    backup(workshop.store, workshop.media, tmp_path / "copy", AT)
    before = everything(workshop.store)
    with pytest.raises(KeepError, match="not empty"):
        restore(workshop.store, workshop.media, tmp_path / "copy")
    assert everything(workshop.store) == before


def test_a_broken_database_is_found_and_leaves_the_last_backup_alone(tmp_path: Path) -> None:
    path, copy = tmp_path / "mouldbook.db", tmp_path / "copy"
    media = Media(str(tmp_path / "media"))
    with Store(f"sqlite:///{path}") as store:
        store.migrate()
        build = build_of(store)
        for number in range(60):
            spoken(store, build, f"note {number} " + "words " * 50, step("mix"), at=minutes(number))
        backup(store, media, copy, AT)
        store.fold_into_one_file()
    with path.open("r+b") as file:
        file.seek(path.stat().st_size // 2)
        file.write(b"\xff" * 8192)
    manifest = json.loads((copy / "manifest.json").read_text())
    with Store(f"sqlite:///{path}") as store:
        assert check(store, media).database
        with pytest.raises(KeepError, match="cannot be backed up"):
            backup(store, media, copy, minutes(9))
    assert json.loads((copy / "manifest.json").read_text()) == manifest


def test_a_row_that_points_nowhere_is_found(tmp_path: Path) -> None:
    path = tmp_path / "mouldbook.db"
    with Store(f"sqlite:///{path}") as store:
        store.migrate()
        store.add_photo(build_of(store).id, NewPhoto(photo()))
        connection = sqlite3.connect(path)
        connection.execute("UPDATE photo SET place_id = 99")
        connection.commit()
        connection.close()
        [fault] = check(store, Media(str(tmp_path / "media"))).database
    assert fault == "photo row 1 points to a missing row of place"


def test_a_note_added_during_a_backup_is_not_half_in_it(workshop: Workshop, tmp_path: Path) -> None:
    from tests.keep.made import at_once

    build = workshop.store.build("niche-1")

    def talk() -> None:
        for number in range(20):
            workshop.store.add_note(build.id, NewNote(minutes(number), clip=clip(str(number))))

    at_once(talk, lambda: backup(workshop.store, workshop.media, tmp_path / "copy", AT))
    assert len(workshop.store.notes(build.id)) == 21
    with Store(f"sqlite:///{tmp_path}/empty.db") as empty:
        empty.migrate()
        restore(empty, Media(str(tmp_path / "m")), tmp_path / "copy")
        for note in empty.notes(build.id):
            assert workshop.store.note(note.id) == note
