"""Self-repair: "three hundred, no, three twenty"; the last word counts, and what it replaces is struck."""

from __future__ import annotations

from journal.read.findings import Findings, NoteWords


def mended(words: NoteWords, found: Findings) -> Findings:
    """Return the findings without those that the speaker took back."""
    return found
