"""Settle what was heard by sound, talk, catalogue and arithmetic together.

The hearing kept is mended first: words that makers use take the place of words that only sound like them, where
what stands around them or another hearing asks for it (`hearing.mend`). Then every hearing is read, and the one that
a foreman would query least is taken. What hangs on a changed word is flagged, and so is a number that another
likely hearing gives differently or that was barely heard: what cannot be settled is never silently chosen. What was
heard is kept: every value points to the words of the first hearing and their seconds.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from journal.read.hearing.agreed import agreed
from journal.read.hearing.alike_numbers import broken_numbers
from journal.read.hearing.asking import Weigh, asked
from journal.read.hearing.doubts import changed, doubted, ways_heard, with_number_doubts
from journal.read.hearing.lattice import ASKED, Sounds, Weights, worth
from journal.read.hearing.mend import Change, Mended, heard_pieces, mended
from journal.read.hearing.pointing import pointed
from journal.read.hearing.spelled import respelled
from journal.read.hearing.talk import NUMBER, Talk, classed, makers_talk, pieces
from journal.read.ordinary import is_english
from journal.record import Alternative, NoteText, Step, Transcript
from journal.trade.material import Catalogue, Material, ShopWord

KEPT = "kept"
MOST_HEARINGS = 4
_PENALTY = {"ratio": 4.0, "amount": 3.0, "conditions": 3.0, "unit": 1.0, "materials": 0.7, "layers": 0.7}
_CLOSE = 2.0  # nats: a hearing within this of the best is in doubt with it
_LOST_STEP = 3.0
_NO_NUMBER = 4.0
# A hearing whose words are all this probable, and that was heard only one way, is read as it is.
_PLAIN_WORD = 0.85
_WEIGHTS = Weights()

Read = Callable[[NoteText], tuple[Step, ...]]


@dataclass(frozen=True, slots=True)
class Shop:
    """What a hearing is held against: how makers talk, and what the shop's words sound like."""

    talk: Talk
    sounds: Sounds
    known: frozenset[str]


@lru_cache(maxsize=4)
def shop_of(catalogue: Catalogue) -> Shop:
    """Return the talk of makers with the names of this catalogue; worked out once a catalogue."""
    return shop_with(catalogue, makers_talk())


def shop_with(catalogue: Catalogue, notes: Sequence[str]) -> Shop:
    """Return the talk of the given notes with the names of a catalogue."""
    entries: list[Material | ShopWord] = [*catalogue.materials, *catalogue.terms, *catalogue.general_words]
    spellings = [spelling for entry in entries for spelling in (entry.name, *entry.synonyms) if not spelling.isupper()]
    names = [" ".join(pieces(spelling)) for spelling in spellings]
    talk = Talk([*notes, *(f"of {name} |" for name in names)])
    return Shop(talk, Sounds(talk, names), frozenset(talk.words))


@dataclass(frozen=True, slots=True)
class _Hearing:
    """One hearing with its steps, how much speaks against it (nats), and what was changed in it."""

    said: Alternative
    steps: tuple[Step, ...]
    cost: float
    changes: tuple[Change, ...]
    is_kept: bool


def asked_of_the_ears(heard: Transcript, catalogue: Catalogue, weigh: Weigh) -> Transcript:
    """Return the transcript with what the sound says of words and numbers that sound like those heard.

    A hearing that was not looked at twice and whose words are all probable is returned as it is: asking costs.
    """
    if not heard.alternatives and all(word.probability >= _PLAIN_WORD for word in heard.words):
        return heard
    shop = shop_of(catalogue)
    return asked(heard, shop.talk, shop.sounds, _WEIGHTS, weigh)


def best_steps(note: NoteText, read: Read, catalogue: Catalogue) -> tuple[Step, ...]:
    """Return the steps of the hearing that fits best, every value pointed to the words of the one that was kept."""
    if note.transcript is None:
        return read(note)
    heard, shop = agreed(note.transcript), shop_of(catalogue)
    if _is_plain(heard, shop):
        return _told(heard, _read(note, heard, Mended(_kept(heard), ()), read), ())
    hearings = _hearings(note, heard, read, shop)
    best = min(hearings, key=lambda hearing: hearing.cost)
    rivals = [one for one in hearings if one is not best and (one.cost - best.cost < _CLOSE or one.is_kept)]
    return _told(heard, best, rivals)


