"""Learn the adapter: `python -m tests.bench.adapter.train FOLDER OUT.npz [--minutes 50]`.

A twelfth of the builds is kept apart; its loss, in nats a token, is printed before and after each pass.
"""

from __future__ import annotations

import argparse
import hashlib
import math
import random
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

import numpy as np
import torch
from tokenizers import Tokenizer
from torch import Tensor

from journal.hear.ears import EXAMPLE
from journal.hear.weights import find_weights
from journal.read.catalogue import catalogue_from_toml, glossary
from tests.bench.adapter.decoder import Decoder

# Whisper's multilingual vocabulary.
END, START, ENGLISH, TRANSCRIBE, BEFORE, NO_TIMES, TIME_ZERO = 50257, 50258, 50259, 50359, 50361, 50363, 50364
SECONDS_A_STEP, LAST_TIME = 0.02, 1500
RATE, WARM_UP_STEPS, BATCH, POOL = 5e-4, 40, 8, 64
PROMPT_TOKENS = 200
# How much of it is kept (Wortsman et al. 2022, arXiv:2109.01903): less hears other speech better and notes worse. Word
# errors of a greedy look at 30 spoken notes and 100 recorded prompts: base 22.9 and 4.5 %, 0.7 of it 12.8 and 3.9 %,
# 0.85 of it 11.4 and 4.5 %, all 11.4 and 5.7 %.
STRENGTH = 0.85
# Ways of asking, as hearing asks: without times, with times, and told what makers say.
WAYS = {"plain": 0.40, "times": 0.38, "told": 0.22}


@dataclass(frozen=True, slots=True)
class Item:
    """One spoken sentence on disk."""

    path: Path
    text: str
    note: str
    speech: tuple[float, float]
    frames: int


class Asker:
    """Writes what the decoder is given and what it should answer.

    `told` is what a maker may have said before: the example and the glossary that hearing gives, then other notes.
    """

    def __init__(self, tokenizer: Tokenizer, told: Sequence[str], rng: random.Random) -> None:
        self._tokenizer, self._told, self._rng = tokenizer, tuple(told), rng

    def tokens(self, item: Item, way: str) -> tuple[list[int], int]:
        """Return the tokens, and how many of them are given."""
        body = self._encoded(item.text)
        if way == "times":
            first, last = (TIME_ZERO + min(LAST_TIME, round(s / SECONDS_A_STEP)) for s in item.speech)
            given, answer = [START, ENGLISH, TRANSCRIBE], [first, *body, last, END]
        else:
            given, answer = [START, ENGLISH, TRANSCRIBE, NO_TIMES], [*body, END]
        if way == "told":
            told = self._told[self._rng.choices((0, 1, self._rng.randrange(2, len(self._told))), (0.35, 0.35, 0.3))[0]]
            given = [BEFORE, *self._encoded(told)[-PROMPT_TOKENS:], *given]
        return given + answer, len(given)

    def batch(self, items: Sequence[Item], way: str = "") -> tuple[Tensor, Tensor, Tensor, Tensor]:
        """Return tokens, features, where features are, and which tokens count, padded alike."""
        ways = [way or self._rng.choices(list(WAYS), list(WAYS.values()))[0] for _ in items]
        rows = [self.tokens(item, one) for item, one in zip(items, ways, strict=True)]
        tokens = torch.full((len(rows), max(len(row) for row, _ in rows)), END)
        counts = torch.zeros(tokens.shape, dtype=torch.bool)
        features = torch.zeros(len(rows), max(item.frames for item in items), 512)
        heard = torch.zeros(features.shape[:2], dtype=torch.bool)
        for i, ((row, given), item) in enumerate(zip(rows, items, strict=True)):
            tokens[i, : len(row)] = torch.tensor(row)
            counts[i, given : len(row)] = True
            features[i, : item.frames] = torch.from_numpy(np.load(item.path)["features"].astype(np.float32))
            heard[i, : item.frames] = True
        return tokens, features, heard, counts

    def _encoded(self, text: str) -> list[int]:
        return list(self._tokenizer.encode(f" {text}", add_special_tokens=False).ids)


