"""Group the clauses of a note into drafts: the clauses of one act each, with what the act is."""

from __future__ import annotations

from itertools import pairwise

from journal.read.bind.adding import only_adds, repeats_layer
from journal.read.bind.draft import Draft
from journal.read.bind.infer import AGAIN, infer
from journal.read.bind.merge import (
    COATED,
    clash,
    is_another_to_come,
    is_done_elsewhere,
    is_nameless_coat,
    is_the_next_one,
    merged_action,
)
from journal.read.bind.told_facts import is_told_apart
from journal.read.findings import Found, NoteWords
from journal.read.segments import Clause

_FORBIDDING = frozenset("never not n't".split())
_PUTTING = frozenset(f"acts.{verb}" for verb in "go do put get give slap stick chuck sling whack bang".split())
_CONSUMED = frozenset("took ate used drank swallowed needed wanted takes drinks".split())
_BATCHING = frozenset("mix weigh thicken tint degas".split())
_CORRECTING = frozenset("no nope sorry wait actually i mean make that er um".split())
_MOST = frozenset("most max maximum".split())
_BETWEEN_COATS = frozenset({"wait", "cure", "check"})
_TAKING_RESIN = frozenset({"laminate", "roll", "wet out"})
_ADDING = frozenset({"acts.add", "acts.put", "acts.use", "acts.skip", "acts.forget", "acts.omit"})

__all__ = ["AGAIN", "Draft", "group"]


def group(words: NoteWords, clauses: list[Clause]) -> list[Draft]:
    """Return the note's drafts in order. Clauses that name no act go with the act beside them."""
    grouping = _Grouping(words, clauses)
    for i, clause in enumerate(clauses):
        grouping.take(i, clause)
    return grouping.finished()


