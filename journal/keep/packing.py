"""Clips, photos and transcripts as JSON columns, and back."""

from __future__ import annotations

from dataclasses import asdict
from datetime import datetime
from typing import Any

from journal.record import Alternative, Clip, Photo, Transcript, Word


def pack_clip(clip: Clip) -> dict[str, Any]:
    """Return a clip as JSON values."""
    return asdict(clip) | {"recorded_at": clip.recorded_at.isoformat()}


def unpack_clip(packed: dict[str, Any]) -> Clip:
    """Return the clip that was packed."""
    recorded_at = datetime.fromisoformat(packed["recorded_at"])
    return Clip(**packed | {"recorded_at": recorded_at, "warnings": tuple(packed.get("warnings", ()))})


def pack_photo(photo: Photo) -> dict[str, Any]:
    """Return a photo as JSON values."""
    return asdict(photo) | {"taken_at": photo.taken_at.isoformat()}


def unpack_photo(packed: dict[str, Any]) -> Photo:
    """Return the photo that was packed."""
    taken_at = datetime.fromisoformat(packed["taken_at"])
    return Photo(**packed | {"taken_at": taken_at, "warnings": tuple(packed["warnings"])})


def pack_transcript(transcript: Transcript) -> dict[str, Any]:
    """Return a transcript as JSON values; a word is a list, since a note has many."""
    return {
        "text": transcript.text,
        "words": _pack_words(transcript.words),
        "alternatives": [asdict(a) | {"words": _pack_words(a.words)} for a in transcript.alternatives],
        "log_probability": transcript.log_probability,
        "duration_s": transcript.duration_s,
        "model": transcript.model,
        "doubts": list(transcript.doubts),
    }


def unpack_transcript(packed: dict[str, Any]) -> Transcript:
    """Return the transcript that was packed."""
    alternatives = tuple(
        Alternative(**each | {"words": _unpack_words(each["words"])}) for each in packed["alternatives"]
    )
    return Transcript(
        **packed
        | {
            "words": _unpack_words(packed["words"]),
            "alternatives": alternatives,
            "doubts": tuple(packed["doubts"]),
        }
    )


def _pack_words(words: tuple[Word, ...]) -> list[list[Any]]:
    return [[w.text, *w.chars, w.start_s, w.end_s, w.probability] for w in words]


def _unpack_words(packed: list[list[Any]]) -> tuple[Word, ...]:
    return tuple(
        Word(text, (start, end), start_s, end_s, probability)
        for text, start, end, start_s, end_s, probability in packed
    )
