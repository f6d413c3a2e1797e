"""Find the acts of the trade: which words of a note say that something is, was or will be done."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from journal.read.acts_patterns import APPLIED, DUAL, IRREGULAR, SENSES
from journal.read.families import marks
from journal.read.findings import ActSaid, Findings, Found, NoteWords

STOPS = frozenset(".!?;\n")
_REACH = 9
_VOWELS = "aeiou"
_DETERMINERS = frozenset(
    "a an the this that these those my our your his her its their some any no each every another first second third "
    "fourth fifth last next final one two three four five six other same of with for in on from by per light thin "
    "thick quick good full single final extra fresh new old whole half few more splash mixed gel wax top".split()
)
_SUBJECTS = frozenset("i we you they to will 'll ’ll should must can could would shall let's not n't n’t never always usually "
                      "na just please normally generally lets ta dont didnt wo ca".split())  # fmt: skip
_OPENERS = frozenset("then and , so now next right ok okay but also - – : ; . ! ? or".split())
_TOOLS = frozenset(
    "pot pots cup cups bucket buckets tub tubs stick sticks paddle table block blocks paper disc discs pad pad pen agent "
    "agents brush brushes gun mop wheel line lines time bit bits mark marks ratio point rate tank room area".split()
)
_GERUND_AFTER = frozenset("'m 's 're am is are was were be been start started starting begin began finish finished finishing "
                          "keep kept stop stopped done still now just busy ’m ’s ’re then and".split())  # fmt: skip
_GERUND_NOT = frozenset("before after when while for of without by from than with on in about until till since".split())


@dataclass(frozen=True, slots=True)
class _Test:
    """One way a verb is meant: words and families that must be there, and the act it then is."""

    needs: tuple[tuple[frozenset[str], frozenset[str], frozenset[str]], ...]
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
        either = part.split("|")
        needs.append((
            frozenset(w for w in either if w[0] not in "@+"),
            frozenset(w[1:] for w in either if w[0] == "+"),
            frozenset(w[1:] for w in either if w[0] == "@"),
        ))  # fmt: skip
    return _Test(tuple(needs), action)


@cache
def _senses() -> dict[str, tuple[_Test, ...]]:
    out = {}
    for line in filter(None, SENSES.splitlines()):
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


def _holds(test: _Test, around: _Around) -> bool:
    return all(
        not words.isdisjoint(around.after) or around.right in right or not families.isdisjoint(around.families)
        for words, right, families in test.needs
    )


def _is_noun_here(words: NoteWords, i: int, form: str) -> bool:
    """Tell whether a word that may be a verb is a noun or an adjective where it stands."""
    before = words.lower[i - 1] if i else ""
    after = words.lower[i + 1] if i + 1 < len(words.lower) else ""
    tag = words.tags[i]
    if form == "ing":
        return before in _GERUND_NOT or after in _TOOLS or (before in _DETERMINERS and tag != "VBG")
    if form == "ed":
        return (before in _DETERMINERS and words.tags[i + 1 : i + 2] and words.tags[i + 1][0] == "N" and tag != "VBD") \
            or (before in ("the", "a", "of", "with") and tag in ("JJ", "VBN", "VBD") and after not in (",", "."))  # fmt: skip
    if before in _SUBJECTS or (before in _OPENERS | {""} and tag[0] == "V"):
        return False
    if before in _DETERMINERS or after in _TOOLS:
        return True
    return not tag.startswith("V")


def _candidates(words: NoteWords, found: Findings) -> list[tuple[int, str, str]]:
    """Return (token, verb, form) of the words that stand as verbs, outside of names of materials."""
    known, out = verb_forms(), []
    for i, word in enumerate(words.lower):
        hit = known.get(word)
        if hit is None:
            continue
        verb, form = hit
        if verb in DUAL or form in ("ed", "ing"):
            if _is_noun_here(words, i, form):
                continue
            if form in ("base", "s") and found.at("material", i) and not words.tags[i].startswith("V"):
                continue
        out.append((i, verb, form))
    return out


def _end_of_reach(words: NoteWords, head: int, limit: int) -> int:
    for i in range(head + 1, limit):
        if words.lower[i] in STOPS:
            return i
    return limit


def _start_of_reach(words: NoteWords, head: int, limit: int) -> int:
    for i in range(head - 1, limit, -1):
        if words.lower[i] in STOPS:
            return i + 1
    return limit


def applied(families: Iterable[str]) -> str | None:
    """Return what applying things of these families is called: "brush" for a gel coat, "laminate" for glass."""
    there = set(families)
    return next((action for family, action in APPLIED if family in there), None)


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the acts of a note, each with the token of its verb as `head`."""
    places = marks(words, found)
    at = [token for token, _ in places]
    verbs = _candidates(words, found)
    out = []
    for n, (head, verb, form) in enumerate(verbs):
        follows = verbs[n + 1][0] if n + 1 < len(verbs) else len(words.lower)
        end = _end_of_reach(words, head, min(follows, head + 1 + _REACH * 2))
        begin = _start_of_reach(words, head, verbs[n - 1][0] + 1 if n else -1)
        near = places[bisect_left(at, begin) : bisect_right(at, end - 1)]
        around = _Around(
            frozenset(words.lower[head + 1 : min(end, head + 1 + _REACH)]),
            words.lower[head + 1] if head + 1 < end else "",
            frozenset(family for token, family in near if token > head or _may_look_back(words, head, form)),
        )
        action = next((test.action for test in _senses()[verb] if _holds(test, around)), None)
        if action == "apply":
            action = applied(around.families)
        if action and not action.startswith("@"):
            out.append(Found("act", head, head + 1, ActSaid(action, head), f"acts.{verb}", 0.95))
    return out


def _may_look_back(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether the thing may stand before its verb: "the gel went on", "was brushed"."""
    return form != "base" and not (head and words.lower[head - 1] in ("i", "we", "and", "then", ",", "i've"))
