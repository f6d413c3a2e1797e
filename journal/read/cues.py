"""How to tell that a thing is ready, in the words that the maker used ("until the streaks are gone").

A cue names what is seen, felt or heard. A clock time or a count of hours after "until" is a timing, and
"when we opened it" tells a story: neither is a cue.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.likeness import LIKENESSES, consistency, likeness
from journal.read.openings import Opening, Rule, opened_phrases
from journal.read.phrase_ends import (
    FINITE,
    NEGATIONS,
    phrase_end,
    sentence_end,
    starts_clause,
    tag_at,
    word_at,
)

_TIMES = frozenset(
    "tomorrow tonight today morning afternoon evening lunch lunchtime dinner tea monday tuesday wednesday"
    " thursday friday saturday sunday next about around half noon midnight after late later now then early"
    " quarter ten six recently demould further overnight at".split()
)
_TIME_NOUNS = frozenset("morning afternoon evening end next weekend week last day following".split())
_THINGS = frozenset({"it", "they", "the", "that", "you", "there", "this", "your", "all", "most", "its", "everything"})
_SENSED = frozenset(
    "be go get start stop feel look turn kick gel set thicken hit reach do will snap smell sound hold"
    " peel drop rise leave dent stick string ping ring foam fizz steam warm cool run have lift pull stay"
    " clear stand come begin make form show lose whiten firm separate bubble flow cure skin tack crack can"
    " could change become tick slip wrinkle squeak crackle dimple drag".split()
)
_STORY = frozenset({"came", "arrived", "opened", "pulled", "ran", "left", "dropped", "comes", "had", "tore", "did"})
_WEATHER = frozenset({"cold", "hot", "humid", "damp", "raining", "wet", "freezing", "ready", "done"})
_NO_CUE_BEFORE = frozenset({"me", "know", "remember", "say", "said", "ask", "wonder", "since", "from", "that"})
_SEEMS = frozenset(
    "look feel be come have sound snap peel smell run drip hold stay drop leave ring stand flow coat".split()
)
_SAFE = frozenset(
    "fine ready done good enough about able ok okay there here at alright right off out all on in back"
    " safe plenty used more less mixed kept stored left around a an worn".split()
)
_FEELS = frozenset("thick thin runny creamy smooth stiff tacky even loose sloppy sticky leathery rubbery".split())
_WHOLE = frozenset({"likeness", "consistency"})
_STIFFENED = frozenset("too hard stiff thick tacky rubbery lumpy dull".split())
_SETTING = frozenset("gel kick set skin cure harden thicken stiffen tack".split())
_TOUCH = frozenset("can could ca touch press tap push tilt lift see feel wiggle flex scratch".split())
_MEN = frozenset({"i", "we"})
_SEEN = frozenset({"could", "can", "ca", "see", "saw", "was", "had", "felt", "stopped", "got", "no", "'ve", "'m"})


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the cues in the note, kind "cue", each with its marker ("until ...", "once it's ...")."""
    return opened_phrases(words, "cue", _RULES, found.of("question", "remembered"), _end)


def _end(words: NoteWords, start: int, body: int, rule: str) -> int:
    end = body if rule in _WHOLE else phrase_end(words, start, body)
    return start if rule == "until" and not _tells(words, body, end) else end


def _tells(words: NoteWords, start: int, end: int) -> bool:
    """Whether the words after "until" say a state: a verb, an adjective or a participle, or one word alone."""
    if end - start == 1 or words.lower[start] == "no":
        return True
    return any(words.tags[i] in FINITE or words.tags[i] in ("JJ", "JJR", "VBN", "VBG") for i in range(start, end))


def _until(words: NoteWords, at: int) -> Opening:
    after, tag = word_at(words, at + 1), tag_at(words, at + 1)
    if not after or after in _TIMES or tag == "CD" or after[0].isdigit() or word_at(words, at - 1) == "not":
        return None
    if after in ("the", "this", "that") and word_at(words, at + 2) in _TIME_NOUNS:
        return None
    if after in _MEN and not _SEEN.intersection(words.lower[at + 2 : at + 4]):
        return None
    return at, at + 1, "until"


