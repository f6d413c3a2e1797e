"""The verbs of the trade in all their forms, and what each means by what stands beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from journal.read.acts_patterns import APPLIED, IRREGULAR
from journal.read.verbs import SENSES

_PLURALS = frozenset(
    "keys walls dams fences shims pins pegs bolts screws patches plugs bags boxes tapes films dice".split()
)
_SURFACE = frozenset({"release", "seal"})
_VOWELS = "aeiou"


@dataclass(frozen=True, slots=True)
class _Need:
    """One condition: words after the verb, right after it, families around it, or of the first thing after it."""

    wanted: bool
    words: frozenset[str]
    right: frozenset[str]
    families: frozenset[str]
    first: frozenset[str]

    def met(self, around: Around) -> bool:
        """Tell whether the condition holds among what stands around a verb."""
        return self.wanted == (
            not self.words.isdisjoint(around.after)
            or around.right in self.right
            or not self.families.isdisjoint(around.families)
            or not self.first.isdisjoint(around.first)
        )


@dataclass(frozen=True, slots=True)
class _Test:
    """One way a verb is meant: words and families that must be there, and the act it then is."""

    needs: tuple[_Need, ...]
    action: str


class Around(NamedTuple):
    """What stands around a verb: the words after it, the word right after it, families after and before.

    `first` are the families of the first thing named after it.
    """

    after: frozenset[str]
    right: str
    families: frozenset[str]
    first: frozenset[str] = frozenset()


def forms_of(verb: str) -> Iterator[tuple[str, str]]:
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
        form = "ing" if irregular.endswith("ing") else "s" if irregular in ("does", "goes", "has") else "ed"
        yield irregular, form


def _test(condition: str, action: str) -> _Test:
    needs = []
    for part in filter(None, (piece.strip() for piece in condition.split("&"))):
        either = part.lstrip("!").split("|")
        words, right, families, first = (
            frozenset(w.lstrip("+@=") for w in either if (w[0] if w[0] in "+@=" else "") == mark)
            for mark in ("", "+", "@", "=")
        )
        needs.append(_Need(not part.startswith("!"), words, right, families, first))
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
    undoubled: dict[str, tuple[str, str]] = {}
    for verb in _senses():
        every = list(forms_of(verb))
        surfaces = {surface for surface, _ in every}
        for surface, form in every:
            if surface in _PLURALS:
                continue
            if form in ("ed", "ing") and verb + verb[-1] + form in surfaces and surface == verb + form:
                undoubled.setdefault(surface, (verb, form))  # "taped" is of "tape", and of "tap" only if misspelt
            elif surface not in out or form == "base":
                out[surface] = (verb, form)
    out = undoubled | out
    for surface, known in list(out.items()):
        for prefix in ("re", "re-"):
            out.setdefault(prefix + surface, known)
    return out


def plain_action(verb: str) -> str | None:
    """Return what a verb means with nothing beside it, or None."""
    action = next((test.action for test in _senses()[verb] if not test.needs), None)
    return None if action is None or action.startswith("@") or action == "apply" else action


def _holds(test: _Test, around: Around) -> bool:
    return all(need.met(around) for need in test.needs)


def applied(families: Iterable[str]) -> str | None:
    """Return what applying things of these families is called: "brush" for a gel coat, "laminate" for glass."""
    there = set(families)
    return next((action for family, action in APPLIED if family in there), None)


def meaning(verb: str, around: Around) -> str | None:
    """Return the act that a verb means among these words, or None when it is none of the trade."""
    action = next((test.action for test in _senses()[verb] if _holds(test, around)), None)
    if action == "apply":
        action = applied(around.first & _SURFACE) or applied(around.families)
    return None if action is None or action.startswith("@") else action
