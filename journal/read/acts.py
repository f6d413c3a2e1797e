"""Find the acts of the trade: which words of a note say that something is, was or will be done."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from journal.read.acts_patterns import APPLIED, IRREGULAR, LABELS, PLAIN_VERBS, SENSES
from journal.read.families import marks
from journal.read.findings import ActSaid, Findings, Found, NoteWords
from journal.read.segments import told_tokens

STOPS = frozenset(".!?;\n")
_REACH = 9
_VOWELS = "aeiou"
_DETERMINERS = frozenset(
    "a an the this that these those my our your his her its their some any no each every another first second third "
    "fourth fifth last next final one two three four five six other same of with for in on from by per light thin "
    "thick quick good full single final extra fresh new old whole half few more splash mixed gel wax top".split()
)
_ARTICLES = frozenset(
    "a an the this these those my our your some any no each every another of with fresh newly freshly well un half "
    "fully partly".split()
)
_AFTER_VERB = frozenset(", . in on up out over with by for at".split())
_OBJECTS = frozenset("the it them that this a an all both my our some another each every up out down on off".split())
_PARTICLES = frozenset("up out down off back in on over".split())
_SUBJECTS = frozenset(
    "i we you they to will 'll should must can could would shall let's not n't never always usually na just please "
    "normally generally lets ta dont didnt wo ca it".split()
)
_OPENERS = frozenset("then and , so now next right ok okay but also - – : ; . ! ? or \n".split()) | {""}
_TOOLS = frozenset(
    "pot pots cup cups bucket buckets tub tubs stick sticks paddle table block blocks paper disc discs pad pads pen "
    "agent agents brush brushes gun mop wheel line lines time bit bits mark marks ratio point rate tank room area "
    "machine press frame hole holes station".split()
)
_GERUND_NOT = frozenset(
    "before after when while for of without by from than with on in about until till since into".split()
)
_UNTIL = frozenset("before until till til once unless if than".split())
_IS = frozenset("'s is are was fully properly nicely".split())
_AUXILIARIES = frozenset("should must will just has have 's be is".split())
_SEEING = frozenset("find notice spot".split())
_FELT = frozenset("hot warm cold cool soft hard dry firm tacky".split())
_HAPPENS = frozenset("thicken harden cure set gel kick dry".split())
_TOUCHING = frozenset("finger glove gloves fingers hand hands thumb tape".split())
_GOVERNORS = frozenset(
    "going want wants wanted need needs needed have has had got plan planning about ready used using managed forgot "
    "remember remembered started starting try tried meant wanna gonna gotta still left yet like decided be not ought "
    "supposed time going next".split()
)
_GOVERNING = frozenset({"let", "leave", "keep"})
CASTS = frozenset("cast casting castings pull pulls pulling pulled popped demoulded demolded opened took".split())
_CAST_NOUNS = frozenset("cast casting pull".split())
_SAID_OF = frozenset("i we and then , . ; just 've".split())
_AT_START, _NOWHERE = frozenset({"start"}), frozenset[str]()
_FIRST_HALVES = frozenset("post de re pre un lay wet tack".split())


@dataclass(frozen=True, slots=True)
class _Test:
    """One way a verb is meant: words and families that must be there, and the act it then is."""

    needs: tuple[tuple[bool, frozenset[str], frozenset[str], frozenset[str]], ...]
    action: str


@dataclass(frozen=True, slots=True)
class _Around:
    """What stands around a verb: the words after it, the word right after it, families after and before."""

    after: frozenset[str]
    right: str
    families: frozenset[str]


def _forms(verb: str) -> Iterator[tuple[str, str]]:
    """Yield (surface, form) of a verb; form is base, s, ed or ing."""
    yield verb, "base"
    yield (verb[:-1] + "ies" if verb.endswith("y") and verb[-2] not in _VOWELS else
           verb + ("es" if verb.endswith(("s", "x", "sh", "ch", "z")) else "s")), "s"  # fmt: skip
    stems = [verb]
    if verb.endswith("e"):
        stems = [verb[:-1]]
    elif len(verb) > 2 and verb[-1] not in _VOWELS + "wxyh" and verb[-2] in _VOWELS and verb[-3] not in _VOWELS:
        stems = [verb + verb[-1], verb]
    for stem in stems:
        yield (stem[:-1] + "ied" if stem.endswith("y") and stem[-2] not in _VOWELS else stem + "ed"), "ed"
        yield stem + "ing", "ing"
    for irregular in IRREGULAR.get(verb, "").split():
        form = "ing" if irregular.endswith("ing") else "s" if irregular in ("does", "has") else "ed"
        yield irregular, form


def _test(condition: str, action: str) -> _Test:
    needs = []
    for part in filter(None, (piece.strip() for piece in condition.split("&"))):
        either = part.lstrip("!").split("|")
        needs.append((
            not part.startswith("!"),
            frozenset(w for w in either if w[0] not in "@+"),
            frozenset(w[1:] for w in either if w[0] == "+"),
            frozenset(w[1:] for w in either if w[0] == "@"),
        ))  # fmt: skip
    return _Test(tuple(needs), action)


@cache
def _senses() -> dict[str, tuple[_Test, ...]]:
    out = {}
    for line in filter(None, SENSES.replace("\n   ", "").splitlines()):
        verb, _, rest = line.partition(":")
        tests = []
        for sense in rest.split(";"):
            condition, arrow, action = sense.rpartition(">")
            if arrow:
                tests.append(_test(condition.strip(), action.strip()))
        out[verb] = tuple(tests)
    return out


@cache
def verb_forms() -> dict[str, tuple[str, str]]:
    """Return {surface: (verb, form)}; where two verbs share a surface, the plain form wins."""
    out: dict[str, tuple[str, str]] = {}
    for verb in _senses():
        for surface, form in _forms(verb):
            if surface not in out or form == "base":
                out[surface] = (verb, form)
    for surface, known in list(out.items()):
        for prefix in ("re", "re-"):
            out.setdefault(prefix + surface, known)
    return out


def plain_action(verb: str) -> str | None:
    """Return what a verb means with nothing beside it, or None."""
    action = next((test.action for test in _senses()[verb] if not test.needs), None)
    return None if action is None or action.startswith("@") or action == "apply" else action


def _holds(test: _Test, around: _Around) -> bool:
    return all(
        wanted
        == (not words.isdisjoint(around.after) or around.right in right or not families.isdisjoint(around.families))
        for wanted, words, right, families in test.needs
    )


def _is_noun_here(words: NoteWords, i: int, end: int, form: str) -> bool:
    """Tell whether a word that may be a verb is a noun or an adjective where it stands."""
    before = words.lower[i - 1] if i else ""
    after = words.lower[end] if end < len(words.lower) else ""
    tag = words.tags[i]
    if after == "'d":
        return False
    if form == "ing":
        return before in _GERUND_NOT or after in _TOOLS or before in _DETERMINERS
    if form == "ed":
        if after in ("mix", "mixture") and before in _OPENERS:
            return True
        return before in _ARTICLES and after not in _AFTER_VERB and (tag != "VBD" or before in ("the", "a", "of"))
    if before == "it" and (i < 2 or words.lower[i - 2] not in ("let", "make", "leave", "have", "letting", "leaving")):
        return tag[:2] != "VB" or tag == "VB"
    if form == "base" and after == "of":
        return True
    if before in _SUBJECTS or (before in _OPENERS and (tag[0] == "V" or after in _OBJECTS)):
        return False
    return before in _DETERMINERS or after in _TOOLS or tag[0] != "V"


def _compound(lower: tuple[str, ...], i: int) -> tuple[str, int]:
    """Return the verb written in two words or with a hyphen from token i ("post - cure"), and its end."""
    if lower[i] not in _FIRST_HALVES or i + 1 >= len(lower):
        return lower[i], i + 1
    known, hyphen = verb_forms(), lower[i + 1] == "-"
    at = i + 2 if hyphen else i + 1
    if at < len(lower) and (hyphen or lower[i] == "post") and lower[i] + lower[at] in known:
        return lower[i] + lower[at], at + 1
    return lower[i], i + 1


def _candidates(words: NoteWords, found: Findings) -> list[tuple[int, int, str, str]]:
    """Return (token, end, verb, form) of the words that stand as verbs, outside of names and reasons."""
    known, out = verb_forms(), []
    told, seen = told_tokens(words, found), _seen(words, found)
    named = _tokens(found, "material")
    at = 0
    while at < len(words.lower):
        word, end = _compound(words.lower, at)
        hit = known.get(word)
        i, at = at, end
        if hit is None or i in told or (i in seen and i and words.lower[i - 1] not in _SAID_OF):
            continue
        verb, form = hit
        in_name = i in named and (not words.tags[i].startswith("V") or i - 1 in named or i + 1 in named)
        if in_name or (verb not in PLAIN_VERBS and _is_noun_here(words, i, end, form)):
            continue
        out.append((i, end, verb, form))
    return out


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


def applied(families: Iterable[str]) -> str | None:
    """Return what applying things of these families is called: "brush" for a gel coat, "laminate" for glass."""
    there = set(families)
    return next((action for family, action in APPLIED if family in there), None)


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the acts of a note, each with the token of its verb as `head`."""
    places = marks(words, found)
    at = [token for token, _ in places]
    verbs = _candidates(words, found)
    out = _numbered_pulls(words, found) + _labels(words)
    pulled = {item.start for item in out}
    swallowed = -1
    for n, (head, tail, verb, form) in enumerate(verbs):
        if n == swallowed or head in pulled or _is_no_act(words, found, head):
            continue
        governs = verb in _GOVERNING and n + 1 < len(verbs) and _governed(words, tail, verbs[n + 1])
        beyond = n + 1 + governs
        follows = verbs[beyond][0] if beyond < len(verbs) else len(words.lower)
        end = _end_of_reach(words, head, min(follows, head + 1 + _REACH * 2))
        begin = _start_of_reach(words, head, verbs[n - 1][1] if n else 0)
        near = places[bisect_left(at, begin) : bisect_right(at, end - 1)]
        around = _Around(
            frozenset(words.lower[tail : min(end, head + 1 + _REACH)]),
            words.lower[tail] if tail < end else "",
            frozenset(family for token, family in near if token >= tail or _may_look_back(words, head, form))
            | (_AT_START if _has_no_subject(words, begin, head) else _NOWHERE),
        )
        if out and form == "base" and _is_purpose(words, head, out[-1].end):
            continue
        action = next((test.action for test in _senses()[verb] if _holds(test, around)), None)
        if action == "apply":
            action = applied(around.families)
        if verb in _SEEING and form != "ed":
            action = None
        if action in ("demould", "cure") and form == "s" and verb not in ("come", "pop", "go"):
            action = None  # "demoulds in an hour" tells a time
        if action == "cure" and form == "ed" and words.lower[max(0, head - 1)] in _IS:
            action = "check"  # "the skin's cured" tells a state
        if action and not action.startswith("@"):
            swallowed = n + 1 if governs else -1
            out.append(Found("act", head, tail, ActSaid(action, head, form), f"acts.{verb}", 0.95))
    return sorted(_settled(words, found, out), key=lambda item: item.start)


