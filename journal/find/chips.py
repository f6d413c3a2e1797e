"""What one line of plain words asks for: filters, each with the words it came from, and the words left over. Pure.

"epoxy putty undercut fill under 20 degrees that worked" asks for a material, an act, a temperature and an outcome.
The reader's own finders name the materials, acts, amounts and temperatures, so that a name heard or spelt amiss counts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from journal.find.ask.patterns import GENERAL_ACTS
from journal.find.periods import period_in
from journal.find.query import Query
from journal.find.whereabouts import Named, is_in, is_there, place_in, stage_in
from journal.keep.views import Outcome, StepView
from journal.read.findings import Findings, Found, LayerSaid, NoteWords
from journal.record import Layer

ABOUT_C, ABOUT_SHARE, ABOUT_RATIO = 2.0, 0.1, 0.05
_RECORDED = frozenset({"warmth", "amount", "share", "layers", "place", "stage"})
_BEFORE = 14  # letters: "no more than " is the longest
_SURE = 0.35  # even a name that may be a verb ("shellac the pattern") is looked for
_BELOW = re.compile(r"\b(?:under|below|less than|colder than|cooler than|no more than|at most|up to)\b")
_ABOVE = re.compile(r"\b(?:over|above|more than|warmer than|hotter than|at least)\b")
_NEAR = re.compile(r"\b(?:at|about|around|with|of|near|roughly|by)\s*$")
_OUTCOMES: tuple[tuple[Outcome, str], ...] = (
    ("failed", r"(?:that |which |and )?(?:failed|went wrong|went bad|did(?:n't| not) work|never worked|was scrapped)"),
    ("worked", r"(?:that |which |and )?(?:worked(?: out)?(?: well)?|came out (?:well|good|fine|right|clean)"
               r"|turned out well|was a success|succeeded|successful)"),
    ("under way", r"(?:that is |which is )?(?:under way|in progress|being made now)"),
)  # fmt: skip
_IDLE = frozenset(
    "a an and any as at by did do does for from had has have how i in is it like me my of on one ones our recipe "
    "recipes show that the them then there this those to use used using was way we were what when where which who "
    "with build builds find last time mix mixed".split()
)
_NO_ACT = frozenset({"tack", "start", "begin", "begun", "mould", "cast", "soak"})


@dataclass(frozen=True, slots=True)
class Chip:
    """One filter that the words named: its field, what it means in words, and the letters [start, end) it came from."""

    field: str
    label: str
    chars: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Range:
    """A span of amounts (g or ml), degrees Celsius or shares; None is open."""

    least: float | None = None
    most: float | None = None

    def holds(self, value: float) -> bool:
        """Tell whether the value lies in it."""
        return (self.least is None or value >= self.least) and (self.most is None or value <= self.most)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a line asks for: the query of the store, the chips, and what only the records can tell."""

    text: str
    query: Query
    chips: tuple[Chip, ...] = ()
    warmth: Range | None = None
    amount: Range | None = None
    share: Range | None = None
    layers: LayerSaid | None = None
    place: str = ""
    stage: str = ""

    def without(self, chip: Chip) -> str:
        """Return the line without the words of one chip."""
        start, end = chip.chars
        return " ".join((self.text[:start] + self.text[end:]).split())


