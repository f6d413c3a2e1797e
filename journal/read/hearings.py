"""Settle what was heard by sound, talk, catalogue and arithmetic together.

The hearing kept is mended first: words that makers use take the place of words that only sound like them, where
what stands around them or another hearing asks for it (`hearing.mend`). Then every hearing is read, and the one that
a foreman would query least is taken. What hangs on a changed word is flagged, and so is a number that another
likely hearing gives differently or that was barely heard: what cannot be settled is never silently chosen. What was
heard is kept: every value points to the words of the first hearing and their seconds.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Any

from journal.read.hearing.lattice import Piece, Sounds, Weights, worth
from journal.read.hearing.mend import Change, heard_pieces, mended
from journal.read.hearing.talk import NUMBER, Talk, classed, makers_talk, pieces
from journal.read.number_words import SMALL
from journal.read.ordinary import is_english
from journal.record import Alternative, Evidence, Flag, MaterialUse, NoteText, Step, Transcript, Word
from journal.trade.material import Catalogue, Material, ShopWord

_LEADS = {
    "for": 4,
    "four": 4,
    "fore": 4,
    "to": 2,
    "too": 2,
    "two": 2,
    "won": 1,
    "one": 1,
    "ate": 8,
    "free": 3,
    "tree": 3,
}
_TEENS = {Fraction(teen): Fraction(10 * (teen - 10)) for teen in range(13, 20)}
_LIKE = _TEENS | {ty: teen for teen, ty in _TEENS.items()}
AGREES = Fraction(2, 100)
MOST_HEARINGS = 4
_PENALTY = {"ratio": 4.0, "amount": 3.0, "conditions": 3.0, "unit": 1.0, "materials": 0.7, "layers": 0.7}
_CLOSE = 2.0  # nats: a hearing within this of the best is in doubt with it
_LOST_STEP = 3.0
# A hearing whose words are all this probable, and that was heard only one way, is read as it is.
_PLAIN_WORD = 0.85
# A number less probable than this is flagged; so is one that another hearing of the same moment gives differently.
_BARELY_HEARD = 0.5
_SAME_MOMENT_S = 0.12
_WEIGHTS = Weights()

Read = Callable[[NoteText], tuple[Step, ...]]


# ---- numbers that sound alike ------------------------------------------------------------------------------


def sound_alikes(amount: Fraction, word_before: str, spoken: bool) -> Iterator[Fraction]:
    """Yield the numbers that an amount may have been misheard from: 420 of "for 120", 450 of "for 50".

    Teens and tens (15, 50) are mistaken only by a machine that listens, so only when `spoken`.
    """
    lead = _LEADS.get(word_before)
    if lead is not None and amount.denominator == 1 and 10 <= amount < 200:
        yield Fraction(100 * lead + int(amount) % 100)
    if spoken and amount in _LIKE:
        yield _LIKE[amount]
    if spoken and amount > 100 and amount % 100 in _LIKE:
        yield amount - amount % 100 + _LIKE[amount % 100]


def settled(step: Step, pair: tuple[MaterialUse, MaterialUse], wanted: Fraction, before: Callable[[MaterialUse], str],
            spoken: bool) -> Step:  # fmt: skip
    """Return the step with the one weight of the pair repaired that then agrees with the wanted ratio.

    `wanted` is second to main; `before` gives the word before a weight. Returns the step as it is when no
    reading agrees, or more than one.
    """
    main, second = pair
    if main.amount is None or second.amount is None:
        return step
    readings = []
    for use in pair:
        for value in sound_alikes(use.amount or Fraction(0), before(use), spoken):
            top, bottom = (second.amount, value) if use is main else (value, main.amount)
            if abs(top / bottom / wanted - 1) <= AGREES:
                readings.append((use, value))
    if len(readings) != 1:
        return step
    use, value = readings[0]
    why = f'heard "{before(use)} {float(use.amount or 0):g}", read as {float(value):g}: the ratio wants it'
    mended = tuple(replace(m, amount=value) if m is use else m for m in step.materials)
    return replace(step, materials=mended, flags=(*step.flags, Flag("amount", why)))


# ---- several hearings of one recording ---------------------------------------------------------------------


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
    changes: tuple[Change, ...] = ()


def best_steps(note: NoteText, read: Read, catalogue: Catalogue) -> tuple[Step, ...]:
    """Return the steps of the hearing that fits best, every value pointed to the words of the one that was kept."""
    heard = note.transcript
    if heard is None or _is_plain(heard, shop := shop_of(catalogue)):
        return read(note)
    hearings = _hearings(note, heard, read, shop)
    best = min(hearings, key=lambda hearing: hearing.cost)
    steps = best.steps
    for rival in hearings:
        if rival is not best and (rival.cost - best.cost < _CLOSE or rival.said.text == heard.text):
            steps = _doubted(steps, rival)
    steps = tuple(_changed(step, best.changes) for step in steps)
    steps = _with_number_doubts(steps, best, _ways_heard(heard))
    return steps if best.said.text == heard.text else tuple(_pointed(step, heard) for step in steps)


def _is_plain(heard: Transcript, shop: Shop) -> bool:
    """Tell whether a hearing is to be taken as it is: heard one way, in probable words, all of them known."""
    if heard.alternatives or any(word.probability < _PLAIN_WORD for word in heard.words):
        return False
    return all(classed(word) == NUMBER or word in shop.known or is_english(word) for word in pieces(heard.text))


def _hearings(note: NoteText, heard: Transcript, read: Read, shop: Shop) -> list[_Hearing]:
    """Return the hearing kept, mended where it asks for it, and the likeliest others, each read."""
    kept = Alternative(heard.text, heard.words, heard.log_probability, "kept")
    better = mended(heard, shop.talk, shop.sounds, _WEIGHTS)
    others = [better.hearing] if better else []
    others += [kept, *_different(heard)]
    worths = [worth(heard_pieces(said.text, said.words), shop.talk, _WEIGHTS) for said in others]
    out: list[_Hearing] = []
    for said, value in zip(others, worths, strict=True):
        steps = read(_as_note(note, heard, said))
        lost = max(0, len(out[0].steps) - len(steps)) * _LOST_STEP if out else 0.0
        nats = max(0.0, worths[0] - value)
        changes = better.changes if better and said is better.hearing else ()
        out.append(_Hearing(said, steps, _faults(steps) + lost + nats, changes))
    return out


def _different(heard: Transcript) -> list[Alternative]:
    """Return the likeliest alternatives whose words differ from the first hearing's and from each other's."""
    known, out = {_plain(heard.text)}, []
    for other in sorted(heard.alternatives, key=lambda a: -a.log_probability):
        if other.text.strip() and _plain(other.text) not in known:
            known.add(_plain(other.text))
            out.append(other)
    return out[:MOST_HEARINGS]


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


# ---- evidence in the words that were kept ----------------------------------------------------------------------


def _pointed(value: Any, heard: Transcript) -> Any:
    """Return a value with its evidence moved to the words of the kept hearing at the same seconds."""
    if isinstance(value, Evidence):
        return _moved(value, heard)
    if isinstance(value, tuple):
        return tuple(_pointed(item, heard) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        changed = {f.name: _pointed(getattr(value, f.name), heard) for f in fields(value)}
        return replace(value, **changed)
    return value


def _moved(evidence: Evidence, heard: Transcript) -> Evidence:
    if not heard.words:
        return replace(evidence, heard=heard.text, chars=(0, len(heard.text)))
    there = _at(heard.words, evidence.audio or (heard.words[0].start_s, heard.words[-1].end_s))
    chars = (there[0].chars[0], there[-1].chars[1])
    return replace(evidence, heard=heard.text[slice(*chars)], chars=chars)


def _at(words: Sequence[Word], seconds: tuple[float, float]) -> list[Word]:
    """Return the words said within the seconds, or the one nearest to them."""
    start, end = seconds
    there = [w for w in words if start <= (w.start_s + w.end_s) / 2 <= end]
    return there or [min(words, key=lambda w: abs(w.start_s + w.end_s - start - end))]


# ---- what is in doubt --------------------------------------------------------------------------------------------


def _values(step: Step) -> Iterator[tuple[str, Evidence]]:
    """Yield the evidence of the step's values, each with the field that a doubt about it is flagged on."""
    for use in step.materials:
        yield "materials", use.evidence
        if use.amount is not None:
            yield "amount", use.evidence
    if step.ratio and not step.ratio.derived:
        yield "ratio", step.ratio.evidence
    yield from (("layers", layer.evidence) for layer in step.layers)
    yield from (("timings", timing.evidence) for timing in step.timings)
    yield from (("clock", time.evidence) for time in step.clock)
    yield from (("conditions", state.evidence) for state in step.conditions)


