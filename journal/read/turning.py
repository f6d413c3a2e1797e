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
_DONE = {
    "tacky": "tack", "sticky": "tack", "off": "gel", "gelled": "gel", "kicked": "gel", "hard": "cure", "set": "cure",
}  # fmt: skip
_ABOUT = frozenset("right just only about around roughly me us nearly".split())
_OUT = frozenset(
    "demoulding demolding stripping pulling opening demould demold strip pull pop popping unmoulding".split()
)
_COATS = (("first",), ("second",), ("previous",), ("other",))
_HAVING = frozenset("are is have has got get give gives 've gave".split())
_IT = (("it",), ("she",), ("they",), ("the",))
_TURNING = frozenset("go get gone turn start starting be it up come".split())
_TACKY = frozenset({"tacky", "tack", "tacked", "sticky"})
_TOUCHED = (("touch", "dry"), ("dry", "to"))
_REACHED = frozenset("after in at inside within by".split())
_NOT_YET = frozenset("still not n't while until till before when no yet if once".split())
_REACH = 5
_COAT = frozenset("was went has had on looks stayed still coat coats".split())
_STANDS = frozenset("been on still tacky gone dry down in".split())


def of_what_came(texts: tuple[str, ...], first: int, start: int, end: int) -> str | None:
    """Return the kind of a time by what came of it, or None; `first` is where "about" before its number starts."""
    return (
        goes_to(texts, end)
        or tack_state(texts, first, start, end)
        or _took(texts, first)
        or ("pot life" if _before_it_goes(texts, first, end) else None)
        or ("demould" if _before_it_comes_out(texts, end) else None)
        or ("wait" if _is_gap(texts, first, end) else None)
    )


def _took(texts: tuple[str, ...], first: int) -> str | None:
    """Return the kind of "it's tacky now, took fifty minutes", "gone off, that took half an hour"."""
    at = first - 1
    while at > 0 and texts[at] in _ABOUT:
        at -= 1
    if at < 1 or texts[at] != "took":
        return None
    that = texts[at - 1] in ("it", "that", "which")
    at -= that
    at -= that and texts[at - 1] == "."  # "It's gone off. That took half an hour"
    led = texts[max(0, at - 6) : at]
    last = max((i for i, word in enumerate(led) if word in ENDS), default=-1)
    done = next((_DONE[word] for word in reversed(led[last + 1 :]) if word in _DONE), None)
    return done if _NOT_YET.isdisjoint(led[last + 1 :]) else None


def _before_it_goes(texts: tuple[str, ...], first: int, end: int) -> bool:
    """Whether it is how long a mix can be used: "there are six minutes before it is too stiff"."""
    held = not _HAVING.isdisjoint(texts[max(0, first - 3) : first])
    return held and texts[end : end + 1] == ("before",) and texts[end + 1 : end + 2] in _IT


def _before_it_comes_out(texts: tuple[str, ...], end: int) -> bool:
    """Whether it is how long before a part comes out: "six hours before demoulding", "a week before you pull it"."""
    return texts[end : end + 1] == ("before",) and not _OUT.isdisjoint(texts[end + 1 : end + 3])


def _is_gap(texts: tuple[str, ...], first: int, end: int) -> bool:
    """Whether it lies between coats: "one every quarter of an hour", "applied 40 min after the first"."""
    every = texts[max(0, first - 1) : first] == ("every",) or texts[max(0, first - 2) : first] == ("gap", "of")
    later = texts[end : end + 2] == ("after", "the") and texts[end + 2 : end + 3] in _COATS
    return every or later


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
    if texts[max(0, at - 2) : at] in (("coat", "of"), ("coats", "of")):
        return True  # "the next coat of gel goes on in an hour"
    if following[:1] and following[0] in ("'s", "s"):
        return len(following) > 1 and following[1] in _STANDS
    return bool(following) and following[0] in _COAT