def _when(words: NoteWords, at: int) -> Opening:
    """ "when it goes dull", not "when I opened it" nor "when it's cold"."""
    verb = _state_verb(words, at + 1)
    if verb is not None and words.lower[at + 1] == "you" and words.lower[verb] not in _TOUCH:
        return None
    if verb is None or word_at(words, at - 1) in _NO_CUE_BEFORE or words.lower[verb] in _STORY:
        return None
    if words.tags[verb] == "VBD" and words.doc[verb].lemma_ in ("be", "have") and word_at(words, verb + 1) != "like":
        return None
    return (at, at + 1, "when") if word_at(words, verb + 1) not in _WEATHER else None


def _state_verb(words: NoteWords, at: int) -> int | None:
    """Return the verb of a clause about how the thing is, or None."""
    if word_at(words, at) not in _THINGS and tag_at(words, at) not in ("NN", "NNS"):
        return None
    for i in range(at + 1, min(at + 6, len(words.lower))):
        if words.tags[i] in FINITE or _shortened_is(words, i) or words.lower[i - 1] == "you":
            return i if words.doc[i].lemma_.lower() in _SENSED or words.lower[i] in ("'s", "'ve") else None
        if words.tags[i][0] == "V" or words.lower[i] in (",", "."):
            return None
    return None


def _shortened_is(words: NoteWords, at: int) -> bool:
    """Whether an "'s" that was tagged as a possessive is "is" ("when the gel's tacky")."""
    return words.tags[at] == "POS" and tag_at(words, at + 1) in ("JJ", "VBN", "RB", "VBG", "IN", "UH")


def _while(words: NoteWords, at: int) -> Opening:
    """ "while it's still tacky"; "while it was curing" is a time."""
    verb = _state_verb(words, at + 1)
    if verb is None or words.doc[verb].lemma_ not in ("be", "'"):
        return None
    after = verb + 1
    while tag_at(words, after) == "RB":
        after += 1
    return (
        (at, at + 1, "while")
        if tag_at(words, after) == "JJ" and word_at(words, after) not in _WEATHER - {"wet"}
        else None
    )


def _once(words: NoteWords, at: int) -> Opening:
    if word_at(words, at - 1) in ("at", "than", "just", "only", "all", "for"):
        return None
    if tag_at(words, at + 1) == "VBN" or word_at(words, at + 1) in ("dry", "tacky", "firm", "hard", "clear", "smooth"):
        return at, at + 1, "once"
    if word_at(words, at + 1) in ("fully", "properly", "completely") and tag_at(words, at + 2) in ("VBN", "JJ", "VBD"):
        return at, at + 1, "once"
    would = word_at(words, at + 1) in ("it", "they") and word_at(words, at + 2) in ("'d", "would", "'ll", "will")
    return (at, at + 1, "once") if would or _state_verb(words, at + 1) is not None else None


def _soon(words: NoteWords, at: int) -> Opening:
    if word_at(words, at - 1) != "as" or word_at(words, at + 1) != "as":
        return None
    return (at - 1, at + 2, "as-soon-as") if _state_verb(words, at + 2) is not None else None


def _moment(words: NoteWords, at: int) -> Opening:
    """ "the moment it kicks", "to the point where it strings"."""
    if word_at(words, at) == "point" and word_at(words, at + 1) in ("where", "that"):
        return at - 1, at + 2, "point"
    if word_at(words, at) == "moment" and _state_verb(words, at + 1) is not None:
        return at - 1, at + 1, "moment"
    return None


def _before(words: NoteWords, at: int) -> Opening:
    """ "before it kicks", "before the next ply goes on"; what a warning forbids keeps its own "before"."""
    verb = _state_verb(words, at + 1) if word_at(words, at + 1) in ("it", "the") else None
    if verb is None or _forbidden(words, at):
        return None
    if words.doc[verb].lemma_ in ("get", "go") and word_at(words, verb + 1) in _STIFFENED:
        return at, at + 1, "before"
    if words.tags[verb] not in ("VBZ", "VBP"):
        return None
    if (
        words.doc[verb].lemma_ not in _SETTING
        and word_at(words, verb + 1) != "off"
        and word_at(words, at + 2) != "next"
    ):
        return None
    return at, at + 1, "before"


