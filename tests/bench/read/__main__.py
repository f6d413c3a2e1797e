"""Measure the reading of notes on the labelled corpus.

    python -m tests.bench.read [--part work|measure]
        [--speech clean,20,10,5 --cache FOLDER] [--every N] [--first N] [--cast tuned|check]

From text: the scorer's whole table for each part, amounts beside quantulum3, the cost of reading as a ratio to a plain
pass of the spaCy pipeline as it comes, and of the parts of it that reading uses, and the cost a word by length. From
speech: word errors, facts F1, steps exact and silent wrong values, clean and in shop noise at the given dB.
"""

from __future__ import annotations

import argparse
import json
from importlib import resources
from pathlib import Path

from journal.read.catalogue import catalogue_from_toml, glossary
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.record import Transcript
from tests.bench.facets import Row
from tests.bench.read import cost, quantities, voices
from tests.bench.read.corpus import CORPUS, PARTS, read_notes
from tests.bench.read.hearing import Listener, word_error_rate
from tests.bench.score import Scores, load_notes, score, table


def _share(value: float | None) -> str:
    return "-" if value is None else f"{value:.3f}"


def from_text(reader: Reader, part: str, notes: list[Row], keep: Path | None) -> None:
    predicted = read_notes(reader, notes)
    print(f"== {part}, from text: {len(notes)} notes\n{table(score(notes, predicted))}\n")
    print("amounts without their materials (value and unit of weights, volumes, percents):")
    for name, counts in quantities.compare(notes, predicted).items():
        shares = f"precision {_share(counts.precision)} recall {_share(counts.recall)} F1 {_share(counts.f1)}"
        print(f"  {name:<12}{counts.hits} of {counts.labelled} labelled, {counts.predicted} found: {shares}")
    if keep:
        keep.mkdir(parents=True, exist_ok=True)
        lines = (json.dumps({"id": key, "steps": steps}, ensure_ascii=False) for key, steps in predicted.items())
        (keep / f"{part}.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8")


def costs(reader: Reader, notes: list[Row]) -> None:
    language = cost.whole_pipeline()
    print("\n== cost of reading, as a ratio to a plain pass")
    for name, plain in (("the pipeline", language), ("its parts in use", load_language())):
        median, least, most = cost.ratio(reader, plain, notes)
        print(f"  of {name}: {median:.2f} ({least:.2f} to {most:.2f})")
    for length, (words, read_ms, plain_ms) in cost.by_length(reader, language, notes).items():
        print(
            f"  {length:>2} notes in one, {words:6.1f} words: {read_ms:.3f} ms a word reading, "
            f"{plain_ms:.3f} plain, ratio {read_ms / plain_ms:.2f}"
        )


def from_speech(reader: Reader, part: str, notes: list[Row], listener: Listener, args: argparse.Namespace) -> None:
    cast = voices.CASTS[args.cast]
    notes = voices.every(voices.spoken(notes), args.every, args.first)
    as_typed = score(notes, read_notes(reader, notes))
    print(f"\n== {part}, from speech: {len(notes)} notes")
    print(f"{'':>8}{'WER':>8}{'facts F1':>10}{'steps exact':>13}{'silent wrong':>14}")
    print(_speech_line("text", None, as_typed))
    levels = args.speech.split(",")
    for level in levels:
        heard = listener.hear(notes, None if level == "clean" else float(level), cast)
        scores = score(notes, read_notes(reader, notes, heard))
        print(_speech_line(level if level == "clean" else f"{level} dB", word_error_rate(notes, heard), scores))
        print("".join(f"    {right}\n" for right in _reliability(scores)), end="")
        if level == levels[0]:
            _by_voice(notes, heard, cast)


def _speech_line(name: str, wer: float | None, scores: Scores) -> str:
    shares = (scores.facts.f1, scores.steps_exact.share, scores.silent_wrong.share)
    return f"{name:>8}{_share(wer):>8}{_share(shares[0]):>10}{_share(shares[1]):>13}{_share(shares[2]):>14}"


def _reliability(scores: Scores) -> list[str]:
    shares = [(low, share) for low, share in scores.reliability.items() if share.of]
    return [
        f"right at confidence {low:.2f} up: {share.count} of {share.of}, {_share(share.share)}" for low, share in shares
    ]


def _by_voice(notes: list[Row], heard: dict[str, Transcript], cast: voices.Cast) -> None:
    for voice in sorted({voices.voice_of(note, cast) for note in notes}):
        mine = [note for note in notes if voices.voice_of(note, cast) == voice]
        print(f"    {voice:<24}{len(mine):>4} notes, WER {word_error_rate(mine, heard):.3f}")


def main() -> None:
    parser = argparse.ArgumentParser(description="Measure the reading of notes on the labelled corpus.")
    parser.add_argument("--part", choices=PARTS, help="one part only")
    parser.add_argument("--keep", type=Path, help="folder to write the predicted steps into")
    parser.add_argument("--no-cost", action="store_true", help="do not time")
    parser.add_argument("--speech", help="levels, such as clean,20,10,5")
    parser.add_argument("--cache", type=Path, help="folder for recordings and transcripts, outside the project")
    parser.add_argument("--every", type=int, default=1, help="speech of every N-th build only")
    parser.add_argument("--first", type=int, help="speech of the first N notes of a build only")
    parser.add_argument("--cast", choices=voices.CASTS, default="tuned", help="the voices that speak")
    parser.add_argument("--weights", default="", help="speech weights, as the setting of that name")
    parser.add_argument("--threads", type=int, default=0)
    args = parser.parse_args()
    if args.speech and not args.cache:
        parser.error("--speech needs --cache FOLDER")
    catalogue = catalogue_from_toml(resources.files("journal").joinpath("catalogue.toml").read_text("utf-8"))
    reader = Reader(load_language(), catalogue)
    listener = Listener(args.cache, glossary(catalogue), args.weights, args.threads) if args.speech else None
    for part in [args.part] if args.part else PARTS:
        notes = load_notes(CORPUS / f"{part}.jsonl")
        if listener:
            from_speech(reader, part, notes, listener, args)
        else:
            from_text(reader, part, notes, args.keep)
            if not args.no_cost:
                costs(reader, notes)


if __name__ == "__main__":
    main()
