"""The ways through a note: what was heard, what other hearings have there, what sounds like it, and the likeliest."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from journal.read.hearing.phones import distance, phones
from journal.read.hearing.talk import EDGE, NUMBER, Talk, classed
from journal.read.number_words import COLLECTIVES, FRACTIONS, ORDINALS, SMALL


@dataclass(frozen=True, slots=True)
class Weights:
    """What a change costs, in nats of the talk: `talk` weighs the talk itself, `word` is what any word is worth.

    `sound` for each phone that is off, `sure` for the certainty (log odds) of the words that were heard, `change`
    for any change by sound, `same` the share of both for words that sound the same; `other` for any change
    to another hearing, `number` for one of a number, `margin` for each nat that it is less probable,
    less `vote` for each further look that heard the same. A change that the ears were asked about costs `asked` and the
    share `text` of what it costs by spelling, less `ear` for each nat that the sound says it is likelier.
    """

    talk: float = 0.5
    word: float = 5.0
    sound: float = 4.0
    sure: float = 1.5
    change: float = 2.5
    same: float = 0.7
    other: float = 0.5
    number: float = 2.5
    vote: float = 0.5
    margin: float = 1.3
    asked: float = 1.0
    text: float = 0.5
    ear: float = 0.4


# The look of a hearing that is the kept one with a change that the ears were asked about.
ASKED = "asked"
MOST_HEARD = 3
MOST_ALIKE = 8
MOST_DIFFERENT = 8
FURTHEST = 0.5
# A number is never changed for one that is less than this share as probable.
AS_LIKELY = 0.35
BEAM = 40
# What the sound says of a change counts within these: a recogniser's model of everyday English speaks in it too.
_LEAST_NATS, _MOST_NATS = -12.0, 3.0
# Short words that are hardly spoken in running speech, and words said alike: what they are taken for, how far apart.
_TAKEN_FOR = (
    (0.4, "of on off a or are"), (0.4, "and in an on end"), (0.4, "the a they"), (0.4, "at it that"),
    (0.0, "to two too 2"), (0.0, "for four 4"), (0.0, "won one 1"), (0.0, "ate eight 8"), (0.1, "free three tree 3"),
)  # fmt: skip
_PARTS_AND_PLACES = FRACTIONS.keys() | ORDINALS.keys() | COLLECTIVES.keys()
_VOWELS = frozenset("aeiouy")
_DIGITS = {"1": "one", "2": "two", "3": "three", "4": "four", "5": "five", "6": "six", "8": "eight", "10": "ten"}


@dataclass(frozen=True, slots=True)
class Piece:
    """One heard word as it is counted, with its place in the text, its seconds and its probability."""

    text: str
    chars: tuple[int, int]
    start_s: float
    end_s: float
    probability: float


@dataclass(frozen=True, slots=True)
class Way:
    """From the piece `start` to the piece `end` by other words: `words` instead of those that were heard."""

    start: int
    end: int
    words: tuple[str, ...]
    cost: float
    probability: float
    by: str


class Sounds:
    """The words and names that may have been meant, by their sound."""

    def __init__(self, talk: Talk, names: Iterable[str]) -> None:
        """Take the words that makers use, and the names of the shop's things."""
        texts = dict.fromkeys([*talk.words, *talk.pairs(2), *(name.casefold().replace("-", " ") for name in names)])
        known: dict[str, list[str]] = defaultdict(list)
        for text in texts:
            sound = phones(text)
            if len(sound) > 1 and all(_VOWELS.intersection(word) for word in text.split()):  # "ml" is not said so
                known[sound].append(text)
        self._known = known
        self._sounds = tuple(known)
        self.alike = lru_cache(maxsize=20_000)(self._alike)

    def _alike(self, heard: str) -> tuple[tuple[float, str], ...]:
        """Return what sounds like the phones heard, each with its distance, the closest first."""
        found = process.extract(
            heard, self._sounds, scorer=Levenshtein.normalized_distance, score_cutoff=FURTHEST + 0.15, limit=60
        )
        near = []
        for sound, _, _ in found:
            far = distance(heard, sound)
            if far <= FURTHEST * max(len(heard), len(sound)):
                near += [(far, text) for text in self._known[sound]]
        return tuple(sorted(near)[:MOST_ALIKE])


