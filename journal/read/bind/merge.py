"""Decide whether a clause goes on with the act before it, or is an act of its own."""

from __future__ import annotations

from itertools import pairwise

from journal.read.asking_again import is_so_much_of_it
from journal.read.bind.draft import Draft
from journal.read.bind.infer import AGAIN
from journal.read.bind.told_facts import TOLD_TIMES, is_told_apart
from journal.read.families import ORDER
from journal.read.findings import NoteWords
from journal.read.segments import Clause

_UNDER_THE_BAG = frozenset({"vacuum bag", "bag", "peel ply", "bleeder cloth"})
_THEM = frozenset("it them that each i we".split())
_WITH_POT_LIFE = frozenset({"mix", "weigh", "pour", "thicken", "tint", "degas", "brush", "spray", "laminate"})
_SHOWING = frozenset({"demould", "pull", "check", "photograph"})
_HAVING = frozenset("has had 's got".split())
_THERE = frozenset("is was are were 's there".split())
_ITS = frozenset("it she he they that this all no nice came looks".split())
_EXPECTED = frozenset("should will 'll say says ought".split())
_OF_A_PULL = frozenset({"mix", "weigh", "laminate", "thicken", "tint"})
_ALIKE = frozenset("coat layer one finish end start".split())
COATED = frozenset({"brush", "spray", "release", "seal", "stipple", "pour"})
_LAYING = COATED | {"laminate"}


def _values(draft_or_clause: Draft | Clause, kind: str) -> set[str]:
    return {getattr(item.value, "text", str(item.value)) for item in draft_or_clause.of(kind)}


def clash(draft: Draft, clause: Clause) -> bool:
    """Tell whether the clause repeats what the draft has of its own: another place, clock or count."""
    if draft.action in ("release", "seal") and _other_agent(draft, clause):
        return True
    if draft.action == "pull" and _is_another_pull(draft, clause):
        return True
    if draft.action == "post-cure" and clause.act is None and _is_stage(draft) and _is_stage(clause):
        return True
    if clause.of("layer") and draft.of("layer") and clause.act is None:
        return False
    places, mine = _values(clause, "place"), _values(draft, "place")
    if places and mine and places.isdisjoint(mine):
        return bool(clause.of("layer") or clause.of("amount") or clause.act or clause.of("number"))
    return bool(clause.of("moment") and draft.of("moment") and clause.act)


def _is_another_pull(draft: Draft, clause: Clause) -> bool:
    """Tell whether another number is given to a casting: "cast one came out soft. Cast two is perfect"."""
    if clause.act is None or clause.act.rule != "acts.pull-number":
        return False
    given = [act for act in draft.acts if act.rule == "acts.pull-number"]
    mine = {item.value.low for item in draft.of("number") if any(a.start <= item.start <= a.end for a in given)}
    other = {n.value.low for n in clause.of("number") if clause.act.start <= n.start <= clause.act.end}
    return bool(mine and other and mine.isdisjoint(other))


def _is_stage(draft_or_clause: Draft | Clause) -> bool:
    """Tell whether a time at a heat is told: a stage of a post-cure."""
    heats = [item for item in draft_or_clause.of("condition") if item.value.kind == "temperature"]
    return bool(heats and draft_or_clause.of("duration"))


_OWN = ("material", "amount", "layer", "ratio", "moment", "duration")


def _adds_nothing(clause: Clause, but: str = "") -> bool:
    """Tell whether the clause only says more about the act before it: "it came off clean"; facts `but` count not."""
    return not any(clause.of(kind) for kind in _OWN if kind != but)


def _other_agent(draft: Draft, clause: Clause) -> bool:
    """Tell whether another release agent or sealer is named: "five coats of wax, then PVA" are two acts."""
    mine, other = _values_of_names(draft), _values_of_names(clause)
    return bool(mine and other and mine.isdisjoint(other))


def _values_of_names(draft_or_clause: Draft | Clause) -> set[str]:
    names = {item.value.name for item in draft_or_clause.of("material")}
    return {name for name in names | {x.value.name for x in draft_or_clause.of("layer")} if name}


def _is_dug_out(words: NoteWords, draft: Draft) -> bool:
    """Tell whether a fault was ground or cut out, to be patched: "ground that out and patched it"."""
    after = words.lower[draft.acts[-1].end : draft.acts[-1].end + 3] if draft.acts else ()
    return draft.rule in ("acts.grind", "acts.cut") and "out" in after


