"""What is asked: the intent of a question, and the numbers, materials and places in it. Pure.

The words are found the way the reader finds those of a note, so that numbers may be words or digits and misheard
names are forgiven alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from journal.find.ask.patterns import DAYS_AGO, EARLIER, GENERAL_ACTS, INTENTS, POLITE, WEEKDAYS, WORD_NUMBERS
from journal.keep.views import FieldError
from journal.read.findings import Findings, Found, NoteWords, TermHeard

_WORDS_MOST = 200
_LAYERS_MOST = 20  # "420 of gel coat" is a weight
_SIDE = re.compile(r"^(?:the |our |that |this )")


@dataclass(frozen=True, slots=True)
class Said:
    """A number in the question, in a unit of the record or None, and the material that stands beside it."""

    value: float
    unit: str | None
    material: str | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """A question: its intent (a name of `patterns.PATTERNS`, "" when none fits) and what is named in it.

    `plain` are its words as the patterns see them, `digits` its own words with the numbers as digits. `materials`
    are catalogue names or general words in the order said; areas are m2, temperatures degC.
    """

    text: str
    plain: str
    intent: str
    digits: str = ""
    amounts: tuple[Said, ...] = ()
    materials: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    acts: tuple[str, ...] = ()
    layers: float | None = None
    gsm: float | None = None
    area_m2: float | None = None
    thickness_mm: float | None = None
    degc: tuple[float, ...] = ()
    humidity: float | None = None
    ratio: tuple[float, ...] = ()
    ratio_by: str | None = None
    ordinal: int | None = None
    earlier: bool = False
    days_ago: int | None = None

    @property
    def weights(self) -> tuple[Said, ...]:
        """The amounts that can be weights or volumes: grams, ml, or without a unit."""
        return tuple(said for said in self.amounts if said.unit in ("g", "ml", None))

    @property
    def percent(self) -> float | None:
        """The percentage said, or None."""
        return next((said.value for said in self.amounts if said.unit == "percent"), None)


def understand(words: NoteWords, found: Findings) -> Question:
    """Return the question that the words ask. Raises FieldError when there are none, or more than a question has."""
    if not words.doc.text.strip():
        raise FieldError("text", 'is empty: ask something, like "how much B for 420"')
    if len(words.lower) > _WORDS_MOST:
        raise FieldError("text", f"has {len(words.lower)} words: a question has {_WORDS_MOST} at most")
    plain = plain_words(words, found)
    digits = _replaced(words, {item.start: (item.end, _digits(item)) for item in found.of("number")})
    conditions = [item.value for item in found.of("condition")]
    layer = next((i.value for i in found.of("layer") if (i.value.count or 1) <= _LAYERS_MOST), None)
    ratio = next((item.value for item in found.of("ratio") if item.value.run_together is None), None)
    areas = [float(each.value) for each in conditions if each.kind == "area"]
    areas += [float(i.value.low) for i in found.of("amount") if i.value.unit == "m2"]
    percents = [float(each.value) for each in conditions if each.kind == "humidity"]
    return Question(
        text=words.doc.text,
        plain=plain,
        intent=_intent(plain) or _intent(digits),
        digits=digits,
        amounts=_amounts(words, found),
        materials=_materials(found),
        places=tuple(dict.fromkeys(_SIDE.sub("", i.value.text.casefold()) for i in _places(found))),
        acts=_acts(plain, _materials(found)),
        layers=_count(layer.count if layer else None, plain),
        gsm=next((float(item.value.gsm) for item in found.of("areal")), None),
        area_m2=areas[0] if areas else None,
        thickness_mm=next((float(each.value) for each in conditions if each.kind == "thickness"), None),
        degc=tuple(float(each.value) for each in conditions if each.kind == "temperature"),
        humidity=percents[0] if percents else None,
        ratio=tuple(float(part) for part in ratio.parts) if ratio else (),
        ratio_by=ratio.by if ratio else None,
        ordinal=next((n for word, n in WORD_NUMBERS.items() if re.search(rf"\b{word}\b", plain)), None),
        earlier=EARLIER.search(plain) is not None,
        days_ago=_days_ago(plain, words.recorded_at),
    )


def _days_ago(plain: str, now: datetime | None) -> int | None:
    """Return how many days back a question looks: to yesterday, or to the last Monday that there was."""
    found = next((n for word, n in DAYS_AGO.items() if re.search(rf"\b{word}\b", plain)), None)
    if found is not None or now is None:
        return found
    day = next((n for n, name in enumerate(WEEKDAYS) if re.search(rf"\b(?:on|last|this) {name}\b", plain)), None)
    return None if day is None else (now.weekday() - day) % 7 or 7


def plain_words(words: NoteWords, found: Findings) -> str:
    """Return the question in lower case, with numbers as digits, known names for materials and misheard terms."""
    joined = _replaced(words, {item.start: (item.end, _plain_text(item)) for item in _worth_replacing(found)})
    joined = re.sub(r" (?='|n't)", "", joined)
    joined = re.sub(r"[?!.,;:\"]+(?= |$)", " ", joined.replace("’", "'"))
    return " ".join(POLITE.sub(" ", joined).split())


def _replaced(words: NoteWords, texts: dict[int, tuple[int, str]]) -> str:
    """Return the words in lower case, with those from a token on, up to an end, in other words."""
    out, at = [], 0
    while at < len(words.lower):
        end, text = texts.get(at, (at + 1, words.lower[at]))
        out.append(text)
        at = end
    return " ".join(out)


def _digits(item: Found) -> str:
    low, high = float(item.value.low), float(item.value.high)
    return f"{low:g}" if low == high else f"from {low:g} to {high:g}"


def _worth_replacing(found: Findings) -> Iterable[Found]:
    """Yield what is put in plain words, names before numbers; none that overlaps another."""
    taken: set[int] = {token for item in found.of("place") for token in range(item.start, item.end)}
    terms = [item for item in found.of("sound") if isinstance(item.value, TermHeard)]
    for item in terms:  # a term misheard is no place ("pod life")
        taken -= set(range(item.start, item.end))
    for item in (*terms, *found.of("material"), *found.of("number")):
        span = set(range(item.start, item.end))
        if item.kind == "number" and item.value.ordinal:
            continue
        if not span & taken:
            taken |= span
            yield item


def _plain_text(item: Found) -> str:
    if isinstance(item.value, TermHeard):
        return item.value.term
    if item.kind == "material":
        part = f" part {item.value.part.lower()}" if item.value.part else ""
        return f"{item.value.name}{part}"
    return f"{float(item.value.low):g}"


def _intent(plain: str) -> str:
    return next((name for name, pattern in INTENTS if pattern.search(plain)), "")


def _amounts(words: NoteWords, found: Findings) -> tuple[Said, ...]:
    layers = [i for i in found.of("layer") if i.value.count is None or i.value.count <= _LAYERS_MOST]
    taken = {t for i in (*layers, *found.of("areal", "condition", "ratio")) for t in range(i.start, i.end)}
    named = [item for item in found.of("material") if item.value.name]
    said = []
    for item in found.of("amount"):
        if item.start in taken or item.value.unit in ("m2", "mm", "count"):
            continue
        beside = next((m for m in named if m.start - item.end in (0, 1)), None)
        if beside is not None and beside.start > item.end and words.lower[item.end] not in ("of", "grams", "g"):
            beside = None
        minus = not {"minus", "-"}.isdisjoint(words.lower[max(0, item.start - 1) : item.end])
        value = -float(item.value.low) if minus else float(item.value.low)
        said.append(Said(value, item.value.unit, beside.value.name if beside else None))
    nothing = [item for item in found.of("number") if item.value.high == 0 and item.start not in taken]
    return tuple(said) if said and not nothing else (*said, *(Said(0.0, None) for _ in nothing[:1]))


def _materials(found: Findings) -> tuple[str, ...]:
    layers = [item.value.name for item in found.of("layer") if item.value.name]
    return tuple(dict.fromkeys([*(i.value.name for i in found.of("material") if i.value.name), *layers]))


def _places(found: Findings) -> Iterable[Found]:
    terms = {t for i in found.of("sound") if isinstance(i.value, TermHeard) for t in range(i.start, i.end)}
    return (item for item in found.of("place") if not terms & set(range(item.start, item.end)))


def _acts(plain: str, materials: tuple[str, ...]) -> tuple[str, ...]:
    for name in materials:
        plain = plain.replace(name, " ")  # "gel coat" is no brushing
    acts = [act for stem, named in GENERAL_ACTS.items() if re.search(rf"\b{stem}", plain) for act in named]
    return tuple(dict.fromkeys(acts))


def _count(count: Fraction | None, plain: str) -> float | None:
    if count is not None:
        return float(count)
    match = re.search(r"\b(\d+) (?:more |further |extra |other )?(?:layers?|plies|ply|passes|coats?)\b", plain)
    if match is None and re.search(r"\b(?:another|one more|a) (?:layer|ply|pass|coat)\b", plain):
        return 1.0
    return float(match[1]) if match else None
