"""The media folder keeps bytes whole, once, and says when they were altered."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from journal.keep.media import Media, MediaAltered, MediaMissing, write_whole
from journal.keep.views import KeepError

SPOKEN = b"RIFF spoken words" * 100
SUM = hashlib.sha256(SPOKEN).hexdigest()


@pytest.fixture(params=["folder", "file-url", "memory"])
def media(request: pytest.FixtureRequest, tmp_path: Path) -> Media:
    addresses = {
        "folder": str(tmp_path / "media"),
        "file-url": (tmp_path / "media").as_uri(),
        "memory": f"memory://{tmp_path.name}-{request.node.name}",
    }
    return Media(addresses[request.param])


def original(folder: Path) -> Path:
    return folder / "originals" / SUM[:2] / SUM


def test_bytes_come_back_under_their_own_sum(media: Media) -> None:
    assert media.keep(SPOKEN) == SUM
    assert media.read(SUM) == SPOKEN
    assert media.size(SUM) == len(SPOKEN)
    assert media.has(SUM)


def test_the_same_bytes_twice_are_kept_once(media: Media) -> None:
    media.keep(SPOKEN)
    media.keep(SPOKEN)
    assert media.originals() == [SUM]


def test_nothing_at_all_can_be_kept(media: Media) -> None:
    assert media.read(media.keep(b"")) == b""


def test_an_opened_recording_can_be_read_from_the_middle(media: Media) -> None:
    media.keep(SPOKEN)
    with media.open(SUM) as file:
        file.seek(5)
        assert file.read(6) == b"spoken"


def test_missing_bytes_are_said_to_be_missing(media: Media) -> None:
    assert not media.has(SUM)
    for ask in (media.read, media.open, media.size):
        with pytest.raises(MediaMissing, match=SUM):
            ask(SUM)


@pytest.mark.parametrize("name", ["../../etc/passwd", "", "ABC", SUM.upper(), SUM + "/..", "\0"])
def test_no_name_but_a_sum_reaches_the_disk(media: Media, name: str) -> None:
    with pytest.raises(MediaMissing):
        media.read(name)


@pytest.mark.parametrize("name", ["../thumb", "", ".hidden", "a/b", "x" * 200])
def test_a_copy_cannot_be_put_elsewhere(media: Media, name: str) -> None:
    with pytest.raises(KeepError):
        media.keep_derived(SUM, name, b"")


def test_a_derived_copy_is_replaced_and_is_no_original(media: Media) -> None:
    media.keep(SPOKEN)
    assert media.derived(SUM, "thumb.webp") is None
    media.keep_derived(SUM, "thumb.webp", b"small")
    media.keep_derived(SUM, "thumb.webp", b"smaller")
    assert media.derived(SUM, "thumb.webp") == b"smaller"
    assert media.originals() == [SUM]


def test_a_check_finds_what_is_missing_and_what_was_altered(tmp_path: Path) -> None:
    media = Media(str(tmp_path))
    other = media.keep(b"whole")
    media.keep(SPOKEN)
    original(tmp_path).write_bytes(SPOKEN[:-1] + b"!")
    gone = "0" * 64
    report = media.check(expected=[other, SUM, gone])
    assert (report.whole, report.altered, report.missing) == (1, (SUM,), (gone,))
    assert not report.good
    with pytest.raises(MediaAltered):
        media.read(SUM)


def test_keeping_good_bytes_again_heals_altered_ones(tmp_path: Path) -> None:
    media = Media(str(tmp_path))
    media.keep(SPOKEN)
    original(tmp_path).write_bytes(b"rotten")
    media.keep(SPOKEN)
    assert media.check([SUM]).good


def test_a_write_that_fails_leaves_no_part_behind(tmp_path: Path) -> None:
    target = tmp_path / "taken"
    target.mkdir()  # a folder is in the way of the file, so the rename must fail
    (target / "inside").touch()
    with pytest.raises(OSError, match="taken"):
        write_whole(target, b"data")
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


def test_an_unknown_kind_of_address_is_refused() -> None:
    with pytest.raises(KeepError, match="media address"):
        Media("nosuch://somewhere")
