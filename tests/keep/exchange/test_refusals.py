"""A file that is not right, or means harm, is refused with what to do, and leaves nothing behind."""

from __future__ import annotations

import json
import os
import shutil
import struct
import zipfile

import pytest

from journal.keep.exchange import container
from journal.keep.exchange.document import gather
from journal.keep.exchange.exchange import bring_in, export
from journal.keep.exchange.nouns import ExchangeError
from journal.keep.media import Media
from tests.keep.databases import _migrated_sqlite
from tests.keep.exchange.filled import fill
from tests.keep.made import AT, minutes

MOST = 1_000_000


@pytest.fixture
def database_url(tmp_path):
    shutil.copy(_migrated_sqlite(), tmp_path / "mouldbook.db")
    return f"sqlite:///{tmp_path / 'mouldbook.db'}"


@pytest.fixture
def exported(store, media, tmp_path):
    fill(store, media)
    export(store, media, tmp_path / "out", "json", minutes(40))
    return tmp_path / "out"


def refused(empty, media, source, most=MOST):
    """Return why a source is refused; the store stays empty."""
    before = gather(empty, AT)
    with pytest.raises(ExchangeError) as caught:
        bring_in(empty, media, source, most, minutes(50))
    assert gather(empty, AT) == before
    assert "\n" not in str(caught.value)
    return str(caught.value)


def zipped(tmp_path, members, name="bad.zip"):
    with zipfile.ZipFile(tmp_path / name, "w", zipfile.ZIP_DEFLATED) as archive:
        for member, data in members.items():
            archive.writestr(member, data)
    return tmp_path / name


# ---- the container -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name",
    [
        "../../escape.txt", "/etc/passwd", "media/../../x", "C:\\x", "media\\x", "media/" + "A" * 64, "notes.csv/x",
        "media/" + "a" * 64 + "/x", "media/" + "a" * 64 + ".html.exe", ".ssh/authorized_keys",
    ],
)  # fmt: skip
def test_a_name_that_has_no_place_is_refused_and_nothing_is_unpacked(empty, media, tmp_path, name):
    there = {path for path in tmp_path.rglob("*")}
    source = zipped(tmp_path, {"mouldbook.json": "{}", name: "x"})
    assert "has no place in an exchange file" in refused(empty, media, source)
    assert {path for path in tmp_path.rglob("*")} - there <= {source} | set(tmp_path.rglob("*.db-*"))


def test_a_medium_over_the_limit_is_refused(empty, media, exported):
    assert "MOULDBOOK_MAX_BYTES" in refused(empty, media, exported, most=5)


def test_a_text_over_the_limit_is_refused_before_it_is_unpacked(empty, media, tmp_path, monkeypatch):
    monkeypatch.setattr(container, "DOCUMENT_MOST", 1000)
    source = zipped(tmp_path, {"mouldbook.json": b" " * 1_000_000})
    assert source.stat().st_size < 10_000
    assert "at most 1000 are taken in" in refused(empty, media, source)


def test_a_member_that_lies_about_its_size_is_cut_off(empty, media, tmp_path, monkeypatch):
    source = zipped(tmp_path, {"mouldbook.json": b" " * 1_000_000})
    data = source.read_bytes()
    at = data.rindex(b"PK\x01\x02")  # the size in the central directory: what a reader is told
    source.write_bytes(data[: at + 24] + struct.pack("<I", 10) + data[at + 28 :])
    words = refused(empty, media, source)
    assert "damaged" in words or "no JSON" in words or "more than" in words


def test_a_link_in_a_folder_is_refused(empty, media, exported):
    os.symlink("/etc/passwd", exported / "notes.csv")
    assert "is a link" in refused(empty, media, exported)


def test_what_is_no_zip_file_or_not_there_is_refused(empty, media, tmp_path):
    (tmp_path / "x.zip").write_bytes(b"PK no")
    assert "no whole ZIP file" in refused(empty, media, tmp_path / "x.zip")
    assert "is not there" in refused(empty, media, tmp_path / "none.zip")
    (tmp_path / "hollow").mkdir()
    assert "neither mouldbook.json nor datapackage.json" in refused(empty, media, tmp_path / "hollow")


def test_two_members_of_one_name_are_refused(empty, media, tmp_path):
    with zipfile.ZipFile(tmp_path / "bad.zip", "w") as archive:
        archive.writestr("mouldbook.json", "{}")
        with pytest.warns(UserWarning, match="Duplicate"):
            archive.writestr("mouldbook.json", "{}")
    assert "in the file twice" in refused(empty, media, tmp_path / "bad.zip")


def test_a_damaged_member_is_refused(empty, media, exported, tmp_path):
    source = zipped(tmp_path, {"mouldbook.json": (exported / "mouldbook.json").read_bytes()})
    data = bytearray(source.read_bytes())
    data[200] ^= 0xFF
    source.write_bytes(bytes(data))
    assert "damaged" in refused(empty, media, source)


