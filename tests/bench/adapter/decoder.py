"""Whisper's decoder in Torch, with the published weights frozen and low-rank additions that learn."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import torch
from numpy.typing import NDArray
from torch import Tensor, nn
from torch.nn import functional as F

from journal.hear.adapter import variables

PREFIX = "decoder/"
LINEARS = (
    "self_attention/linear_0", "self_attention/linear_1",
    "attention/linear_0", "attention/linear_1", "attention/linear_2",
    "ffn/linear_0", "ffn/linear_1",
)  # fmt: skip
_FLOAT16 = 4


class Decoder(nn.Module):
    """Takes tokens [notes, length] and encoder features [notes, frames, width]; gives hidden states.

    Layers and names are those of CTranslate2's model file.
    """

    def __init__(self, model: Path, rank: int = 16, layers: int = 6, heads: int = 8) -> None:
        super().__init__()
        self._heads, self._layers = heads, layers
        data = model.read_bytes()
        self._frozen = {
            name.removeprefix(PREFIX): torch.tensor(
                np.frombuffer(data, np.float16, math.prod(v.shape), v.offset).reshape(v.shape).astype(np.float32)
            )
            for name, v in variables(data)
            if name.startswith(PREFIX) and v.type_number == _FLOAT16
        }
        self._down, self._up = nn.ParameterDict(), nn.ParameterDict()
        self._dropout = nn.Dropout(0.05)
        for name in self.adapted():
            outputs, inputs = self._frozen[f"{name}/weight"].shape
            self._down[_key(name)] = nn.Parameter(torch.randn(rank, inputs) / math.sqrt(inputs))
            self._up[_key(name)] = nn.Parameter(torch.zeros(outputs, rank))

    def adapted(self) -> list[str]:
        """Return the names of the layers that learn."""
        return [f"layer_{i}/{linear}" for i in range(self._layers) for linear in LINEARS]

    def matrices(self) -> dict[str, NDArray[np.float16]]:
        """Return what was learnt, as `journal.hear.adapter.add` takes it."""
        sides = {"up": self._up, "down": self._down}
        return {
            f"{PREFIX}{name}/weight.{side}": matrices[_key(name)].detach().numpy().astype(np.float16)
            for name in self.adapted()
            for side, matrices in sides.items()
        }

    def go_on_from(self, adapter: Path) -> None:
        """Take up what `matrices` gave before."""
        with np.load(adapter, allow_pickle=False) as before:
            for name in self.adapted():
                for side, matrices in (("up", self._up), ("down", self._down)):
                    matrices[_key(name)].data = torch.from_numpy(before[f"{PREFIX}{name}/weight.{side}"].astype("f4"))

    def forward(self, tokens: Tensor, features: Tensor, heard: Tensor) -> Tensor:
        """Return the last hidden states; `heard` [notes, frames] is true where features are no padding."""
        positions = self._frozen["position_encodings/encodings"][: tokens.shape[1]]
        x = F.embedding(tokens, self._frozen["embeddings/weight"]) + positions
        mask = torch.where(heard, 0.0, -1e9)[:, None, None, :]
        for i in range(self._layers):
            x = x + self._self_attention(x, f"layer_{i}/self_attention")
            x = x + self._attention(x, features, mask, f"layer_{i}/attention")
            x = x + self._feed_forward(x, f"layer_{i}/ffn")
        return self._normed(x, "layer_norm")

    def _self_attention(self, x: Tensor, block: str) -> Tensor:
        q, k, v = self._linear(self._norm(x, block), f"{block}/linear_0").chunk(3, -1)
        return self._linear(self._attend(q, k, v, None), f"{block}/linear_1")

    def _attention(self, x: Tensor, features: Tensor, mask: Tensor, block: str) -> Tensor:
        q = self._linear(self._norm(x, block), f"{block}/linear_0")
        k, v = self._linear(features, f"{block}/linear_1").chunk(2, -1)
        return self._linear(self._attend(q, k, v, mask), f"{block}/linear_2")

    def _feed_forward(self, x: Tensor, block: str) -> Tensor:
        return self._linear(F.gelu(self._linear(self._norm(x, block), f"{block}/linear_0")), f"{block}/linear_1")

    def loss(self, tokens: Tensor, features: Tensor, heard: Tensor, counts: Tensor) -> Tensor:
        """Return the mean cross entropy, in nats, of the tokens where `counts` [notes, length] is true."""
        hidden = self(tokens[:, :-1], features, heard)
        counted = counts[:, 1:]
        return F.cross_entropy(F.linear(hidden[counted], self._frozen["embeddings/weight"]), tokens[:, 1:][counted])

    def _linear(self, x: Tensor, name: str) -> Tensor:
        kept = F.linear(x, self._frozen[f"{name}/weight"], self._frozen[f"{name}/bias"])
        return kept + F.linear(F.linear(self._dropout(x), self._down[_key(name)]), self._up[_key(name)])

    def _norm(self, x: Tensor, block: str) -> Tensor:
        return self._normed(x, f"{block}/layer_norm")

    def _normed(self, x: Tensor, name: str) -> Tensor:
        return F.layer_norm(x, x.shape[-1:], self._frozen[f"{name}/gamma"], self._frozen[f"{name}/beta"])

    def _attend(self, q: Tensor, k: Tensor, v: Tensor, mask: Tensor | None) -> Tensor:
        parts = [x.unflatten(-1, (self._heads, -1)).transpose(1, 2) for x in (q, k, v)]
        seen = F.scaled_dot_product_attention(*parts, attn_mask=mask, is_causal=mask is None)
        return seen.transpose(1, 2).flatten(2)


def _key(name: str) -> str:
    return name.replace("/", "_")