def _flagged(step: Step, flags: Sequence[Flag]) -> Step:
    """Return the step with the flags on fields that have none yet."""
    new = {flag.field: flag for flag in reversed(flags) if not any(f.field == flag.field for f in step.flags)}
    return replace(step, flags=(*step.flags, *new.values())) if new else step


def _changed(step: Step, changes: Sequence[Change]) -> Step:
    """Return the step with a flag on each field whose value was read from words that were changed."""
    flags = []
    for field, evidence in _values(step):
        for change in changes:
            if change.chars[0] < evidence.chars[1] and evidence.chars[0] < change.chars[1] and _matters(field, change):
                flags.append(Flag(field, f'heard "{change.heard}", read as {change.read}'))
    return _flagged(step, flags)


def _matters(field: str, change: Change) -> bool:
    """Tell whether a change can have changed a value: the number of what has one, any word of a name."""
    told = any(classed(word) == NUMBER for text in (change.heard, change.read) for word in pieces(text))
    return told or (field in ("materials", "layers") and change.is_telling)


def _ways_heard(heard: Transcript) -> list[list[Piece]]:
    said: list[Transcript | Alternative] = [heard, *heard.alternatives]
    return [heard_pieces(other.text, other.words) for other in said]


def _with_number_doubts(steps: tuple[Step, ...], best: _Hearing, ways: Sequence[Sequence[Piece]]) -> tuple[Step, ...]:
    """Return the steps with a flag on each field whose numbers were barely heard or are heard in other ways too."""
    mine = heard_pieces(best.said.text, best.said.words)
    out = []
    for step in steps:
        flags = []
        for field, evidence in _values(step):
            doubt = None if field == "materials" else _number_doubt(evidence, mine, ways)
            if doubt:
                flags.append(Flag(field, doubt))
        out.append(_flagged(step, flags))
    return tuple(out)


