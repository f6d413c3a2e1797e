"""How long: "forty minutes", "an hour and twenty", "overnight", "at least sixteen hours", and of what."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.findings import Duration, Findings, Found, NoteWords, TermHeard
from journal.read.measures import Measure, Measured, measure
from journal.read.modifiers import after, before
from journal.read.nearby import nearest
from journal.read.no_durations import is_no_duration
from journal.read.number_words import SMALL
from journal.read.numbers import Group
from journal.read.turning import is_gel_coat, of_what_came
from journal.read.warmth import DEGREES
from journal.record import Flag

OVERNIGHT = (Fraction(28_800), Fraction(57_600))  # 8 to 16 h: the record's settled reading

# The word beside a duration that tells what it is the time of.
_HINTS: dict[str, str] = {
    word: kind
    for kind, words in {
        "pot life": "potlife usable",
        "gel": "gel gels gelled gelling kicked kicks kick kicking gelation",
        "tack": "tack tacky tacked",
        "wait": "wait waited waiting between recoat apart stood flash flashed flashing stand standing "
        "rest rested resting",
        "mix": "mix mixed mixing mixes stir stirred stirring stirs folded whisked",
        "cure": "cure cured curing cures harden hardened hardening hardens set sets setting",
        "post-cure": "postcure postcured oven baked bake baking",
        "work": "took takes taken spent taking",
        "soak": "soak soaked soaking soaks",
        "demould": "demould demoulded demoulding demould demold demolded demoulds strip pop popped popping",
    }.items()
    for word in words.split()
}  # fmt: skip
_TWO_WORDS: dict[tuple[str, str], str] = {
    ("pot", "life"): "pot life", ("working", "time"): "pot life", ("open", "time"): "pot life",
    ("working", "life"): "pot life", ("went", "off"): "gel", ("go", "off"): "gel", ("goes", "off"): "gel",
    ("going", "off"): "gel", ("gone", "off"): "gel", ("gel", "time"): "gel", ("set", "off"): "gel",
    ("left", "it"): "wait", ("leave", "it"): "wait", ("left", "that"): "wait", ("flash", "off"): "wait",
    ("let", "it"): "wait", ("soak", "in"): "soak", ("post", "cure"): "post-cure", ("post", "cured"): "post-cure",
    ("post", "curing"): "post-cure", ("came", "out"): "demould", ("work", "time"): "pot life",
    ("next", "layer"): "wait", ("next", "coat"): "wait", ("gives", "you"): "pot life", ("gives", "me"): "pot life",
    ("gives", "us"): "pot life", ("give", "you"): "pot life", ("gave", "me"): "pot life", ("gave", "us"): "pot life",
    ("only", "get"): "pot life", ("you", "get"): "pot life", ("workable", "for"): "pot life",
    ("to", "dry"): "wait", ("dry", "for"): "wait", ("dried", "for"): "wait", ("each", "dry"): "wait",
    ("one", "dry"): "wait", ("it", "dry"): "wait", ("went", "hard"): "gel",
    ("set", "in"): "gel", ("sets", "in"): "gel", ("set", "after"): "gel", ("set", "inside"): "gel",
    ("jel", "time"): "gel", ("window", "is"): "wait", ("window", "'s"): "wait", ("recoat", "window"): "wait",
}  # fmt: skip
_STATE = frozenset({"while", "still", "is", "was", "not", "n't"})  # "while it is tacky" is no time to tacky
_TILL = frozenset({"till", "until", "til"})
# "took it out" is no time of work; "took an hour" and "took me an hour" are.
_TAKEN = frozenset("it out off that them some the this away my those".split())
_LATER = (("before",), ("until",), ("till",))
_FAR = frozenset({"pot life", "wait"})
_GEL_REACH = 9
_NOT_CUES = {"coat", "coats", "coated"}  # after "gel": gel coat is a material
_USED = frozenset({"use", "used", "using", "usable"})
_MOST_BARE_MINUTES = 120
_PLAIN = ((), ("in",), ("with",), ("and",), (".",), (",",), ("after",), ("then",), ("on",))
_SHUT = ((), (".",), (",",))
_WAITED = tuple((word,) for word in "waited stirred soaked rested stood held baked".split())
_IN_THE_POT = (("in", "the", "pot"), ("in", "the", "cup"), ("in", "the", "bucket"))
_CHANGE = 5  # "to a hundred and twenty degrees"
_HELD = frozenset("held hold holding holds kept keep keeping left leave leaving".split())
_SHUT_IN = frozenset({".", ",", ";", "and"})
_MOVED = frozenset("dropped drops fell rose climbed crept rained froze freezing frost".split())
_NIGHT = frozenset({"overnight", "night"})
_KEPT = frozenset(
    "left leave leaving cure cured curing sat sit sits set sits held hold clamped clamp bag bagged oven blanket heat "
    "heater heating vacuum warm dry drying stood stand".split()
)
_NIGHT_REACH = 8
_NIGHTS = (("for", "the"), ("through", "the"))
_HEATED = frozenset({"cure", "post-cure"})
_LINKS = frozenset({"'s", "is", "was", "about", "of", "around", "in", "at", "for", "off"})
_NOT_TIME = (("percent",), ("%",), ("of",), ("to",), ("parts",), ("coats",), ("layers",), (":",))


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the durations. "Ten minutes ago" and "due in an hour" are moments, and left to them."""
    measured = measure(words.lower, words.locale)
    texts = measured.scan.pieces.texts
    times = measured.of("time")
    if not times and not measured.bare and _NIGHT.isdisjoint(texts):
        return []
    cues = _cues(texts)
    heard = _heard(measured, found)
    cues |= {at: kind for at, (kind, _) in heard.items()}
    lasting = (one for one in times if not is_no_duration(texts, one))
    out = [_duration(measured, one, cues) for one in lasting]
    moments = {token for item in found.of("moment") for token in range(item.start, item.end)}
    out += [item for group in measured.bare if (item := _carried(measured, group, times, cues))]
    out = [item for item in out if moments.isdisjoint(range(item.start, item.end))]
    out += [
        _overnight(measured, at, cues)
        for at, text in enumerate(texts)
        if _is_night(texts, at) and _MOVED.isdisjoint(texts[max(0, at - 6) : at])
    ]
    return _named_once(words.lower, sorted((_flagged(item, heard) for item in out), key=lambda item: item.start))