def _settled(words: NoteWords, found: Findings, acts: list[Found]) -> list[Found]:
    """Return the acts without castings that only say when: "first casting, mixed a hundred grams"."""
    others = [act.start for act in acts if act.value.action not in ("pull", "demould", "check")]
    others += [amount.start for amount in found.of("amount") if amount.value.unit in ("g", "ml")]
    return [
        act for act in acts
        if act.rule != "acts.pull-order"
        or not any(act.start < at and STOPS.isdisjoint(words.lower[act.start : at]) for at in others)
    ]  # fmt: skip


def _has_no_subject(words: NoteWords, begin: int, head: int) -> bool:
    return _AUXILIARIES.issuperset(words.lower[begin:head]) or words.lower[head - 1] in (",", "and", "then", "but")


def _governed(words: NoteWords, tail: int, verb: tuple[int, int, str, str]) -> bool:
    """Tell whether a verb hangs on the one before it: "left it to CURE", "let it SOAK"."""
    head, _, _, form = verb
    between = words.lower[tail:head]
    return form in ("base", "ing") and len(between) <= 7 and "and" not in between and "," not in between


def _is_no_act(words: NoteWords, found: Findings, head: int) -> bool:
    """Tell whether the verb only says what a time is for ("four hours to cure") or what may be ("ready to demould")."""
    before = words.lower[max(0, head - 2) : head]
    if _is_subordinate(words, found, head):
        return True
    if before[-1:] == ("to",):
        if before[0] in ("ready", "able", "safe", "fit", "time", "enough", "good"):
            return not any(head < m.start < head + 8 for m in found.of("moment"))
        return bool(found.at("duration", head - 2))
    after = words.lower[head + 1 : head + 2]
    if words.lower[head] in ("did", "do", "does", "have", "has", "had") and after in (("n't",), ("not",)):
        return True
    if words.lower[head] == "testing" and (after in (("testing",), ("one",), (",",)) or "testing" in before):
        return True
    if after and after[0] in ("time", "times", "date", "day") and before[-1:] != ("to",):
        return True
    if words.lower[head] == "stuck" and found.at("observation", head):
        return True
    if words.lower[max(0, head - 3) : head] == ("had", "n't", "been"):
        return True
    near = words.lower[max(0, head - 7) : head]
    word = words.lower[head]
    if (
        before[-1:] == ("to",)
        and word in _HAPPENS
        and before[0] in ("starting", "beginning", "started", "just", "about")
    ):
        return True
    if word == "wait" and after == (",",) and (not before or before[-1] in STOPS):
        return True
    if {"reckon", "think"} & set(near[-4:]):
        return True
    if before[-1:] in (("door",), ("window",)) or (before[-1:] == ("to",) and before[0] in _FELT):
        return True
    if "nothing" in near[-4:] or (words.lower[head] in ("came", "comes", "come") and not _TOUCHING.isdisjoint(near)):
        return True
    return before[-1:] in (("nothing",), ("none",), ("anything",))