class _Grouping:
    """The drafts so far, and the clauses that wait for the act they belong to."""

    def __init__(self, words: NoteWords, clauses: list[Clause]) -> None:
        self._words = words
        self._clauses = clauses
        self._drafts: list[Draft] = []
        self._waiting: list[Clause] = []
        self._last_act = {clause.sentence: i for i, clause in enumerate(clauses) if clause.act}

    def take(self, i: int, clause: Clause) -> None:
        """Put the i-th clause where it belongs."""
        current = self._drafts[-1] if self._drafts else None
        same = current is not None and current.sentence == clause.sentence
        action = self._action(i, current if same else None)
        if current is not None and same and repeats_layer(self._words, current, clause):
            current.repeats.append(clause.of("number")[0])
            current.clauses.append(clause)
        elif action is None and current is not None and same and is_done_elsewhere(self._words, current, clause):
            self._open(clause, current.action)
        elif action is None:
            self._take_factless(i, clause, current)
        elif action == "check" and current is None and self._leads_in(i, clause):
            self._waiting.append(clause)
        elif current is not None and (merged := self._merged(current, clause, action)):
            current.action, current.said = merged, current.said or clause.act is not None
            self._give(current, clause)
        else:
            self._open(clause, action)

    def _leads_in(self, i: int, clause: Clause) -> bool:
        """Tell whether a fact goes with the act after it in its sentence: not how long something took to gel."""
        apart = clause.of("duration") and is_told_apart(self._words.lower[clause.start : clause.end])
        near = i < self._last_act.get(clause.sentence, -1)
        return clause.act is None and not apart and near

    def _action(self, i: int, current: Draft | None) -> str | None:
        clause = self._clauses[i]
        if clause.act is not None and not (clause.act.rule == "acts.touch" and clause.of("warning")):
            return self._said_act(clause)
        if current is not None and only_adds(self._words, current, clause):
            return None
        added = _is_of_none(self._words, clause) or self._is_put_right(i) or _is_used_up(self._words, clause)
        if current is not None and added:
            return current.action
        before = self._act_before()
        if before and before.action in ("post-cure", "cure") and _is_due(self._words, clause):
            return None if current is not None else before.action
        if before and is_the_next_one(self._words, before, clause):
            return before.action
        action = infer(self._words, clause)
        ruled = clause.of("warning") or (clause.status == "advised" and action is None)
        if before and action in (None, "check") and ruled and self._is_of_the_act_before(clause):
            return before.action
        if before and action == "brush" and before.action in COATED and is_nameless_coat(clause):
            return before.action
        return action or self._of_the_sentence(clause, current)

    def _said_act(self, clause: Clause) -> str:
        """Return the act of a clause by its verb; more coats of what was put on before are the same act again."""
        action, before = str(clause.act.value.action) if clause.act else "", self._act_before()
        if before and before.action in _TAKING_RESIN and _is_what_it_took(before, clause, action):
            return before.action  # "Used three kilos of resin with forty grams of catalyst"
        again = clause.act is not None and clause.act.rule in _PUTTING and not clause.of("material")
        before = next((d for d in reversed(self._drafts) if d.action not in _BETWEEN_COATS), None)
        nameless = is_nameless_coat(clause, before)
        nameless = nameless or (before is not None and bool(before.of("layer")) and not clause.of("layer"))
        coated = COATED | {"laminate"} if not clause.of("layer") else COATED
        if again and action == "brush" and before and before.action in coated and nameless:
            return before.action  # "a third coat's going on at eleven", "I'll do the second one after lunch"
        return action

    def _of_the_sentence(self, clause: Clause, current: Draft | None) -> str | None:
        """Return the act of a clause that names none, by what else its sentence tells, or None."""
        advised = current is not None and current.status == "advised" == clause.status
        warned = clause.of("warning") and not _FORBIDDING.isdisjoint(self._words.lower[clause.start : clause.end])
        if current is not None and (advised or warned):
            return current.action  # "roll it slow, and don't mash it", "brushed it on hey never go thicker"
        if current is not None and is_another_to_come(current, clause):
            return current.action
        if self._waiting and self._waiting[-1].sentence == clause.sentence:
            return infer(self._words, _together([*self._waiting, clause]))
        return None

    def _is_put_right(self, i: int) -> bool:
        """Tell whether the clause only corrects the one before: "used three, no, three and a half pounds of it"."""
        said = self._clauses[i - 1] if i else None
        words = set(self._words.lower[said.start : said.end]) - {","} if said is not None else set()
        return bool(words) and words <= _CORRECTING

    def _is_of_the_act_before(self, clause: Clause) -> bool:
        """Tell whether a warning without an act opens a sentence of its own: "Stirred it. Never whip it"."""
        alone = not any(c.act for c in self._clauses if c.sentence == clause.sentence and c is not clause)
        before = self._act_before()
        return alone and before is not None and before.sentence != clause.sentence

    def _act_before(self) -> Draft | None:
        """Return the last act, past the facts told after it."""
        return next((draft for draft in reversed(self._drafts) if draft.said or draft.action != "check"), None)

    def _take_factless(self, i: int, clause: Clause, current: Draft | None) -> None:
        near = current is not None and current.sentence == clause.sentence
        if current is not None and (near or i >= self._last_act.get(clause.sentence, -1)):
            current.clauses.append(clause)
            if (
                clause.status == "planned"
                and not current.said
                and current.action != "check"
                and current.status == "done"
            ):
                current.status = "planned"
        else:
            self._waiting.append(clause)

    def _merged(self, current: Draft, clause: Clause, action: str) -> str | None:
        if current.action == action == "check" and clause.act is None and current.sentence == clause.sentence:
            return action
        if self._stands_apart(current, clause, action) or clash(current, clause):
            return None
        return merged_action(self._words, current, clause, action)

    def _stands_apart(self, current: Draft, clause: Clause, action: str) -> bool:
        """Tell whether the clause is of another status than the draft, so that it is an act of its own."""
        if clause.status == current.status:
            return False
        own = clause.status in ("not done", "advised") or bool(clause.of("warning"))
        own = own or is_another_to_come(current, clause)
        own = own or (current.status == "not done" and bool(clause.of("layer") or clause.of("amount")))
        return clause.act is not None or (own and action != "check") or _is_of_none(self._words, clause)

    def _open(self, clause: Clause, action: str) -> None:
        if any(c.of("observation") for c in self._waiting) and not self._leads_to(clause):
            self._drafts.append(_facts_only(self._waiting))
            self._waiting = []
        rule = clause.act.rule if clause.act else f"acts.inferred-{action.replace(' ', '-')}"
        said = clause.act is not None
        status = "done" if action == "check" and not said else clause.status
        if not said and action != "check" and (clause.of("warning") or _is_limit(self._words, clause)):
            status = "advised"
        if not said and status == "done" and any(waiting.status == "planned" for waiting in self._waiting):
            status = "planned"
        if status == "not done" and rule in _ADDING and action in ("tint", "thicken"):
            action = "mix"  # an additive left out is left out of the mix
        draft = Draft(action, status, [], said, rule, 0.95 if said else 0.8)
        self._drafts.append(draft)
        self._give(draft, clause)

    def _leads_to(self, clause: Clause) -> bool:
        """Tell whether what waits only names what the act was done to: "chip in the tail, filled"."""
        bare = self._words.lower[clause.start : clause.start + 2]
        near = all(waiting.sentence == clause.sentence for waiting in self._waiting)
        return near and clause.act is not None and clause.act.start <= clause.start + 1 and bare[:1] == (",",)

    def _give(self, draft: Draft, clause: Clause) -> None:
        draft.clauses += [*self._waiting, clause]
        self._waiting = []
        if clause.act:
            draft.acts.append(clause.act)

    def _take_together(self, clauses: list[Clause]) -> None:
        """Open the batch that only the clauses of a sentence together name: "fresh pot, 300 and 84"."""
        action = infer(self._words, _together(clauses))
        if action in ("mix", "weigh"):
            self._waiting = [clause for clause in self._waiting if clause not in clauses]
            self._open(clauses[0], action)
            self._drafts[-1].clauses += clauses[1:]

    def finished(self) -> list[Draft]:
        """Return the drafts, those without a verb named anew by all their facts together."""
        told = self._waiting and self._waiting[-1].sentence
        if self._waiting and not (self._drafts and self._drafts[-1].sentence == told):
            self._take_together([clause for clause in self._waiting if clause.sentence == told])
        if self._waiting and self._drafts:
            self._drafts[-1].clauses += self._waiting
        elif any(c.of(kind) for c in self._waiting for kind in ("condition", "observation", "warning", "lot")):
            self._drafts.append(_facts_only(self._waiting))
        if _only_heads(self._drafts):
            del self._drafts[0]
        _lay_coats(self._drafts)
        for draft in self._drafts:
            if not draft.said and draft.action == "weigh":
                draft.action = infer(self._words, _together(draft.clauses)) or draft.action
        return self._drafts