def _named_once(lower: tuple[str, ...], times: list[Found]) -> list[Found]:
    """Return the times without one that is put in figures at once: "left it all night, CALL IT sixteen hours"."""
    called = [item.start for item in times if lower[item.start : item.start + 2] == ("call", "it")]
    return [item for item in times if not any(item.end <= at <= item.end + 1 for at in called)]


def _is_night(texts: tuple[str, ...], at: int) -> bool:
    """Whether it says overnight: "left it all night", "for the night", "through the night"."""
    if texts[at] == "overnight":
        return True
    said = texts[at] == "night" and (texts[max(0, at - 2) : at] in _NIGHTS or texts[at - 1] == "all")
    return said and not _KEPT.isdisjoint(texts[max(0, at - _NIGHT_REACH) : at])


def _overnight(measured: Measured, at: int, cues: dict[int, str]) -> Found:
    """Return "overnight", with an open end where it is the least: "overnight at least", "at least overnight"."""
    texts = measured.scan.pieces.texts
    led, behind = before(texts, at), after(texts, at + 1)
    least = "least" in (led.bound, behind.bound)
    value = Duration(OVERNIGHT[0], None if least else OVERNIGHT[1], _hint(texts, at, at + 1, cues))
    span = measured.scan.pieces.span(led.start if least else at, behind.end if least else at + 1)
    return Found("duration", *span, value, "durations.overnight", 0.9)


def _heard(measured: Measured, found: Findings) -> dict[int, tuple[str, str]]:
    """Return the terms repaired by sound before ("hot life" for "pot life"): the kind, and the words heard."""
    tokens = measured.scan.pieces.tokens
    out = {}
    for item in found.of("sound"):
        term = item.value.term if isinstance(item.value, TermHeard) else ""
        first, _, last = term.partition(" ")
        kind = _TWO_WORDS.get((first, last)) or _HINTS.get(first)
        if kind is not None:
            out[tokens.index(item.start)] = (kind, item.value.heard)
    return out


def _flagged(item: Found, heard: dict[int, tuple[str, str]]) -> Found:
    """Flag a duration whose kind comes from a term repaired by sound."""
    why = [f"{words!r} was taken for {kind!r}" for kind, words in heard.values() if kind == item.value.hint]
    return replace(item, flags=(*item.flags, *(Flag("timings", one) for one in why))) if why else item


