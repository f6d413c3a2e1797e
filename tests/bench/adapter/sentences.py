"""What is spoken to learn from: the notes of `work` with their numbers in words, and again with other numbers.

Some begin or end with a command, as they do at the bench. Everyday sentences, which have nothing to do with moulds,
are among them: without those, makers' words were heard where there were none. Numbers are written as they are said, so
that "a hundred to twenty-five" cannot run together to 125; other numbers take the place of those in the notes, so that
no number is learnt to be the likely one.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from num2words import num2words

from tests.bench.facets import Row
from tests.bench.read.voices import spoken

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
).split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_UNITS = {
    "g": "grams", "kg": "kilos", "ml": "mil", "mm": "mil", "cm": "centimetres", "m": "metres", "oz": "ounces",
    "lb": "pounds", "l": "litres", "C": "degrees", "F": "degrees", "mbar": "millibar", "min": "minutes",
    "mins": "minutes", "hr": "hours", "hrs": "hours", "gsm": "gram",
}  # fmt: skip
_UNIT = re.compile(rf"(\d)\s?({'|'.join(sorted(_UNITS, key=len, reverse=True))})\b")
_FIGURES = re.compile(r"\b\d{1,3}(?:,\d{3})+\b|\d+\.\d+|\.\d+|\d+")
_ODD = re.compile(r"[^\w .,'!?\-;:]|\d|_")
_WORD = "|".join(
    sorted({*ONES[1:], *TENS, "hundred", "point", "oh", *(f"{t}-{o}" for t in TENS for o in ONES[1:10])}, key=len)[::-1]
)
_NUMBER = re.compile(
    rf"\b(?:a hundred(?: and)?(?: (?:{_WORD}))*|(?:{_WORD})(?:(?: and)? (?:{_WORD}))*)\b"
    r"(?! (?:past|to|o'clock|of the|more|thing|half|other|side|end|piece))",
    re.IGNORECASE,
)
# Too small to be varied without breaking the sense ("one of them", "two halves"), or no number by themselves.
_LEFT = frozenset({"one", "two", "three", "point", "oh"})
LONGEST_UNMARKED = 110
EVERYDAY = Path(__file__).parent / "everyday.txt"
_BEGUN = ("Note.", "New note.", "Start note.", "Begin note.")
_ENDED = ("End note.", "End of note.", "End the note.", "Cancel that note.", "Cancel this note.", "Scratch that note.")
_COMMANDED = 0.15


@dataclass(frozen=True, slots=True)
class Sentence:
    """One note to speak: its id, whether its speaker is British, its words."""

    note: str
    british: bool
    text: str


def sentences(notes: Sequence[Row], seed: int = 7) -> Iterator[Sentence]:
    """Yield each note that has the marks of writing in spoken words, first as it is, then with other numbers."""
    rng = random.Random(seed)
    for note in spoken(notes):
        british = note.get("locale") != "en-US"
        if not is_marked(note["text"]) or (first := in_words(note["text"], rng, british)) is None:
            continue
        yield Sentence(note["id"], british, first)
        again = with_other_numbers(in_words(note["text"], rng, british) or first, rng, british)
        yield Sentence(note["id"], british, _commanded(again, rng) if rng.random() < _COMMANDED else again)


def everyday() -> Iterator[Sentence]:
    """Yield the everyday sentences, by a British and an American speaker in turn."""
    for number, text in enumerate(EVERYDAY.read_text("utf-8").splitlines(), start=1):
        yield Sentence(f"everyday-{number}", number % 2 == 0, text)


def _commanded(text: str, rng: random.Random) -> str:
    return rng.choice((f"{rng.choice(_BEGUN)} {text}", f"{text} {rng.choice(_ENDED)}"))


def is_marked(text: str) -> bool:
    """Whether a note has full stops and small letters: dictation without marks would teach to leave them out."""
    stops = len(re.findall(r"[.?!]", text))
    return text.rstrip()[-1:] in (".", "?", "!") and (stops > 1 or len(text) <= LONGEST_UNMARKED) and not text.isupper()


def in_words(text: str, rng: random.Random, british: bool) -> str | None:
    """Return the text with numbers and units in words, None when something in it cannot be said for sure."""
    text = text.replace("\u2019", "'")
    text = re.sub(r"(\d+)\s*°\s*[CF]?", r"\1 degrees", text)
    text = re.sub(r"(\d)\s*%", r"\1 percent", text)
    text = re.sub(r"\b(\d{1,2}):([0-5]\d)\b", lambda m: _clock(int(m[1]), int(m[2])), text)
    text = re.sub(r"(\d)\s*[:/]\s*(\d)", r"\1 to \2", text)
    text = _UNIT.sub(lambda m: f"{m[1]} {_UNITS[m[2]]}", text)
    text = re.sub(r"(\d)-(\d)", r"\1 to \2", text)
    text = re.sub(r"\b(\d+)(?:st|nd|rd|th)\b", lambda m: num2words(int(m[1]), to="ordinal"), text)
    text = _FIGURES.sub(lambda m: _number(m[0], rng, british), text)
    return None if _ODD.search(text) else text


def with_other_numbers(text: str, rng: random.Random, british: bool) -> str:
    """Return the text with other numbers of the same sort in place of about two in three."""

    def other(match: re.Match[str]) -> str:
        said = match[0].lower()
        if said in _LEFT or rng.random() < 0.35:
            return match[0]
        if "point" in said.split():
            tenths = " ".join(rng.choice(ONES) for _ in range(rng.choice((1, 1, 2))))
            return f"{whole(rng.randint(0, 120), rng, british)} point {tenths}"
        if "hundred" in said or " " in said:
            return whole(rng.choice((rng.randint(100, 999), rng.randint(10, 99) * 10)), rng, british)
        return whole(rng.randint(2, 12) if said in ONES[:11] else rng.randint(10, 99), rng, british)

    changed = _NUMBER.sub(other, text)
    return changed[:1].upper() + changed[1:] if text[:1].isupper() else changed


def whole(number: int, rng: random.Random, british: bool) -> str:
    """Return a way to say a whole number: 350 is "three hundred and fifty" or "three fifty"."""
    if number < 100:
        return _below_hundred(number)
    if number >= 1000:
        return num2words(number).replace(",", "")
    hundreds, rest = divmod(number, 100)
    first = rng.choice(("a", "one")) if hundreds == 1 else ONES[hundreds]
    if not rest:
        return f"{first} hundred"
    if rest >= 10 and rng.random() < 0.45:
        return f"{ONES[hundreds]} {_below_hundred(rest)}"
    return f"{first} hundred {'and ' if british or rng.random() < 0.4 else ''}{_below_hundred(rest)}"


def _below_hundred(number: int) -> str:
    if number < 20:
        return ONES[number]
    tens, ones = divmod(number, 10)
    return f"{TENS[tens - 2]}-{ONES[ones]}" if ones else TENS[tens - 2]


def _number(figures: str, rng: random.Random, british: bool) -> str:
    before, point, after = figures.replace(",", "").partition(".")
    said = whole(int(before or 0), rng, british)
    return f"{said} point {' '.join(ONES[int(figure)] for figure in after)}" if point else said


def _clock(hour: int, minute: int) -> str:
    if not minute:
        return f"{_below_hundred(hour)} o'clock" if hour <= 12 else f"{_below_hundred(hour)} hundred"
    return f"{_below_hundred(hour)} {'oh ' if minute < 10 else ''}{_below_hundred(minute)}"