def _is_purpose(words: NoteWords, head: int, since: int) -> bool:
    """Tell whether a "to" before the verb says what the act before it was for: "ran a bead round TO SEAL it"."""
    before = words.lower[max(since, head - 4) : head]
    return before[-1:] == ("to",) and STOPS.isdisjoint(words.lower[since:head]) and _GOVERNORS.isdisjoint(before)


def _is_subordinate(words: NoteWords, found: Findings, head: int) -> bool:
    """Tell whether the verb only dates or limits another act: "before you drill it", "once the gel has cured"."""
    for i in range(head - 1, max(-1, head - 7), -1):
        word = words.lower[i]
        if word in _UNTIL or (word == "when" and i and words.lower[i - 1] == "from"):
            cue = found.at("cue", i)
            return cue is None or cue.end > head
        if word in _OPENERS or word in STOPS:
            return False
    return False


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


def _numbered_pulls(words: NoteWords, found: Findings) -> list[Found]:
    """Return the castings that are spoken of by number: "pull number one", "cast nine", "the ninth casting"."""
    out = []
    for number in found.of("number"):
        start, end = number.start, number.end
        if any(found.at(kind, start) for kind in ("amount", "condition", "duration", "moment")):
            continue
        named = start > 0 and words.lower[start - 1] in ("number", "no", "#", ".")
        if named:
            start -= 1 + (words.lower[start - 1] == "." and start > 1)
        for_it = start > 1 and words.lower[start - 2] == "for"
        if (
            start
            and words.lower[start - 1] in (CASTS if named else _CAST_NOUNS)
            and not number.value.ordinal
            and not for_it
        ):
            out.append(Found("act", start - 1, end, ActSaid("pull", start - 1), "acts.pull-number", 0.95))
        elif number.value.ordinal and words.lower[end : end + 1] and words.lower[end] in _CAST_NOUNS:
            out.append(Found("act", end, end + 1, ActSaid("pull", end), "acts.pull-order", 0.85))
    return out


def _may_look_back(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether the thing may stand before its verb: "the gel went on", "was brushed"."""
    return form != "base" and not (head and words.lower[head - 1] in ("i", "we", "and", "then", ",", "i've"))