def _duration(measured: Measured, one: Measure, cues: dict[int, str]) -> Found:
    texts = measured.scan.pieces.texts
    start, end = measured.scan.pieces.span(one.start, one.end)
    least: Fraction | None = one.low
    most: Fraction | None = one.high
    if one.bound == "least" and not _is_taken_by_a_change(texts, one.start):
        most = None
    elif one.bound == "most" or texts[max(0, one.start - 1) : one.start] == ("inside",):
        least = Fraction(0)
    hint = of_what_came(texts, one.start, one.core, one.end) or _hint(texts, one.start, one.end, cues)
    if hint is None and one.bound == "most" and _USED & set(texts[max(0, one.start - 4) : one.start]):
        hint = "pot life"  # "use it inside twenty minutes"
    if hint is None and texts[one.end : one.end + 3] in _IN_THE_POT:
        hint = "pot life"  # "we've got about fifty minutes in the pot"
    rule = f"durations.{one.bound}" if one.bound else "durations.range" if one.low != one.high else "durations.plain"
    return Found("duration", start, end, Duration(least, most, hint), rule, one.confidence)


def _is_taken_by_a_change(texts: tuple[str, ...], start: int) -> bool:
    """Whether "over" says how long a change of heat took: "took it to 60 OVER two hours"."""
    led = texts[start - 1] if start else ""
    warmth = led in DEGREES or led in ("c", "f") or led in SMALL or led.isdecimal()
    return texts[start] == "over" and warmth and "to" in texts[max(0, start - _CHANGE) : start]


def _carried(measured: Measured, group: Group, times: list[Measure], cues: dict[int, str]) -> Found | None:
    """Return a number that takes the unit said just before: "ten minutes under vacuum, then another five resting"."""
    texts = measured.scan.pieces.texts
    earlier = [one for one in times if one.end <= group.start]
    if group.name or group.numeral.form in ("ordinal", "fraction", "collective") or group.low <= 0:
        return None
    if not earlier:
        return _minutes(measured, group, cues)
    unit = earlier[-1].unit
    hot = texts[group.start - 1] == "at" and _hint(texts, group.start, group.end, cues) in _HEATED
    linked = not hot and (group.end in cues or _named_before(texts, group.start, cues))
    another = (
        texts[max(0, group.start - 1) : group.start] == ("another",) and texts[group.end : group.end + 1] in _PLAIN
    )
    listed, held = _is_listed(texts, group, earlier[-1]) or _is_waited(texts, group), _is_held(texts, group)
    if (
        not (linked or another or listed or held)
        or "." in texts[earlier[-1].end : group.start]
        or texts[group.end : group.end + 1] in _NOT_TIME
    ):
        return None
    start, end = measured.scan.pieces.span(group.first, group.end)
    hint = _hint(texts, group.start, group.end, cues)
    value = Duration(unit.to_canonical(group.low), unit.to_canonical(group.high), hint)
    sure = (linked or listed) and not held  # "stirred it three minutes and left it for two": hours, perhaps
    flags = () if sure else (Flag("timings", f"no unit was said: {unit.name}s, as just before"),)
    return Found("duration", start, end, value, "durations.carried", 0.75 if sure else 0.6, flags)


def _is_waited(texts: tuple[str, ...], group: Group) -> bool:
    """Whether a bare number says how long one waited or stirred: "I only waited 20", "stirred 2 more"."""
    after = texts[group.end : group.end + 1]
    led = texts[max(0, group.start - 2) : group.start]
    if led[-1:] == ("for",) and after == ("more",):
        return True  # "then under vacuum for 2 more"
    return (led[-1:] in _WAITED and after in (*_SHUT, ("more",), ("and",))) or (
        led == ("done", "in") and after in _SHUT
    )


def _is_held(texts: tuple[str, ...], group: Group) -> bool:
    """Whether a bare number says how long a thing was kept so: "took it to 60 over two hours, HELD IT FOR SIX"."""
    led, held = texts[max(0, group.start - 1) : group.start], texts[max(0, group.start - 3) : group.start - 1]
    kept = not _HELD.isdisjoint(held) and held[-1] not in _SHUT_IN
    return led == ("for",) and kept and texts[group.end : group.end + 1] in _SHUT


