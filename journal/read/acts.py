"""Find the acts of the trade: which words of a note say that something is, was or will be done."""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise
from typing import NamedTuple

from journal.read import pulls
from journal.read.acts_patterns import LABELS, PLAIN_VERBS
from journal.read.causing import causer
from journal.read.families import marks
from journal.read.findings import ActSaid, Findings, Found, NoteWords
from journal.read.grammar import STOPS, is_no_act, is_noun_here, is_purpose
from journal.read.sayings import Said, sayings
from journal.read.segments import told_tokens
from journal.read.senses import Around, meaning, verb_forms

_REACH = 9
_MEANS = 5
_IS = frozenset("'s is are was fully properly nicely".split())
_AUXILIARIES = frozenset("should must will just has have 's be is".split())
_SEEING = frozenset("find notice spot".split())
_GOVERNING = frozenset({"let", "leave", "keep"})
_LEADING_IN = frozenset("go put get take".split())
_SAID_OF = frozenset("i we and then , . ; just 've".split())
_TAKING = frozenset("take get pop knock pull lift have bang turn strip".split())
_BECAUSE = frozenset("so because as since cos cause or otherwise".split())
_ON_IT = frozenset("brush paint spray wipe rub smooth".split())
_PUMPING = frozenset("pump pull draw suck vac".split())
_CHAMBER = frozenset("chamber jar degasser".split())
_UNDER_PRESSURE = frozenset({"autoclave", "clave"})
_BEFORE_A_THING = frozenset("a the some with of in into using from under".split())
_BIDDING = frozenset("always never n't not to 'll please should must just".split())
_THE = frozenset("a an the it them that this both every your my our each".split())
_IT = frozenset("it that them this".split())
_IT_ALONE = tuple((word,) for word in sorted(_IT))
_ONTO = frozenset("on onto in into over".split())
_DAMAGED = frozenset(
    "tore torn ripped chipped cracked snapped nicked leak leaks leaking tear rip chip chips crack cracks nick nicks "
    "void voids pinhole pinholes bubble bubbles hole holes split gouge ding dings scratch scratches".split()
)
_HEADING = 3
_LOOKING = frozenset({"check", "photograph"})
_FIRST_HALVES = frozenset("post de re pre un lay wet tack".split())


class _Verb(NamedTuple):
    """A word of the tokens [start, end) that stands as a verb, in its form."""

    start: int
    end: int
    verb: str
    form: str


def _compound(lower: tuple[str, ...], i: int) -> tuple[str, int]:
    """Return the verb written in two words or with a hyphen from token i ("post - cure"), and its end."""
    if lower[i] not in _FIRST_HALVES or i + 1 >= len(lower):
        return lower[i], i + 1
    known, hyphen = verb_forms(), lower[i + 1] == "-"
    at = i + 2 if hyphen else i + 1
    if at < len(lower) and (hyphen or lower[i] == "post") and lower[i] + lower[at] in known:
        return lower[i] + lower[at], at + 1
    return lower[i], i + 1


def _candidates(words: NoteWords, found: Findings) -> list[_Verb]:
    """Return the words that stand as verbs, outside of names and reasons."""
    known, out = verb_forms(), []
    told, seen = told_tokens(words, found), _seen(words, found)
    named = _tokens(found, "material")
    at = 0
    while at < len(words.lower):
        word, end = _compound(words.lower, at)
        hit = known.get(word)
        i, at = at, end
        if word == "left" and found.at("place", i):
            continue
        if hit is None or i in told or (i in seen and i and words.lower[i - 1] not in _SAID_OF):
            continue
        verb, form = hit
        in_name = i in named and (not words.tags[i].startswith("V") or i - 1 in named or i + 1 in named)
        in_name = in_name and not _is_ordered(words, i, form)
        if (
            in_name
            or (form == "ed" and _describes(words, i))
            or (form == "base" and words.lower[end : end + 1] == ("-",) and words.tags[end + 1 : end + 2] != ("CD",))
            or (verb not in PLAIN_VERBS and is_noun_here(words, i, end, form) and not causer(words, i, form))
        ):
            continue
        out.append(_Verb(i, end, verb, form))
    return out


