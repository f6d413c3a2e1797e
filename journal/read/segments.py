"""Cut a note into clauses: pieces that hold one act at most, with the facts that were said in them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from journal.read.findings import Findings, Found, NoteWords
from journal.record import Status

ENDS = frozenset(".!?;\n…")
_JOINTS = frozenset(", and then but so plus also – — -".split())
_SECONDS = frozenset({"hardener", "catalyst"})
_AFTER_WHAT = frozenset("that this lunch which".split())
_GROUP = frozenset(
    "i we they he she it you 've 'm 'd 'll 're have has had am is are was were be been being do did does "
    "will would should could can must may might shall n't not never always usually just also then now gon na going to "
    "want wanna need gotta got about carefully quickly gently lightly really still already finally only even both all "
    "started start begin began finished finish kept keep forgot managed tend normally generally later "
    "didnt havent dont wo ca let 's us please dinnae didnae cannae wasnae".split()
)
_HOLDING = (
    "amount", "duration", "ratio", "moment", "condition", "material", "layer", "reason", "cue", "observation",
    "warning", "lot", "number", "place",
)  # fmt: skip
_FACTS = (
    "amount", "areal", "condition", "duration", "moment", "ratio", "material", "layer", "lot", "place",
    "observation", "reason", "cue", "warning", "number", "who", "sound",
)  # fmt: skip

_OBJECTS = frozenset("it them that the this both all".split())
_IS = (("is",), ("are",), ("was",), ("were",))
_TO_NO = frozenset("'s 've with there needs but and or , so".split())
_BY_MEANS_OF = frozenset("with using".split())
_ON = frozenset("on down out off".split())
_LAID = (("on",), ("down",), ("over",))
_THINGS = frozenset({"material", "layer", "amount", "areal", "number"})


@dataclass(slots=True)
class Clause:
    """The tokens [start, end) of one piece of a sentence; `sentence` is the sentence's number.

    `act` is None where nothing is said to be done; `facts` are the findings that start in it, by kind; a material
    within a warning is of the kind "warned of", and is no material of the step.
    """

    start: int
    end: int
    sentence: int
    act: Found | None = None
    status: Status = "done"
    facts: dict[str, list[Found]] = field(default_factory=dict)

    def of(self, kind: str) -> list[Found]:
        """Return the clause's facts of one kind, in the order of the text."""
        return self.facts.get(kind, [])


def sentences(words: NoteWords) -> Iterator[tuple[int, int]]:
    """Yield the token ranges between the marks that end a sentence."""
    start = 0
    for i, word in enumerate(words.lower):
        if word in ENDS or "\n" in word:
            if i > start:
                yield start, i
            start = i + 1
    if start < len(words.lower):
        yield start, len(words.lower)


def group_start(words: NoteWords, head: int, floor: int) -> int:
    """Return where the verb's group starts: its subject pronoun, auxiliaries and adverbs to the left."""
    i = head
    while i > floor and words.lower[i - 1] in _GROUP:
        i -= 1
    return i


def _inside(found: Findings) -> set[int]:
    """Return the tokens that do not start a clause because a finding holds them together."""
    held: set[int] = set()
    for item in found.of(*_HOLDING, "act"):
        held.update(range(item.start + (item.kind not in ("reason", "cue", "warning")), item.end))
    return held


def _cuts(words: NoteWords, span: tuple[int, int], acts: list[Found], held: set[int], found: Findings) -> list[int]:
    start, end = span
    cuts = [i for i in range(start, end) if i not in held and is_joint(words, i)]
    for before, act in pairwise(acts):
        edge = group_start(words, act.start, before.end)
        own_subject = edge < act.start and words.lower[edge] in ("i", "we")
        last = max((cut for cut in cuts if before.end <= cut <= edge), default=None)
        if own_subject or last is None or (_takes_object(words, act) and _weighed(found, last, edge)):
            cuts.append(edge)
    more = (*_after_weights(words, start, acts, found), *_before_coats(words, span, acts, found))
    more = (*more, *_before_lacks(words, span, acts, found), *_before_findings(words, span, acts, found))
    more = (*more, *_before_rules(words, span, acts))
    return sorted({start, *cuts, *more, end})


def _before_coats(words: NoteWords, span: tuple[int, int], acts: list[Found], found: Findings) -> list[int]:
    """Return where coats follow another act with nothing between: "wiped it with acetone two coats of wax on"."""
    ends = {item.end for item in found.of("material")} | {i + 1 for i in range(*span) if words.lower[i] in _ON}
    return [
        item.start for item in found.of("layer")
        if acts and acts[0].end < item.start < span[1] and item.start in ends and item.value.name is not None
        and words.lower[item.end : item.end + 1] in _LAID
    ]  # fmt: skip


def _takes_object(words: NoteWords, act: Found) -> bool:
    """Tell whether something is said to be done to what follows: "degassed IT", "brushed on ONE COAT"."""
    after = words.lower[act.end : act.end + 2]
    at = 1 if after[:1] and after[0] in _ON | {"in", "up"} else 0
    follows = act.end + at
    return after[at : at + 1] != () and (after[at] in _OBJECTS or words.tags[follows] in ("CD", "DT", "PRP"))


def _weighed(found: Findings, start: int, end: int) -> bool:
    """Tell whether a weight or a ratio is told between two tokens."""
    return any(start <= item.start < end for item in found.of("amount", "ratio"))