def read_items(folder: Path) -> list[Item]:
    """Return what `tests.bench.adapter.speech` left in a folder."""
    items = []
    for path in sorted(folder.glob("*.npz")):
        with np.load(path) as kept:
            first, last = map(float, kept["speech"])
            items.append(Item(path, str(kept["text"]), str(kept["note"]), (first, last), len(kept["features"])))
    return items


def is_apart(item: Item) -> bool:
    """Whether its build is among those that only tell how well was learnt."""
    return hashlib.sha256(item.note.rsplit("-", 1)[0].encode()).digest()[0] % 12 == 0


def batches(items: Sequence[Item], rng: random.Random) -> Iterator[list[Item]]:
    """Yield the items in random batches of about one length each."""
    mixed = rng.sample(list(items), len(items))
    pools = [sorted(mixed[i : i + POOL], key=lambda item: item.frames) for i in range(0, len(mixed), POOL)]
    groups = [pool[i : i + BATCH] for pool in pools for i in range(0, len(pool), BATCH)]
    rng.shuffle(groups)
    yield from groups


def loss_of(decoder: Decoder, asker: Asker, items: Sequence[Item], way: str) -> float:
    """Return the mean loss a token, nothing learnt."""
    decoder.eval()
    total = tokens = 0.0
    with torch.no_grad():
        for i in range(0, len(items), BATCH):
            batch = asker.batch(items[i : i + BATCH], way)
            count = float(batch[3].sum())
            total, tokens = total + float(decoder.loss(*batch)) * count, tokens + count
    decoder.train()
    return total / tokens


def learn(decoder: Decoder, asker: Asker, items: Sequence[Item], apart: Sequence[Item], minutes: float) -> None:
    """Pass over the items until the time is up, the rate falling to nothing (cosine) by then."""
    rng, began, step = random.Random(5), time.monotonic(), 0
    optimiser = torch.optim.AdamW(decoder.parameters(), lr=RATE, weight_decay=0.01, betas=(0.9, 0.98))
    while True:
        print(*(f"{way} {loss_of(decoder, asker, apart, way):.3f}" for way in ("plain", "times")), flush=True)
        for group in batches(items, rng):
            share = (time.monotonic() - began) / (minutes * 60)
            if share >= 1:
                return
            for parameters in optimiser.param_groups:
                parameters["lr"] = RATE * min(1, (step + 1) / WARM_UP_STEPS) * (0.5 + 0.5 * math.cos(math.pi * share))
            optimiser.zero_grad()
            decoder.loss(*asker.batch(group)).backward()
            torch.nn.utils.clip_grad_norm_(decoder.parameters(), 1.0)
            optimiser.step()
            step += 1


def main() -> None:
    """Read the folder, learn, write the adapter."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--minutes", type=float, default=50)
    parser.add_argument("--strength", type=float, default=STRENGTH, help="how much of what was learnt is kept, 0 to 1")
    parser.add_argument("--go-on", type=Path, help="an adapter of strength 1 to go on from")
    args = parser.parse_args()
    torch.manual_seed(1)
    items = read_items(args.folder)
    weights = find_weights("base", args.folder / "weights").folder
    catalogue = catalogue_from_toml(resources.files("journal").joinpath("catalogue.toml").read_text("utf-8"))
    told = (EXAMPLE, ", ".join(glossary(catalogue)), *(item.text for item in items))
    asker = Asker(Tokenizer.from_file(str(weights / "tokenizer.json")), told, random.Random(3))
    decoder = Decoder(weights / "model.bin")
    if args.go_on:
        decoder.go_on_from(args.go_on)
    apart = sorted((item for item in items if is_apart(item)), key=lambda item: item.frames)[:64]
    learn(decoder, asker, [item for item in items if not is_apart(item)], apart, args.minutes)
    matrices = decoder.matrices()
    scaled = {k: v * np.float16(args.strength) if k.endswith(".up") else v for k, v in matrices.items()}
    np.savez_compressed(args.out, allow_pickle=False, **scaled)


if __name__ == "__main__":
    main()