def test_altered_originals_and_strangers_are_refused(empty, media, exported):
    original = next((exported / "media").iterdir())
    original.write_bytes(b"altered")
    assert "do not have that sum" in refused(empty, Media(f"{exported.parent}/elsewhere"), exported)
    stranger = exported / "media" / ("a" * 64)
    stranger.write_bytes(b"x")
    assert "no note or photo in the file has the media" in refused(empty, media, exported)


# ---- the document ------------------------------------------------------------------------------------


def changed(exported, noun, number, values):
    path = exported / "mouldbook.json"
    document = json.loads(path.read_text())
    document[noun][number] |= values
    path.write_text(json.dumps(document))
    return exported


@pytest.mark.parametrize(
    ("noun", "values", "words"),
    [
        ("moulds", {"id": "1"}, "moulds, row 1: id is no whole number"),
        ("moulds", {"pieces": 1.5}, "moulds, row 1: pieces is no whole number"),
        ("moulds", {"area_m2": float("nan")}, "area_m2 is no number"),
        ("moulds", {"name": None}, "moulds, row 1: name is missing"),
        ("moulds", {"colour": "red"}, "colour is no field of it"),
        ("moulds", {"key": "../x"}, "is not that of the name"),
        ("moulds", {"status": "melted"}, "the store refuses what the file holds"),
        ("builds", {"mould_id": 99}, "builds, row 1: mould_id 99 is not in the file"),
        ("builds", {"started_at": "2026-05-04T14:10:00"}, "has no offset from UTC"),
        ("builds", {"started_at": "yesterday"}, "started_at"),
        ("builds", {"started_at": "9999-12-31T23:59:59+14:00"}, "started_at"),
        ("builds", {"outcome": "melted"}, "the store refuses"),
        ("notes", {"media_sha256": "a" * 64}, "is not the sum of its recording"),
        ("notes", {"typed_text": "a\0b"}, "NUL"),
        ("changes", {"noun": "device"}, "changes, row 1"),
        ("changes", {"noun_id": 999}, "there is no mould 999"),
    ],
)
def test_a_value_that_is_not_right_is_named(empty, media, exported, noun, values, words):
    assert words in refused(empty, media, changed(exported, noun, 0, values))


def test_a_record_that_breaks_its_contract_is_named(empty, media, exported):
    document = json.loads((exported / "mouldbook.json").read_text())
    record = document["steps"][0]["record"]
    record["materials"][0]["amount"] = -5
    words = refused(empty, media, changed(exported, "steps", 0, {"record": record}))
    assert "steps, row 1: materials.0.amount" in words


def test_a_recording_that_a_browser_could_run_is_refused(empty, media, exported):
    document = json.loads((exported / "mouldbook.json").read_text())
    clip = document["notes"][0]["clip"] | {"media_type": "text/html"}
    assert "none of audio/" in refused(empty, media, changed(exported, "notes", 0, {"clip": clip}))
    picture = document["photos"][0]["photo"] | {"media_type": "image/svg+xml"}
    changed(exported, "notes", 0, {"clip": document["notes"][0]["clip"]})
    assert "image/svg+xml" in refused(empty, media, changed(exported, "photos", 0, {"photo": picture}))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no JSON"), ("[]", "format"), ("{}", "format"), ('{"format": "other"}', "format"),
        ("[" * 200_000, "no JSON"),
        ('{"format": "mouldbook-exchange", "version": 2}', "of version 2"),
        ('{"format": "mouldbook-exchange", "version": 1, "dreams": []}', "dreams"),
        ('{"format": "mouldbook-exchange", "version": 1, "moulds": {}}', "moulds: give a list"),
        ('{"format": "mouldbook-exchange", "version": 1, "moulds": [3]}', "moulds, row 1: give an object"),
    ],
)  # fmt: skip
def test_a_document_that_is_none_is_refused(empty, media, tmp_path, text, words):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mouldbook.json").write_text(text)
    assert words in refused(empty, media, tmp_path / "out")


def test_a_table_that_is_not_right_is_refused(empty, media, store, exported, tmp_path):
    target = tmp_path / "tables"
    export(store, media, target, "csv", minutes(40))
    moulds = target / "moulds.csv"
    good = moulds.read_bytes()
    for bad, words in (
        (good.replace(b"pieces", b"parts"), "parts is no column"),
        (good + b"only,two\r\n", "not as many cells"),
        (good.replace(b",2,", b",two,"), "pieces cannot be read"),
        (good.decode().encode("utf-16"), "no UTF-8"),
    ):
        moulds.write_bytes(bad)
        assert words in refused(empty, media, target)
    moulds.write_bytes(b"\xef\xbb\xbf" + good)  # the mark that spreadsheets put before UTF-8 does no harm
    assert bring_in(empty, media, target, MOST, minutes(50)).whole