def plain_words(words: NoteWords, found: Findings, given: Query, now: datetime) -> Asked:
    """Return what the words of a line ask for. `given` holds the filters that were written out ("outcome:worked")."""
    text = words.doc.text
    parts = [
        _layers(words, found), _named("stage", stage_in(text)), _material(words, found, given), _outcome(text, given),
        _period(text, given, now), _warmth(words, found), _share(words, found), _amount(words, found),
        _named("place", place_in(words, found)), _act(words, found, given),
    ]  # fmt: skip
    asked, taken = Asked(text, given), set[int]()
    for part in filter(None, parts):
        chip, change = part
        span = set(range(*chip.chars))
        if taken & span:
            continue
        taken |= span
        query = replace(asked.query, **{name: value for name, value in change.items() if name not in _RECORDED})
        asked = replace(asked, **{name: value for name, value in change.items() if name in _RECORDED})
        asked = replace(asked, query=query, chips=(*asked.chips, chip))
    rest = "".join(" " if i in taken else letter for i, letter in enumerate(text))
    kept = [word for word in re.findall(r'"[^"]*"|\S+', rest) if word.casefold().strip(".,?!") not in _IDLE]
    in_order = tuple(sorted(asked.chips, key=lambda chip: chip.chars))
    return replace(asked, chips=in_order, query=replace(asked.query, words=" ".join(kept)))


Part = tuple[Chip, dict[str, Any]]


def _named(field: str, named: Named | None) -> Part | None:
    return None if named is None else (Chip(field, named[0], named[1]), {field: named[0]})


def _chars(words: NoteWords, start: int, end: int) -> tuple[int, int]:
    last = words.doc[end - 1]
    return words.doc[start].idx, last.idx + len(last)


def _material(words: NoteWords, found: Findings, given: Query) -> Part | None:
    named = [item for item in found.of("material") if item.confidence >= _SURE and item.value.known]
    if given.material or not named:
        return None
    item = max(named, key=lambda each: (not each.value.general, each.end - each.start, -each.start))
    return Chip("material", item.value.name, _chars(words, item.start, item.end)), {"material": item.value.name}


def _act(words: NoteWords, found: Findings, given: Query) -> Part | None:
    if given.action:
        return None
    named = {token for item in found.of("material") for token in range(item.start, item.end)}
    for i, word in enumerate(words.lower):
        acts = next((acts for stem, acts in GENERAL_ACTS.items() if word.startswith(stem) and acts), ())
        if acts and i not in named and not any(word.startswith(stem) for stem in _NO_ACT):
            return Chip("action", acts[0], _chars(words, i, i + 1)), {"action": acts[0]}
    for act in found.of("act"):
        if act.value.action in ("check", "mix"):
            continue
        return Chip("action", act.value.action, _chars(words, act.start, act.end)), {"action": act.value.action}
    return None


def _outcome(text: str, given: Query) -> Part | None:
    if given.outcome:
        return None
    for outcome, pattern in _OUTCOMES:
        match = re.search(rf"\b{pattern}\b", text, re.I)
        if match:
            return Chip("outcome", outcome, match.span()), {"outcome": outcome}
    return None


def _bounds(words: NoteWords, item: Found, value: float, about: float) -> tuple[Range, str, int]:
    """Return the range that the words before a number ask for, its sign, and the letter where those words start."""
    start, end = _chars(words, item.start, item.end)
    from_ = max(0, start - _BEFORE)
    near = words.doc.text[from_:end].casefold()
    for pattern, wanted, sign in ((_BELOW, Range(None, value), "under "), (_ABOVE, Range(value, None), "over ")):
        if match := pattern.search(near):
            return wanted, sign, min(start, from_ + match.start())
    about_it = _NEAR.search(words.doc.text[:start].casefold())
    return Range(value - about, value + about), "about ", about_it.start() if about_it else start


def _warmth(words: NoteWords, found: Findings) -> Part | None:
    for item in found.of("condition"):
        if item.value.kind == "temperature":
            degc = float(item.value.value)
            wanted, sign, start = _bounds(words, item, degc, ABOUT_C)
            chars = (start, _chars(words, item.start, item.end)[1])
            return Chip("temperature", f"{sign}{degc:g} °C", chars), {"warmth": wanted}
    return None


def _amount(words: NoteWords, found: Findings) -> Part | None:
    for item in found.of("amount"):
        if item.value.unit in ("g", "ml"):
            value = float(item.value.low)
            wanted, sign, start = _bounds(words, item, value, value * ABOUT_SHARE)
            chars = (start, _chars(words, item.start, item.end)[1])
            return Chip("amount", f"{sign}{value:g} {item.value.unit}", chars), {"amount": wanted}
    return None


