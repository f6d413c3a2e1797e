"""What "so" opens: what an act is for, or just the next thing that was done.

"So the glass doesn't bridge", "so we can bolt it up" are reasons. "So I mixed three hundred" goes on with the
story; there the reason may stand before it: "it was cold in here so I used the fast hardener".
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.observation_words import THINGS
from journal.read.openings import Opening
from journal.read.phrase_ends import FINITE, NEGATIONS, is_stop, starts_sentence, tag_at, word_at

_WEATHER = frozenset("roasting freezing boiling baking raining pouring getting".split())
_TELLERS = frozenset({"i", "we", "that", "this", "he", "she"})
_SUBJECT_TAGS = frozenset("PRP DT NN NNS PRP$ EX NNP JJ WDT IN CD RB VBG".split())
_DONE = frozenset(
    "done good ready fine ok okay now about nearly almost just going time all mixed in on up out waiting"
    " still tacky cured gelled off finished dry there here that".split()
)
_JOINED = frozenset({"that", "'s", "when", "as"})
_READY = frozenset("firm enough ready set hard cured fine good dry".split())
_KNOWING = frozenset("know knows see can tell find".split())
_SPARE = frozenset("room space plenty enough something somewhere clearance less more nothing".split())
_ROOM = frozenset("somewhere room time something chance space grip place".split())
_MERE = frozenset("need want take look seem know think reckon mean guess like have use say tell ask swear".split())
_DAYS = frozenset("today tonight tomorrow yesterday now next then first later".split())
_LEADING_ON = frozenset("IN RP RB DT PRP PRP$ TO".split())


def so_reason(words: NoteWords, at: int) -> Opening:
    """Return where the reason that the "so" at `at` opens or follows stands, or None."""
    after = word_at(words, at + 1)
    short = _ran_out(words, at) if after not in ("i", "we") else None
    if short is not None:
        return short, at, "state"
    if after in _JOINED:
        return _joined(words, at, after)
    verb = subject_verb(words, at + 1)
    if verb is None:
        return (at, at + 1, "so") if _is_bare(words, at + 1) else None
    negative = _is_negative(words, verb)
    told = words.tags[verb] == "VBD" or words.lower[verb] in ("'ve", "have")
    if after in ("i", "we") and words.lower[verb] == "know" and not starts_sentence(words, at):
        return at, at + 1, "so"  # "so I know how much it wants"
    if after in ("i", "we") and words.tags[verb] in ("VBD", "VBP") and not negative:
        return _state_before(words, at) if told else None
    if starts_sentence(words, at) and not negative:
        return None
    return (at, at + 1, "so") if _brings_about(words, at + 1, verb) else None


def _joined(words: NoteWords, at: int, after: str) -> Opening:
    """ "So that it runs", "so as to stop it", "so's it won't bleed", "so when I sand it I know where I am"."""
    if after == "that":
        return None if _points(words, at + 1) else (at, at + 2, "so-that")
    if after == "'s":
        return (at, at + 2, "so-that") if tag_at(words, at + 2) in ("PRP", "DT") else None
    if after == "when":
        return (at, at + 1, "so") if not _KNOWING.isdisjoint(words.lower[at + 4 : at + 14]) else None
    return (at, at + 2, "so-as-to") if "to" in words.lower[at + 2 : at + 4] else None


def _points(words: NoteWords, that: int) -> bool:
    """Whether the "that" after "so" points at a thing: "so that's done", "so that first coat took an hour"."""
    if tag_at(words, that + 1) in ("VBZ", "VBD", "MD", ""):
        return True
    verb = subject_verb(words, that + 1)
    if verb is None or tag_at(words, that + 1) not in ("JJ", "NN", "CD"):
        return False
    return words.tags[verb] in ("VBD", "VBZ") and starts_sentence(words, that - 1) and not _is_negative(words, verb)


def _ran_out(words: NoteWords, so: int) -> int | None:
    """Return where "I ran out of mat" begins that stands before "so the other end isn't done", or None."""
    for i in range(so - 2, max(so - 7, -1), -1):
        if is_stop(words, i) or words.lower[i] == ",":
            return None
        if words.lower[i : i + 2] == ("ran", "out"):
            if word_at(words, i - 1) in ("i", "we"):
                return i - 1
            return i if i == 0 or is_stop(words, i - 1) or words.lower[i - 1] == "," else None
    return None


def _is_bare(words: NoteWords, at: int) -> bool:
    """Whether a clause follows whose verb was taken for a noun: "so the halves lock", "so it disnae shift"."""
    if any(word.endswith("nae") for word in words.lower[at : at + 4]):
        return True
    if word_at(words, at) not in ("the", "your"):
        return False
    noun = at + 1
    while noun < at + 4 and tag_at(words, noun) in ("JJ", "NN", "NNS", "CD"):
        ends = is_bare_clause(words, noun + 1) or word_at(words, noun + 2) in (
            "together",
            "off",
            "out",
            "in",
            "up",
            "through",
        )
        if tag_at(words, noun) in ("NN", "NNS") and tag_at(words, noun + 1) in ("NN", "NNS", "VB", "JJ") and ends:
            return True
        noun += 1
    return False


def is_bare_clause(words: NoteWords, verb: int) -> bool:
    """Return whether a verb that was tagged as a noun ends the clause ("so the halves part", "or the mat floats").

    One that agrees with its noun by the "s" that only one of the two has may lead on: "so the bubbles POP on the way".
    """
    end = verb + 1
    if tag_at(words, verb) not in ("NN", "NNS", "VB", "JJ") or words.lower[verb] in _DAYS:
        return False
    if end >= len(words.lower) or is_stop(words, end):
        return True
    return agrees(words, verb) and tag_at(words, end) in _LEADING_ON


def agrees(words: NoteWords, verb: int) -> bool:
    """Return whether just one of a noun and the word after it ends in "s", as a noun and its verb do."""
    return _ends_in_s(words.lower[verb - 1]) != _ends_in_s(words.lower[verb])


def _ends_in_s(word: str) -> bool:
    return word.endswith("s") and not word.endswith("ss")


def _state_before(words: NoteWords, so: int) -> Opening:
    """ "it was cold in here so I used the fast hardener": the state is why."""
    for be in range(so - 2, max(so - 9, 0), -1):
        if is_stop(words, be) or words.lower[be] == ",":
            return None
        if words.tags[be] in ("VBZ", "VBD") and words.doc[be].lemma_ in ("be", "'s", "feel"):
            subject = be - 1
            while subject > 0 and be - subject < 4 and words.tags[subject][0] in "NJ":
                subject -= 1
            after = slice(be + 1, be + 4)
            known = words.lower[subject] in ("it", "the", "shop", "that") and (
                _is_how(words, be) or not _WEATHER.isdisjoint(words.lower[after])
            )
            known = known and _READY.isdisjoint(words.lower[be + 1 : so])
            start = subject + 1 if words.lower[subject] == "the" else subject
            return (start, so, "state") if known else None
    return None


def subject_verb(words: NoteWords, at: int) -> int | None:
    """Return the first finite verb of the clause whose subject opens at `at`, or None."""
    if at >= len(words.lower) or words.tags[at] not in _SUBJECT_TAGS:
        return None
    for i in range(at, min(at + 7, len(words.lower))):
        if words.lower[i] == "," or is_stop(words, i):
            return None
        if i > at and words.tags[i] in FINITE:
            return i
    return None


def _is_negative(words: NoteWords, verb: int) -> bool:
    late = word_at(words, verb + 2) in ("not", "no") and tag_at(words, verb + 1) in ("RB", "VB", "VBN", "TO")
    return word_at(words, verb + 1) in NEGATIONS or late


def _brings_about(words: NoteWords, subject: int, verb: int) -> bool:
    """Whether "so" + clause tells what the act is for, not what was done next."""
    first, tag = words.lower[subject], words.tags[verb]
    if first in ("no", "neither", "nothing", "none"):
        return True
    if words.tags[subject] == "EX":
        return _makes_room(words, verb)
    if tag in ("MD", "VBD"):
        return _helps(words, first in _TELLERS, verb)
    lemma, after = words.doc[verb].lemma_, word_at(words, verb + 2)
    if _is_negative(words, verb):
        return not (lemma == "be" and after in _DONE) and (after not in _MERE or after == "have")
    if first in _TELLERS or lemma in _MERE:
        roomy = lemma == "have" and not _ROOM.isdisjoint(words.lower[verb + 1 : verb + 4])
        return roomy and first not in _TELLERS
    adjective = tag_at(words, verb + 1) in ("JJ", "JJR", "RB", "RBR")
    return lemma != "be" or (word_at(words, verb + 1) not in _DONE and adjective)


def _makes_room(words: NoteWords, verb: int) -> bool:
    """ "So there's room for the bolts", "so there's no pores missed"; not "so there's a seam gone"."""
    if not THINGS.keys().isdisjoint(words.lower[verb : verb + 4]):
        return _is_negative(words, verb)
    spare = not _SPARE.isdisjoint(words.lower[verb + 1 : verb + 4])
    helper = words.tags[verb] == "MD" and words.lower[verb] != "must"
    return helper or spare or (_is_negative(words, verb) and words.lower[verb] != "must")


def _is_how(words: NoteWords, be: int) -> bool:
    """Whether the state is an adjective by itself: "it was cold", not "it was my first time"."""
    told = [i for i in range(be + 1, min(be + 4, len(words.lower))) if words.tags[i] == "JJ"]
    return any(tag_at(words, i + 1) not in ("NN", "NNS", "CD") for i in told)


def _helps(words: NoteWords, teller: bool, verb: int) -> bool:
    """Whether a helping or past verb speaks of a purpose: "so we can", "so it won't", "so it didn't bridge"."""
    helper = words.lower[verb]
    if words.tags[verb] == "VBD":
        if teller:
            return (
                helper == "did"
                and _is_negative(words, verb)
                and word_at(words, verb + 2) in ("get", "trap", "lose", "have")
            )
        return (helper == "did" and _is_negative(words, verb)) or helper in ("stayed", "kept")
    if teller:
        return helper == "can" or (helper in ("do", "wo") and _is_negative(words, verb))
    if helper in ("will", "'ll") and word_at(words, verb + 1) == "be":
        return word_at(words, verb + 3) == "to"  # "so it'll be easy to open", not "so it'll be amber"
    return helper not in ("must", "should")