def _before_findings(words: NoteWords, span: tuple[int, int], acts: list[Found], found: Findings) -> list[int]:
    """Return where a fault is told with nothing between: "trimmed the brim one pinhole is there at the head"."""
    out = []
    for item in found.of("observation"):
        if not acts or not acts[0].end < item.start < span[1] or item.value.kind == "good":
            continue
        lead = words.lower[max(span[0], item.start - 4) : item.start]
        if "there" in lead:
            out.append(item.start - len(lead) + lead.index("there"))
        elif words.lower[item.end : item.end + 1] in _IS and "there" in words.lower[item.end : item.end + 3]:
            out.append(item.start)
    return out


def _before_rules(words: NoteWords, span: tuple[int, int], acts: list[Found]) -> list[int]:
    """Return where a rule follows with nothing between: "post cure it in the oven never heat faster than ten"."""
    return [
        i for i in range(span[0] + 1, span[1] - 1)
        if words.lower[i] == "never" and acts and acts[0].end < i
        and words.tags[i - 1][0] not in "PVM" and words.tags[i + 1] in ("VB", "VBP")
    ]  # fmt: skip


def _before_lacks(words: NoteWords, span: tuple[int, int], acts: list[Found], found: Findings) -> list[int]:
    """Return where a thing is said to be left out with nothing between: "mixed a hundred of each no filler"."""
    named = {item.start for item in found.of("material", "layer")}
    return [
        i for i in range(span[0] + 1, span[1] - 1)
        if words.lower[i] == "no" and i + 1 in named and acts and acts[0].end < i
        and words.lower[i - 1] not in _TO_NO and words.tags[i - 1][0] not in "VIM"
    ]  # fmt: skip


def _after_weights(words: NoteWords, start: int, acts: list[Found], found: Findings) -> list[int]:
    """Return where the first act starts if weights were listed before it that are no part of it.

    "Part A 500 grams part B 50 grams degassed for six minutes": the weights are a mix of their own.
    """
    if not acts or acts[0].value.action in ("weigh", "mix", "thicken", "tint", "release", "wall"):
        return []
    weights = [a for a in found.of("amount") if start <= a.start < acts[0].start and a.value.unit in ("g", "ml")]
    if len(weights) > 1:
        return [group_start(words, acts[0].start, weights[-1].end)]
    return _before_weights(words, acts, found)


def _before_weights(words: NoteWords, acts: list[Found], found: Findings) -> list[int]:
    """Return where the weights of a mix start after another act: "brushed it on, 120 to 18 of hardener"."""
    last = acts[-1]
    if last.value.action in ("check", "clean", "cut", "fit", "pour", "fill", "seal", "spray"):
        return []
    after = [
        a for a in found.of("amount") if a.start > last.start and a.value.unit in (None, "g", "ml") and a.value.low >= 5
    ]
    second = [m for m in found.of("material") if m.start > last.start and m.value.name in _SECONDS]
    if len(after) < 2 or not second or after[0].start <= last.end or words.lower[after[0].start - 1] in _BY_MEANS_OF:
        return []
    return [after[0].start]


def is_joint(words: NoteWords, i: int) -> bool:
    """Tell whether the token joins two clauses: a comma, "and", "then", a dash that stands apart."""
    lower = words.lower
    if lower[i] == "-" and i and not words.doc[i - 1].whitespace_ and not words.doc[i].whitespace_:
        return False  # "post-cure" is one word
    return lower[i] in _JOINTS or (lower[i] == "after" and not _AFTER_WHAT.isdisjoint(lower[i + 1 : i + 2]))


def split(words: NoteWords, found: Findings) -> list[Clause]:
    """Return the clauses of the note in order; each holds at most one act."""
    acts, held, out = found.of("act"), _inside(found), []
    starts = [act.start for act in acts]
    for number, span in enumerate(sentences(words)):
        mine = acts[bisect_left(starts, span[0]) : bisect_left(starts, span[1])]
        cuts = _cuts(words, span, mine, held, found)
        pieces = [Clause(a, b, number) for a, b in pairwise(cuts)]
        for act in mine:
            _give_act(pieces, act)
        out += pieces
    _give_facts(words, out, found)
    return out


def _give_act(pieces: list[Clause], act: Found) -> None:
    piece = next(p for p in pieces if p.start <= act.start < p.end)
    if piece.act is None:
        piece.act = act
        return
    later = Clause(act.start, piece.end, piece.sentence, act)
    piece.end = act.start
    pieces.insert(pieces.index(piece) + 1, later)


def told_tokens(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens of cues, questions and reasons, but for reasons that are all that their sentence says."""
    out: set[int] = set()
    for item in found.of("cue", "question", "reason"):
        opens = item.start == 0 or words.lower[item.start - 1] in ENDS
        closes = item.end >= len(words.lower) or words.lower[item.end] in ENDS
        if item.kind != "reason" or not (opens and closes):
            out.update(range(item.start, item.end))
    return out


def _to_come_first(words: NoteWords) -> set[int]:
    """Return the tokens of what is named only to say before what: "till three BEFORE ANY GLASS goes near it"."""
    return {
        i + 2 for i in range(len(words.lower) - 2) if words.lower[i : i + 2] in (("before", "any"), ("before", "the"))
    }  # fmt: skip


def _give_facts(words: NoteWords, clauses: list[Clause], found: Findings) -> None:
    starts = [clause.start for clause in clauses]
    warned = {i for x in found.of("warning") for i in range(x.start, x.end)}
    told = (
        told_tokens(words, found)
        | warned
        | _to_come_first(words)
        | {i for x in found.of("observation") for i in range(x.start, x.end)}
    )
    for kind in _FACTS:
        for item in found.of(kind):
            at = bisect_left(starts, item.start + 1) - 1
            if at < 0 or (kind in _THINGS and item.start in told and (kind != "material" or item.start not in warned)):
                continue
            clauses[at].facts.setdefault("warned of" if kind in _THINGS and item.start in told else kind, []).append(
                item
            )
