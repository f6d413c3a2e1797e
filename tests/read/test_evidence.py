"""Every value points back to its words, and for spoken notes to its seconds."""

import json

from journal.read.language import load_language
from journal.record import NoteText, Transcript, Word, step_to_json
from tests.read.reading import RECORDED, reader, steps

TEXT = "Mixed 400 grams of laminating epoxy with 112 grams of hardener for three minutes."


def spoken(text: str, doubtful: str = "") -> NoteText:
    words, at = [], 0
    for n, word in enumerate(text.split()):
        start = text.index(word, at)
        at = start + len(word)
        words.append(Word(word, (start, at), n * 0.4, n * 0.4 + 0.35, 0.5 if word == doubtful else 0.95))
    return NoteText(text, RECORDED, "en-GB", Transcript(text, tuple(words), duration_s=30.0))


def test_chars_cut_the_heard_words_out_of_the_text() -> None:
    (step,) = steps(TEXT)
    record = json.loads(json.dumps(step_to_json(step)))
    values = [record, *record["materials"], *record["timings"], record["ratio"]]
    for value in values:
        start, end = value["chars"]
        assert TEXT[start:end] == value["heard"]
        assert 0 < value["confidence"] <= 1
        assert value["rule"]


def test_a_spoken_value_has_its_seconds() -> None:
    (step,) = reader().read(spoken(TEXT)).steps
    resin = next(m for m in step.materials if m.name == "laminating epoxy")
    assert resin.evidence.audio == (1 * 0.4, 5 * 0.4 + 0.35)  # "400 grams of laminating epoxy"


def test_a_doubtful_word_makes_its_value_doubtful() -> None:
    sure = reader().read(spoken(TEXT)).steps[0].materials[0].evidence.confidence
    doubtful = reader().read(spoken(TEXT, doubtful="400")).steps[0].materials[0].evidence.confidence
    assert doubtful < sure


def test_offsets_hold_whatever_the_marks() -> None:
    text = "Right – “mixed” 300g of epoxy gel coat… and it’s 45 g of hardener."
    for step in steps(text):
        for use in step.materials:
            start, end = use.evidence.chars
            assert text[start:end] == use.evidence.heard.replace("'", "’") or use.evidence.heard == text[start:end]


def test_words_of_numbers_and_units_are_split_without_altering_the_text() -> None:
    text = "400g of A, 100:28, 1.5oz, 2x450, 20°C at 14:05 and 1/2 of B."
    doc = load_language()(text)
    assert doc.text == text
    tokens = [token.text for token in doc]
    for piece in ("400", "g", "100:28", "1.5", "oz", "2", "x", "450", "20", "°C", "14:05", "1/2", "B"):
        assert piece in tokens
