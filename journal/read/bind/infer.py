"""What a clause without a verb of the trade stands for: "two layers of 450, left scroll" is laminating.

RULES lists the ways in order; the first that speaks decides.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from journal.read import tools
from journal.read.acts_patterns import NOUNS
from journal.read.asking_again import copies
from journal.read.bind import told_facts
from journal.read.bind.in_place import EMPTY_VERBS, FITTED, is_verbless, thing_in_place
from journal.read.bind.view import View, families_in
from journal.read.families import MAIN, family_of
from journal.read.findings import Found, NoteWords
from journal.read.segments import ENDS, Clause
from journal.read.senses import applied, plain_action, verb_forms
from journal.read.verbless import undone

AGAIN = "again"
"""Stands for the act of the step that "same again" or "half that" copies."""

_WEIGHTS = frozenset({"g", "ml"})
_BECAUSE = frozenset("as because since cos".split())
_CURE_S = 4 * 3600
_OVEN_DEGC = 40
_BATCH = frozenset("mix batch brew pot gel".split())
_BATCHED = frozenset("another batch batches mix brew pot".split())
_MORE = frozenset("fresh another second third next last new first same more final".split())
_MIXED = frozenset("bucket tub catalyst hardener percent pot pots cup batches resin mix batch brew".split())
_WEIGHED = frozenset("kilo kilos gram grams kg pound pounds lb lbs ounce ounces litre litres liter liters".split())
_NOT_TOLD = frozenset(
    "if when new old need needs buy which where bench broken ready for smells my before after until till".split()
)
_GOES_ON = frozenset("and with in on using".split())
_SHORT = 5
_MOST = frozenset("most max maximum".split())
_OF_THAT = frozenset({("of", "that"), ("of", "it"), ("of", "this")})
_NOT_YET = frozenset("before until till unless".split())
_STATES = frozenset("wants needs takes is 's want need take says".split())
_BOUGHT = frozenset("ordered order bought buy delivered deliver owe paid pay ordering".split())
_BETWEEN = frozenset({"between", "apart", "each", "gap"})
_COATS, _PLIES = frozenset("coats coat".split()), frozenset("layers layer plies".split())
_LIGHT = frozenset("make keep get have go do put take give leave let".split())
_NAMING = frozenset(", and but so then next the a no without any still more another with ; - – —".split())
_BRUSHES = frozenset("brush brushes chip-brush paintbrush".split())
_DOING = frozenset("did done do doing got went".split())
_SHUT = frozenset("door doors window windows valve lid oven".split())
_DO_IT = frozenset({("do", "it"), ("do", "that"), ("do", "this"), ("doing", "it"), ("doing", "that")})
_NO_RULE = frozenset("without into of for by".split())
_SPRAYED = frozenset("pass passes gun gunned airless".split())
_SCALES = frozenset("scale scales".split())
_HINDERED = frozenset("kill kills killed inhibit inhibits slow slows affect affects stop stops ruin ruins".split())
_TOLD_OF = frozenset("is was are were has been started done finished scheduled planned happened".split())
_LEADING = frozenset("i we and then , so right ok okay now just 've have also but he she they um uh".split())
_SAYING = frozenset(
    "said told asked thought knew called phoned rang saw heard found looked seemed felt liked wanted needed tried "
    "forgot remembered ran went got smelt smelled noticed opened spilled spilt lost broke dropped reckoned "
    "kept stayed turned moved read wrote".split()
)


def infer(words: NoteWords, clause: Clause) -> str | None:
    """Return the act that a clause without a verb of the trade stands for, or None when it names none."""
    span = words.lower[clause.start : clause.end]
    view = View(words, clause, span, " ".join(span), families_in(words, clause))
    first = next((word for word in span if word not in (",", "and", "but", "so")), "")
    if not _BOUGHT.isdisjoint(span) or first in _NOT_YET:
        return None
    return next((action for rule in RULES if (action := rule(view))), None)


# ---- the rules ---------------------------------------------------------------------------------------------


def _copied(view: View) -> str | None:
    return AGAIN if copies(view.said) else None


def _laid(view: View) -> str | None:
    if "fabric" in view.families and view.clause.of("layer"):
        return "laminate"
    if "coat" not in view.families:
        return None
    if view.has(_SPRAYED) and not view.families & {"release", "seal"}:
        return "spray"
    return applied(view.families - {"resin", "rubber", "plaster"}) or "brush"


def _baked(view: View) -> str | None:
    """A time at the heat of an oven: "fifty degrees for six hours in the box"."""
    hot = any(c.value.kind == "temperature" and c.value.value >= _OVEN_DEGC for c in view.clause.of("condition"))
    times = view.clause.of("duration")
    hints = {item.value.hint for item in times}
    told = not hints.isdisjoint(("cure", "post-cure")) and view.has(_STATES)
    if not times or told or not hints <= {None, "work", "wait", "cure", "post-cure"}:
        return None
    warm = any(c.value.kind == "temperature" for c in view.clause.of("condition"))
    long = any(item.value.least and item.value.least >= _CURE_S for item in times)
    at = "at" in view.span and view.span.index("at") > 0
    return "post-cure" if hot else "cure" if warm and long and at and not view.clause.of("observation") else None


def _advised_act(view: View) -> str | None:
    """The act of a warning, a limit or a rule: "keep each pot under a pound", "two percent at the very most"."""
    amounts = view.clause.of("amount")
    limited = any(a.value.bound == "most" for a in amounts) or (bool(amounts) and view.has(_MOST))
    warned = bool(view.clause.of("warning")) or limited
    because = view.span[0] in _BECAUSE or view.span[1:2] in (("as",), ("since",))
    batch = len(view.weights) > 1 and view.families & MAIN
    if not warned and (batch or because or view.clause.of("reason") or view.clause.status != "advised"):
        return None
    verb = _rule_verb(view)
    if verb and (action := plain_action(verb)):
        return action
    if warned and view.has(_PLIES):
        return "laminate"  # "don't go past four layers a day"
    families = view.families | {family_of(item.value.name, view.words) for item in view.clause.of("warned of")}
    if families & {"second", "filler", "pigment"} or view.has(_MIXED) or (warned and view.has(_WEIGHED)):
        return "mix"
    return applied(family for family in families if family) or (_of_a_tool(view) if warned else None)


def _of_a_tool(view: View) -> str | None:
    if view.has(_BRUSHES):
        return "brush"  # "careful not to load the brush"
    return "spray" if view.has(_SPRAYED) else tools.act_of(view.span)


def _rule_verb(view: View) -> str | None:
    """The verb that a rule is about: one after "you" or "never", else the first that stands as a verb."""
    verbs = []
    feared = {i for item in view.clause.of("reason") for i in range(item.start, item.end)}
    for i in (i for i in range(view.clause.start, view.clause.end) if i not in feared or len(feared) >= len(view.span)):
        verb, form = verb_forms().get(view.words.lower[i], ("", ""))
        before = view.words.lower[i - 1] if i else ""
        opened = verb == "open" and not _SHUT.isdisjoint(view.span)
        limits = before == "can"  # "before you can wipe it"
        if form in ("base", "ing") and verb not in _LIGHT and before not in _NO_RULE and not opened and not limits:
            verbs.append((before, view.words.tags[i], verb))
    if not verbs and not _DO_IT.isdisjoint(pairwise(view.span)):
        return _verb_before(view)
    named = [verb for before, _, verb in verbs if before in ("you", "to", "never", "n't")]
    return next(iter(named + [verb for _, tag, verb in verbs if tag[0] == "V"]), None)


def _verb_before(view: View) -> str | None:
    """The verb before in the sentence, that "do it" stands for: "wait a day before you sand it, don't do it dry"."""
    for i in range(view.clause.start - 1, -1, -1):
        if view.words.lower[i] in ENDS:
            break
        verb, form = verb_forms().get(view.words.lower[i], ("", ""))
        if form and verb not in _LIGHT and view.words.tags[i][0] == "V":
            return verb
    return None


def _batch(view: View) -> str | None:
    """A batch that was weighed or mixed: "epoxy 400, hardener 112", "another two hundred of that"."""
    weights, families = view.weights, view.families
    of_that = not _OF_THAT.isdisjoint(pairwise(view.span))
    if not families and not of_that and not any(a.value.unit for a in weights) and not view.has(_BATCHED):
        weights = []  # bare numbers of nothing named: grits, page numbers
    more = view.has(frozenset({"another", "more"})) and (families & MAIN or of_that or len(weights) > 1)
    pot = view.has(_BATCH) and view.has(_MORE)
    if weights and view.has(_SCALES):
        return "weigh"
    if weights and (more or pot or (len(weights) > 1 and families & MAIN)):
        return "mix"
    if _has_second(view, weights):
        return "mix"
    if len(weights) > 1 or (weights and families & (MAIN | {"water", "filler"})):
        return "weigh"
    if view.clause.of("ratio") and (weights or families & (MAIN | {"second"}) or not view.clause.of("observation")):
        return "mix"
    return "mix" if pot and not view.clause.of("layer") and "life" not in view.span else None


def _has_second(view: View, weights: list[Found]) -> bool:
    """Tell whether a second part, or water for plaster, was given with its weight or its share."""
    said, families = view.clause.of("amount"), view.families
    amounts = [a for a in said if a.rule != "amounts.article-unit"]
    lots = {token for item in view.clause.of("lot") for token in range(item.start, item.end)}
    numbers = [item for item in view.clause.of("number") if item.start not in lots]
    if "second" in families and (amounts or numbers or view.clause.of("ratio")):
        return True
    shared = bool(weights) and bool(families & MAIN or not families) and any(a.value.unit == "percent" for a in said)
    return shared or (len(weights) > 1 and "water" in families)


def _additive(view: View) -> str | None:
    amounts = view.clause.of("amount")
    if "pigment" in view.families and "second" not in view.families and amounts:
        share = any(a.value.unit == "percent" for a in amounts)
        if share or view.families == {"pigment"}:
            return "tint"
    left_out = view.clause.status == "not done" and view.families & {"filler", "pigment", "second"}
    return "mix" if left_out else None


def _weighed_thing(view: View) -> str | None:
    weighed = any(a.value.unit in _WEIGHTS for a in view.clause.of("amount"))
    return applied(view.families) if weighed and view.families else None


def _named_act(view: View) -> str | None:
    told = {i for item in view.clause.of("reason") for i in range(item.start, item.end)}
    words = [word for i, word in enumerate(view.span, view.clause.start) if i not in told]
    said = " ".join(words) if len(words) > 1 else view.said
    action = next((action for phrase, action in NOUNS.items() if phrase in said), None) or _gerund(view)
    if action == "cure" and not _HINDERED.isdisjoint(view.span):
        return None  # "it'll kill the cure"
    return action if action and "bench" not in view.span and is_verbless(view) else None


def _undone(view: View) -> str | None:
    verb = undone(view.words, view.clause)
    return plain_action(verb) if verb else None


def _noun_of_act(view: View) -> str | None:
    """An act to come or left out, by its verb as a noun: "pour's at nine tomorrow", "no sanding on this one"."""
    clause = view.clause
    if clause.status not in ("planned", "not done") or clause.of("observation"):
        return None
    at = next((i for i, word in enumerate(view.span) if word not in _NAMING), 0)
    verb, form = verb_forms().get(view.span[at], ("", ""))
    if form in ("base", "ing") and verb not in _LIGHT | {"wait", "dice"} and is_verbless(view, but=clause.start + at):
        return plain_action(verb)
    told = {i for item in clause.of("reason") for i in range(item.start, item.end)}
    named = any(view.words.lower[i] in FITTED for i in range(clause.start, clause.end) if i not in told)
    return "fit" if named and not clause.of("material") and is_verbless(view) else None


def _done_with_brush(view: View) -> str | None:
    """ "Did the eyelids with a tiny brush"."""
    with_it = "with" in view.span and not _BRUSHES.isdisjoint(view.span[view.span.index("with") :])
    return "brush" if with_it and view.has(_DOING) and not view.clause.of("observation") else None


def _gerund(view: View) -> str | None:
    """ "The pouring of the second half is scheduled for two"."""
    for i, (word, after) in enumerate(pairwise(view.span)):
        verb, form = verb_forms().get(word, ("", ""))
        if form == "ing" and after == "of" and i <= 1 and view.has(_TOLD_OF):
            return plain_action(verb)
    return None


def _with_a_tool(view: View) -> str | None:
    told = view.clause.of("observation") or view.clause.of("amount") or view.has(_NOT_TOLD) or view.span[0] in _GOES_ON
    return None if told else tools.act_of(view.span)


def _unknown_verb(view: View) -> str | None:
    """Something that has no name here was done with a material: "fogged a coat of gel on"."""
    span, clause = view.span, view.clause
    first = next((i for i, word in enumerate(span) if word not in _LEADING), len(span))
    if first + 1 >= len(span) or clause.of("observation") or not clause.of("material"):
        return None
    tag, word = view.words.tags[clause.start + first], span[first]
    return applied(view.families) if tag in ("VBD", "VBN") and word not in _SAYING | EMPTY_VERBS else None


def _waiting(view: View) -> str | None:
    """A time to wait or cure: "overnight to cure", "twenty minutes"; between coats it is a rule for the coats."""
    hints = {item.value.hint for item in view.clause.of("duration")}
    if hints and "another" in view.span and len(view.span) <= _SHORT:
        return "wait"
    if "post-cure" in hints:
        return "post-cure"
    if "cure" in hints:
        return "cure"
    if view.clause.of("layer") or not hints & {"wait", "soak"}:
        return None
    if not view.has(_BETWEEN):
        return "wait"
    return "brush" if view.has(_COATS) else "laminate" if view.has(_PLIES) else None


def _numbered(view: View) -> str | None:
    return "pull" if view.span[0] == "number" and view.clause.of("number") else None


RULES: tuple[Callable[[View], str | None], ...] = (
    told_facts.hot_pot, _copied, told_facts.left_over, told_facts.stock, told_facts.tacked, told_facts.put_by, _laid,
    _baked, told_facts.told_time,
    _advised_act, _additive, _batch, _weighed_thing, _named_act, _undone, _noun_of_act, thing_in_place,
    _done_with_brush, _with_a_tool, _unknown_verb, _waiting, _numbered, told_facts.fact,
)  # fmt: skip