def _layers(words: NoteWords, found: Findings) -> Part | None:
    """Return the layers or coats asked for by their count or areal weight: "two coats of wax", "450 mat"."""
    for item in found.of("layer"):
        said: LayerSaid = item.value
        if said.count is None and said.gsm is None:
            continue
        count = f"{float(said.count):g} x " if said.count is not None else ""
        weight = f"{float(said.gsm):g} g/m² " if said.gsm is not None else ""
        name = said.name or ("coats" if said.coat else "layers")
        change = {"layers": said, **({"material": said.name} if said.name else {})}
        return Chip("layers", f"{count}{weight}{name}", _chars(words, item.start, item.end)), change
    return None


def _share(words: NoteWords, found: Findings) -> Part | None:
    """Return the ratio asked for, as parts of the second to a hundred of the main."""
    for item in found.of("ratio"):
        parts = [float(part) for part in item.value.parts]
        if len(parts) == 2 and parts[0]:
            share = 100 * parts[1] / parts[0]
            near = _NEAR.search(words.doc.text[: words.doc[item.start].idx].casefold())
            start, end = _chars(words, item.start, item.end)
            wanted = Range(share * (1 - ABOUT_RATIO), share * (1 + ABOUT_RATIO))
            label = " to ".join(f"{part:g}" for part in parts)
            return Chip("ratio", label, (near.start() if near else start, end)), {"share": wanted}
    for item in found.of("amount"):
        if item.value.unit == "percent":
            value = float(item.value.low)
            wanted, sign, start = _bounds(words, item, value, value * ABOUT_RATIO)
            chars = (start, _chars(words, item.start, item.end)[1])
            return Chip("ratio", f"{sign}{value:g} %", chars), {"share": wanted}
    return None


def _period(text: str, given: Query, now: datetime) -> Part | None:
    said = None if given.since or given.until else period_in(text, now)
    return None if said is None else (Chip("time", said.words, said.chars), {"since": said.since, "until": said.until})


# ---- what only the records can tell -----------------------------------------------------------------------


def fits(asked: Asked, step: StepView, warmth_c: float | None) -> bool:
    """Tell whether a step holds the amount, ratio and temperature asked for; `warmth_c` is what it was done in."""
    if asked.warmth is not None and (warmth_c is None or not asked.warmth.holds(warmth_c)):
        return False
    if (asked.place and not is_there(asked.place, step)) or (asked.stage and not is_in(asked.stage, step)):
        return False
    if asked.layers is not None and not any(_is_laid(asked.layers, layer) for layer in step.record.layers):
        return False
    if asked.amount is not None and not any(asked.amount.holds(value) for value in _amounts(step)):
        return False
    return asked.share is None or any(asked.share.holds(value) for value in _shares(step))


def _is_laid(asked: LayerSaid, layer: Layer) -> bool:
    """Tell whether a layer has the count and areal weight asked for, and a name that the one asked for is part of."""
    named = asked.name is None or set(asked.name.split()) <= set(layer.name.split())
    counted = asked.count is None or layer.count == asked.count
    return named and counted and (asked.gsm is None or layer.gsm == asked.gsm)


def _amounts(step: StepView) -> Iterable[float]:
    return (float(use.amount) for use in step.record.materials if use.amount is not None and use.unit in ("g", "ml"))


def _shares(step: StepView) -> Iterable[float]:
    ratio = step.record.ratio
    if ratio is not None and len(ratio.parts) == 2 and ratio.parts[0]:
        yield float(100 * ratio.parts[1] / ratio.parts[0])
    for use in step.record.materials:
        if use.amount is not None and use.unit == "percent":
            yield float(use.amount)
