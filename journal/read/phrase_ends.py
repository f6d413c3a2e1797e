"""Where a phrase that a marker opened ("so that", "until", "don't") stops, in speech with or without stops.

A phrase runs to the end of its sentence, or to the next act, the next marker, or a new subject with its
own verb, whichever comes first. Commas end it, but for a pause right after the marker and for a rider
("till it's one colour, no streaks").
"""

from __future__ import annotations

from journal.read.findings import Found, NoteWords, PhraseSaid
from journal.read.purposes import is_purpose
from journal.read.senses import verb_forms

SENTENCE_ENDS = frozenset({".", "!", "?", ";", ":", "...", "…", "–", "—", "\n", "\n\n"})
NEGATIONS = frozenset(
    "no not n't never without doesnae disnae dinnae didnae wasnae isnae cannae wouldnae winnae hasnae havenae".split()
)
SUBJECTS = frozenset({"i", "we", "he", "she", "they", "you", "it", "that", "there", "this", "these", "those"})
FINITE = frozenset({"VBZ", "VBP", "VBD", "MD"})
FILLERS = frozenset(
    {"um", "uh", "er", "erm", "ah", "well", "right", "ok", "okay", "yeah", "like", "hmm", "mm", "oh", "hey"}
)

_AND = frozenset({"and", "&", "then"})
_TRAILING = _AND | FILLERS | {",", "but", "so", "or", "now", "next", "also", "-", "you", "know", "because"} - {"like"}
_BREAKS = frozenset({"then", "afterwards", "anyway", "anyways", "okay", "ok", "also", "meanwhile"})
_BECAUSE = frozenset({"because", "'cause", "cos", "coz", "cuz", "otherwise", "unless"})
_OPENERS = frozenset(
    "what where how that which who whom as if when whenever before after while than until till because"
    " since though although once whether sure think know reckon say says said guess hope see feel mean"
    " thought found noticed let lets make makes get tell so once cos and but or unless where".split()
)
_STATE = frozenset({"be", "have", "get", "go", "feel", "look", "come", "stay", "stop", "start", "keep", "sound"})
_AUX = frozenset({"'s", "was", "is", "been", "be", "were", "are", "has", "have", "had", "got", "gets", "get", "being"})
_TO = frozenset(
    "to 'll will can could would do does did not n't should must just let me us you help make"
    " never always 'd might may they i we".split()
)
_ON_AN_OBJECT = frozenset({"the", "a", "an", "it", "them", "on", "another", "your", "my", "that", "this", "some", "in",
                           "two", "three", "one", "up", "out", "off"})  # fmt: skip
_SURROUNDINGS = frozenset("shop workshop room garage shed barn humidity temp temperature".split())
_GUESS = ("guess", "what")
_MORE_ACTS = frozenset("bin chuck dump carve scrape flip turn carry stop start crack".split())
SAME_PAST = frozenset({"put", "cut", "set", "let", "cast", "hit", "spread", "split"})
"""Verbs whose past is spelled as their base, which taggers take for either."""
_SUBORDINATE = frozenset({"once", "when", "if", "after", "while"})
"""Words that open a clause inside the phrase, whose main clause is still to come."""
LONGEST = 26


def word_at(words: NoteWords, at: int) -> str:
    """Return the lower-cased word of the token, "" beyond the note's ends."""
    return words.lower[at] if 0 <= at < len(words.lower) else ""


def tag_at(words: NoteWords, at: int) -> str:
    """Return the part-of-speech tag of the token, "" beyond the note's ends."""
    return words.tags[at] if 0 <= at < len(words.tags) else ""


def is_stop(words: NoteWords, at: int) -> bool:
    """Return whether the token ends a sentence; a dash counts when it stands apart."""
    word = words.lower[at]
    return word in SENTENCE_ENDS or (
        word in ("-", "--") and at > 0 and bool(words.doc[at - 1].whitespace_) and bool(words.doc[at].whitespace_)
    )


def sentence_end(words: NoteWords, at: int) -> int:
    """Return the index of the first token from `at` on that ends the sentence, or the note's length."""
    return next((i for i in range(at, len(words.lower)) if is_stop(words, i)), len(words.lower))