def merged_action(words: NoteWords, draft: Draft, clause: Clause, action: str) -> str | None:
    """Return the act of the draft and a clause together, or None when they are two acts."""
    if draft.action == action:
        return action if _goes_on(draft, clause, action) else None
    if AGAIN in (draft.action, action):
        told = clause.act is None and draft.of("amount")
        apart = told and is_so_much_of_it(words.lower[clause.start : clause.end])
        return None if apart else _with_again(draft, clause, action)
    if {draft.action, action} == {"weigh", "mix"}:
        return _weigh_and_mix(draft, clause, action)
    if action == "check" and clause.act is None:
        return draft.action if _is_its_outcome(words, draft, clause) else None
    return _one_breath(words, draft, clause, action) or _half_said(draft, clause, action)


def _goes_on(draft: Draft, clause: Clause, action: str) -> bool:
    both_said = clause.act is not None and draft.said
    if both_said and clause.act and clause.act.rule == "acts.use" and not draft.of("amount"):
        return True  # "Laid two layers of mat. Used three kilos of resin"
    if action == "demould" and both_said and _adds_nothing(clause, but="material"):
        return True  # "got it out this morning. The rubber peeled off lovely"
    if action == "mix" and both_said and draft.sentence != clause.sentence and draft.of("amount"):
        return not clause.of("moment") and _adds_nothing(clause, but="duration")  # "stirred it for three minutes"
    return draft.sentence == clause.sentence or not both_said or action == "check" or _adds_nothing(clause)


def _is_its_outcome(words: NoteWords, draft: Draft, clause: Clause) -> bool:
    """Tell whether a fact told after an act belongs to it: not how long it took to gel or to tack."""
    same_sentence = draft.sentence == clause.sentence
    hints = {item.value.hint for item in clause.of("duration")}
    if "pot life" in hints:
        return draft.action in _WITH_POT_LIFE
    span = words.lower[clause.start : clause.end]
    if hints and (hints & {"gel", "tack"} or is_told_apart(span)):
        return same_sentence and not _EXPECTED.isdisjoint(span)
    if _is_found(draft, clause, span) or (not same_sentence and clause.of("moment") and clause.of("observation")):
        return False
    return same_sentence or (not hints & TOLD_TIMES and clause.status == draft.status)


def _is_found(draft: Draft, clause: Clause, span: tuple[str, ...]) -> bool:
    """Tell whether a fault of its own is told, not how the act before came out: "there's a chip out of the lip"."""
    faults = [item for item in clause.of("observation") if item.value.kind not in ("good", "other")]
    if draft.action in _SHOWING or not faults:
        return False
    if draft.sentence != clause.sentence and faults[0].start - clause.start <= 1:
        return True  # "Bagged up. Small leak by the stern"
    if span[0] == "there" or (span[0] not in _ITS and not _HAVING.isdisjoint(span[1:5])):
        return True
    after = faults[0].end - clause.start
    return faults[0].start - clause.start <= 1 and not _THERE.isdisjoint(span[after : after + 2])


def _one_breath(words: NoteWords, draft: Draft, clause: Clause, action: str) -> str | None:
    """Two words for one act within a sentence: a pull that came out, a fault cut out and patched."""
    pair, same_sentence = {draft.action, action}, draft.sentence == clause.sentence
    if pair == {"pull", "demould"}:
        return "pull" if same_sentence or _adds_nothing(clause) else None
    if not same_sentence:
        return "press" if _is_bagging(draft, pair) and _values_of_names(draft) & _UNDER_THE_BAG else None
    if draft.action == "pull" and clause.act is None and action in _OF_A_PULL:
        return "pull"  # "first cast in gypsum, 100 to 50 by weight, a layer of mat inside"
    if draft.action == "release" and clause.act and clause.act.rule == "acts.wipe" and _is_wiped_off(words, clause):
        return "release"
    if draft.action == "laminate" and action == "wet out" and _is_participle(words, clause):
        return "laminate"
    if action == "repair" and draft.said and _is_dug_out(words, draft):
        return "repair"
    return "press" if _is_bagging(draft, pair) else None


def _is_wiped_off(words: NoteWords, clause: Clause) -> bool:
    """Tell whether a release agent was only wiped thin: "a rub of petroleum jelly, wiped nearly off"."""
    return _adds_nothing(clause) and not {"off", "back", "thin"}.isdisjoint(words.lower[clause.start : clause.end])


