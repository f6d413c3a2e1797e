"""Facts that are told by themselves, and what times are of: a pot life, a gel time, an empty drum, a hot pot."""

from __future__ import annotations

from itertools import pairwise

from journal.read.bind.view import View
from journal.read.findings import TermHeard

TOLD_TIMES = frozenset({"pot life", "gel", "tack", "demould"})
_GONE_OFF = (
    "to thicken|starting to go|starting to gel|gone off|went off|going off|has kicked|'s kicked|kicked off|has gelled|"
    "'s gelled"
).split("|")
_TINS = frozenset("drum drums tin tins bottle bottles can cans pail pails tub tubs sack sacks keg kegs lot bag".split())
_CHANGED = frozenset("new fresh opened started starting startin finished empty gone spent switched moved".split())
_USED_UP = ("last of", "used up", "run out", "ran out", "on to lot", "onto lot", "out of lot")
_POTS = frozenset("pot pots cup bucket batch mix mixture tub brew lot".split())
_HEATED = frozenset(
    "hot smoked smoking smokes smoke exothermed exotherming exotherm cooked boiled boiling steaming kicked foamed "
    "hardened".split()
)
_BEGUN = frozenset("started starting began begun".split())
_IS = frozenset("'s is are 're lives goes back".split())
_AT = frozenset("in on up under down back away out".split())
_KEPT = frozenset(
    "mould mold moulds molds it she part parts piece pieces jacket halves tool plug hull casting castings they".split()
)
_KEPT_IN = frozenset(
    "shelf shelves rack racks racking store stores crate crates cupboard cabinet loft bay pallet drawer locker "
    "storeroom container tarp".split()
)
_TOO = frozenset("if when before so until till or will 'll".split())
_POT_LIFE = frozenset({("pot", "life"), ("work", "time"), ("working", "time"), ("open", "time"), ("working", "life")})
_TO_TACK = frozenset(("to", word) for word in "tack gel kick go set haze".split())
_TACKY = frozenset("tacky sticky tacked tack".split())
_NOT_YET = frozenset({"still", "n't", "not"})
_TAKING = frozenset("took takes taken take".split())
_AFTER = frozenset("after at within inside by".split())
_GEL_TIME = frozenset(
    tuple(pair.split())
    for pair in "gel 's|gel is|gel time|to gel|should gel|'ll gel|will gel|gel by|gels in|gels at|gel at|gel in|"
    "kick time|kicks in|set in".split("|")
)
_GELLED = frozenset("gels gelled gelling kick kicks kicked".split())
_HAVING = frozenset("have has got 've 's is are there".split())
_STATE_KINDS = frozenset({"temperature", "humidity", "vacuum", "pressure", "thickness"})
_WANTING = frozenset({"wants", "needs"})
_STATES = frozenset("wants needs takes is 's want need take says".split())


def left_over(view: View) -> str | None:
    """What is left in the tins: "we've half a gallon of polyester resin left"."""
    return "check" if view.weights and "left" in view.span and not _HAVING.isdisjoint(view.span) else None


def stock(view: View) -> str | None:
    """What is opened or used up: "lot 7714's all gone", "new tin of wax, lot 88", "the last of the catalyst"."""
    held = view.clause.of("lot") or view.has(_TINS) or (view.clause.of("material") and "last of the" in view.said)
    changed = view.has(_CHANGED) or any(phrase in view.said for phrase in _USED_UP)
    return "check" if held and changed and not view.weights and not view.clause.of("layer") else None


def tacked(view: View) -> str | None:
    """How long a coat took to tack: "that first coat took fifty minutes to get tacky"."""
    return "check" if view.clause.of("duration") and is_tack_time(view.span) else None


def put_by(view: View) -> str | None:
    """Where a mould or part is kept: "mould's in bay four", "it's up on the rack"."""
    kept = view.has(_KEPT_IN) and view.has(_KEPT) and any(one in _IS and two in _AT for one, two in pairwise(view.span))
    return "store" if kept and not view.weights else None


def hot_pot(view: View) -> str | None:
    """A pot that went hot or off by itself: "the last of the pot went fierce hot"."""
    gone = view.has(_HEATED) or any(phrase in view.said for phrase in _GONE_OFF)
    return "check" if gone and view.has(_POTS) and not view.weights and not view.has(_TOO) else None


def told_time(view: View) -> str | None:
    """A pot life, a gel time, a time to tack or to demould, told as a fact."""
    hints = {item.value.hint for item in view.clause.of("duration")}
    if view.clause.of("moment") and (view.has(_GELLED) or is_gel_time(view.span)):
        return "check"
    if not hints:
        return None
    if "before" in view.span and not _WANTING.isdisjoint(view.span) and hints <= {None, "wait", "gel"}:
        return "wait"  # "PVA wants twenty minutes before you go near it"
    heard = any(isinstance(t.value, TermHeard) and t.value.term in TOLD_TIMES for t in view.clause.of("sound"))
    told = heard or is_tack_time(view.span) or is_pot_life(view.span) or is_gel_time(view.span) or view.has(_GELLED)
    if told or hints & TOLD_TIMES or "window" in view.span or not _TO_TACK.isdisjoint(pairwise(view.span)):
        return "check"
    told = view.has(_STATES) and view.span[0] not in _BEGUN and "had" not in view.span
    return "check" if told and hints & {"cure", "post-cure"} else None


def fact(view: View) -> str | None:
    """A state of the shop or of the work: "shop's at nineteen", "starting to gel", "no pinholes"."""
    state = any(c.value.kind in _STATE_KINDS for c in view.clause.of("condition"))
    gone = any(phrase in view.said for phrase in _GONE_OFF)
    return "check" if state or gone or view.clause.of("observation") else None


# ---- what times are of -------------------------------------------------------------------------------------


def is_pot_life(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of a pot life, or of what time something gives: "gives you six minutes"."""
    there = set(span)
    if there & {"you", "me", "us"} and there & {"got", "get", "gives", "give"} and "to" not in there:
        return True
    return "potlife" in there or not _POT_LIFE.isdisjoint(pairwise(span))


def is_gel_time(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of the time to gel: "gel's at twenty minutes", not "gel coat"."""
    return not _GEL_TIME.isdisjoint(pairwise(span)) or not {"gelled", "kicked"}.isdisjoint(span)


def is_tack_time(span: tuple[str, ...]) -> bool:
    """Tell whether the words speak of the time to tack: "gone from wet to sticky in fifty minutes"."""
    tacky = next((i for i, word in enumerate(span) if word in _TACKY), None)
    if tacky is None or not _NOT_YET.isdisjoint(span[:tacky]):
        return False  # "still tacky after two hours"
    took = not _TAKING.isdisjoint(span[:tacky]) or span[:1] == ("after",)
    return took or "in" in span or not _AFTER.isdisjoint(span[tacky + 1 : tacky + 4])


def is_told_apart(span: tuple[str, ...]) -> bool:
    """Tell whether the words say how long something took to go off, which is a fact of its own."""
    said = " ".join(span)
    return is_gel_time(span) or is_tack_time(span) or any(phrase in said for phrase in _GONE_OFF)