def starts_clause(words: NoteWords, at: int) -> bool:
    """Return whether the token opens a note, a sentence or a clause after a comma, fillers left out."""
    lower = words.lower
    while at > 0 and (lower[at - 1] in FILLERS or lower[at - 1] in _AND or lower[at - 1] in ("so", "now")):
        at -= 1
    return at == 0 or lower[at - 1] == "," or is_stop(words, at - 1)


def starts_sentence(words: NoteWords, at: int) -> bool:
    """Return whether the token opens a note or a sentence, fillers left out."""
    lower = words.lower
    while at > 0 and (lower[at - 1] in FILLERS or lower[at - 1] == ","):
        at -= 1
    return at == 0 or is_stop(words, at - 1)


def is_act(words: NoteWords, at: int) -> bool:
    """Return whether the token is a form of a verb of the trade."""
    return words.lower[at] in verb_forms() or words.lower[at] in _MORE_ACTS


def phrase_end(words: NoteWords, start: int, body: int, verb: bool = False, reason: bool = False) -> int:
    """Return the end of the phrase that opens at `start` and whose own words begin at `body`.

    `verb` says that the marker holds the clause's verb already ("don't press"); `reason` that the phrase is
    a reason itself, in which purposes are no new marker.
    """
    lower, tags = words.lower, words.tags
    at, last = body, min(len(lower), start + LONGEST)
    pending = lower[body : body + 1] != () and lower[body] in _SUBORDINATE
    while at < last and not is_stop(words, at):
        if at > body and _ends_before(words, body, at, verb, reason):
            if not (pending and lower[at] in SUBJECTS):
                break
            pending = False
        verb = verb or tags[at] in FINITE
        at += 1
    return _trimmed(lower, body, at)


def phrase(words: NoteWords, kind: str, start: int, end: int, rule: str, confidence: float = 0.9) -> Found:
    """Return a finding of the kind over the tokens, with the words as said."""
    return Found(kind, start, end, PhraseSaid(words.text(start, end)), rule, confidence)


def _trimmed(lower: tuple[str, ...], body: int, end: int) -> int:
    while end > body + 1 and lower[end - 1] in _TRAILING and not (lower[end - 1] == "you" and lower[end - 2] != "you"):
        if lower[end - 1] in ("know", "you") and lower[end - 2 : end] != ("you", "know"):
            break
        end -= 2 if lower[end - 1] == "know" else 1
    return end


def _ends_before(words: NoteWords, body: int, at: int, verb: bool, reason: bool) -> bool:
    word = words.lower[at]
    if word == ",":
        return not _rides_on(words, at)
    if word in _BREAKS or word in _BECAUSE:
        return True
    if word in _AND:
        return _new_act(words, at)
    check = _CHECKS.get(word)
    if check is not None and check(words, at, reason):
        return True
    if word in SUBJECTS:
        return verb and _new_subject(words, at)
    if word in _SURROUNDINGS and words.lower[at + 1 : at + 2] in (("'s",), ("is",), ("at",)):
        return verb
    return verb and words.tags[at][0] in "VNJ" and _bare_act(words, at)


def _rides_on(words: NoteWords, comma: int) -> bool:
    """A comma that the phrase runs over: "one colour, no streaks", "tacky, but it does not come off"."""
    after = comma + 1
    if after + 1 >= len(words.lower) or words.lower[after] not in ("no", "not"):
        return False
    return words.tags[after + 1] not in ("CD", ",", "PRP", ".", "VBD")


def _new_act(words: NoteWords, conjunction: int) -> bool:
    """Whether what an "and" joins is the next act rather than more of the phrase."""
    lower, tags = words.lower, words.tags
    at = conjunction + 1
    while at < len(lower) and tags[at] == "RB" and lower[at] not in _BREAKS and lower[at] not in NEGATIONS:
        at += 1
    if at >= len(lower) or lower[at] in _BREAKS or lower[at] in ("i", "we", "make", "never", "let", "next"):
        return True
    if (lower[at] == "do" and at + 1 < len(lower) and lower[at + 1] in NEGATIONS) or lower[at : at + 2] == _GUESS:
        return True
    if tags[at][0] == "V" and tags[at] not in ("VBZ", "VBG"):
        return is_act(words, at) and not _shares_helper(words, conjunction, at)
    return _starts_new_clause(words, at)


