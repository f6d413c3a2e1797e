"""A small invented workshop for the tests: real records, put in through the store, and a recording of tones."""

from __future__ import annotations

import io
import math
import struct
import wave
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from PIL import Image

from journal.flow import Incoming, take_in
from journal.keep.views import BuildView, NewMould, NewNote, NoteView, StepView
from journal.record import (
    Clip,
    Condition,
    Evidence,
    Flag,
    Layer,
    MaterialUse,
    Observation,
    Phrase,
    Ratio,
    Step,
    Timing,
    Transcript,
    Word,
)
from journal.settings import Settings
from journal.shop import Shop

RATE_HZ = 8000
WORD_S = 0.5
MORNING = datetime(2026, 4, 13, 8, 20, tzinfo=UTC)
MIX = "Mixed seven hundred grams of polyester gel coat with fourteen grams of catalyst until it was one colour"
LAY = "Two layers of four fifty chopped strand mat on the left scroll so the glass does not bridge"
SEEN = "Small void under the left scroll and the shop is at twenty one degrees"


def tone(seconds: float, hertz: float = 440.0) -> bytes:
    """Return a WAV file of a steady tone."""
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        turn = 2 * math.pi * hertz / RATE_HZ
        file.writeframes(
            b"".join(struct.pack("<h", int(8000 * math.sin(turn * i))) for i in range(int(RATE_HZ * seconds)))
        )
    return out.getvalue()


def picture(width: int = 640, height: int = 480, kind: str = "JPEG") -> bytes:
    """Return a picture with enough in it to look sharp."""
    tile = Image.linear_gradient("L").resize((64, 64))
    image = Image.new("L", (width, height))
    for x in range(0, width, 64):
        for y in range(0, height, 64):
            image.paste(tile.rotate(90 * ((x + y) // 64 % 4)), (x, y))
    out = io.BytesIO()
    image.convert("RGB").save(out, kind)
    return out.getvalue()


def heard(text: str, unsure: str = "") -> Transcript:
    """Return the transcript of words spoken evenly, half a second each; `unsure` was heard with 41 %."""
    words, at = [], 0
    for i, word in enumerate(text.split()):
        at = text.index(word, at)
        chars = (at, at + len(word))
        words.append(Word(word, chars, i * WORD_S, (i + 1) * WORD_S, 0.41 if word == unsure else 0.97))
        at = chars[1]
    return Transcript(text, tuple(words), duration_s=len(words) * WORD_S, model="base int8")


def said(transcript: Transcript, words: str, confidence: float = 0.95, rule: str = "amount.said") -> Evidence:
    """Return where in the transcript these words are."""
    start = transcript.text.index(words)
    chars = (start, start + len(words))
    inside = [w for w in transcript.words if w.chars[0] < chars[1] and w.chars[1] > chars[0]]
    return Evidence(words, chars, confidence, rule, (inside[0].start_s, inside[-1].end_s))


def mix_step(t: Transcript) -> Step:
    return Step(
        "mix",
        "done",
        said(t, "Mixed", rule="act.verb"),
        materials=(
            MaterialUse(
                "polyester gel coat",
                said(t, "seven hundred grams of polyester gel coat"),
                amount=Fraction(700),
                unit="g",
            ),
            MaterialUse("catalyst", said(t, "fourteen grams of catalyst", 0.41), amount=Fraction(14), unit="g"),
        ),
        ratio=Ratio((Fraction(100), Fraction(2)), said(t, "seven hundred grams"), "weight", derived=True),
        cues=(Phrase("until it was one colour", said(t, "until it was one colour")),),
    )


def lay_step(t: Transcript) -> Step:
    return Step(
        "laminate",
        "done",
        said(t, "layers", rule="act.verb"),
        layers=(
            Layer(
                "chopped strand mat", said(t, "Two layers of four fifty chopped strand mat"), Fraction(2), Fraction(450)
            ),
        ),
        places=(Phrase("left scroll", said(t, "left scroll")),),
        reasons=(Phrase("so the glass does not bridge", said(t, "so the glass does not bridge")),),
        timings=(Timing("work", Fraction(2400), Fraction(2400), said(t, "four fifty")),),
        flags=(Flag("layers", "450 may be the mat's weight or a count: say which"),),
    )


def check_step(t: Transcript) -> Step:
    return Step(
        "check",
        "done",
        said(t, "void", rule="act.seen"),
        observations=(
            Observation("void", "small void under the left scroll", said(t, "Small void under the left scroll")),
        ),
        conditions=(Condition("temperature", Fraction(21), "degC", said(t, "twenty one degrees"), "shop"),),
        places=(Phrase("left scroll", said(t, "left scroll")),),
    )


@dataclass(frozen=True)
class Workshop:
    """What was put in: the build, its notes in the order they were spoken, and their steps."""

    build: BuildView
    notes: tuple[NoteView, ...]
    steps: tuple[StepView, ...]


def add_spoken(shop: Shop, build_key: str, transcript: Transcript, at: datetime, who: str) -> NoteView:
    """Keep a recording of tones as a note that was heard as this transcript."""
    data = tone(transcript.duration_s, 300 + at.minute * 5)
    sha256 = shop.media.keep(data)
    clip = Clip(sha256, "audio/wav", len(data), transcript.duration_s, at, "given")
    note, _ = shop.store.add_note(build_key, NewNote(at, clip, who=who))
    return shop.store.keep_transcript(note.id, transcript, at)


def furnish(shop: Shop) -> Workshop:
    """Put a mould, a build, three spoken notes with their steps, a typed one and a photo into a shop."""
    store = shop.store
    mould = store.add_mould(NewMould("Niche", "Carved pattern of a theatre-box niche", 2, "1.2 m high", 1.4), MORNING)
    build = store.add_build(mould.key, MORNING, remarks="Invented for the tests")
    notes, steps = [], []
    spoken = ((MIX, "fourteen", mix_step), (LAY, "fifty", lay_step), (SEEN, "", check_step))
    for i, (text, unsure, make) in enumerate(spoken):
        transcript = heard(text, unsure)
        at = MORNING + timedelta(hours=i * 20 + 1, minutes=i * 7)
        note = add_spoken(shop, build.key, transcript, at, "lead maker")
        steps += store.keep_steps(note.id, [make(transcript)], "1", at)
        notes.append(store.note(note.id))
    typed, _ = store.add_note(
        build.key, NewNote(MORNING + timedelta(minutes=5), text="Testing, testing", who="apprentice")
    )
    store.keep_steps(typed.id, [], "1", MORNING + timedelta(minutes=6))
    take_in(shop, build.key, Incoming(picture(), "a.jpg", MORNING + timedelta(hours=1, minutes=30)))
    return Workshop(store.build(build.key), (*notes, store.note(typed.id)), tuple(steps))


def furnished(settings: Settings) -> Workshop:
    """Furnish the shop of these settings, which no server has open yet."""
    shop = Shop.open(settings)
    try:
        return furnish(shop)
    finally:
        shop.close()