def _is_ordered(words: NoteWords, i: int, form: str) -> bool:
    """Tell whether a material's name is a verb here: "always SOAP a mould", "never WAX it"."""
    bidden = i and words.lower[i - 1] in _BIDDING
    return form == "base" and bool(bidden) and words.lower[i + 1 : i + 2] != () and words.lower[i + 1] in _THE


def _describes(words: NoteWords, i: int) -> bool:
    """Tell whether the word only describes a thing: "with thickened epoxy", "a thickened coat"."""
    return bool(i) and words.lower[i - 1] in _BEFORE_A_THING and words.tags[i + 1 : i + 2] in (("NN",), ("NNS",))


def _seen(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens of faults: "lifted off the mat" is a delamination, not an act."""
    return {
        i for x in found.of("observation")
        if x.value.kind not in ("good", "other") and "out" not in words.lower[x.end : x.end + 2]
        for i in range(x.start, x.end)
    }  # fmt: skip


def _tokens(found: Findings, *kinds: str) -> set[int]:
    return {token for item in found.of(*kinds) for token in range(item.start, item.end)}


def _end_of_reach(words: NoteWords, head: int, limit: int) -> int:
    for i in range(head + 1, limit):
        if words.lower[i] in STOPS or words.lower[i] == "then":
            return i
    return limit


def _start_of_reach(words: NoteWords, head: int, floor: int) -> int:
    for i in range(head - 1, floor - 1, -1):
        if words.lower[i] in STOPS:
            return i + 1
    return floor


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the acts of a note, each with the token of its verb as `head`."""
    places, verbs = marks(words, found), _candidates(words, found)
    out = pulls.numbered(words, found) + _labels(words)
    taken = {i for item in out for i in range(item.start, item.end)}
    told = _sayings(words, found, places)
    out += [_by_saying(said) for said in told if taken.isdisjoint(range(said.start, said.end))]
    pulled = {i for item in out for i in range(item.start, item.end)}
    pulled |= {v.start for v in verbs if v.verb in _LEADING_IN and v.end in {item.start for item in out}}
    swallowed = -1
    for n, verb in enumerate(verbs):
        if n == swallowed or verb.start in pulled or is_no_act(words, found, verb.start):
            continue
        if out and verb.form == "base" and is_purpose(words, verb.start, out[-1].end):
            continue
        governs = verb.verb in _GOVERNING and n + 1 < len(verbs) and _governed(words, verb.end, verbs[n + 1])
        action = _action(words, found, verb, _around(words, found, places, verbs, n, governs))
        if action:
            swallowed = n + 1 if governs else -1
            out.append(_by_verb(words, verb, action))
    return _settled(words, found, sorted(out, key=lambda item: item.start))


def _sayings(words: NoteWords, found: Findings, places: list[tuple[int, str]]) -> list[Said]:
    told, seen = told_tokens(words, found), _seen(words, found)
    return [
        said for said in sayings(words, places)
        if told.isdisjoint(range(said.start, said.end))
        and not is_no_act(words, found, said.start)
        and not _is_a_means(words, said)
        and not (said.form == "" and seen.issuperset(range(said.start, said.end)))
    ]  # fmt: skip


def _is_a_means(words: NoteWords, said: Said) -> bool:
    """Tell whether a saying without a verb only says with what it was done: "with a dab of petroleum jelly"."""
    before = words.lower[max(0, said.start - _MEANS) : said.start]
    since = next((i for i in range(len(before) - 1, -1, -1) if before[i] in STOPS or before[i] in (",", "and")), -1)
    return not said.form and "with" in before[since + 1 :]


def _by_verb(words: NoteWords, verb: _Verb, action: str) -> Found:
    """Return the act that a verb names; one had done by another starts at what had it done."""
    by = causer(words, verb.start, verb.form)
    start = by.head if by else verb.start
    form = "s" if _is_of_several(words, verb.start, verb.form) else verb.form
    value = ActSaid(action, start, by.form if by else form)
    return Found("act", start, verb.end, value, f"acts.{verb.verb}", 0.95)


def _by_saying(said: Said) -> Found:
    return Found("act", said.start, said.end, ActSaid(said.action, said.start, said.form), "acts.saying", 0.9)


def _of_a_fault(found: Findings, begin: int, end: int) -> bool:
    """Tell whether a fault was named before the verb: "three pinholes on the crown, filled with gel"."""
    seen = [x for x in found.of("observation") if begin <= x.start < end]
    return any(x.value.kind not in ("good", "other") for x in seen)


def _damage_told(words: NoteWords, found: Findings, head: int) -> bool:
    """Tell whether damage was told in the same sentence or the one before: "tore the lip, fixed IT"."""
    ends = [i for i in range(head) if words.lower[i] in STOPS]
    if ends and ends[-1] >= head - 2:
        ends.pop()
    begin = ends[-1] + 1 if ends else 0
    return _of_a_fault(found, begin, head) or not _DAMAGED.isdisjoint(words.lower[begin:head])


def _around(
    words: NoteWords, found: Findings, places: list[tuple[int, str]], verbs: list[_Verb], n: int, governs: bool
) -> Around:
    """Return what stands around the n-th verb, up to the verbs beside it; a governed verb hides nothing."""
    verb, beyond = verbs[n], n + 1 + governs
    follows = verbs[beyond].start if beyond < len(verbs) else len(words.lower)
    end = _end_of_reach(words, verb.start, min(follows, verb.start + 1 + _REACH * 2))
    if verb.verb in _ON_IT and words.lower[verb.end : verb.end + 1] in (("it",), ("them",), ("that",)):
        end = next((i for i in range(verb.end, end) if words.lower[i] == ","), end)
    why = [x.start for x in found.of("reason") if x.start >= verb.end and words.lower[x.start] in _BECAUSE]
    end = min([end, *why])
    begin = _start_of_reach(words, verb.start, verbs[n - 1].end if n else 0)
    near = places[bisect_left(places, (begin, "")) : bisect_left(places, (end, ""))]
    look_back = _may_look_back(words, verb.start, verb.form)
    families = {family for token, family in near if token >= verb.end or look_back}
    opens = begin == 0 or words.lower[begin - 1] in STOPS
    if verb.form == "ed" and opens and not look_back and _of_a_fault(found, begin, verb.start):
        families.add("damage")
    if _is_done_to_it(words, verb.end, end) and _damage_told(words, found, verb.start):
        families.add("fault")
    if _has_no_subject(words, begin, verb.start):
        families.add("start")
    return Around(
        frozenset(words.lower[verb.end : min(end, verb.start + 1 + _REACH)]),
        words.lower[verb.end] if verb.end < end else "",
        frozenset(families),
        _first(near, verb.end),
    )


def _is_done_to_it(words: NoteWords, tail: int, end: int) -> bool:
    """Tell whether a verb is done to what was named before: "filled IT", "dab some latex on THAT"."""
    after = words.lower[tail:end]
    return after[:1] in _IT_ALONE or any(one in _ONTO and two in _IT | {"there"} for one, two in pairwise(after))


def _first(near: list[tuple[int, str]], tail: int) -> frozenset[str]:
    """Return the families of the first thing named from the token `tail` on; "coats of wax" are of both."""
    first = next((token for token, _ in near if token >= tail), None)
    named = frozenset(family for token, family in near if token == first)
    if first is None or named != {"coat"}:
        return named
    return named | {family for token, family in near if first < token <= first + 2}


def _action(words: NoteWords, found: Findings, verb: _Verb, around: Around) -> str | None:
    """Return the act that a verb means here; some forms of some verbs tell a time or a state instead."""
    took = verb.verb == "take" and _tells_what_it_took(words, found, verb.end)
    if took or (verb.verb in _SEEING and verb.form != "ed"):
        return None
    action = meaning(verb.verb, around)
    if action == "weigh" and verb.form == "s" and not around.families & {"resin", "second", "rubber", "gel", "plaster"}:
        return "check"  # "weighs 3.4 kilos": a thing was weighed
    counted = action == "demould" and pulls.are_counted(words, found, verb.end)
    if counted or (verb.verb in _TAKING and pulls.are_taken(words, found, verb.end)):
        return "pull"
    before = words.lower[max(0, verb.start - _REACH) : verb.start]
    if action == "press" and verb.verb in _PUMPING and not _CHAMBER.isdisjoint(before):
        return "degas"
    if action == "post-cure" and not _UNDER_PRESSURE.isdisjoint(around.after):
        return "cure"
    if action in ("demould", "cure") and verb.form == "s" and verb.verb not in ("come", "pop", "go"):
        return None  # "demoulds in an hour" tells a time
    if (
        action == "cure"
        and verb.verb not in ("keep", "leave", "put")
        and (verb.form == "ed" or verb.verb == "set")
        and verb.start
        and words.lower[verb.start - 1] in _IS
    ):
        return "check"  # "the skin's cured" tells a state
    return action


def _tells_what_it_took(words: NoteWords, found: Findings, tail: int) -> bool:
    """Tell whether "took" tells a time or a batch: "took two hours", "that took one bag of plaster"."""
    amount = found.at("amount", tail)
    of = amount is not None and words.lower[amount.end : amount.end + 1] == ("of",)
    batch = amount is not None and (of or amount.value.unit in ("g", "ml"))
    return batch or found.at("duration", tail) is not None


def _settled(words: NoteWords, found: Findings, acts: list[Found]) -> list[Found]:
    """Return the acts, in order, without those that only say when, which or how.

    "First casting, mixed a hundred grams", "we pull the first casting", "had a good look under the lamp".
    """
    others = [act.start for act in acts if act.value.action not in ("pull", "demould", "check")]
    others += [amount.start for amount in found.of("amount") if amount.value.unit in ("g", "ml")]
    out: list[Found] = []
    for act in acts:
        near = bool(out) and _in_one_breath(words, out[-1].end, act.start)
        said = out[-1].value.action if near else ""
        if act.rule == "acts.pull-order":
            if (
                said == "pull"
                or _is_heading(words, found, act)
                or any(act.start < at and _in_one_breath(words, act.start, at) for at in others)
            ):
                continue
        elif act.rule == "acts.saying" and act.value.action == "cure" and not act.value.form and said in _LOOKING:
            continue
        out.append(act)
    return out


def _is_heading(words: NoteWords, found: Findings, act: Found) -> bool:
    """Tell whether a casting is only announced: "First cast. Mixed ten kilos of plaster ..."."""
    start = max((i + 1 for i in range(act.start) if words.lower[i] in STOPS), default=0)
    end = next((i for i in range(act.end, len(words.lower)) if words.lower[i] in STOPS), len(words.lower))
    weighed = any(amount.start > end and amount.value.unit in ("g", "ml") for amount in found.of("amount"))
    return end - start <= _HEADING and weighed


def _in_one_breath(words: NoteWords, start: int, end: int) -> bool:
    return STOPS.isdisjoint(words.lower[start:end])


def _has_no_subject(words: NoteWords, begin: int, head: int) -> bool:
    return _AUXILIARIES.issuperset(words.lower[begin:head]) or words.lower[head - 1] in (",", "and", "then", "but")


def _governed(words: NoteWords, tail: int, verb: _Verb) -> bool:
    """Tell whether a verb hangs on the one before it: "left it to CURE", "let it SOAK"."""
    between = words.lower[tail : verb.start]
    return verb.form in ("base", "ing") and len(between) <= 7 and "and" not in between and "," not in between


def _labels(words: NoteWords) -> list[Found]:
    """Return the acts that label a line of a log: "Post-cure: eight hours at sixty"."""
    out = []
    for i, word in enumerate(words.lower):
        if word != ":":
            continue
        start = i
        while start > 0 and i - start < 3 and words.lower[start - 1] not in STOPS:
            start -= 1
        action = LABELS.get(" ".join(words.lower[start:i]))
        if action:
            out.append(Found("act", start, i, ActSaid(action, start), "acts.label", 0.9))
    return out


def _is_of_several(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether a plain form tells what several things do: "the bolts GO in"."""
    return form == "base" and words.lower[head] in ("go", "come") and words.tags[head - 1 : head] == ("NNS",)


def _may_look_back(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether the thing may stand before its verb: "the gel went on", "was brushed"."""
    if _is_of_several(words, head, form):
        return True
    return form != "base" and not (head and words.lower[head - 1] in ("i", "we", "and", "then", ",", "i've"))
