"""Questions, so that nothing in them is taken for a thing that was done.

A question opens a clause with a question word or a helper before its subject ("did I wax ..."). A tag
("looks good, doesn't it?") asks nothing.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import FILLERS, phrase, sentence_end

_HELPERS = frozenset("do does did is are was were have has had can could will would should shall am ca wo".split())
_ASKED = frozenset(
    {
        "i",
        "we",
        "you",
        "it",
        "they",
        "he",
        "she",
        "that",
        "this",
        "there",
        "the",
        "my",
        "our",
        "those",
        "these",
        "anyone",
        "any",
        "anybody",
    }
)
_HOW = frozenset(
    {"much", "many", "long", "thick", "far", "often", "hot", "warm", "big", "deep", "old", "heavy", "soon"}
)
_LEADS = FILLERS | {"so", "and", "but", "now", "hey", "wait", "hang", "on", "then", "also", "say", "please"}
_REQUESTED = frozenset({"write", "note", "log", "put", "record", "add", "mark", "save", "change", "scratch", "delete"})
_REMIND = (
    ("show", "me"),
    ("read", "me"),
    ("find", "me"),
    ("remind", "me"),
    ("tell", "me"),
    ("any", "idea"),
    ("what", "about"),
    ("how", "about"),
    ("how", "come"),
    ("what", "if"),
)
_DOUBTS = (
    ("wonder",), ("wondering",), ("unsure",), ("dunno",), ("forget",), ("not", "sure"), ("n't", "sure"),
    ("not", "certain"), ("n't", "remember"), ("not", "remember"), ("n't", "know"), ("n't", "say"), ("no", "idea"),
)  # fmt: skip
"""What leads up to "if" or "whether" where the speaker asks himself."""
_ASKING_ENDS = (
    ("do", "you", "think"), ("do", "you", "reckon"), ("would", "you", "say"), ("you", "think"), ("you", "reckon"),
    ("or", "what"), ("any", "ideas"), ("anyone", "know"), ("anybody", "know"),
)  # fmt: skip
_BIDDEN = frozenset("you y' ya ye anybody anyone nobody ever".split())
_NAMED = frozenset("CD NN NNS NNP NNPS DT PRP PRP$ EX".split())
_ENDS_DOUBT = frozenset({",", "so", "but", "then"})


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the questions in the note, kind "question", each over its clause."""
    questions: list[Found] = []
    at, length = 0, len(words.lower)
    while at < length:
        end = sentence_end(words, at)
        marked = end < length and words.lower[end] == "?"
        start = _opening(words, at, end, marked)
        doubt = None if start is not None else _doubted(words, at, end)
        if doubt is not None:
            close = next((i for i in range(doubt + 1, end) if words.lower[i] in _ENDS_DOUBT), end)
            doubt = _doubter(words, doubt, at)
            questions.append(phrase(words, "question", doubt, close, "questions.doubted"))
        elif start is not None:
            close = end if marked or _asked_at_the_end(words, end) else _clause_end(words, start, end)
            questions.append(phrase(words, "question", start, close, "questions.asked"))
        at = end + 1
    return questions


def _opening(words: NoteWords, at: int, end: int, marked: bool) -> int | None:
    """Return where the question of the sentence [at, end) opens, or None."""
    lower = words.lower
    clause = True
    for i in range(at, end):
        if clause and lower[i] not in _LEADS and lower[i] != ",":
            if _asks(words, i, end, marked):
                return i
            clause = False
        elif lower[i] == ",":
            clause = True
    if (marked and end - at > 1 and not _tagged(words, end)) or _asked_at_the_end(words, end):
        return _after_leads(lower, at, end)
    return None


def _asked_at_the_end(words: NoteWords, end: int) -> bool:
    """ "Is sixty too damp, do you think", "that gel still tacky or what"."""
    return any(words.lower[max(0, end - len(tail)) : end] == tail for tail in _ASKING_ENDS)


def _doubted(words: NoteWords, at: int, end: int) -> int | None:
    """Return the "if" that the speaker asks himself in: "not sure if we waxed it", "wonder whether it's set"."""
    for i in range(at + 1, end):
        if words.lower[i] in ("if", "whether") and any(
            words.lower[max(at, i - len(lead)) : i] == lead for lead in _DOUBTS
        ):
            return i
    return None