def _taken_for(word: str) -> list[tuple[float, str]]:
    return [
        (far, other) for far, group in _TAKEN_FOR if word in group.split() for other in group.split() if other != word
    ]


def has_number(text: str) -> bool:
    """Tell whether any word of a text is a number, a part of one ("tenths") or a place in a row ("third")."""
    return any(classed(word) == NUMBER or word in _PARTS_AND_PLACES for word in text.split())


def _spoken(piece: Piece) -> str:
    return _DIGITS.get(piece.text, piece.text)


# What the sound said of changes, in nats: by the first piece, the piece after the last, and the words instead.
Answers = Mapping[tuple[int, int, tuple[str, ...]], float]


def answers(heard: Sequence[Piece], asked: Iterable[Sequence[Piece]], nats: Iterable[float]) -> Answers:
    """Return what the sound said of the change that each of the hearings asked about makes in what was heard."""
    mine, out = [p.text for p in heard], {}
    for other, said in zip(asked, nats, strict=True):
        theirs = [p.text for p in other]
        most = min(len(mine), len(theirs))
        first = next((i for i in range(most) if mine[i] != theirs[i]), most)
        last = next((i for i in range(most - first) if mine[-1 - i] != theirs[-1 - i]), most - first)
        out[first, len(mine) - last, tuple(theirs[first : len(theirs) - last])] = said
    return out


def by_sound(heard: Sequence[Piece], sounds: Sounds, weights: Weights, told: Answers | None = None) -> Iterator[Way]:
    """Yield the ways by words that sound like what was heard; `told` is what the sound said of some."""
    for start in range(len(heard)):
        for end in range(start + 1, min(len(heard), start + MOST_HEARD) + 1):
            span = heard[start:end]
            if any(p.text == EDGE or (p.text[0].isdigit() and p.text not in _DIGITS) for p in span):
                break
            sure = max(p.probability for p in span) if len(span) == 1 else min(p.probability for p in span)
            if len(span) == 1 and "'" in span[0].text:  # "that's 20 to 1": its verb was heard, and is not to be lost
                continue
            said = " ".join(map(_spoken, span))
            odds = max(0.0, math.log(max(sure, 0.01) / (1 - min(sure, 0.99))))
            homophones = _taken_for(span[0].text) if len(span) == 1 else []
            alike = [(far, text) for far, text in sounds.alike(phones(said)) if not has_number(text)]
            for far, text in (*homophones, *alike):
                if text not in (said, span[0].text):
                    # Words that sound the same are told apart by nothing that was heard.
                    audible = min(1.0, weights.same + far)
                    cost = audible * (weights.change + weights.sure * odds) + weights.sound * far
                    words = tuple(text.split())
                    if told and (nats := told.get((start, end, words))) is not None:
                        sound = max(_LEAST_NATS, min(_MOST_NATS, nats))
                        cost = max(0.0, weights.asked + weights.text * cost - weights.ear * sound)
                    yield Way(start, end, words, cost, sure * math.exp(-far), "sound")


def talked(words: Iterable[str], talk: Talk, weights: Weights) -> float:
    """Return how likely words follow each other in a note, in nats on no fixed scale; `EDGE` ends a sentence."""
    before, last, total = EDGE, EDGE, 0.0
    for word in (word if word == EDGE else classed(word) for word in words):
        if not word == EDGE == last:
            total += weights.talk * (weights.word + talk.log_probability(before, last, word))
            before, last = last, word
    return total


def worth(pieces: Sequence[Piece], talk: Talk, weights: Weights) -> float:
    """Return how likely a hearing is, in nats on no fixed scale: by its own probabilities and as talk of makers."""
    return talked((piece.text for piece in pieces), talk, weights) + weights.margin * _log(pieces)


def by_hearings(
    heard: Sequence[Piece], others: Iterable[tuple[str, Sequence[Piece]]], weights: Weights
) -> Iterator[Way]:
    """Yield the ways by what other hearings have in place of what was heard; each comes with the look it is of."""
    found: dict[tuple[int, int, tuple[str, ...]], tuple[Way, set[str]]] = {}
    for look, other in others:
        for way in _differences(heard, other, weights):
            key = (way.start, way.end, way.words)
            known, looks = found.get(key, (way, set()))
            found[key] = (min(known, way, key=lambda one: one.cost), looks | {look})
    for way, looks in found.values():
        yield replace(way, cost=max(0.0, way.cost - weights.vote * (len(looks) - 1)))


