"""Acts done by another's hand: "had the lad stipple it", "got Dave to sand it", "get the flange waxed".

Whether such an act is done or still to come is told by the verb that had it done, not by the act's own plain form.
"""

from __future__ import annotations

from dataclasses import dataclass

from journal.read.findings import NoteWords

_REACH = 5
_HAVING = frozenset("have had has having get got gets getting".split())
_MAKING = frozenset("make made makes making let lets letting help helped watch watched see saw".split())
_BY_TO = frozenset("get got gets getting help helped".split())
_TOLD_ED = frozenset("had got has made let helped watched saw".split())
_THEM = frozenset("him her them me us".split())
_PEOPLE = frozenset(
    "lad lads lass lasses apprentice apprentices trainee trainees boss gaffer foreman forewoman guy guys boy boys "
    "girl girls kid kids fella fellas fellow bloke blokes man men woman women crew team helper helpers student "
    "students intern interns assistant assistants mate mates partner wife husband brother sister son daughter dad da "
    "mum mom missus nephew niece cousin uncle neighbour neighbor client customer technician laminator laminators "
    "moulder caster painter joiner carpenter engineer sprayer polisher one ones fellow colleague colleagues".split()
)
_OF_A_NAME = frozenset("DT PRP$ JJ NN NNS NNP NNPS CD VBN PRP POS".split())
_THINGS = frozenset("NN NNS NNP NNPS PRP CD".split())
_BEFORE_VERB = frozenset("just then carefully slowly quickly gently all".split())


@dataclass(frozen=True, slots=True)
class Causer:
    """The token of the verb that had an act done, and the form that it stands for."""

    head: int
    form: str


def causer(words: NoteWords, verb: int, form: str) -> Causer | None:
    """Return the verb by which the act whose verb stands at `verb` was had done, or None.

    `form` is the act's own: a plain one wants a doer before it ("had the lad sand"), a participle what it
    was done to ("had it sanded").
    """
    if form not in ("base", "ed") or verb < 2:
        return None
    at = verb - 1
    while at > 0 and words.lower[at] in _BEFORE_VERB:
        at -= 1
    with_to = form == "base" and words.lower[at] == "to"
    last = at - with_to
    if last < 1 or not (_is_doer(words, last) if form == "base" else words.tags[last] in _THINGS):
        return None
    for i in range(last, max(-1, last - _REACH), -1):
        word = words.lower[i]
        if i < last and (word in _HAVING or word in _MAKING):
            fits = _fits(word, with_to, form) and not _is_helper(words, i, form)
            return Causer(i, _form(words, i)) if fits else None
        if words.tags[i] not in _OF_A_NAME:
            return None
    return None


def _is_doer(words: NoteWords, i: int) -> bool:
    if words.lower[i] in _THEM or words.lower[i] in _PEOPLE:
        return True
    return words.tags[i] == "NNP" and words.doc[i].text.istitle()


def _fits(word: str, with_to: bool, form: str) -> bool:
    if form == "ed":
        return word in _HAVING
    return word in _BY_TO if with_to else word in _MAKING or word in ("have", "had", "has", "having", "helped")


def _is_helper(words: NoteWords, i: int, form: str) -> bool:
    """Tell whether "have" only helps the verb: "have you waxed it" asks, "let them cure" leaves a thing be."""
    return form == "ed" and words.lower[i + 1] in ("you", "i", "we", "they", "he", "she")


def _form(words: NoteWords, i: int) -> str:
    """Return "ed" where it was had done, "base" where that is an order or follows "to" or a helper."""
    word = words.lower[i]
    if word.endswith("ing"):
        return "ing"
    before = words.tags[i - 1] if i else ""
    if word in ("have", "make", "get") and (not before or before in ("TO", "MD", "RB", "CC", ",", ".")):
        return "base"
    return "ed" if word in _TOLD_ED or before[:2] in ("NN", "PR") else "base"
