"""Flags on what the hearing leaves in doubt: changed words, and numbers barely heard or heard otherwise too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from journal.read.hearing.lattice import AS_LIKELY, ASKED, Piece
from journal.read.hearing.mend import Change, heard_pieces
from journal.read.hearing.talk import EDGE, NUMBER, classed, pieces
from journal.read.number_words import SMALL
from journal.record import Alternative, Evidence, Flag, Step, Transcript

# A number less probable than this is flagged; so is one that another hearing of the same moment gives differently.
_BARELY_HEARD = 0.5
# The same where several looks were taken: where all heard it at even odds or better, it is a little surer than this.
_NOT_AGREED = 0.85
# A time or a state of things that is less sure than this is flagged: of those, four in ten were wrong.
_UNSURE = 0.6
_SAME_MOMENT_S = 0.12
# Where the words around a number were as unsure as this on the whole, half of the wrong ones stood that nothing else
# told (5 of 10 on 165 spoken notes), and one in six of the right ones (14 of 82).
_MUMBLED, _AROUND = 0.78, 4


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


def changed(step: Step, changes: Sequence[Change]) -> Step:
    """Return the step with a flag on each field whose value was read from words that were changed."""
    flags = []
    for field, evidence in _values(step):
        for change in changes:
            if change.chars[0] < evidence.chars[1] and evidence.chars[0] < change.chars[1] and _matters(field, change):
                flags.append(Flag(field, f'heard "{change.heard}", read as {change.read}'))
    return _flagged(step, flags)


def _matters(field: str, change: Change) -> bool:
    """Tell whether a change can have changed a value: its number, or any telling word.

    An amount's evidence holds its material's name, whose changes are flagged as such.
    """
    told = any(classed(word) == NUMBER for text in (change.heard, change.read) for word in pieces(text))
    return told or (field not in ("amount", "ratio") and change.is_telling)


def ways_heard(heard: Transcript) -> list[tuple[str, list[Piece]]]:
    """Return the words of every hearing of a recording, each with the look that it is of."""
    return [
        ("", heard_pieces(heard.text, heard.words)),
        *((other.source, heard_pieces(other.text, other.words)) for other in heard.alternatives),
    ]


def with_number_doubts(
    steps: tuple[Step, ...], best: Alternative, ways: Sequence[tuple[str, Sequence[Piece]]]
) -> tuple[Step, ...]:
    """Return the steps with a flag on each field whose numbers were barely heard or are heard in other ways too."""
    mine = heard_pieces(best.text, best.words)
    barely = _NOT_AGREED if len({look for look, _ in ways} - {ASKED}) > 1 else _BARELY_HEARD
    out = []
    for step in steps:
        flags = []
        for field, evidence in _values(step):
            doubt = None if field == "materials" else _number_doubt(evidence, mine, ways, barely)
            if doubt is None and field in ("timings", "clock", "conditions") and evidence.confidence < _UNSURE:
                doubt = f'unsure of "{evidence.heard}"'
            if doubt:
                flags.append(Flag(field, doubt))
        out.append(_flagged(step, flags))
    return tuple(out)


def _number_doubt(
    evidence: Evidence, mine: Sequence[Piece], ways: Sequence[tuple[str, Sequence[Piece]]], least: float
) -> str | None:
    said = [p for p in mine if p.chars[0] < evidence.chars[1] and evidence.chars[0] < p.chars[1] and _is_number(p)]
    if not said:
        return None
    barely = min(said, key=lambda piece: piece.probability)
    if barely.probability < least:
        return f'"{barely.text}" was barely heard'
    if least == _NOT_AGREED and _around(said, mine) < _MUMBLED:
        return f'the words around "{barely.text}" were barely heard'
    numbers = [_digits(p.text) for p in said]
    start, end = said[0].start_s, said[-1].end_s
    for look, way in ways:
        if look == ASKED:  # of the numbers that were asked about only likely ones are kept; one may span two words
            there = [p for p in way if p.start_s < end and start < p.end_s and _is_number(p)]
        else:
            there = [p for p in way if start <= p.start_s + _SAME_MOMENT_S and p.end_s <= end + _SAME_MOMENT_S]
            there = [p for p in there if _is_number(p)]
        if there and [_digits(p.text) for p in there] != numbers and (look == ASKED or _is_as_likely(there, said)):
            other = " ".join(p.text for p in there)
            return f'it may have been "{other}"' if look == ASKED else f'another hearing has "{other}"'
    return None


def _around(said: Sequence[Piece], mine: Sequence[Piece]) -> float:
    """Return the mean probability of the words of a value and of a few on either side."""
    words = [piece for piece in mine if piece.text != EDGE]
    first, last = words.index(said[0]), words.index(said[-1])
    near = words[max(0, first - _AROUND) : last + 1 + _AROUND]
    return sum(piece.probability for piece in near) / len(near)


def _is_number(piece: Piece) -> bool:
    return classed(piece.text) == NUMBER


def _digits(text: str) -> str:
    return str(SMALL.get(text, text)).replace(",", "")


def _is_as_likely(there: Sequence[Piece], said: Sequence[Piece]) -> bool:
    return min(p.probability for p in there) > AS_LIKELY * min(p.probability for p in said)


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


def doubted(steps: tuple[Step, ...], rival: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps with a flag on each field that has a number which another likely hearing has not."""
    theirs: dict[str, set[Any]] = {}
    for step in rival:
        for field, values in _numbers(step).items():
            theirs.setdefault(field, set()).update(values)
    out = []
    for step in steps:
        odd = [field for field, values in _numbers(step).items() if values - theirs.get(field, set())]
        out.append(_flagged(step, [Flag(field, "another hearing of the words gives another value") for field in odd]))
    return tuple(out)
