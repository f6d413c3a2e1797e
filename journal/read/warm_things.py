"""What a bare number says the warmth of: "shed at 29", "poured it at eighty two", "one eighty for two hours"."""

from __future__ import annotations

from journal.read.nearby import sentence

PLACES = frozenset(
    "garage shed barn shop workshop room studio unit booth lab tent bay outside inside loft cellar basement yard "
    "hangar office store storeroom house".split()
)
_KIND_OF: dict[str, str] = {
    word: of
    for of, words in {
        "shop": " ".join(PLACES) + " ambient amb air",
        "oven": "oven cabinet hotbox autoclave blanket",
        "mould": "mould mold moulds molds tool plug pattern master laminate shell surface core",
        "resin": "resin hardener gel gelcoat mix pot tin drum batch exotherm silicone rubber wax water urethane epoxy "
        "bucket cup vinyl gelatine gelatin alginate latex",
    }.items()
    for word in words.split()
}
# Celsius; Fahrenheit bounds are these, converted.
_RANGE_C = {"shop": (-20, 52), "oven": (28, 260), "mould": (4, 160), "resin": (4, 200)}
_VERBS = frozenset("is was were 's reads reading says showing at hit hits".split())
_SMALL = frozenset(
    "about around only just still now already nearly roughly sitting it up down to got gets went gone getting dropped "
    "drops fell climbed rose crept peaked peaking reached topped out holding stayed held settled in set of : sat by "
    "say".split()
)
MOVED = frozenset("down up went gone hit peaked reached topped climbed dropped fell rose crept got".split())
_SECONDS = frozenset("hardener catalyst cat b peroxide accelerator grams gram g parts ratio ml mil hundred".split())
_POURED = frozenset(
    "pour poured pouring melt melted melting heat heated heating warm warmed warming cool cooled cooling slush slushed "
    "slushing cast casting casted dipped dip "
    "kept keep held hold holding keeping left leave".split()
)
_CHANGED = frozenset("melt melted melting heat heated heating warm warmed warming cool cooled cooling".split())
_OBJECTS = frozenset(
    "it them that this the a first second wax vinyl resin mould mold gelatine water tins tin all".split()
)
_AGES = frozenset(
    "post cure cured curing oven ramp ramped bake baked baking postcure postcured soak hotbox autoclave".split()
)
_RAISED = frozenset(
    "take took taken taking bring brought bringing raise raised raising ramp ramped ramping wind wound crank cranked "
    "going goes went".split()
)
_DURING = frozenset({"over", "across", "in", "for"})
_LASTING = frozenset("hours hour hrs hr overnight held hold holding holds soaked soak".split())
_SANDED = frozenset("grit wet paper papers grade sanded sand flatted".split())
_PROBES = frozenset("thermocouple thermometer probe pyrometer infrared ir exotherm oven core".split())
_WARM = frozenset("hot warm cold cool cooler warmer freezing chilly boiling baking roasting nippy parky".split())
_CLOSED = frozenset(
    ". , ; ! ? - and so but on out with now today overnight here this when before already rising outside still because "
    "cos yet then going first again though i we by as after".split()
) | {""}
_SHOP = PLACES | {"ambient", "amb", "air", "temp", "temperature", "degrees"}
_LISTED = 9
_DRAWN = frozenset("vacuum vac bag pump gauge inches bar psi pressure".split())
_MOST_STORED = 45
_LEAST_AT = 13  # an hour of the day is no more than 12
_REACH = 6

Cue = tuple[str, str | None]


def of_a_thing(texts: tuple[str, ...], first: int, start: int, end: int, celsius: float) -> Cue | None:
    """Return the cue of the bare number in [start, end), which would be this warm; `first` is where "about" starts."""
    after = texts[end] if end < len(texts) else ""
    if after == "in" and (place := _in_a_place(texts, first, end)):
        return place
    if after in _DURING and (ramped := _ramped(texts, start, end, celsius)):
        return ramped
    if after == "for" and _is_aged(texts, start, end):
        return "temperature", "oven" if "oven" in sentence(texts, start, end, 12) else None
    if after not in _CLOSED or (after == "and" and texts[end + 1 : end + 2] == ("a",)):
        return None
    return (
        _of_its_subject(texts, first, start, celsius)
        or _done_at(texts, first, start)
        or _by_probe(texts, first)
        or _ramped(texts, start, end, celsius)
    )