def _doubter(words: NoteWords, doubt: int, at: int) -> int:
    """Return where the clause of doubt opens: "I WONDER if", "I'm not sure whether"."""
    while doubt > at and words.lower[doubt - 1] not in (",", "and", "but", "so") and doubt > 0:
        doubt -= 1
    return doubt


def _clause_end(words: NoteWords, start: int, end: int) -> int:
    """Without a question mark a question ends at its first comma."""
    return next((i for i in range(start + 1, end) if words.lower[i] == ","), end)


def _after_leads(lower: tuple[str, ...], at: int, end: int) -> int | None:
    start = next((i for i in range(at, end) if lower[i] not in _LEADS and lower[i] != ","), None)
    return start if start is not None and end - start > 1 else None


def _asks(words: NoteWords, at: int, end: int, marked: bool) -> bool:
    lower = words.lower
    word, after, third = (lower[i] if i < end else "" for i in (at, at + 1, at + 2))
    if (word, after) in _REMIND:
        return not (word == "remind" and third == "to")
    if word in _HELPERS:
        bidden = after == "n't" and third in _BIDDEN and not marked  # "don't you ever sand it dry"
        return not bidden and not (after == "you" and third in _REQUESTED) and _inverted(words, at, end)
    if word == "how" and after in _HOW:
        return True
    if word in ("what", "which", "whose"):
        return (
            (after in _HELPERS and third in _ASKED) or (after == "'s" and marked) or _what_thing(words, at, end, marked)
        )
    if word in ("how", "when", "where", "why", "who"):
        if word == "who":
            return marked or (words.tags[at + 1 : at + 2] == ("VBD",) and at + 2 < end)
        return (after in _HELPERS and third in _ASKED) or (after in ("'s", "'d") and marked)
    return False


def _what_thing(words: NoteWords, at: int, end: int, marked: bool) -> bool:
    """ "which lot of resin was that", "what ratio for the gel coat"."""
    if at + 1 >= end or words.tags[at + 1] not in ("NN", "NNS"):
        return False
    return (
        marked
        or any(
            words.lower[i] in _HELPERS and words.lower[i + 1 : i + 2] and words.lower[i + 1] in _ASKED
            for i in range(at + 2, end)
        )
        or words.lower[at + 2 : at + 3] == ("for",)
    )


def _inverted(words: NoteWords, at: int, end: int) -> bool:
    """A helper before its subject, with more to come: not the tag of "it's good, isn't it"."""
    lower = words.lower
    if _names_its_subject(words, at, end):
        return True
    subject = at + 2 if lower[at + 1 : at + 2] and lower[at + 1] == "n't" else at + 1
    if subject + 1 >= end or lower[subject] not in _ASKED:
        return False
    if lower[at] == "had" and lower[subject] not in ("i", "we", "you") and lower[end : end + 1] != ("?",):
        return False  # "had it sanded"
    if lower[at] in ("did", "do", "does") and lower[subject] in ("the", "that", "this", "those", "these", "my", "any"):
        return any(words.tags[i] in ("VB", "VBP") for i in range(subject + 1, min(subject + 6, end)))
    if lower[at] in ("had", "have", "was", "is", "are", "were", "has") and lower[subject] in (
        "the",
        "that",
        "this",
        "any",
        "my",
    ):
        if lower[at] == "has" and not {"VBN", "VBD"}.isdisjoint(words.tags[subject + 2 : subject + 4]):
            return True
        return lower[end : end + 1] == ("?",) or (lower[at] in ("is", "are", "was", "were") and subject + 2 < end)
    return True


def _names_its_subject(words: NoteWords, at: int, end: int) -> bool:
    """ "Is 60 percent too damp, do you think?", "Can polyester go over epoxy?"."""
    if at + 2 >= end or words.tags[at + 1] not in _NAMED:
        return False
    tag = any(word == "n't" for word in words.lower[max(at + 2, end - 3) : end])
    return (words.lower[end : end + 1] == ("?",) and not tag) or _asked_at_the_end(words, end)


def _tagged(words: NoteWords, end: int) -> bool:
    """Whether the sentence ends in a tag ("..., isn't it?", "..., right?", "..., yeah?")."""
    lower = words.lower
    comma = next((i for i in range(end - 1, max(end - 5, -1), -1) if lower[i] == ","), None)
    if comma is not None:
        return True
    return lower[end - 1] in FILLERS or (
        lower[end - 1] in ("it", "they", "we") and any(word == "n't" for word in lower[max(end - 3, 0) : end])
    )
