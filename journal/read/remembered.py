"""What is told of other days and other people's work, of which nothing is a step of this build.

"My old boss used to wax it six times", "years ago I cracked a mould that way", "remember the last one, that refused
to open". What such people said or taught ("my father always said wax it every pull") is advice and stays.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import is_stop, phrase, sentence_end, starts_clause, tag_at, word_at

_KIN = frozenset(
    "boss gaffer governor foreman master teacher tutor grandmother grandfather grandma grandpa granddad grandad gran"
    " granny nan nana mother father mum mom mam dad da uncle auntie aunt".split()
)
_OF_OLD = frozenset("old late first former last dear poor own great".split())
_SAYING = frozenset(
    "say said says tell told teach taught show showed swear swore reckon reckoned advise advised".split()
)
_ADVERBS = frozenset("always never once often still also".split())
_WHO_DID = frozenset("i we he she they you".split())
_FIRST = frozenset("i we".split())
_TIMES = frozenset("years decades ages".split())
_DECADES = frozenset("sixties seventies eighties nineties noughties 60s 70s 80s 90s".split())
_WHEN_YOUNG = frozenset("apprentice lad lass kid boy girl nipper trainee student young training starting".split())
_CALLED_TO_MIND = frozenset("last time one when how that a fella chap job day".split()) - {"a"}
_BREAKS = frozenset("so but anyway anyways anyhow today now".split())
_JOINTS = frozenset({"and", ",", "then"})
_THINKING = frozenset("remember know think thought guess miss laugh laughed".split())
_SAME_NOW = frozenset("this today here now".split())
_GOES_ON_NOW = _FIRST | _SAME_NOW


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the reminiscences of the note, kind "remembered", each over its clauses."""
    out: list[Found] = []
    reach = 0
    for at in range(len(words.lower)):
        rule = _RULES.get(words.lower[at]) if at >= reach else None
        span = rule(words, at, reach) if rule else None
        if span is not None and not found.at("question", at):
            out.append(phrase(words, "remembered", *span, "remembered.told"))
            reach = span[1]
    return out


def _kin(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "My old boss laughed at me for that"; not "my dad's holding it", nor what he said."""
    who = at + 1
    while word_at(words, who) in _OF_OLD:
        who += 1
    if word_at(words, who) not in _KIN or not starts_clause(words, at):
        return None
    verb = who + 1
    while word_at(words, verb) in _ADVERBS:
        verb += 1
    used = words.lower[verb : verb + 2] == ("used", "to")
    told = word_at(words, verb + 2 if used else verb)
    old = used or who > at + 1 or words.lower[who].startswith("gran")
    if not old or told in _SAYING or (not used and tag_at(words, verb) != "VBD"):
        return None
    return at, _end(words, verb, by_another=True)


def _used_to(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "We used to seal them with shellac"; not "the clay we used to build it", "I'm used to it"."""
    if word_at(words, at + 1) != "to" or tag_at(words, at + 2) != "VB" or word_at(words, at + 2) in _SAYING:
        return None
    who = at - 1 - (word_at(words, at - 1) in _ADVERBS)
    if word_at(words, who) not in _WHO_DID or not starts_clause(words, who):
        return None
    return who, _end(words, at, by_another=words.lower[who] not in _FIRST)


def _ago(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "Years ago", "ten years ago", "a year or two back"."""
    far = word_at(words, at - 1) in _TIMES or words.lower[max(at - 2, 0) : at] == ("years", "or")
    return (_start(words, at, reach), _end(words, at)) if far else None


def _back_in(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "Back in the day", "in the nineties"."""
    told = word_at(words, at + 1) == "the" and word_at(words, at + 2) in _DECADES | {"day", "days"}
    if not told or (words.lower[at + 2] in ("day", "days") and word_at(words, at - 1) != "back"):
        return None
    return _start(words, at, reach), _end(words, at + 2)


def _when_young(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "When I was an apprentice", "when I started out"."""
    if words.lower[at + 1 : at + 3] != ("i", "was") or _WHEN_YOUNG.isdisjoint(words.lower[at + 3 : at + 6]):
        return None
    return _start(words, at, reach), _end(words, at + 3)


def _remember(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "Remember the last one", "I remember a chap who lost a thumb"; not "remember to wipe it"."""
    opens = starts_clause(words, at) or (word_at(words, at - 1) in _FIRST and starts_clause(words, at - 1))
    what = at + 2 if word_at(words, at + 1) in ("the", "that", "a") else at + 1
    if not opens or word_at(words, what) not in _CALLED_TO_MIND:
        return None
    return at - (word_at(words, at - 1) in _FIRST), _end(words, at)


def _last_year(words: NoteWords, at: int, reach: int) -> tuple[int, int] | None:
    """ "Last year we had one go soft"; not "since the back end of last year"."""
    if word_at(words, at + 1) not in ("year", "summer", "winter") or not (
        starts_clause(words, at) or tag_at(words, at - 1)[:1] in ("R", "V", "N")
    ):
        return None
    return _start(words, at, reach), _end(words, at + 1)


def _start(words: NoteWords, at: int, reach: int) -> int:
    """Return where the clause around the token opens."""
    while at > reach and words.lower[at - 1] not in (",", "because", "cos", "so", "but") and not is_stop(words, at - 1):
        at -= 1
    return at


def _end(words: NoteWords, at: int, by_another: bool = False) -> int:
    """Return where the talk comes back to this build: "but I used PVA", "so today ..."; else the sentence's end."""
    end = sentence_end(words, at)
    for i in range(at + 2, end):
        if words.lower[i] in _BREAKS and (words.lower[i - 1] == "," or word_at(words, i + 1) in _GOES_ON_NOW):
            return i
        if by_another and words.lower[i] in _FIRST and words.lower[i - 1] in _JOINTS and _does(words, i + 1):
            return i
    return end


def _does(words: NoteWords, verb: int) -> bool:
    return tag_at(words, verb) in ("VBD", "VBP") and words.lower[verb] not in _THINKING


_RULES = {
    "my": _kin, "our": _kin, "used": _used_to, "ago": _ago, "in": _back_in, "when": _when_young,
    "remember": _remember, "last": _last_year,
}  # fmt: skip
