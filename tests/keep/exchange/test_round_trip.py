"""An export taken in again gives the same shop, as JSON and as CSV, on either database."""

from __future__ import annotations

import csv
import json
import shutil
import zipfile

import pytest
from sqlalchemy import select

from journal.keep.exchange.document import gather
from journal.keep.exchange.exchange import bring_in, export
from journal.keep.exchange.nouns import NOT_EXCHANGED, NOUNS, ExchangeError
from journal.keep.media import Media
from journal.keep.tables import Base, SearchEntryRow
from tests.keep.exchange.filled import NAMES, SEEN, SPOKEN
from tests.keep.made import AT, minutes

MOST = 1_000_000


@pytest.fixture(params=["json", "csv"])
def form(request):
    return request.param


@pytest.fixture(params=[".zip", ""], ids=["zip", "folder"])
def target(request, tmp_path):
    return tmp_path / f"out{request.param}"


def everything(store):
    """Return all that the store gives out of itself, beside what is exchanged."""
    builds = store.builds()
    notes = [note for build in builds for note in store.notes(build.id)]
    steps = [store.step(step.id) for note in notes for step in store.note_steps(note.id)]
    return {
        "moulds": store.moulds(),
        "builds": builds,
        "notes": notes,
        "hearings": [store.hearings(note.id) for note in notes],
        "readings": [store.readings(note.id) for note in notes],
        "steps": steps,
        "photos": [store.photos(build.id) for build in builds],
        "places": [store.places(mould.id) for mould in store.moulds()],
        "lots": store.lots(),
        "faults": store.faults(),
        "pulls": [store.pulls(mould.id) for mould in store.moulds()],
        "history": [
            store.history(noun, i) for noun in ("mould", "build", "note", "step", "photo") for i in range(1, 9)
        ],
        "tests": [store.training_tests(build.id) for build in builds],
        "signed": [store.sign_offs(build.id) for build in builds],
    }


def test_every_table_comes_back(filled, media, empty, tmp_path, form, target):
    report = export(filled, media, target, form, minutes(40))
    assert report.originals == 2
    new_media = Media(str(tmp_path / "new media"))
    taken = bring_in(empty, new_media, target, MOST, minutes(50))
    assert taken.whole, taken.conflicts
    assert everything(empty) == everything(filled)
    assert gather(empty, AT) == gather(filled, AT)
    assert [new_media.read(sha256) for sha256 in media.originals()] == [media.read(s) for s in media.originals()]
    assert {SPOKEN, SEEN} == {new_media.read(sha256) for sha256 in new_media.originals()}


def test_taking_in_again_changes_nothing(filled, media, empty, form, target):
    export(filled, media, target, form, minutes(40))
    bring_in(empty, media, target, MOST, minutes(50))
    before = gather(empty, AT)
    again = bring_in(empty, media, target, MOST, minutes(60))
    assert again.whole
    assert again.new == {}
    assert again.same["notes"] == 3
    assert gather(empty, AT) == before


def test_a_new_note_gets_a_number_of_its_own_after_taking_in(filled, media, empty, target):
    export(filled, media, target, "json", minutes(40))
    bring_in(empty, media, target, MOST, minutes(50))
    build = empty.add_build("paw", minutes(60))  # PostgreSQL counts on after the rows that were brought in
    assert build.id == 1 + max(each.id for each in filled.builds())


def test_what_was_taken_in_is_found(filled, media, empty, target):
    export(filled, media, target, "json", minutes(40))
    bring_in(empty, media, target, MOST, minutes(50))
    assert empty.lot("4471")[0].step_ids == filled.lot("4471")[0].step_ids
    with filled.reading() as one, empty.reading() as other:
        words = select(SearchEntryRow.noun, SearchEntryRow.noun_id, SearchEntryRow.text)
        assert sorted(map(tuple, one.execute(words))) == sorted(map(tuple, other.execute(words)))


def table(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_csv_is_read_by_other_programs(filled, media, tmp_path):
    export(filled, media, tmp_path / "out", "csv", minutes(40))
    data = (tmp_path / "out" / "moulds.csv").read_bytes()
    assert data.count(b"\r\n") == 3  # RFC 4180: each record on a line that ends in CRLF
    rows = table(tmp_path / "out" / "moulds.csv")
    assert rows[0]["pattern"] == NAMES
    assert rows[0]["remarks"] == "line one\nline two, =1+1"
    assert float(rows[0]["area_m2"]) == 1.2
    amounts = table(tmp_path / "out" / "step_amounts.csv")
    assert ("epoxy", "450.25", "g", "4471") in [(r["material"], r["amount"], r["unit"], r["lot"]) for r in amounts]
    words = table(tmp_path / "out" / "heard_words.csv")
    assert (words[1]["word"], words[1]["start_s"], words[1]["end_s"]) == ("four", "0.5", "1.0")


def test_a_zip_holds_originals_under_their_sums(filled, media, tmp_path):
    export(filled, media, tmp_path / "out.zip", "json", minutes(40))
    with zipfile.ZipFile(tmp_path / "out.zip") as archive:
        names = archive.namelist()
        assert archive.testzip() is None
        document = json.loads(archive.read("mouldbook.json"))
    assert {name[6:70] for name in names if name.startswith("media/")} == set(media.originals())
    assert document["notes"][0]["recorded_at"] == AT.isoformat()


def test_an_original_that_is_lost_is_told(filled, media, empty, tmp_path):
    shutil.rmtree(tmp_path / "media")
    report = export(filled, media, tmp_path / "out.zip", "json", minutes(40))
    assert len(report.lost) == 2
    taken = bring_in(empty, media, tmp_path / "out.zip", MOST, minutes(50))
    assert set(taken.missing) == set(report.lost)
    assert not taken.whole


def test_every_table_is_exchanged_or_left_out_for_a_reason():
    assert {noun.table.name for noun in NOUNS} | NOT_EXCHANGED.keys() == Base.metadata.tables.keys()


def test_an_export_never_writes_over_what_is_there(filled, media, tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.txt").write_text("mine")
    (tmp_path / "out.zip").write_text("mine")
    for name in ("out", "out.zip"):
        with pytest.raises(ExchangeError, match="is there already"):
            export(filled, media, tmp_path / name, "json", AT)
    assert (tmp_path / "out.zip").read_text() == "mine"