def _is_listed(texts: tuple[str, ...], group: Group, earlier: Measure) -> bool:
    """Whether times at heats are listed, the unit said once: "2 hours at 40, 2 at 60 then 4 at 80"."""
    between = set(texts[earlier.end + 1 : group.start])
    for_each = texts[earlier.start - 1] == texts[group.start - 1] == "for"  # "60 for six hours, then 80 for two"
    if for_each and texts[group.end : group.end + 1] in _SHUT and not between & {".", ";"}:
        return True
    heats = texts[earlier.end : earlier.end + 1] == texts[group.end : group.end + 1] == ("at",)
    heats = heats and texts[group.end + 1 : group.end + 2] not in (("the",), ("a",), ("its",), ("this",))
    return heats and not between & {".", ";"} and texts[group.start - 1] in (",", "then", "and")


def _minutes(measured: Measured, group: Group, cues: dict[int, str]) -> Found | None:
    """Return minutes, flagged, where a pot life or gel time is said without a unit ("it kicked off in twenty")."""
    texts = measured.scan.pieces.texts
    hint = _hint(texts, group.start, group.end, cues)
    closed = texts[group.end : group.end + 1] in ((), (".",), (",",), (";",))
    if hint not in ("pot life", "gel") or not closed or not _named_before(texts, group.first, cues):
        return None
    if not 1 < group.low <= group.high <= _MOST_BARE_MINUTES:
        return None
    span = measured.scan.pieces.span(group.first, group.end)
    flag = Flag("timings", "no unit was said: taken for minutes")
    return Found("duration", *span, Duration(group.low * 60, group.high * 60, hint), "durations.bare", 0.5, (flag,))


def _named_before(texts: tuple[str, ...], start: int, cues: dict[int, str]) -> bool:
    """Whether only small words stand between a cue and the number ("pot life's two and a half")."""
    at = start - 1
    while at >= 0 and texts[at] in _LINKS:
        at -= 1
    return at < start - 1 and (at in cues or at - 1 in cues)


def _cues(texts: tuple[str, ...]) -> dict[int, str]:
    """The place of each word that tells what a time is of."""
    cues = {}
    for at, text in enumerate(texts):
        following = texts[at + 1] if at + 1 < len(texts) else ""
        kind = _TWO_WORDS.get((text, following))
        if kind is None and not (text == "gel" and following in _NOT_CUES):
            kind = _HINTS.get(text)
        if kind == "gel" and text == "gel" and is_gel_coat(texts, at):
            continue
        if _tells_no_time(texts, at, kind):
            continue
        if kind is None or (kind == "work" and following in _TAKEN and texts[max(0, at - 1) : at] != ("it",)):
            continue
        if kind == "tack" and (_STATE & set(texts[max(0, at - 3) : at]) or _TILL & set(texts[max(0, at - 5) : at])):
            continue
        if texts[max(0, at - 2) : at] == ("post", "-") or texts[max(0, at - 1) : at] == ("post",):
            kind = "post-cure"
        cues[at] = kind
    return cues


def _tells_no_time(texts: tuple[str, ...], at: int, kind: str | None) -> bool:
    """Whether no time is of it: "ten minutes before STIRRING", "a minute to POP the bubbles", "if you WAIT"."""
    led = texts[max(0, at - 2) : at]
    popped = kind == "demould" and "bubbles" in texts[at + 1 : at + 4]
    return led[-1:] in _LATER or popped or (kind == "wait" and led in (("if", "you"), ("when", "you")))


def _hint(texts: tuple[str, ...], start: int, end: int, cues: dict[int, str]) -> str | None:
    if not cues:
        return None

    def told(at: int) -> str | None:
        # "Held it for six hours, and LET IT come down": what it is let do comes behind it.
        return None if at >= end and texts[at] == "let" else cues.get(at)

    near = nearest(texts, start, end, told, 6)
    if near is not None:
        return near
    # "Pot life on the next one is shorter, about 18 minutes": only these words reach over a whole sentence.
    gelled = nearest(texts, start, end, lambda at: "gel" if cues.get(at) == "gel" else None, _GEL_REACH)
    return gelled or nearest(texts, start, end, lambda at: kind if (kind := told(at)) in _FAR else None, 16)
