"""Low-rank additions to a speech model's decoder: the words of the trade, and numbers written as they are said.

An adapter holds, for linear layers of the decoder, two narrow matrices whose product is added to the layer's weight
(Hu et al. 2021, "LoRA", arXiv:2106.09685). The published weights stay as they are in their packages; only the model
that is joined from them is changed. `tests/bench/adapter` makes the file and says from what.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

# Type numbers of CTranslate2's model files (its python/ctranslate2/specs/model_spec.py writes them).
_FLOAT_TYPES: dict[int, np.dtype[np.float32] | np.dtype[np.float16]] = {0: np.dtype("<f4"), 4: np.dtype("<f2")}


class AdapterError(ValueError):
    """The adapter does not fit the model."""


@dataclass(frozen=True, slots=True)
class Variable:
    """Where a variable's bytes stand in a model file: offset and size in bytes, shape, type number."""

    offset: int
    size: int
    shape: tuple[int, ...]
    type_number: int


class _Cursor:
    """Reads numbers and names of a model file one after another."""

    def __init__(self, model: bytes | bytearray) -> None:
        self._model, self.at = model, 0

    def number(self, form: str) -> int:
        (value,) = struct.unpack_from(f"<{form}", self._model, self.at)
        self.at += struct.calcsize(f"<{form}")
        return int(value)

    def name(self) -> str:
        length = self.number("H")
        self.at += length
        return bytes(self._model[self.at - length : self.at - 1]).decode()


def variables(model: bytes | bytearray) -> Iterator[tuple[str, Variable]]:
    """Yield name and place of each variable of a CTranslate2 model file (binary version 6)."""
    cursor = _Cursor(model)
    if (version := cursor.number("I")) != 6:
        raise AdapterError(f"the model file has binary version {version}, not 6")
    cursor.name()
    cursor.number("I")
    for _ in range(cursor.number("I")):
        name = cursor.name()
        shape = tuple(cursor.number("I") for _ in range(cursor.number("B")))
        type_number, size = cursor.number("B"), cursor.number("I")
        yield name, Variable(cursor.at, size, shape, type_number)
        cursor.at += size


def add(model: bytearray, adapter: Path) -> None:
    """Add the adapter's matrices to the weights in `model`, in place; AdapterError where they do not fit.

    The file (NumPy's .npz) has `NAME.up`, shape [outputs, rank], and `NAME.down`, [rank, inputs], for the weight NAME,
    shape [outputs, inputs]: `up @ down` is added.
    """
    places = dict(variables(model))
    with np.load(adapter, allow_pickle=False) as matrices:
        for key in (key for key in matrices.files if key.endswith(".up")):
            name = key.removesuffix(".up")
            change = matrices[key].astype(np.float32) @ matrices[f"{name}.down"].astype(np.float32)
            _add_to(model, name, places.get(name), change)


def _add_to(model: bytearray, name: str, place: Variable | None, change: NDArray[np.float32]) -> None:
    if place is None or place.shape != change.shape or place.type_number not in _FLOAT_TYPES:
        raise AdapterError(f"the model has no floating-point weight {name} of shape {change.shape}")
    kind = _FLOAT_TYPES[place.type_number]
    kept = np.frombuffer(model, kind, change.size, place.offset).reshape(change.shape)
    model[place.offset : place.offset + place.size] = (kept.astype(np.float32) + change).astype(kind).tobytes()