def _differences(heard: Sequence[Piece], other: Sequence[Piece], weights: Weights) -> Iterator[Way]:
    """Yield the ways by what one other hearing has in place of what was heard."""
    mine, theirs = [p.text for p in heard], [p.text for p in other]
    for tag, i, j, k, m in SequenceMatcher(None, mine, theirs, autojunk=False).get_opcodes():
        if tag == "equal" or j - i > MOST_DIFFERENT or m - k > MOST_DIFFERENT:
            continue
        cost = weights.other + weights.margin * max(0.0, _log(heard[i:j]) - _log(other[k:m]))
        if k == m:  # that nothing was said there is as unlikely as the words are likely
            cost -= weights.margin * math.log(1 - min(0.99, *(p.probability for p in heard[i:j])))
        if _numbers(mine[i:j]) != _numbers(theirs[k:m]):
            if not _is_as_likely(heard[i:j], other[k:m]):
                continue
            cost += weights.number
        probability = min((p.probability for p in other[k:m]), default=0.5)
        yield Way(i, j, tuple(theirs[k:m]), cost, probability, "hearing")


def _is_as_likely(heard: Sequence[Piece], other: Sequence[Piece]) -> bool:
    """Tell whether the numbers of another hearing are about as probable as those that were heard, or more."""
    mine, theirs = ([p.probability for p in span if has_number(p.text)] for span in (heard, other))
    return not mine or not theirs or min(theirs) >= AS_LIKELY * min(mine)


def _numbers(words: Sequence[str]) -> list[int | str]:
    return [SMALL.get(word, word) if not word[0].isdigit() else _as_digits(word) for word in words if has_number(word)]


def _as_digits(word: str) -> int | str:
    return int(word) if word.isdigit() else word


def _log(span: Sequence[Piece]) -> float:
    return sum(math.log(max(p.probability, 1e-3)) for p in span if p.text != EDGE)


_State = tuple[str, str]
_Reached = dict[_State, tuple[float, tuple[Way, ...]]]


def likeliest(heard: Sequence[Piece], ways: Iterable[Way], talk: Talk, weights: Weights) -> list[Way]:
    """Return the ways taken on the likeliest path, in order; none when what was heard is the likeliest."""
    added: dict[int, list[Way]] = defaultdict(list)
    instead: dict[int, list[Way]] = defaultdict(list)
    for way in ways:
        if way.end > way.start:
            instead[way.start].append(way)
        elif way.words:
            added[way.start].append(way)
    # At each piece: by the last two words, the best score and the ways taken to it.
    reached: list[_Reached] = [{} for _ in range(len(heard) + 1)]
    reached[0][EDGE, EDGE] = (0.0, ())
    for at, piece in enumerate(heard):
        _add(reached[at], at, added[at], talk, weights)
        for state, (score, taken) in sorted(reached[at].items(), key=lambda item: -item[1][0])[:BEAM]:
            _take(reached[at + 1], state, (piece.text,), score, taken, talk, weights)
            for way in instead[at]:
                _take(reached[way.end], state, way.words, score - way.cost, (*taken, way), talk, weights)
    _add(reached[-1], len(heard), added[len(heard)], talk, weights)
    ends = (
        (score + weights.talk * talk.log_probability(*state, EDGE), taken)
        for state, (score, taken) in reached[-1].items()
    )
    return list(max(ends, key=lambda end: end[0])[1])


def _add(reached: _Reached, at: int, added: Sequence[Way], talk: Talk, weights: Weights) -> None:
    """Go the ways that add words before a piece; none of them follows another change at the same place."""
    for way in added:
        for state, (score, taken) in list(reached.items()):
            if not taken or taken[-1].end < at:
                _take(reached, state, way.words, score - way.cost, (*taken, way), talk, weights)


def _take(
    reached: _Reached,
    state: _State,
    words: tuple[str, ...],
    score: float,
    taken: tuple[Way, ...],
    talk: Talk,
    weights: Weights,
) -> None:
    before, last = state
    for word in words:
        word = word if word == EDGE else classed(word)
        if word == EDGE and last == EDGE:
            continue
        score += weights.talk * (weights.word + talk.log_probability(before, last, word))
        before, last = last, word
    if (before, last) not in reached or reached[before, last][0] < score:
        reached[before, last] = (score, taken)
