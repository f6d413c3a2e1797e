"""Group the clauses of a note into drafts: the clauses of one act each, with what the act is."""

from __future__ import annotations

from dataclasses import dataclass, field

from journal.read.acts import applied, plain_action, verb_forms
from journal.read.acts_patterns import NOUNS
from journal.read.families import MAIN, WORDS, family_of
from journal.read.findings import Found, NoteWords, TermHeard
from journal.read.recall import copies
from journal.read.segments import Clause
from journal.record import Status

_WEIGHTS = frozenset({"g", "ml"})
_COATED = frozenset({"brush", "spray", "release", "seal", "stipple", "pour"})
_BATCH = frozenset("mix batch brew pot gel".split())
_MORE = frozenset("another second third next last new first same more final".split())
_EMPTY_VERBS = frozenset(
    "is 's are 're was were did done do does start started finish finished begin began have has got 've be been go goes "
    "went going on needs need forgot taken had came 'm 'll here".split()
)
_STATES = frozenset("wants needs takes is 's want need take says".split())
TOLD_TIMES = frozenset({"pot life", "gel", "tack", "demould"})
AGAIN = "again"
_BOUGHT = frozenset("ordered order bought buy delivered deliver owe paid pay ordering".split())
_GONE_OFF = ("to thicken", "starting to go", "starting to gel", "gone off", "went off", "going off", "has kicked", "'s kicked", "kicked off", "has gelled", "'s gelled")
_POT_LIFE = frozenset({("pot", "life"), ("work", "time"), ("working", "time"), ("open", "time"), ("working", "life")})
_TO_TACK = frozenset({("to", "tack"), ("to", "gel"), ("to", "kick"), ("to", "go"), ("to", "set"), ("to", "haze")})
_GEL_TIME = frozenset({("gel", "'s"), ("gel", "is"), ("gel", "time"), ("to", "gel"), ("should", "gel"), ("'ll", "gel"), ("will", "gel"), ("gel", "by"), ("gels", "in"), ("gels", "at"), ("gel", "at"),
                       ("gel", "in"), ("kick", "time"), ("kicks", "in"), ("gelled", "in"), ("gelled", "at")})  # fmt: skip
_NO_RULE = frozenset("without into of for by".split())
_MOST = frozenset("most max maximum".split())
_OF_THAT = (("of", "that"), ("of", "it"), ("of", "this"))
_WALLS = frozenset("wall walls dam dams fence fences box".split())
_OVER = frozenset("over on onto across round".split())
_LEAST_BARE = 5
_MIXED = frozenset("bucket tub catalyst hardener percent pot pots cup batches resin".split())
_STATE_KINDS = frozenset({"temperature", "humidity", "vacuum", "pressure", "thickness"})
_ADDING = frozenset({"acts.add", "acts.put", "acts.use", "acts.skip", "acts.forget", "acts.omit"})
_FITTED = frozenset(word for word, family in WORDS.items() if family == "insert")
_LIGHT = frozenset("make keep get have go do put take give leave let".split())
_GELS = frozenset("gels gelled gelling kick kicks kicked".split())
_PLIES = frozenset("layers layer plies".split())
_COATS = frozenset("coats coat".split())
_LEADING = frozenset("i we and then , so right ok okay now just 've have also but he she they um uh".split())
_SAYING = frozenset(
    "said told asked thought knew called phoned rang saw heard found looked seemed felt liked wanted needed tried "
    "forgot remembered ran went got smelt smelled noticed opened spilled spilt lost broke dropped reckoned "
    "kept stayed turned moved read wrote".split()
)
_OF_ITSELF = frozenset({"clay", "release", "seal", "fabric", "bagging", "putty"})


@dataclass(slots=True)
class Draft:
    """One step in the making. `said` is False while its act is only inferred from its facts.

    `repeats` are counts said again of the layer before them ("and two on the flange").
    """

    action: str
    status: Status
    clauses: list[Clause]
    said: bool
    rule: str
    confidence: float = 0.95
    acts: list[Found] = field(default_factory=list)
    repeats: list[Found] = field(default_factory=list)

    @property
    def start(self) -> int:
        """The first token of the draft."""
        return min(clause.start for clause in self.clauses)

    @property
    def end(self) -> int:
        """The token after the draft's last."""
        return max(clause.end for clause in self.clauses)

    @property
    def sentence(self) -> int:
        """The number of the sentence that the draft ends in."""
        return self.clauses[-1].sentence

    def of(self, kind: str) -> list[Found]:
        """Return the facts of one kind in all the draft's clauses, in the order of the text."""
        return [item for clause in self.clauses for item in clause.of(kind)]