def _told(heard: Transcript, best: _Hearing, rivals: Sequence[_Hearing]) -> tuple[Step, ...]:
    """Return the steps of the best hearing with their doubts, pointed to the words of the one that was kept."""
    steps = best.steps
    for rival in rivals:
        steps = doubted(steps, rival.steps)
    steps = tuple(changed(step, best.changes) for step in steps)
    steps = with_number_doubts(steps, best.said, ways_heard(heard))
    return steps if best.said.text == heard.text else tuple(pointed(step, heard) for step in steps)


def _is_plain(heard: Transcript, shop: Shop) -> bool:
    """Tell whether a hearing is to be taken as it is: heard one way, in probable words, all of them known."""
    if _looks(heard) or any(word.probability < _PLAIN_WORD for word in heard.words):
        return False
    return all(classed(word) == NUMBER or word in shop.known or is_english(word) for word in pieces(heard.text))


def _hearings(note: NoteText, heard: Transcript, read: Read, shop: Shop) -> list[_Hearing]:
    """Return the hearing kept, mended where it asks for it, and the likeliest others, each read."""
    kept = _kept(heard)
    better = mended(heard, shop.talk, shop.sounds, _WEIGHTS)
    others = [better.hearing] if better else []
    others += [kept, *_different(heard)]
    worths = [worth(heard_pieces(said.text, said.words), shop.talk, _WEIGHTS) for said in others]
    out: list[_Hearing] = []
    for other, value in zip(others, worths, strict=True):
        changes = better.changes if better and other is better.hearing else ()
        one = _read(note, heard, Mended(other, changes), read)
        lost = max(0, len(out[0].steps) - len(one.steps)) * _LOST_STEP if out else 0.0
        out.append(replace(one, cost=one.cost + lost + max(0.0, worths[0] - value)))
    return out


def _read(note: NoteText, heard: Transcript, one: Mended, read: Read) -> _Hearing:
    """Return a hearing in the spelling of makers, read."""
    spelled = respelled(one.hearing, one.changes)
    steps = read(_as_note(note, heard, spelled.hearing))
    cost = _faults(steps) + _NO_NUMBER * broken_numbers(spelled.hearing.text, note.locale)
    return _Hearing(spelled.hearing, steps, cost, spelled.changes, one.hearing.source == KEPT)


def _kept(heard: Transcript) -> Alternative:
    return Alternative(heard.text, heard.words, heard.log_probability, KEPT)


def _different(heard: Transcript) -> list[Alternative]:
    """Return the likeliest alternatives whose words differ from the first hearing's and from each other's."""
    known, out = {_plain(heard.text)}, []
    for other in sorted(_looks(heard), key=lambda a: -a.log_probability):
        if other.text.strip() and _plain(other.text) not in known:
            known.add(_plain(other.text))
            out.append(other)
    return out[:MOST_HEARINGS]


def _looks(heard: Transcript) -> list[Alternative]:
    """Return the other hearings that were heard, and not only asked about."""
    return [other for other in heard.alternatives if other.source != ASKED]


def _plain(text: str) -> str:
    return " ".join("".join(c if c.isalnum() else " " for c in text.casefold()).split())


def _as_note(note: NoteText, heard: Transcript, other: Alternative) -> NoteText:
    transcript = replace(heard, text=other.text, words=other.words, alternatives=())
    return replace(note, text=other.text, transcript=transcript)


def _faults(steps: tuple[Step, ...]) -> float:
    """Return how much a foreman would query in the steps; arithmetic that agrees speaks for them."""
    return sum(_PENALTY.get(flag.field, 0.5) for step in steps for flag in step.flags) - sum(
        2.0
        for step in steps
        if step.ratio and not step.ratio.derived and not any(f.field == "ratio" for f in step.flags)
    )
