"""What a time was taken for by what came of it: "took fifty minutes to get tacky", "tack free after an hour".

Pure, of the words around a time; `durations.py` asks it first.
"""

from __future__ import annotations

from journal.read.nearby import ENDS, nearest

_OUTCOMES: dict[str, str] = {
    word: kind
    for kind, words in {
        "tack": "tacky tack tacked sticky claggy",
        "gel": "gel kick thicken off",
        "cure": "cure harden hard set solid firm",
    }.items()
    for word in words.split()
}
_TURNING = frozenset("go get gone turn start starting be it up come".split())
_TACKY = frozenset({"tacky", "tack", "tacked", "sticky"})
_TOUCHED = (("touch", "dry"), ("dry", "to"))
_REACHED = frozenset("after in at inside within by".split())
_NOT_YET = frozenset("still not n't while until till before when no yet if once".split())
_REACH = 5
_COAT = frozenset("was went has had on looks stayed still coat coats".split())
_STANDS = frozenset("been on still tacky gone dry down in".split())


def goes_to(texts: tuple[str, ...], end: int) -> str | None:
    """Return the kind of a time that goes on with what it took to become: "an hour to tack up", "two hours to set"."""
    if texts[end : end + 1] != ("to",):
        return None
    for at in range(end + 1, min(end + 5, len(texts))):
        if texts[at] in _OUTCOMES:
            return _OUTCOMES[texts[at]]
        if texts[at] not in _TURNING:
            return None
    return None


def tack_state(texts: tuple[str, ...], first: int, start: int, end: int) -> str | None:
    """Return tack where a coat was tacky after the time: "tack free after an hour", "after two hours it was tacky".

    `first` is where "about" or "inside" before the number starts.
    """
    if _REACHED.isdisjoint(texts[max(0, first - 1) : start]):
        return None
    return nearest(texts, first, end, lambda at: "tack" if _is_tacky(texts, at) else None, _REACH)


def _is_tacky(texts: tuple[str, ...], at: int) -> bool:
    if texts[at] not in _TACKY and texts[at : at + 2] not in _TOUCHED:
        return False
    first = at
    while first > max(0, at - 6) and texts[first - 1] not in ENDS and texts[first - 1] != ",":
        first -= 1
    return _NOT_YET.isdisjoint(texts[first:at]) and texts[at + 1 : at + 2] != ("yet",)


def is_gel_coat(texts: tuple[str, ...], at: int) -> bool:
    """Whether "gel" is the coat and not what it does: "the gel was tacky", "gel's been on an hour"."""
    following = texts[at + 1 : at + 3]
    if following[:1] and following[0] in ("'s", "s"):
        return len(following) > 1 and following[1] in _STANDS
    return bool(following) and following[0] in _COAT
