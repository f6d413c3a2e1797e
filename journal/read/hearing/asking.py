"""What the ears are asked about a hearing: was it "coats" and not "codes", 15 and not 50?

A word that sounds like one that makers use, and a number that sounds like another, are put to the sound itself: what
it says for the change is kept with the transcript as another hearing, from the look `ASKED`. Nothing is chosen here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from journal.read.hearing.alike_numbers import LEADS
from journal.read.hearing.lattice import ASKED, Piece, Sounds, Way, Weights, by_sound, has_number, talked
from journal.read.hearing.mend import heard_pieces
from journal.read.hearing.talk import Talk
from journal.read.number_words import SMALL
from journal.record import Alternative, Transcript, Word

# Each costs a fiftieth of a second or two of hearing: the likeliest few hold nearly all that the sound bears out.
MOST_WORDS, MOST_NUMBERS = 6, 4
# A change by sound that talk and spelling speak against by more than this many nats is not asked about.
WORTH_ASKING = -4.0
# For numbers that were heard right the sound speaks against those that sound like them by 4 to 14 nats (15 of 16 on
# the corpus's work part), for those misheard by 1 or 2: a number less likely than this was not said.
LIKELY_NUMBER = -2.5

Replacement = tuple[tuple[int, int], str]
# By how many nats the sound is likelier with each replacement made in the text heard; None where it cannot tell.
Weigh = Callable[[Sequence[Replacement]], Sequence[float | None]]

_WORDS = {number: word for word, number in reversed(SMALL.items())}
_ALIKE = {a: b for teen in range(13, 20) for a, b in ((teen, 10 * (teen - 10)), (10 * (teen - 10), teen))}
_LEAST_TEN = 20
_LED = re.compile(rf"(?<!\d )\b(?P<lead>{'|'.join(LEADS)}|[1-9]) (?P<rest>[1-9]\d)\b(?![.:,]?\d)", re.IGNORECASE)
# "Waited FORTY minutes" and "waited FOR TWO minutes" sound alike, and only the sound can tell.
_TENS = {"for": "forty", "four": "forty", "six": "sixty", "seven": "seventy", "eight": "eighty", "nine": "ninety"}
_PARTED = re.compile(rf"\b(?:({'|'.join(_TENS)}) te[ae]|(for|four) t(?:o|wo|oo))\b", re.IGNORECASE)
_FORTY = re.compile(r"\bforty\b(?= \w)", re.IGNORECASE)


def asked(heard: Transcript, talk: Talk, sounds: Sounds, weights: Weights, weigh: Weigh) -> Transcript:
    """Return the transcript with what the ears say of each likely change as further alternatives."""
    if not heard.words:
        return heard
    pieces = heard_pieces(heard.text, heard.words)
    numbers = list(dict.fromkeys(alike_numbers(heard.text, pieces)))[:MOST_NUMBERS]
    words = list(alike_words(heard.text, pieces, talk, sounds, weights))[:MOST_WORDS] if heard.alternatives else []
    changes = list(dict.fromkeys([*numbers, *words]))
    if not changes:
        return heard
    answers = zip(changes, weigh(changes), strict=True)
    kept = [(change, nats) for change, nats in answers if nats is not None]
    likely = [(change, nats) for change, nats in kept if change not in numbers or nats > LIKELY_NUMBER]
    return replace(heard, alternatives=(*heard.alternatives, *(_answer(heard, *one) for one in likely)))


def alike_numbers(text: str, pieces: Sequence[Piece]) -> Iterator[Replacement]:
    """Yield numbers that sound like those heard in their place: 15 for 50, 420 for "for 20", forty for "for two"."""
    for match in _LED.finditer(text):
        lead = match["lead"].casefold()
        yield match.span(), f"{LEADS.get(lead, lead)}{match['rest']}"
    for match in _PARTED.finditer(text):
        yield match.span(), _TENS[(match[1] or match[2]).casefold()]
    yield from ((match.span(), "for two") for match in _FORTY.finditer(text))
    for i, piece in enumerate(pieces):
        number = SMALL.get(piece.text)
        if number in _ALIKE and not (number >= _LEAST_TEN and _is_one(pieces[i + 1 : i + 2])):
            yield piece.chars, _WORDS[_ALIKE[number]]
        elif re.fullmatch(r"\d{2,}", piece.text) and (other := _ALIKE.get(int(piece.text[-2:]))):
            yield piece.chars, f"{piece.text[:-2]}{other}"


def _is_one(following: Sequence[Piece]) -> bool:
    """Tell whether the ones of a number follow its tens: in "thirty-six" no one says "thirteen"."""
    return bool(following) and 1 <= SMALL.get(following[0].text, 0) <= 9


def alike_words(
    text: str, pieces: Sequence[Piece], talk: Talk, sounds: Sounds, weights: Weights
) -> Iterator[Replacement]:
    """Yield words of makers that sound like what was heard, those first that talk and spelling ask for most."""
    heard = [piece.text for piece in pieces]
    before = talked(heard, talk, weights)
    found = []
    for way in by_sound(pieces, sounds, weights):
        if not has_number(" ".join((*way.words, *heard[way.start : way.end]))) and _is_tight(way, heard):
            words = [*heard[: way.start], *way.words, *heard[way.end :]]
            found.append((talked(words, talk, weights) - before - way.cost, way))
    for gain, way in sorted(found, key=lambda one: -one[0]):
        if gain >= WORTH_ASKING:
            start, end = pieces[way.start].chars[0], pieces[way.end - 1].chars[1]
            new = " ".join(way.words)
            yield (start, end), new[0].upper() + new[1:] if text[start].isupper() else new


def _is_tight(way: Way, heard: Sequence[str]) -> bool:
    """Tell whether a way changes the first and the last of its words: else a shorter one says the same."""
    return way.words[0] != heard[way.start] and way.words[-1] != heard[way.end - 1]


def _answer(heard: Transcript, change: Replacement, nats: float) -> Alternative:
    """Return the hearing with a change made; its log probability is that of the kept one and what the sound says."""
    (start, end), new = change
    there = [word for word in heard.words if word.chars[0] < end and start < word.chars[1]]
    shift = len(new) - (end - start)
    # What stands against a word, such as a full stop, is part of it and stays.
    first, last = min(start, there[0].chars[0]), max(end, there[-1].chars[1])
    text = heard.text[:start] + new + heard.text[end:]
    sure = min(word.probability for word in there) * math.exp(min(0.0, nats))
    word = Word(text[first : last + shift], (first, last + shift), there[0].start_s, there[-1].end_s, sure)
    before = (word for word in heard.words if word.chars[1] <= first)
    after = (replace(w, chars=(w.chars[0] + shift, w.chars[1] + shift)) for w in heard.words if w.chars[0] >= last)
    return Alternative(text, (*before, word, *after), heard.log_probability + nats, ASKED)