def _of_its_subject(texts: tuple[str, ...], first: int, start: int, celsius: float) -> Cue | None:
    """ "Shed at 29", "the mould was only 31", "shop got to thirty by noon"."""
    at, verb = first - 1, False
    while at >= 0 and first - at <= _REACH and (texts[at] in _SMALL or texts[at] in _VERBS):
        verb = verb or texts[at] in _VERBS or texts[at] in MOVED
        at -= 1
    of = _KIND_OF.get(texts[at]) if at >= 0 else None
    if of is None or (of == "resin" and texts[at - 1 : at] == ("casting",) and not verb):
        return None
    led = texts[start - 1] if start else ""
    least, most = _RANGE_C[of]
    if not least <= celsius <= most or (led == "at" and celsius < _LEAST_AT):
        return None
    if of in ("resin", "mould") and not (verb or _is_listed(texts, at)):
        return None
    batched = not _SECONDS.isdisjoint(sentence(texts, start, start, 12))
    # ", resin at twenty-three"; not "resin at thirty, hardener at nine"
    alone = texts[at - 1] == "," and _SECONDS.isdisjoint((texts[at], *texts[start : start + _REACH]))
    told = alone and celsius <= _MOST_STORED
    return None if of in ("resin", "mould") and batched and not told else ("temperature", of)


def _is_listed(texts: tuple[str, ...], at: int) -> bool:
    """Whether the thing follows a temperature: "shop 19, resin 22, mould 20"."""
    listed = at > 1 and texts[at - 1] in (",", ".", "and")
    return listed and not _SHOP.isdisjoint(texts[max(0, at - _LISTED) : at - 1])


def _in_a_place(texts: tuple[str, ...], first: int, end: int) -> Cue | None:
    """ "It's 14 in the lab", "stinking hot, thirty four in the shed"."""
    named = texts[end + 1 : end + 3]
    place = named[:1] == ("here",) or (
        len(named) > 1 and named[0] in ("the", "my", "our", "this") and named[1] in PLACES
    )
    led = texts[first - 1] if first else ""
    if not place or not (led in _VERBS or led in _WARM or led in ("", ",", ".", "only", "now", "and", "but", "still")):
        return None
    return "temperature", "shop"


def _is_aged(texts: tuple[str, ...], start: int, end: int) -> bool:
    """Whether heats are listed with their times: "post cure went one eighty for two hours, then two fifty for two"."""
    said = sentence(texts, start, start, 24)
    hours = sentence(texts, end, end, 8)
    timed = not {"hours", "hour", "hrs", "hr", "h", "two", "another", "minutes"}.isdisjoint(hours)
    return timed and not _AGES.isdisjoint(said)


def _done_at(texts: tuple[str, ...], first: int, start: int) -> Cue | None:
    """ "Poured it at eighty two", "heated the wax to 75", "melted at one seventy"."""
    led = texts[start - 1] if start else ""
    if led not in ("at", "to") or not _DRAWN.isdisjoint(sentence(texts, start, start, 10)):
        return None  # "vacuum's holding at 28"
    at = start - 2
    while at >= 0 and start - at < _REACH and texts[at] in _OBJECTS:
        at -= 1
    verb = texts[at] if at >= 0 else ""
    known = verb in _POURED if led == "at" else verb in _CHANGED
    return ("temperature", None) if known else None


def _ramped(texts: tuple[str, ...], start: int, end: int, celsius: float) -> Cue | None:
    """ "Took it to 60 over two hours", "brought it up slow to 45 and left it there overnight"."""
    least, most = _RANGE_C["oven"]
    led = texts[max(0, start - _REACH) : start]
    if led[-1:] != ("to",) or _RAISED.isdisjoint(led) or not least <= celsius <= most:
        return None
    near = sentence(texts, start, end, 12)
    timed = not _LASTING.isdisjoint(texts[end : end + 12]) and _SANDED.isdisjoint(near)
    return ("temperature", "oven" if "oven" in near else None) if timed else None


def _by_probe(texts: tuple[str, ...], first: int) -> Cue | None:
    """ "Thermocouple says the mould only got to one thirty five", "exotherm peaked at 92"."""
    led = texts[max(0, first - 4) : first]
    moved = not MOVED.isdisjoint(led) and led[-1:] and (led[-1] in MOVED or led[-1] in ("at", "to"))
    return ("temperature", None) if moved and not _PROBES.isdisjoint(sentence(texts, first, first, 10)) else None