def _families(words: NoteWords, clause: Clause) -> set[str]:
    out = {family_of(item.value.name, words) for item in clause.of("material")}
    out |= {"second" for item in clause.of("material") if item.value.part == "B"}
    for item in clause.of("layer"):
        if not item.value.coat:
            out.add("fabric")
        elif item.value.name is None or family_of(item.value.name, words):
            out.add("coat")
    return {family for family in out if family}


def _infer_batch(words: NoteWords, clause: Clause, families: set[str]) -> str | None:
    weighed = [
        a for a in clause.of("amount") if a.value.unit in _WEIGHTS or (a.value.unit is None and a.value.low >= _LEAST_BARE)
    ]
    span = set(words.lower[clause.start : clause.end])
    if (
        (weighed
        and span & {"another", "more"}
        and (families & MAIN or any(a.value.unit for a in weighed)))
        or (weighed and span & _BATCH and span & _MORE)
    ):
        return "mix"
    if len(weighed) > 1 and families & MAIN:
        return "mix"
    if families == {"pigment"} and clause.of("amount"):
        return "tint"
    if clause.status == "not done" and families & {"filler", "pigment", "second"}:
        return "mix"
    if "second" in families and (weighed or clause.of("number") or clause.of("ratio") or clause.of("amount")):
        return "mix"
    if (weighed and families & (MAIN | {"water", "filler"})) or len(weighed) > 1:
        return "weigh"
    if clause.of("ratio") and (weighed or families & (MAIN | {"second"}) or not clause.of("observation")):
        return "mix"
    if span & _BATCH and span & _MORE and not clause.of("layer") and "life" not in span:
        return "mix"
    return None


def _infer_pull(words: NoteWords, clause: Clause) -> str | None:
    span = words.lower[clause.start : clause.end]
    if span[0] == "number" and clause.of("number"):
        return "pull"
    return None


def _advised_act(words: NoteWords, clause: Clause, families: set[str]) -> str | None:
    """Return the act that a warning or a rule without an act of its own is about: "keep each pot under a pound"."""
    limited = any(a.value.bound == "most" for a in clause.of("amount")) or (
        bool(clause.of("amount")) and not _MOST.isdisjoint(words.lower[clause.start : clause.end])
    )
    warned = bool(clause.of("warning")) or limited
    if not warned and (clause.of("reason") or clause.status != "advised"):
        return None
    verbs = []
    for i in range(clause.start, clause.end):
        verb, form = verb_forms().get(words.lower[i], ("", ""))
        if form in ("base", "ing") and verb not in _LIGHT and words.lower[i - 1] not in _NO_RULE:
            verbs.append((words.lower[i - 1] if i else "", words.tags[i], verb))
    for verb in [v for before, tag, v in verbs if before in ("you", "to", "never", "n't")] or [
        v for _, t, v in verbs if t[0] == "V"
    ]:
        return plain_action(verb)
    if families & {"second", "filler", "pigment"} or not _MIXED.isdisjoint(words.lower[clause.start : clause.end]) or not _BATCH.isdisjoint(words.lower[clause.start : clause.end]):
        return "mix"
    return applied(families)


def _is_in(words: NoteWords, clause: Clause) -> bool:
    """Tell whether the clause says that something is in or on: "bolts in", "inserts are in"."""
    last = words.lower[clause.end - 1]
    return last in ("in", "on") and _is_verbless(words, clause)


def _is_verbless(words: NoteWords, clause: Clause) -> bool:
    """Tell whether the clause has no verb that tells something else: "tissue over the nose", "wax is on"."""
    told = [item for kind in ("material", "cue", "reason") for item in clause.of(kind)]
    named = {i for item in told for i in range(item.start, item.end)}
    return not clause.of("observation") and all(
        words.tags[i][0] not in "VM" or words.lower[i] in _EMPTY_VERBS or i in named
        for i in range(clause.start, clause.end)
    )


