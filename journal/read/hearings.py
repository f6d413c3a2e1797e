"""Settle what was heard by sound, catalogue, grammar and arithmetic together.

Two things are done here. Numbers that sound like others ("for 120" is "four twenty", fifteen is like
fifty) are repaired when the weights and the ratio leave one reading. And of several hearings of one
recording the one is taken that fits best; what stays in doubt is flagged. What was heard is kept: every
value points to the words of the first hearing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from typing import Any

from journal.record import Alternative, Evidence, Flag, MaterialUse, NoteText, Step, Transcript, Word

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
_CLOSE = 1.5  # nats: a hearing within this of the best is in doubt with it
_LOST_STEP = 3.0

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
class _Hearing:
    steps: tuple[Step, ...]
    cost: float
    first: bool


def best_steps(note: NoteText, read: Read) -> tuple[Step, ...]:
    """Return the steps of the hearing that fits best, every value pointed to the words of the first one."""
    heard = note.transcript
    first = read(note)
    if heard is None or not heard.alternatives:
        return first
    hearings = [_Hearing(first, _faults(first), True)]
    for other in _different(heard):
        steps = read(_as_note(note, heard, other))
        lost = max(0, len(first) - len(steps)) * _LOST_STEP
        nats = max(0.0, heard.log_probability - other.log_probability) * max(len(other.words), 1)
        hearings.append(_Hearing(steps, _faults(steps) + lost + nats, False))
    hearings.sort(key=lambda hearing: hearing.cost)
    best = hearings[0]
    rivals = [h for h in hearings[1:] if h.cost - best.cost < _CLOSE or (h.first and not best.first)]
    steps = best.steps if best.first else tuple(_pointed(step, heard.words) for step in best.steps)
    for rival in rivals:
        steps = _doubted(steps, rival)
    return steps


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


def _pointed(value: Any, words: tuple[Word, ...]) -> Any:
    """Return a value with its evidence moved to the words of the first hearing at the same seconds."""
    if isinstance(value, Evidence):
        return _moved(value, words)
    if isinstance(value, tuple):
        return tuple(_pointed(item, words) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        changed = {f.name: _pointed(getattr(value, f.name), words) for f in fields(value)}
        return replace(value, **changed)
    return value


def _moved(evidence: Evidence, words: tuple[Word, ...]) -> Evidence:
    if evidence.audio is None or not words:
        return evidence
    start, end = evidence.audio
    there = [w for w in words if w.start_s < end and w.end_s > start] or [
        min(words, key=lambda w: abs(w.start_s - start))
    ]
    heard = " ".join(word.text.strip() for word in there)
    return replace(
        evidence, heard=heard, chars=(there[0].chars[0], there[-1].chars[1]), rule=f"{evidence.rule}+hearings"
    )


def _numbers(step: Step) -> dict[str, frozenset[Any]]:
    """Return the numbers of a step by the field that a doubt about them is flagged on."""
    ratio = step.ratio if step.ratio and not step.ratio.derived else None
    return {
        "amount": frozenset((use.name, use.amount, use.unit) for use in step.materials if use.amount is not None),
        "ratio": frozenset([ratio.parts] if ratio else []),
        "layers": frozenset((layer.name, layer.count, layer.gsm) for layer in step.layers),
        "timings": frozenset((t.least, t.most) for t in step.timings),
        "clock": frozenset((c.kind, c.at) for c in step.clock),
        "conditions": frozenset((c.kind, c.value) for c in step.conditions),
    }


def _doubted(steps: tuple[Step, ...], rival: _Hearing) -> tuple[Step, ...]:
    """Return the steps with a flag on each field whose numbers another likely hearing gives differently."""
    if len(steps) != len(rival.steps):
        return steps
    out = []
    for step, other in zip(steps, rival.steps, strict=True):
        flags = list(step.flags)
        mine, theirs = _numbers(step), _numbers(other)
        for field, values in mine.items():
            if values != theirs[field] and (values or theirs[field]) and not any(f.field == field for f in flags):
                flags.append(Flag(field, "another hearing of the words gives another value"))
        out.append(replace(step, flags=tuple(flags)))
    return tuple(out)