def _shares_helper(words: NoteWords, conjunction: int, at: int) -> bool:
    """ "so we can pull it and check", "make sure you press and roll": one helper, two verbs."""
    lower, tags = words.lower, words.tags
    if tags[at] not in ("VB", "VBP"):
        return False
    for back in range(conjunction - 1, max(conjunction - 9, -1), -1):
        if lower[back] in ("can", "could", "sure", "must", "you", "to", "should"):
            return True
        if is_stop(words, back):
            break
    return False


def _starts_new_clause(words: NoteWords, at: int) -> bool:
    """Whether a noun phrase with a past act of its own begins here ("and the second coat went on")."""
    for i in range(at, min(at + 6, len(words.lower))):
        tag = words.tags[i]
        if tag == "VBD":
            return words.doc[i].lemma_ not in _STATE or words.doc[i].lemma_ == "go"
        if tag in FINITE or tag in (",", ".", "IN", "CC"):
            return False
    return False


def _new_subject(words: NoteWords, at: int) -> bool:
    """Whether a pronoun with its own verb begins a new clause ("mind the edge it's sharp")."""
    lower, tags = words.lower, words.tags
    after = at + 1
    while after < len(lower) and tags[after] == "RB" and lower[after] not in NEGATIONS:
        after += 1
    if at > 1 and lower[at - 2] in ("much", "many", "which", "what"):
        return False  # "how much resin it wants"
    return after < len(lower) and tags[after] in FINITE and lower[at - 1] not in _OPENERS


def _bare_act(words: NoteWords, at: int) -> bool:
    """An act that follows with nothing between ("until it's tacky brush the second coat on")."""
    lower, tags = words.lower, words.tags
    before, after = at - 1, at + 1
    if after >= len(lower) or not _has_object(words, at) or lower[before] in _TO or lower[before] in _AUX:
        return False
    if tags[before] in ("DT", "IN", "PRP$", "CC", "TO", "MD", "PRP", "WP", "WDT", "NNS") and tags[at] != "VBD":
        return False
    if tags[at] in ("VBG", "VBZ") or not is_act(words, at) or "let" in lower[max(at - 6, 0) : at]:
        return False
    return tags[at][0] == "V" or lower[after] in ("the", "a", "it", "another")


def _has_object(words: NoteWords, at: int) -> bool:
    after = words.lower[at + 1]
    return after in _ON_AN_OBJECT or (words.lower[at] in ("stop", "start", "keep") and after.endswith("ing"))


def _so_that(words: NoteWords, at: int, reason: bool) -> bool:
    after = at + 1
    return after >= len(words.lower) or words.tags[after] not in ("JJ", "RB")


def _or_else(words: NoteWords, at: int, reason: bool) -> bool:
    return words.lower[at + 1 : at + 2] in (("you",), ("it",), ("they",), ("else",), ("i",), ("we",)) or (
        words.lower[at + 1 : at + 2] in (("the",), ("your",)) and _has_verb(words, at + 2)
    )


def _has_verb(words: NoteWords, at: int) -> bool:
    return any(words.tags[i] in FINITE for i in range(at, min(at + 4, len(words.lower))))


def _but(words: NoteWords, at: int, reason: bool) -> bool:
    if words.tags[at + 1 : at + 2] == ("JJ",):
        return reason
    return reason or NEGATIONS.isdisjoint(words.lower[at + 1 : at + 4])


def _in_case(words: NoteWords, at: int, reason: bool) -> bool:
    return words.lower[at + 1 : at + 2] == ("case",)


def _purpose(words: NoteWords, at: int, reason: bool) -> bool:
    return not reason and is_purpose(words, at) and words.lower[at + 1] not in ("get", "give", "make", "be", "cut")


def _next(words: NoteWords, at: int, reason: bool) -> bool:
    return words.tags[at - 1] not in ("DT", "PRP$") and words.lower[at + 1 : at + 2] != ("to",)


def _that_way(words: NoteWords, at: int, reason: bool) -> bool:
    return words.lower[at + 1 : at + 2] == ("way",)


_CHECKS = {
    "so": _so_that, "or": _or_else, "but": _but, "in": _in_case, "to": _purpose, "that": _that_way, "next": _next,
}  # fmt: skip
