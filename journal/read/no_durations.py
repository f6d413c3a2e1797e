"""Times that are no durations: from now or ago, how often, how late, and mere manners of speaking."""

from __future__ import annotations

from journal.read.measures import Measure

_MOMENTS = frozenset("minute second sec min moment mo".split())
_ASKED = (("wait",), ("just",), ("got",), ("have",), ("on",), ("spare",))  # "hang on a minute"
_ASKED_FOR = (("give", "us"), ("give", "me"), ("gimme", "half"), ("give", "him"))
_LOSING = frozenset("lose loses lost losing save saves saved saving waste wasted wasting".split())
_CALLING = frozenset("calling ringing phoning texting emailing asking rings calls phones".split())
_STUFF = tuple(
    (word,) for word in "epoxy resin filler putty glue adhesive silicone rubber plaster urethane hardener tape".split()
)
_LATE = tuple((word,) for word in "late early behind ahead old older younger overdue".split())
_COUNTED = frozenset("layers coats plies pulls castings casts pieces moulds times pours degrees panels skins".split())
_APART = (("apart",), ("between",), ("each",), ("later",), ("before",), ("after",), ("long",), ("ago",))


def is_no_duration(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether a time tells no duration of anything at the bench."""
    told = (is_offset, _is_rate, _is_age, _is_talk, _is_a_kind)
    return any(rule(texts, one) for rule in told)


def is_offset(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether the time is said from now: "ten minutes ago", "due in an hour", "in ten minutes' time"."""
    following = tuple(text for text in texts[one.end : one.end + 3] if text not in ("'", "'s"))
    if "ago" in following[:1] or (following[:2] == ("or", "so") and "ago" in following):
        return True
    if one.start == 0 or texts[one.start - 1] != "in":
        return False
    if (following and following[-1:] == ("time",)) or following[:1] == ("time",):
        return True
    return "due" in texts[max(0, one.start - 3) : one.start]


def _is_talk(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether a time is only a manner of speaking: "give us a minute", "I'd sooner LOSE A DAY"."""
    led = texts[max(0, one.start - 3) : one.start]
    moment = one.article and texts[one.end - 1] in _MOMENTS and (led[-1:] in _ASKED or led[-2:] in _ASKED_FOR)
    called = led[-1:] == ("every",) and not _CALLING.isdisjoint(texts[max(0, one.start - 6) : one.start])
    return moment or called or not _LOSING.isdisjoint(led)


def _is_a_kind(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether the time names a sort of stuff: "some five minute epoxy", "the twenty-minute rubber"."""
    return not one.article and not texts[one.end - 1].endswith("s") and texts[one.end : one.end + 1] in _STUFF


def _is_age(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says how late or how old something is: "running a day late", "a week old"."""
    return texts[one.end : one.end + 1] in _LATE


def _is_rate(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says how often: "up a degree every three minutes"."""
    before = texts[max(0, one.start - 2) : one.start]
    counted = one.article and texts[one.core] in ("a", "an") and before[-1:] and before[-1] in _COUNTED
    if counted and texts[one.end : one.end + 1] not in _APART:
        return True  # "four layers a day"
    return before in (("degree", "every"), ("degrees", "every"), ("degree", "per"), ("degrees", "per"))
