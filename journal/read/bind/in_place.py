"""What a thing that is only said to be somewhere tells: "walls are foam board", "bolts in", "PVA over the wax"."""

from __future__ import annotations

from itertools import pairwise

from journal.read.bind.view import View
from journal.read.families import MAIN, WORDS, family_of
from journal.read.findings import Found
from journal.read.senses import applied

_SINCE = frozenset("'s is are was all now just both and ,".split())
_WALLS = frozenset("cottle cottles wall walls dam dams fence fences".split())
_BESIDE = frozenset("to on against along behind beside near at by from into".split())
_STANDING = frozenset("up next done built on in round".split())
_GAPS = frozenset(word for word, family in WORDS.items() if family in ("gap", "hole"))
_OF_ITSELF = frozenset({"clay", "release", "seal", "fabric", "bagging", "putty"})
_PUT_IN = frozenset({"filler", "pigment", "second"})
_OVER = frozenset("over on onto across round".split())
FITTED = frozenset(word for word, family in WORDS.items() if family in ("insert", "core"))
EMPTY_VERBS = frozenset(
    "follow come cancelled canceled postponed put deferred pending booked "
    "is 's are 're was were did done do does start started finish finished begin began have has got 've be been go "
    "goes gone went going on scheduled planned happened needs need forgot taken had came 'm 'll here should".split()
)


def thing_in_place(view: View) -> str | None:
    """ "Walls are foam board", "bolts in", "PVA over the wax", "tissue down"."""
    materials = view.clause.of("material")
    measured = "wall" in view.span and bool(view.clause.of("condition"))
    walled = _wall_is_told(view) and "section" not in view.span and not measured and (materials or view.has(_STANDING))
    if not (materials or walled or view.has(FITTED)) or not is_verbless(view) or _is_denied(view):
        return None
    if {"ready", "good"} & set(view.span) and "for" in view.span:
        return None  # "ready for the tissue"
    if walled:
        return "wall"
    if any(one in FITTED and two in ("in", "on") for one, two in pairwise(view.span)):
        return "fit"
    return _put_there(view, materials)


def _is_denied(view: View) -> bool:
    """Tell whether a verb is denied, but for a reason: "this sealer doesn't need it"."""
    told = {i for kind in ("reason", "cue") for item in view.clause.of(kind) for i in range(item.start, item.end)}
    denied = any(word == "n't" and i not in told for i, word in enumerate(view.span, view.clause.start))
    return denied and view.clause.status == "done"


def _wall_is_told(view: View) -> bool:
    """Tell whether a wall is spoken of, not only a place by it: "right up to the dividing wall"."""
    at = next((i for i, word in enumerate(view.span) if word in _WALLS), None)
    return at is not None and _BESIDE.isdisjoint(view.span[max(0, at - 3) : at])


def _put_there(view: View, materials: list[Found]) -> str | None:
    """What putting the first thing named where it is said to be is called."""
    first = family_of(materials[0].value.name, view.words) if materials else None
    if first == "gel" and view.clause.of("moment"):
        return "brush"
    if first == "filler" and "in" in view.span and view.has(_GAPS):
        return "fill"
    if first in _PUT_IN and "in" in view.span and (len(view.families) == 1 or view.families & MAIN):
        return applied({first})
    if first and _lies_on(view, materials[0].end):
        return applied({first})
    if first == "bag" and view.has(_STANDING):
        return "press"
    if first == "clay" and view.clause.of("condition"):
        return None  # "the clay's like cold butter, only 17 degrees"
    alone = first in _OF_ITSELF and (len(view.families) == 1 or view.has(_OVER))
    return applied({first}) if first and alone else None


def _lies_on(view: View, at: int) -> bool:
    """Tell whether all that is said of a thing is that it is on: "gelcoat's on", "the resin is all on now"."""
    rest = [word for word in view.words.lower[at : view.clause.end] if word not in _SINCE]
    return rest in (["on"], ["down"])


def is_verbless(view: View, but: int = -1) -> bool:
    """Tell whether the clause has no verb that tells something else: "tissue over the nose", "wax is on".

    The token `but` counts as none.
    """
    told = [item for kind in ("material", "cue", "reason") for item in view.clause.of(kind)]
    named = {i for item in told for i in range(item.start, item.end)}
    return not view.clause.of("observation") and all(
        view.words.tags[i][0] not in "VM" or view.words.lower[i] in EMPTY_VERBS or i in named or i == but
        for i in range(view.clause.start, view.clause.end)
    )