def _is_bagging(draft: Draft, pair: set[str]) -> bool:
    """Tell whether peel ply and bleeder were named before the bag that they go down with."""
    return pair == {"laminate", "press"} and not draft.said and not draft.of("layer")


def _half_said(draft: Draft, clause: Clause, action: str) -> str | None:
    """An act by its verb, and the same by its things: "brushed on" with "two coats of wax"."""
    said, pair = clause.act is not None, {draft.action, action}
    if said and draft.said:
        return None
    if pair <= COATED:
        special = pair & {"release", "seal"}
        if len(special) > 1:
            return None  # "sealed it. Then petroleum jelly on the undercuts"
        return next(iter(special)) if special else action if said else draft.action
    if pair == {"cure", "post-cure"} and draft.said:
        own = draft.of("duration") and clause.of("duration")
        return None if own or any(item.value.hint == "post-cure" for item in clause.of("duration")) else draft.action
    return "cure" if pair == {"cure", "wait"} else None


def _with_again(draft: Draft, clause: Clause, action: str) -> str | None:
    """ "Same again" beside another act: one with a mix or layers, two with anything else."""
    said = clause.act is not None
    other = action if draft.action == AGAIN else draft.action
    if other == "laminate" and draft.sentence != clause.sentence:
        return None  # "Same mix again. Two layers of the 450 mat"
    if other == "check":
        return None  # "tacky in fifty minutes. Second lot, same again"
    if said and other not in ("mix", "weigh", "laminate"):
        return None
    return other if said or draft.said or other == "mix" else AGAIN


def _is_participle(words: NoteWords, clause: Clause) -> bool:
    """Tell whether "wet out" only describes the layers: "..., all wet out with the epoxy", not "wet it out"."""
    act = clause.act
    if act is None or not _THEM.isdisjoint(words.lower[max(clause.start, act.start - 2) : act.start + 3]):
        return False
    return act.start - clause.start <= 2


def _weigh_and_mix(draft: Draft, clause: Clause, action: str) -> str | None:
    """Weights with a mixing verb are one mix; "weighed it and mixed it" are two acts."""
    both_said = clause.act is not None and draft.said
    if both_said and draft.rule in ("acts.get", "acts.have", "acts.put"):
        return "mix"
    if both_said:
        catalysed = clause.act is not None and clause.act.rule in ("acts.catalyse", "acts.catalyze")
        bare = not draft.of("amount") and draft.sentence == clause.sentence
        return "mix" if catalysed or bare else None
    return action if clause.act is not None else draft.action if draft.said else "mix"


def is_nameless_coat(clause: Clause, before: Draft | None = None) -> bool:
    """Tell whether the clause has coats of what was named before: "then two wet coats"."""
    known = {None} | ({item.value.name for item in before.of("material")} if before else set())
    return bool(clause.of("layer")) and all(item.value.name in known for item in clause.of("layer"))


def is_another_to_come(current: Draft, clause: Clause) -> bool:
    """Tell whether the clause counts more of the act before, still to come: "..., another two on Monday"."""
    counted = bool(clause.of("number")) and current.action in _LAYING
    return counted and clause.status == "planned" and current.status == "done" and not clause.of("amount")


def is_done_elsewhere(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether the act before was done to another thing at another time: "lifted the case at eight AND THE LATEX
    AT TEN"."""
    if not current.said or current.action in ("check", "wait", "cure", "post-cure") or not clause.of("moment"):
        return False
    at = clause.of("moment")[0].start
    nouns = [words.lower[i] for i in range(clause.start, at) if words.tags[i] in ("NN", "NNS", "NNP")]
    named = bool(clause.of("place")) or any(noun not in _ALIKE for noun in nouns)
    joined = words.lower[clause.start] in (",", "and") and clause.act is None
    return joined and named and bool(current.of("moment"))


def is_the_next_one(words: NoteWords, before: Draft, clause: Clause) -> bool:
    """Tell whether one more of the coats before is to come: "first coat is on. SECOND ONE in fifteen minutes"."""
    planned = clause.status == "planned" and before.status == "done" and bool(before.of("layer"))
    one = any(two == "one" and first in ORDER for first, two in pairwise(words.lower[clause.start : clause.end]))
    return planned and one and before.action in COATED | {"laminate"}