def _forbidden(words: NoteWords, at: int) -> bool:
    for i in range(at - 1, max(at - 12, -1), -1):
        if words.lower[i] in (",", ".", ";"):
            return False
        if words.lower[i] in NEGATIONS or words.lower[i] == "sure":
            return True
    return False


def _should(words: NoteWords, at: int) -> Opening:
    """ "it should feel like a boiled sweet"."""
    after = at + 1
    while tag_at(words, after) == "RB" and word_at(words, after) not in NEGATIONS:
        after += 1
    if (
        word_at(words, after) not in _SEEMS
        or tag_at(words, at - 1) == ""
        or word_at(words, at - 1) in ("you", "i", "we")
    ):
        return None
    told = word_at(words, after + 1)
    if (told in _SAFE and told not in ("a", "an", "off", "out")) or tag_at(words, after + 1) in ("", ".", ",", "CD"):
        return None
    if "CD" in words.tags[after + 1 : after + 4] or (
        word_at(words, after) == "have" and tag_at(words, after + 1) in ("VBN", "VBD")
    ):
        return None
    return at, at + 1, "should"


def _looking(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) not in ("for", "after") or word_at(words, at + 2) in ("the", "my", "your", "it", "them"):
        return None
    told = word_at(words, at - 1) in ("'re", "are", "'m", "were") or starts_clause(words, at)
    return (at, at + 2, "looking-for") if told else None


def _want(words: NoteWords, at: int) -> Opening:
    """ "you want it like honey", "you want it to just string"."""
    if word_at(words, at + 1) != "it" or word_at(words, at - 1) not in ("you", "we", "i"):
        return None
    after = word_at(words, at + 2)
    if after == "to" and word_at(words, at + 3) in (*_SEEMS, "just"):
        return at, at + 2, "want"
    if after in ("like", "about"):
        return at + 2, at + 3, "want"
    return (at, at + 2, "want") if after in _FEELS or word_at(words, at + 3) in _FEELS else None


def _none_left(words: NoteWords, at: int) -> Opening:
    """ "you want it wet out properly, no white patches": what must no longer be there."""
    told = words.lower[max(at - 12, 0) : at]
    if word_at(words, at - 1) != "," or "want" not in told or "you" not in told:
        return None
    return (at, at + 1, "none-left") if tag_at(words, at + 1) in ("JJ", "NN", "NNS") else None


def _will_see(words: NoteWords, at: int) -> Opening:
    """ "you'll feel it grab", "you'll see it go dull"."""
    if word_at(words, at + 1) in ("see", "feel", "hear", "smell") and word_at(words, at + 2) in ("it", "the", "when"):
        return (at - 1, at + 1, "will-see") if word_at(words, at - 1) == "you" else None
    return None


def _if(words: NoteWords, at: int) -> Opening:
    """ "if it leaves a print it's not ready": what comes after tells of readiness."""
    if word_at(words, at + 1) not in ("it", "the", "you", "there", "a", "your"):
        return None
    for i in range(at + 3, min(sentence_end(words, at), at + 16)):
        if words.lower[i] == "it" and words.lower[i + 1 : i + 2] in (("'s",), ("is",)):
            ready = word_at(words, i + 2) if word_at(words, i + 2) != "not" else word_at(words, i + 3)
            return (at, at + 1, "if") if ready in ("ready", "done", "cured", "too", "still", "good") else None
    return None


_RULES: dict[str, Rule] = {
    **dict.fromkeys(("until", "till", "til", "'til", "untill"), _until),
    "when": _when, "while": _while, "whenever": _when, "once": _once, "soon": _soon, "moment": _moment,
    "point": _moment,
    "no": _none_left,
    "before": _before, "should": _should, "looking": _looking, "want": _want, "consistency": consistency,
    "'ll": _will_see, "if": _if, **dict.fromkeys(LIKENESSES, likeness),
}  # fmt: skip
