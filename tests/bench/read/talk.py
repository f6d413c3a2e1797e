"""Write journal/read/hearing/talk.txt anew from the notes of the corpus's work part: `python -m tests.bench.read.talk`.

The notes that are to measure the reading are never counted. Numbers all become "#", ends of sentences "|".
"""

from __future__ import annotations

from pathlib import Path

import journal.read.hearing
from journal.read.hearing.talk import classed, pieces
from tests.bench.read.corpus import CORPUS
from tests.bench.read.voices import spoken
from tests.bench.score import load_notes

HEADER = (
    "// How makers talk: the words of invented notes, numbers as #, ends of sentences as |.\n"
    "// Written by python -m tests.bench.read.talk from the work part of tests/corpus.\n"
)


def main() -> None:
    """Write the file."""
    notes = spoken(load_notes(CORPUS / "work.jsonl"))
    lines = dict.fromkeys(" ".join(map(classed, pieces(note["text"]))) for note in notes)
    path = Path(journal.read.hearing.__path__[0]) / "talk.txt"
    path.write_text(HEADER + "\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(lines)} notes, {sum(len(line.split()) for line in lines)} words: {path}")


if __name__ == "__main__":
    main()
