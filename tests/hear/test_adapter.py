from __future__ import annotations

import struct
from pathlib import Path

import numpy as np
import pytest

from journal.hear.adapter import AdapterError, add, variables
from journal.hear.weights import PACKAGES, put_together

MAKERS, BASE = PACKAGES[0], PACKAGES[1]


def _text(name: str) -> bytes:
    return struct.pack("<H", len(name) + 1) + name.encode() + b"\0"


def _model(version: int = 6, **values: np.ndarray) -> bytearray:
    """Return a model file as CTranslate2 writes it, with these variables and no aliases."""
    data = struct.pack("<I", version) + _text("WhisperSpec") + struct.pack("<II", 3, len(values))
    for name, value in values.items():
        kind = {np.dtype("<f2"): 4, np.dtype("<f4"): 0, np.dtype("i1"): 1}[value.dtype]
        data += _text(name) + struct.pack("<B", value.ndim) + struct.pack(f"<{value.ndim}I", *value.shape)
        data += struct.pack("<BI", kind, value.nbytes) + value.tobytes()
    return bytearray(data + struct.pack("<I", 0))


def _adapter(folder: Path, **matrices: np.ndarray) -> Path:
    path = folder / "adapter.npz"
    np.savez(path, allow_pickle=False, **{key.replace("__", "."): value for key, value in matrices.items()})
    return path


def _read(model: bytearray, name: str, kind: str) -> np.ndarray:
    place = dict(variables(model))[name]
    return np.frombuffer(model, kind, place.size // np.dtype(kind).itemsize, place.offset).reshape(place.shape)


@pytest.mark.parametrize("kind", ["<f2", "<f4"])
def test_the_product_is_added_to_the_named_weight_alone(kind: str, tmp_path: Path) -> None:
    weight, other = np.ones((2, 3), kind), np.full((2, 3), 7, kind)
    model = _model(first=weight, second=other)
    up, down = np.array([[1.0], [2.0]], "<f2"), np.array([[0.5, 0.0, -1.0]], "<f2")
    add(model, _adapter(tmp_path, first__up=up, first__down=down))
    assert np.array_equal(_read(model, "first", kind), weight + (up @ down).astype(kind))
    assert np.array_equal(_read(model, "second", kind), other)
    assert len(model) == len(_model(first=weight, second=other))


@pytest.mark.parametrize(
    "weight", [np.ones((3, 2), "<f2"), np.ones((2, 3), "i1")], ids=["another shape", "whole numbers"]
)
def test_an_adapter_for_another_model_is_refused(weight: np.ndarray, tmp_path: Path) -> None:
    adapter = _adapter(tmp_path, first__up=np.ones((2, 1), "<f2"), first__down=np.ones((1, 3), "<f2"))
    with pytest.raises(AdapterError, match=r"no floating-point weight first of shape \(2, 3\)"):
        add(_model(first=weight), adapter)


def test_a_name_that_the_model_lacks_is_refused(tmp_path: Path) -> None:
    adapter = _adapter(tmp_path, absent__up=np.ones((2, 1), "<f2"), absent__down=np.ones((1, 3), "<f2"))
    with pytest.raises(AdapterError, match="absent"):
        add(_model(first=np.ones((2, 3), "<f2")), adapter)


def test_another_file_version_is_refused() -> None:
    with pytest.raises(AdapterError, match="binary version 5"):
        list(variables(_model(version=5)))


def test_the_weights_for_makers_are_base_with_other_decoder_layers(tmp_path: Path) -> None:
    parts = BASE.part_paths()
    if not parts:
        pytest.skip(f"{BASE.install} is not installed")
    plain = (put_together(BASE, parts, tmp_path / "base") / "model.bin").read_bytes()
    made = (put_together(MAKERS, parts, tmp_path / "makers") / "model.bin").read_bytes()
    places = dict(variables(plain))
    assert dict(variables(made)) == places
    changed = {
        n for n, p in places.items() if plain[p.offset : p.offset + p.size] != made[p.offset : p.offset + p.size]
    }
    assert changed
    assert all(name.startswith("decoder/layer_") and name.endswith("/weight") for name in changed)
