"""Chatter in words of the trade: "pulled a face", "mixed feelings", "filled the kettle", "cut my thumb".

An act in such words is no step. An object counts here only where nobody would mould it.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import is_act, phrase, tag_at, word_at

_IDIOMS = """
pull a face; pull a muscle; pull my leg; pulling my leg; pull his leg; pull a fast one; pull an all nighter;
pull a sickie; seal the deal; seal of approval; mix feeling; mixed feeling; mixed feelings; mixed bag;
mixed blessing; mix up the date; mix up the order; wax lyrical; waxing lyrical; weigh up whether; weigh up the option;
weigh up if; weigh in on; weigh on my mind; pour down outside; pouring down outside; pouring down with; pour with rain;
pouring with rain; pour myself; pour cold water on; brush up on; brush with death; fill in the form; fill in a form;
fill me in; fill him in; fill the boss in; fill you in; roll around laugh; roll my eye; roll her eye; roll his eye;
roll in late; roll up late; roll call; roll on friday; roll on the weekend; cut corner; cut it fine; cut me off;
cut to the chase; press for time; pressed for time; hard pressed; cast an eye; cast my mind; cast my eye; cast doubt;
set the alarm; set off home; crack on with; cracking on with; crack a joke; crack a smile; crack open a beer;
polish off my lunch; polish off my tea; polish off the biscuit; polish off the cake; stick in traffic;
stuck in traffic; glue to the telly; glued to the telly; hammer home; trim the fat; photo finish; store up trouble;
in store for; test my patience; testing my patience; test the water; fit to drop; fit as a fiddle;
forget what i say; forget what i said; never mind what i said; leave me in peace
"""
_UNMOULDED = frozenset(
    "hair beard moustache hedge weeds lawn phone email emails message messages kettle coffee tea cuppa brew beer"
    " sandwich sandwiches envelope envelopes parcel form forms invoice invoices diary calendar shopping dog cat kids"
    " garden grass diesel petrol lunch dinner breakfast potatoes spuds extinguisher extinguishers tyres windscreen news"
    " weather forecast deal timesheet timesheets rota lottery teeth hands nails shoes boots van".split()
)
_BODY = frozenset("thumb finger fingers hand hands arm leg foot knee head nail nails hair knuckle knuckles".split())
_FEELING = frozenset("had have ran run put laid lay".split())
_LEADING = ("DT", "PRP$", "JJ", "RP", "CD")


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the chatter of the note that sounds like acts, kind "aside"."""
    out: list[Found] = []
    for at, word in enumerate(words.lower):
        end = _idiom_end(words, at, word) or (_everyday_end(words, at) if words.tags[at : at + 1] > ("V",) else None)
        if end is not None and not (out and at < out[-1].end):
            out.append(phrase(words, "aside", at, end, "asides.idle"))
    return out


def _idiom_end(words: NoteWords, at: int, word: str) -> int | None:
    lemma = words.doc[at].lemma_ if words.tags[at : at + 1] > ("V",) else word
    if word not in _BY_FIRST and lemma not in _BY_FIRST:
        return None
    for idiom in (*_BY_FIRST.get(word, ()), *_BY_FIRST.get(lemma, ())):
        if all(_is(words, at + i, part) for i, part in enumerate(idiom)):
            return at + len(idiom)
    return None


def _is(words: NoteWords, at: int, part: str) -> bool:
    return at < len(words.lower) and part in (words.lower[at], words.doc[at].lemma_)


def _everyday_end(words: NoteWords, at: int) -> int | None:
    """ "Filled the kettle", "trimmed my beard", "cut my thumb"; not "the van mould"."""
    if tag_at(words, at)[:1] != "V" or not is_act(words, at):
        return None
    noun = at + 1
    while noun < at + 4 and tag_at(words, noun) in _LEADING:
        noun += 1
    if tag_at(words, noun) not in ("NN", "NNS") or tag_at(words, noun + 1) in ("NN", "NNS", "POS"):
        return None
    if word_at(words, noun + 1) == "of":
        return None
    felt = words.lower[at] in _FEELING and word_at(words, noun + 1) in ("on", "over", "to", "across", "along", "down")
    mine = word_at(words, noun - 1) in ("my", "his") and words.lower[noun] in _BODY and not felt
    return noun + 1 if mine or (words.lower[noun] in _UNMOULDED - _BODY and noun > at) else None


def _by_first() -> dict[str, list[tuple[str, ...]]]:
    table: dict[str, list[tuple[str, ...]]] = {}
    for idiom in _IDIOMS.replace("\n", " ").split(";"):
        parts = tuple(idiom.split())
        table.setdefault(parts[0], []).append(parts)
    return table


_BY_FIRST = _by_first()