def _has_unknown_verb(words: NoteWords, clause: Clause) -> bool:
    """Tell whether something that has no name here was done with a material: "fogged a coat of gel on"."""
    first = next((i for i in range(clause.start, clause.end) if words.lower[i] not in _LEADING), clause.end)
    if first + 1 >= clause.end or clause.of("observation"):
        return False
    return words.tags[first] in ("VBD", "VBN") and words.lower[first] not in _SAYING | _EMPTY_VERBS


def _infer_from_timings(words: NoteWords, clause: Clause) -> str | None:
    hints = {item.value.hint for item in clause.of("duration")}
    if hints & {"cure", "post-cure"}:
        if any(words.lower[i] in _STATES for i in range(clause.start, clause.end)):
            return "check"
        return "post-cure" if "post-cure" in hints else "cure"
    span = words.lower[clause.start : clause.end]
    if clause.of("duration") and is_tack_time(span):
        return "check"
    if clause.of("duration") and not _TO_TACK.isdisjoint(zip(span, span[1:], strict=False)):
        return "check"
    heard = any(isinstance(t.value, TermHeard) and t.value.term in TOLD_TIMES for t in clause.of("sound"))
    if clause.of("duration") and (heard or is_pot_life(span) or is_gel_time(span)):
        return "check"
    if "window" in span and clause.of("duration"):
        return "check"
    gelled = not _GELS.isdisjoint(span) or is_gel_time(span)
    if hints & TOLD_TIMES or ((clause.of("moment") or clause.of("duration")) and gelled):
        return "check"
    if "wait" in hints and ("between" in span or "apart" in span) and not clause.of("layer"):
        if not _COATS.isdisjoint(span):
            return "brush"
        if not _PLIES.isdisjoint(span):
            return "laminate"
    if hints & {"wait", "soak"} and not clause.of("layer") and "between" not in span and "apart" not in span:
        return "wait"
    return None


