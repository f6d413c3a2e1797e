"""Drop what only says when, which or how: "first casting, mixed a hundred grams", "had a good look under the lamp"."""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.grammar import STOPS

_HEADING, _WHAT_IS_POURED = 3, 3
_OBJECT = 4
_OF_A_THING = frozenset({"DT", "PRP$", "CD", "JJ", "NN", "NNS", "NNP"})
_LOOKING = frozenset({"check", "photograph"})


def settled(words: NoteWords, found: Findings, acts: list[Found]) -> list[Found]:
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
                or (said == "pour" and act.start - out[-1].end <= _WHAT_IS_POURED)
                or _is_heading(words, found, act)
                or any(act.start < at and _in_one_breath(words, act.start, at) for at in others)
            ):
                continue
        elif act.rule == "acts.saying" and not act.value.form and _is_how(words, out, act, said):
            continue
        out.append(act)
    return out


def _is_how(words: NoteWords, acts: list[Found], act: Found, said: str) -> bool:
    """Tell whether a saying without a verb only says how, or to what, the act before it was done."""
    return (act.value.action == "cure" and said in _LOOKING) or _is_its_object(words, acts, act)


def _is_its_object(words: NoteWords, acts: list[Found], act: Found) -> bool:
    """Tell whether a saying without a verb names what the verb before it is done to: "drilled the bolt HOLES AT"."""
    if not acts or acts[-1].value.action != act.value.action:
        return False
    between = words.tags[acts[-1].end : act.start]
    return acts[-1].rule != act.rule and len(between) <= _OBJECT and _OF_A_THING.issuperset(between)


def _is_heading(words: NoteWords, found: Findings, act: Found) -> bool:
    """Tell whether a casting is only announced: "First cast. Mixed ten kilos of plaster ..."."""
    start = max((i + 1 for i in range(act.start) if words.lower[i] in STOPS), default=0)
    end = next((i for i in range(act.end, len(words.lower)) if words.lower[i] in STOPS), len(words.lower))
    weighed = any(amount.start > end and amount.value.unit in ("g", "ml") for amount in found.of("amount"))
    return end - start <= _HEADING and weighed


def _in_one_breath(words: NoteWords, start: int, end: int) -> bool:
    return STOPS.isdisjoint(words.lower[start:end])
