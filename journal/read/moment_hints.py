"""Whether a time is a start, an end or due, by the words before it. Pure, of the pieces of a note."""

from __future__ import annotations

_START = frozenset({"started", "start", "starting", "starts", "began", "since", "from", "begun", "begin"})
_END = frozenset("finished finish done ended stopped quit packed knocked wrapped till til until end completed".split())
_FINISHED = frozenset({"finished", "finish", "stopped", "completed", "started", "began"})
_WHICH_END = frozenset("one the this that each either other far near deep top bottom left right back front".split())
_JUST = frozenset("just shortly bit little".split())
_LAST_OF = (("one",), ("coat",), ("layer",), ("ply",))
_TAKEN_OUT = frozenset("out came comes popped pulled opened off by needs due before will 'll should".split())
_AT_ONCE = (("at",), ("was", "at"), ("on", "at"), ("about",), ("around",))
_DUE = frozenset({"due", "by", "ready", "before", "should"})
_STOPS = frozenset({".", ";", "then", "but", "and"})


def hint_of(texts: tuple[str, ...], start: int) -> str | None:
    """Return start, end or due where the words before a time tell which it is, else None."""
    if _is_of_the_last(texts, start):
        return "end"
    for at in range(start - 1, max(-1, start - 9), -1):
        text = texts[at]
        if _is_no_hint(texts, at, start):
            continue
        if text in _STOPS or (text == "before" and texts[at - 1] in _JUST):
            break  # "demoulded just before ten"
        if text in _DUE and not (text == "before" and at < start - 1):
            return "due"
        if text in _START:
            return "start"
        if text in _END:
            return "end"
    return None


def _is_no_hint(texts: tuple[str, ...], at: int, start: int) -> bool:
    """Whether a word is too far from the time to tell of it, or no end of anything: "tipped it in from one END"."""
    if texts[at] == "end" and texts[at - 1] in _WHICH_END:
        return True
    if at >= start - 5 or texts[at] in _STOPS or texts[at] == "should":  # "should be good to demould at one"
        return False
    return texts[at] not in _FINISHED or "," in texts[at:start]  # "finished filling the left wing at ten"


def _is_of_the_last(texts: tuple[str, ...], start: int) -> bool:
    """Whether it is when the last of several went on: "LAST COAT went on at nine", "the first was at eight, the last
    at nine"."""
    led = texts[max(0, start - 7) : start]
    at = max((i for i, text in enumerate(led) if text == "last"), default=None)
    if at is None or not (_STOPS | _TAKEN_OUT).isdisjoint(led[at:]) or "," in led[at:]:
        return False
    return led[at + 1 : at + 2] in _LAST_OF or led[at + 1 :] in _AT_ONCE
