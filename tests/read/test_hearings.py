"""What was misheard is read by sound, talk and other hearings, pointed to the words kept, and never silently."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime
from importlib import resources

import pytest

from journal.read.catalogue import catalogue_from_toml
from journal.read.hearing.lattice import Weights, by_sound
from journal.read.hearing.mend import heard_pieces, mended
from journal.read.hearing.phones import distance, phones
from journal.read.hearings import shop_of
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.record import Alternative, NoteText, Step, Transcript, Word

CATALOGUE = catalogue_from_toml(resources.files("journal").joinpath("catalogue.toml").read_text("utf-8"))
AT = datetime.fromisoformat("2026-05-04T14:10:00+01:00")
SECONDS_A_WORD = 0.4


@pytest.fixture(scope="module")
def reader() -> Reader:
    return Reader(load_language(), CATALOGUE)


def words_of(text: str, probability: float) -> tuple[Word, ...]:
    found = enumerate(re.finditer(r"[^\s,.]+(?:\.\d+)?", text))
    return tuple(
        Word(m.group(), m.span(), at * SECONDS_A_WORD, at * SECONDS_A_WORD + 0.3, probability) for at, m in found
    )


def heard(text: str, *others: str, probability: float = 0.6) -> Transcript:
    alternatives = tuple(Alternative(t, words_of(t, probability), -0.4, f"look {n}") for n, t in enumerate(others))
    return Transcript(text, words_of(text, probability), alternatives, -0.3)


def read(reader: Reader, transcript: Transcript) -> tuple[Step, ...]:
    return reader.read(NoteText(transcript.text, AT, "en-GB", transcript)).steps


def test_words_that_sound_alike_are_near() -> None:
    for one, other in (("codes", "coats"), ("drum", "gram"), ("degasted", "degassed"), ("millibers", "millibars")):
        assert distance(phones(one), phones(other)) < 1.2, (one, other)
    assert distance(phones("coats"), phones("flange")) > 2


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("3 codes of shellac on the pattern", "3 coats of shellac on the pattern"),
        ("sprayed one cote on the left half", "sprayed one coat on the left half"),
        ("shops at 19 degrees", "shop's at 19 degrees"),
    ],
)
def test_words_of_the_trade_take_the_place_of_words_that_sound_like_them(said: str, meant: str) -> None:
    shop = shop_of(CATALOGUE)
    better = mended(heard(said, probability=0.4), shop.talk, shop.sounds, Weights())
    assert better is not None
    assert better.hearing.text == meant


def test_what_is_plainly_heard_is_left_alone() -> None:
    shop = shop_of(CATALOGUE)
    for text in ("The van is booked for Tuesday and the rent is paid.", "Brushed the gel coat on the left scroll."):
        assert mended(heard(text, probability=0.97), shop.talk, shop.sounds, Weights()) is None


@pytest.mark.parametrize(("said", "may_change"), [("that's 20 to 1", False), ("thats 20 to 1", True)])
def test_a_word_that_holds_a_verb_is_not_taken_by_sound_for_one_without(said: str, may_change: bool) -> None:
    ways = by_sound(heard_pieces(said, words_of(said, 0.4)), shop_of(CATALOGUE).sounds, Weights())
    assert any((way.start, way.end) == (0, 1) for way in ways) is may_change


def test_a_value_from_changed_words_points_to_the_words_kept_and_is_flagged(reader: Reader) -> None:
    transcript = heard("3 codes of shellac on the pattern", "three coats of shellac on the pattern")
    [step] = read(reader, transcript)
    [layer] = step.layers
    assert (step.action, layer.name, layer.count) == ("seal", "shellac", 3)
    start, end = layer.evidence.chars
    assert transcript.text[start:end] == layer.evidence.heard
    assert "codes" in layer.evidence.heard
    assert layer.evidence.audio is not None
    assert {flag.field for flag in step.flags} >= {"layers"}


def test_a_number_that_another_hearing_gives_differently_is_flagged(reader: Reader) -> None:
    [step] = read(reader, heard("Mixed 150 grams of polyester resin.", "Mixed 450 grams of polyester resin."))
    assert step.materials[0].amount is not None
    assert "amount" in {flag.field for flag in step.flags}


def test_a_hearing_with_a_number_that_no_one_says_is_not_taken(reader: Reader) -> None:
    weights = "one kilo two hundred of A and {} grams of B. It's one hundred to thirty-two by weight on the sheet."
    said, broken = (weights.format(n) for n in ("three hundred and thirty-six", "three hundred and three sixty-six"))
    [step, *_] = read(reader, heard(f"Weighed the laminating epoxy, {said}", f"Weighed the laminating epoxy, {broken}"))
    assert [float(use.amount) for use in step.materials if use.part == "B" and use.amount is not None] == [336]


def test_a_number_that_was_barely_heard_is_flagged(reader: Reader) -> None:
    [step] = read(reader, heard("Mixed 450 grams of polyester resin.", probability=0.4))
    assert "amount" in {flag.field for flag in step.flags}


@pytest.mark.parametrize(
    ("other", "flagged"),
    [
        ("Fixed the resin and left it for 45 minutes before the next.", False),
        ("Next to raisin hand left fit for 45 minutes be for tea.", True),
    ],
)
def test_a_number_among_words_that_were_barely_heard_is_flagged(reader: Reader, other: str, flagged: bool) -> None:
    text = "Mixed the resin and left it for 45 minutes before the next."
    words = tuple(replace(w, probability=0.99 if w.text in ("45", "minutes") else 0.6) for w in words_of(text, 0.6))
    steps = read(reader, Transcript(text, words, (Alternative(other, words_of(other, 0.65), -0.4, "look 2"),), -0.3))
    [timed] = [step for step in steps if step.timings]
    assert any(flag.field == "timings" and "around" in flag.why for flag in timed.flags) is flagged


def test_a_sure_hearing_is_read_as_it_is(reader: Reader) -> None:
    text = "Mixed 450 grams of polyester resin with 9 grams of catalyst."
    spoken = read(reader, heard(text, probability=0.97))
    typed = reader.read(NoteText(text, AT)).steps
    assert [(s.action, s.status, [(m.name, m.amount) for m in s.materials], s.flags) for s in spoken] == [
        (s.action, s.status, [(m.name, m.amount) for m in s.materials], s.flags) for s in typed
    ]


@pytest.mark.parametrize(
    ("text", "status"),
    [
        ("Pour it over the paw.", "done"),
        ("Trim the flange back to the line.", "done"),
        ("Don't brush it twice or you drag it.", "advised"),
        ("Always wax the flange.", "advised"),
    ],
)
def test_a_bare_verb_in_speech_is_done_unless_it_is_a_rule(reader: Reader, text: str, status: str) -> None:
    assert [step.status for step in read(reader, heard(text, probability=0.95))] == [status]
