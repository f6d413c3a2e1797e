"""Notes for the tests of numbers and what is measured in them, read with two tokenizers that cut words differently."""

from datetime import datetime
from fractions import Fraction
from functools import cache

import spacy
from spacy.language import Language

from journal.read import amounts, conditions, durations, moments, numbers, ratios
from journal.read.findings import Findings, Found, NoteWords
from journal.read.language import load_language
from journal.trade.material import Catalogue

ORDER = (numbers, ratios, moments, durations, conditions, amounts)
TOKENIZERS = ("shop", "plain")


@cache
def _plain() -> Language:
    return spacy.blank("en")


def note(text: str, locale: str = "en-GB", tokenizer: str = "shop", recorded_at: datetime | None = None) -> NoteWords:
    doc = (_plain() if tokenizer == "plain" else load_language()).tokenizer(text)
    return NoteWords(doc, tuple(token.lower_ for token in doc), Catalogue(), locale, recorded_at)


def read(words: NoteWords) -> Findings:
    found = Findings()
    for concern in ORDER:
        found.add(concern.find(words, found))
    return found


def said(kind: str, text: str, locale: str = "en-GB", tokenizer: str = "shop") -> list[Found]:
    """Return what is found of the kind, every rule named after its concern and every span inside the note."""
    words = note(text, locale, tokenizer)
    found = read(words)
    for item in found:
        assert 0 <= item.start < item.end <= len(words.lower)
        assert 0 < item.confidence <= 1
        assert item.rule.count(".") == 1
    return found.of(kind)


def both(kind: str, text: str, locale: str = "en-GB") -> list[Found]:
    """Return what is found of the kind; the two tokenizers must agree on the values."""
    shop, plain = (said(kind, text, locale, tokenizer) for tokenizer in TOKENIZERS)
    assert [item.value for item in shop] == [item.value for item in plain]
    return shop


def fraction(value: str | int) -> Fraction:
    return Fraction(value)