def _number_doubt(evidence: Evidence, mine: Sequence[Piece], ways: Sequence[Sequence[Piece]]) -> str | None:
    said = [p for p in mine if p.chars[0] < evidence.chars[1] and evidence.chars[0] < p.chars[1] and _is_number(p)]
    if not said:
        return None
    barely = min(said, key=lambda piece: piece.probability)
    if barely.probability < _BARELY_HEARD:
        return f'"{barely.text}" was barely heard'
    numbers = [_digits(p.text) for p in said]
    start, end = said[0].start_s - _SAME_MOMENT_S, said[-1].end_s + _SAME_MOMENT_S
    for way in ways:
        there = [p for p in way if start <= p.start_s and p.end_s <= end and _is_number(p)]
        if there and [_digits(p.text) for p in there] != numbers and _is_as_likely(there, said):
            return f'another hearing has "{" ".join(p.text for p in there)}"'
    return None


def _is_number(piece: Piece) -> bool:
    return classed(piece.text) == NUMBER


def _digits(text: str) -> str:
    return str(SMALL.get(text, text)).replace(",", "")


def _is_as_likely(there: Sequence[Piece], said: Sequence[Piece]) -> bool:
    return min(p.probability for p in there) > 0.35 * min(p.probability for p in said)


def _numbers(step: Step) -> dict[str, frozenset[Any]]:
    """Return the numbers of a step by the field that a doubt about them is flagged on."""
    ratio = step.ratio if step.ratio and not step.ratio.derived else None
    return {
        "amount": frozenset((use.amount, use.unit) for use in step.materials if use.amount is not None),
        "ratio": frozenset([ratio.parts] if ratio else []),
        "layers": frozenset((layer.count, layer.gsm) for layer in step.layers),
        "timings": frozenset((t.least, t.most) for t in step.timings),
        "clock": frozenset((c.kind, c.at) for c in step.clock),
        "conditions": frozenset((c.kind, c.value) for c in step.conditions),
    }


def _doubted(steps: tuple[Step, ...], rival: _Hearing) -> tuple[Step, ...]:
    """Return the steps with a flag on each field that has a number which another likely hearing has not."""
    theirs: dict[str, set[Any]] = {}
    for step in rival.steps:
        for field, values in _numbers(step).items():
            theirs.setdefault(field, set()).update(values)
    out = []
    for step in steps:
        odd = [field for field, values in _numbers(step).items() if values - theirs.get(field, set())]
        out.append(_flagged(step, [Flag(field, "another hearing of the words gives another value") for field in odd]))
    return tuple(out)