def _is_due(words: NoteWords, clause: Clause) -> bool:
    """Tell whether it is told when what cures is done: "it's due out at half five"."""
    due = ("due", "out") in pairwise(words.lower[clause.start : clause.end])
    return due and bool(clause.of("moment")) and not clause.of("material")


def _is_what_it_took(before: Draft, clause: Clause, action: str) -> bool:
    """Tell whether it is told what an act before used, of which nothing was weighed yet."""
    used = clause.act is not None and clause.act.rule == "acts.use" and action in ("mix", "laminate")
    return used and not before.of("amount") and bool(clause.of("amount")) and clause.status == before.status


def _only_heads(drafts: list[Draft]) -> bool:
    """Tell whether the first act is told in full after it: "Gel coat is on. I mixed 600 grams and brushed it on"."""
    first = drafts[0] if len(drafts) > 1 else None
    if first is None or first.said or first.action == "check" or len(first.clauses) > 1 or first.status != "done":
        return False
    bare = not any(first.of(kind) for kind in first.clauses[0].facts if kind not in ("material", "who"))
    return bare and any(draft.said and draft.action == first.action for draft in drafts[2:])


def _lay_coats(drafts: list[Draft]) -> None:
    """Give the coats that a batch was said to be for to the act that lays them: "second coat mixed, brushing it on"."""
    for batch, laying in pairwise(drafts):
        if batch.action not in _BATCHING or laying.action not in COATED or laying.of("layer"):
            continue
        for clause in batch.clauses:
            coats = [item for item in clause.of("layer") if item.value.coat]
            if coats:
                clause.facts["layer"] = [item for item in clause.of("layer") if not item.value.coat]
                laying.clauses[0].facts.setdefault("layer", []).extend(coats)


def _together(clauses: list[Clause]) -> Clause:
    """Return several clauses as one."""
    facts: dict[str, list[Found]] = {}
    for clause in clauses:
        for kind, items in clause.facts.items():
            facts.setdefault(kind, []).extend(items)
    first, last = clauses[0], clauses[-1]
    return Clause(first.start, last.end, last.sentence, None, last.status, facts)


def _is_limit(words: NoteWords, clause: Clause) -> bool:
    """Tell whether the clause only sets a limit between coats: "no more than eight hours between coats"."""
    if clause.act is not None:
        return False
    if clause.of("amount") and not _MOST.isdisjoint(words.lower[clause.start : clause.end]):
        return True
    return any(a.value.bound == "most" for a in clause.of("amount")) or any(
        d.value.hint == "wait" and d.value.least == 0 for d in clause.of("duration")
    )


def _is_used_up(words: NoteWords, clause: Clause) -> bool:
    """Tell whether it is said what the act before took of a material: "it took a kilo and a half of resin"."""
    span = [word for word in words.lower[clause.start : clause.end] if word not in (",", "and", "but", "all", "so")]
    used = len(span) > 2 and span[0] in ("it", "that", "they", "she") and span[1] in _CONSUMED
    return used and any(item.value.unit in ("g", "ml") for item in clause.of("amount"))


def _is_of_none(words: NoteWords, clause: Clause) -> bool:
    """Tell whether the act before was not done elsewhere: "two on the bottom, none on the transom"."""
    first = next((word for word in words.lower[clause.start : clause.end] if word not in (",", "and", "but")), "")
    return first == "none" and clause.act is None and clause.status == "not done"


def _facts_only(clauses: list[Clause]) -> Draft:
    warned = any(c.of("warning") for c in clauses) and not any(c.of("condition") for c in clauses)
    return Draft("check", "advised" if warned else "done", clauses, False, "acts.facts-only", 0.8)
