"""Who did it, as far as it was said: a role, "I" or "we", or a first name as the subject of an act."""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import FINITE, is_act, is_stop, phrase

_HEADS = frozenset(
    "maker makers apprentice apprentices trainee trainees foreman forewoman gaffer boss helper helpers"
    " laminator laminators moulder moulders technician owner supervisor student students lad lads lass"
    " assistant caster crew painter sprayer polisher joiner brother sister dad father mum mom mother son daughter wife"
    " husband uncle cousin mate neighbour neighbor kid guys girls boys shift".split()
)
_RANKS = frozenset(
    "lead second first third senior junior head new other young older night day weekend master workshop shop".split()
)
_NO_NAMES = frozenset(
    "post pre peel gel wax resin cast mould mold silicone epoxy pull batch coat mat layer tissue hot".split()
)
_ITS_OWN = frozenset("cured set dried gelled kicked went came cracked tore stuck split".split())
"""Acts that a thing does by itself: their capitalised subject is seldom a person."""
_HAVING = frozenset("had have got get let made".split())
_ARTICLES = frozenset({"the", "a", "an", "our", "my", "that"})
_MUSING = frozenset("think reckon guess know mean suppose say hope believe want need wish like see".split())
_NOBODY = _HEADS | _NO_NAMES


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the doers named in the note, kind "who", without their article."""
    questions = found.of("question")
    doers: list[Found] = []
    at, length = 0, len(words.lower)
    while at < length:
        end = _doer_end(words, at)
        if end is None or any(q.start <= at < q.end for q in questions):
            at += 1
            continue
        start = at + 1 if words.lower[at] in _ARTICLES else at
        if _does(words, at, end):
            doers.append(phrase(words, "who", start, end, "who.subject"))
        at = end
    return doers


def _doer_end(words: NoteWords, at: int) -> int | None:
    """Return the end of the doers that open here, "me and the lead maker" as one; or None."""
    end = _one_doer_end(words, at)
    while end is not None and words.lower[end : end + 1] == ("and",):
        more = _one_doer_end(words, end + 1)
        if more is None:
            break
        end = more
    return end


def _one_doer_end(words: NoteWords, at: int) -> int | None:
    lower, length = words.lower, len(words.lower)
    if at >= length:
        return None
    if lower[at] in ("i", "we", "me"):
        return at + 1
    i = at
    while i < length and (lower[i] in _ARTICLES or lower[i] in _RANKS):
        i += 1
    if i < length and lower[i] in _HEADS:
        return i + 1
    return at + 1 if _is_name(words, at) else None


def _is_name(words: NoteWords, at: int) -> bool:
    """A capitalised word that is no word of the shop, straight before a past act."""
    if words.tags[at] != "NNP":
        return False
    text = words.doc[at].text
    if not text.istitle() or not text.isalpha() or len(text) < 2:
        return False
    after = at + 1
    if after >= len(words.lower) or words.lower[at] in _NOBODY or words.lower[after] in _ITS_OWN:
        return False
    opens = at == 0 or is_stop(words, at - 1) or words.lower[at - 1] in (",", "and", "so", "then")
    if words.lower[at - 1 : at] and words.lower[at - 1] in _HAVING:  # "had Maria check it"
        verb = after + (words.lower[after] == "to")
        return verb < len(words.lower) and is_act(words, verb)
    if words.lower[after] == "'s":  # "Callum's brushing it on"
        return opens and words.tags[after + 1 : after + 2] == ("VBG",)
    if words.lower[after] == "and":
        return opens and _one_doer_end(words, after + 1) is not None
    return opens and words.tags[after] in ("VBD", "VBZ") and is_act(words, after)


def _does(words: NoteWords, at: int, end: int) -> bool:
    """Whether the doer is the subject of a verb, or stands in "by the ..." or "with the ..."."""
    before = words.lower[at - 1] if at else ""
    if words.lower[at] == "me" and end == at + 1:
        return False
    if before in ("by", "with", "had", "got", "let", "have") and words.lower[at] not in ("i", "we"):
        return True
    if before in ("like", "as"):
        return False
    verb = end
    while verb < len(words.lower) and words.tags[verb] == "RB":
        verb += 1
    if words.lower[verb : verb + 1] == ("'s",) and words.tags[verb + 1 : verb + 2] == ("VBG",):
        return True  # "Callum's brushing it on"
    if verb >= len(words.lower) or (words.tags[verb] not in FINITE and words.tags[verb] != "VBN"):
        return False
    return words.lower[at] not in ("i", "we") or words.doc[verb].lemma_ not in _MUSING
