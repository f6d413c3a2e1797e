"""Plain words for what is said in dialect, dictated or spelled by ear; the note's own characters stay.

"fittin'" is read as "fitting", "wi" as "with", "full stop" as its mark.
"""

from __future__ import annotations

import re
from itertools import pairwise

from spacy.tokens import Doc

from journal.read.ordinary import is_english

_MARKS = {("full", "stop"): ".", ("new", "line"): ".", ("new", "paragraph"): "."}
_PLAIN = {"wi": "with", "owt": "anything", "nowt": "nothing", "thru": "through", "w/": "with", "arvo": "afternoon"} | {
    "afore": "before", "em": "them", "u": "you", "tmrw": "tomorrow", "w": "with", "nt": "n't", "@": "at",
} | {
    "oot": "out", "doon": "down", "aff": "off", "reet": "right", "ganning": "going", "ye": "you", "wor": "our",
    "roond": "round", "nee": "no", "nae": "no",
}  # fmt: skip
_SPELLED = str.maketrans({"’": "'", "‘": "'"})
_CLIPPED = re.compile(r"\b(o|an)'(?= (?!clock))", re.I)  # "o' wax", "resin an' hardener"
_DROPPED_G = re.compile(r"\b([A-Za-z]{2,}in)'(?!\w)")


def plain_text(text: str) -> str:
    """Return the text as it is to be parsed: as long as it was, each word at its own characters."""
    text = _CLIPPED.sub(lambda said: said[1] + ("f" if len(said[1]) == 1 else "d"), _told(text))
    text = _DROPPED_G.sub(lambda said: said[1] + "g" if _lost_its_g(said[1].lower()) else said[0], text)
    return text.lower() if text.isupper() and len(text.lower()) == len(text) else text


def _told(text: str) -> str:
    return text.translate(_SPELLED)


def as_said(doc: Doc, text: str, opened: list[int]) -> Doc:
    """Return the parsed words, spelled as they stand in the note's text, a full stop before each token of `opened`.

    The space before such a token stands for the stop, so that the characters of every word stay as they are.
    """
    before, spaces = set(opened), list[bool]()
    words, tags, lemmas = [], [], []
    for token in doc:
        if token.i in before:
            spaces[-1] = False
            words.append(" ")
            spaces.append(False)
            tags.append(".")
            lemmas.append(".")
        words.append(text[token.idx : token.idx + len(token)])
        spaces.append(bool(token.whitespace_))
        tags.append(token.tag_)
        lemmas.append(token.lemma_)
    return Doc(doc.vocab, words=words, spaces=spaces, tags=tags, lemmas=lemmas)


def with_marks(each: tuple[str, ...], opened: list[int]) -> tuple[str, ...]:
    """Return the words, or their tags, with a full stop before each token of `opened`; its tag is its mark."""
    out = list(each)
    for at in reversed(opened):
        out.insert(at, ".")
    return tuple(out)


def plain_words(lower: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words with dictated marks as marks ("comma", "full stop") and plain words for a dialect's."""
    lower = tuple(_PLAIN.get(word) or (word + "g" if _lost_its_g(word) else word) for word in lower)
    if _MARKS.keys().isdisjoint(pairwise(lower)):
        return lower
    out = ["," if word == "comma" else word for word in lower]
    for i, pair in enumerate(pairwise(lower)):
        if pair in _MARKS:
            out[i] = out[i + 1] = _MARKS[pair]
    return tuple(out)


def _lost_its_g(word: str) -> bool:
    """Tell whether the word is none as it stands, but is one with a g: "fittin", not "resin"."""
    return len(word) > 4 and word.endswith("in") and is_english(word + "g") and not is_english(word)