def is_pot_life(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of a pot life, or of what time something gives: "gives you six minutes"."""
    there = set(span)
    if there & {"you", "me", "us"} and there & {"got", "get", "gives", "give"} and "to" not in there:
        return True
    pairs = set(zip(span, span[1:], strict=False))
    return "potlife" in span or not pairs.isdisjoint(_POT_LIFE)


def is_gel_time(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of the time to gel: "gel's at twenty minutes", not "gel coat"."""
    pairs = set(zip(span, span[1:], strict=False))
    return not pairs.isdisjoint(_GEL_TIME) or not {"gelled", "kicked"}.isdisjoint(span)


def is_tack_time(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of the time to tack: "gone from wet to sticky in fifty minutes"."""
    return "in" in span and not {"tacky", "sticky", "tacked"}.isdisjoint(span)


def infer(words: NoteWords, clause: Clause) -> str | None:
    """Return the act that a clause without a verb of the trade stands for, or None when it names none.

    AGAIN stands for the act of the step that "same again" or "half that" copies.
    """
    families = _families(words, clause)
    span = " ".join(words.lower[clause.start : clause.end])
    if copies(span):
        return AGAIN
    if "fabric" in families and clause.of("layer"):
        return "laminate"
    if "coat" in families:
        if not {"pass", "passes"}.isdisjoint(words.lower[clause.start : clause.end]) and not families & {"release", "seal"}:
            return "spray"
        return applied(families - {"resin", "rubber", "plaster"}) or "brush"
    if _BOUGHT & set(words.lower[clause.start : clause.end]):
        return None
    timed = _infer_from_timings(words, clause)
    if timed == "check":
        return timed
    told = _advised_act(words, clause, families)
    if told:
        return told
    batch = _infer_batch(words, clause, families)
    if batch:
        return batch
    if families and any(a.value.unit in _WEIGHTS for a in clause.of("amount")):
        return applied(families)
    noun = next((action for noun, action in NOUNS.items() if noun in span), None)
    if noun and _is_verbless(words, clause) and "bench" not in span:
        return noun
    if not _WALLS.isdisjoint(words.lower[clause.start : clause.end]) and clause.of("material") and _is_verbless(words, clause):
        return "wall"
    if _FITTED.intersection(words.lower[clause.start : clause.end]) and _is_in(words, clause):
        return "fit"
    if clause.of("material") and _is_verbless(words, clause):
        first = family_of(clause.of("material")[0].value.name, words)
        if first == "gel" and clause.of("moment"):
            return "brush"
        if first in _OF_ITSELF and (len(families) == 1 or not _OVER.isdisjoint(words.lower[clause.start : clause.end])):
            return applied({first})
    if families and clause.of("material") and _has_unknown_verb(words, clause):
        return applied(families)
    if timed:
        return timed
    if _infer_pull(words, clause):
        return "pull"
    if clause.of("observation") or any(c.value.kind in _STATE_KINDS for c in clause.of("condition")):
        return "check"
    return "check" if any(phrase in span for phrase in _GONE_OFF) else None


def _values(draft_or_clause: Draft | Clause, kind: str) -> set[str]:
    return {getattr(item.value, "text", str(item.value)) for item in draft_or_clause.of(kind)}


def _clash(draft: Draft, clause: Clause) -> bool:
    """Tell whether the clause repeats what the draft has of its own: another place, clock or count."""
    if draft.action in ("release", "seal") and clause.act is None and _other_agent(draft, clause):
        return True
    if clause.of("layer") and draft.of("layer") and clause.act is None:
        return False
    places, mine = _values(clause, "place"), _values(draft, "place")
    if places and mine and places.isdisjoint(mine):
        return bool(clause.of("layer") or clause.of("amount") or clause.act or clause.of("number"))
    return bool(clause.of("moment") and draft.of("moment") and clause.act)


def _adds_nothing(clause: Clause) -> bool:
    """Tell whether the clause only says more about the act before it: "it came off clean"."""
    return not any(clause.of(kind) for kind in ("material", "amount", "layer", "ratio", "moment", "duration"))


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


def _merged_action(words: NoteWords, draft: Draft, clause: Clause, action: str) -> str | None:
    """Return the act of the draft and a clause together, or None when they are two acts."""
    said, same_sentence = clause.act is not None, draft.sentence == clause.sentence
    pair, both_said = {draft.action, action}, clause.act is not None and draft.said
    if draft.action == action:
        alike = same_sentence or not both_said or action == "check" or _adds_nothing(clause)
        return action if alike else None
    if pair == {"weigh", "mix"}:
        return _weigh_and_mix(draft, clause, action, both_said)
    if pair == {"pull", "demould"}:
        return "pull" if same_sentence or _adds_nothing(clause) else None
    if pair <= _COATED and not both_said:
        special = pair & {"release", "seal"}
        return next(iter(special)) if special else action if said else draft.action
    if draft.action == "laminate" and action == "wet out" and same_sentence and _is_participle(clause):
        return "laminate"
    if action == "repair" and same_sentence and draft.said and _is_dug_out(words, draft):
        return "repair"
    if pair == {"laminate", "press"} and same_sentence and not draft.said and not draft.of("layer"):
        return "press"  # peel ply and bleeder go down with the bag
    if AGAIN in pair:
        other = next(iter(pair - {AGAIN}))
        if said and other not in ("mix", "weigh", "laminate"):
            return None
        return other if said or draft.said or other == "mix" else AGAIN
    if action == "check" and not said:
        hints = {item.value.hint for item in clause.of("duration")}
        apart = hints & (TOLD_TIMES if same_sentence else TOLD_TIMES - {"pot life"})
        return None if apart or (clause.status != draft.status and not same_sentence) else draft.action
    if pair == {"cure", "wait"} and not both_said:
        return "cure"
    return None


def _is_participle(clause: Clause) -> bool:
    """Tell whether "wet out" only describes the layers: "..., all wet out with the epoxy"."""
    return clause.act is not None and clause.act.start - clause.start <= 2


def _weigh_and_mix(draft: Draft, clause: Clause, action: str, both_said: bool) -> str | None:
    """Weights with a mixing verb are one mix; "weighed it and mixed it" are two acts."""
    if both_said and draft.rule in ("acts.get", "acts.have", "acts.put"):
        return "mix"
    if both_said:
        catalysed = clause.act is not None and clause.act.rule in ("acts.catalyse", "acts.catalyze")
        bare = not draft.of("amount") and draft.sentence == clause.sentence
        return "mix" if catalysed or bare else None
    return action if clause.act is not None else draft.action if draft.said else "mix"


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
        action = self._action(clause, current if same else None)
        if current is not None and same and _repeats_layer(self._words, current, clause):
            current.repeats.append(clause.of("number")[0])
            current.clauses.append(clause)
        elif action is None:
            self._take_factless(i, clause, current)
        elif action == "check" and not clause.act and current is None and _act_follows(self._clauses, i):
            self._waiting.append(clause)
        elif current is not None and (merged := self._merged(current, clause, action)):
            current.action, current.said = merged, current.said or clause.act is not None
            self._give(current, clause)
        else:
            self._open(clause, action)

    def _action(self, clause: Clause, current: Draft | None) -> str | None:
        if clause.act is not None:
            return str(clause.act.value.action)
        if current is not None and _only_adds(self._words, current, clause):
            return None
        action = infer(self._words, clause)
        if action == "brush" and current is not None and current.action in _COATED and _is_nameless_coat(clause):
            return current.action
        if action is None and self._waiting and self._waiting[-1].sentence == clause.sentence:
            action = infer(self._words, _together([*self._waiting, clause]))
        return action

    def _take_factless(self, i: int, clause: Clause, current: Draft | None) -> None:
        near = current is not None and current.sentence == clause.sentence
        if current is not None and (near or i >= self._last_act.get(clause.sentence, -1)):
            current.clauses.append(clause)
            if clause.status == "planned" and not current.said and current.action != "check":
                current.status = "planned"
        else:
            self._waiting.append(clause)

    def _merged(self, current: Draft, clause: Clause, action: str) -> str | None:
        if (clause.act is not None and clause.status != current.status) or _clash(current, clause):
            return None
        return _merged_action(self._words, current, clause, action)

    def _open(self, clause: Clause, action: str) -> None:
        if any(c.of("observation") for c in self._waiting) and not self._leads_to(clause):
            self._drafts.append(_facts_only(self._waiting))
            self._waiting = []
        rule = clause.act.rule if clause.act else f"acts.inferred-{action.replace(' ', '-')}"
        said = clause.act is not None
        status = "done" if action == "check" and not said else clause.status
        if not said and action != "check" and (clause.of("warning") or _is_limit(self._words, clause)):
            status = "advised"
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

    def finished(self) -> list[Draft]:
        """Return the drafts, those without a verb named anew by all their facts together."""
        if self._waiting and self._drafts:
            self._drafts[-1].clauses += self._waiting
        elif any(c.of("condition") or c.of("observation") for c in self._waiting):
            self._drafts.append(_facts_only(self._waiting))
        for draft in self._drafts:
            if not draft.said and draft.action == "weigh":
                draft.action = infer(self._words, _together(draft.clauses)) or draft.action
        return self._drafts


def _only_adds(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether an actless clause only adds to the act before it: "with 1.25 % catalyst", "and tissue"."""
    first = next((w for w in words.lower[clause.start : clause.end] if w not in (",", "and", "-")), "")
    if first in ("otherwise", "or", "else") or (first in ("with", "using") and current.said):
        return True
    tools = "with" in words.lower[current.start : current.end] and current.said and first not in (",", "then")
    if tools and not clause.of("layer") and current.action == "clean" and words.lower[clause.start] == "and" and clause.of("material"):
        return True
    if current.action in ("mix", "weigh") and _families(words, clause) & {"filler", "pigment"} and clause.of("amount"):
        return True
    alone = clause.end - clause.start <= 3 and not any(clause.of(kind) for kind in ("layer", "amount", "place"))
    return current.said and bool(clause.of("material")) and alone


def _repeats_layer(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether the clause says a count again for another place: "four coats on the face, and two on the flange"."""
    if clause.act or clause.of("layer") or clause.of("material") or not current.of("layer"):
        return False
    counts = [n for n in clause.of("number") if n.value.low <= 12 and words.lower[n.end : n.end + 1] and
              words.lower[n.end] in ("on", "for", "in", "round", "over", "at")]  # fmt: skip
    return bool(counts and clause.of("place"))


def _is_nameless_coat(clause: Clause) -> bool:
    return bool(clause.of("layer")) and all(item.value.name is None for item in clause.of("layer"))


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


def _act_follows(clauses: list[Clause], i: int) -> bool:
    return any(clause.act for clause in clauses[i + 1 :])


def _facts_only(clauses: list[Clause]) -> Draft:
    return Draft("check", "done", clauses, False, "acts.facts-only", 0.8)
