"""How much two spellings sound alike, for words as a recogniser mishears them.

Spellings are turned into rough phones by rule; their distance is an edit distance in which sounds that are
made alike (p and b, s and z, any two vowels) cost little, and so do endings that are lost in running speech.
"""

from __future__ import annotations

import re
from functools import lru_cache

_RULES = tuple(
    (re.compile(pattern), phones)
    for pattern, phones in (
        (r"^kn", "n"), (r"^wr", "r"), (r"^ps", "s"), (r"^wh", "w"), (r"eighed\b", "ed"), (r"eigh", "e"),
        (r"ight", "it"), (r"ough", "o"), (r"augh", "o"),
        (r"gh", ""), (r"ph", "f"), (r"sch", "sk"), (r"tch|ch", "C"), (r"sh|tion\b|ti(?=on)|ci(?=[aou])", "S"),
        (r"th", "T"), (r"ck", "k"), (r"qu", "kw"), (r"x", "ks"), (r"c(?=[eiy])", "s"), (r"c|q", "k"),
        (r"dge", "J"), (r"j", "J"), (r"g(?=[ei])", "G"), (r"mb$", "m"), (r"sses$", "sis"), (r"([^aeiouy])ed$", r"\1d"),
        (r"([^aeiouy])es$", r"\1s"), (r"([^aeiouy])e$", r"\1"), (r"oa|ou|ow|aw|au|oe", "o"), (r"ee|ea|ie|ei|ey", "i"),
        (r"ai|ay", "e"), (r"oo|ew|ue|ui", "u"), (r"y", "i"), (r"(.)\1", r"\1"),
    )
)  # fmt: skip
_VOWELS = frozenset("aeiou")
_KIN: dict[frozenset[str], float] = {}
for _group, _cost in (
    ("pb", 0.3), ("tdT", 0.35), ("kgG", 0.35), ("fvTb", 0.4), ("szSC", 0.4), ("CJSG", 0.35), ("mn", 0.35),
    ("lrw", 0.5), ("zT", 0.5), ("hw", 0.5), ("bv", 0.35), ("pk", 0.7), ("tk", 0.7), ("pt", 0.7), ("dg", 0.7),
    ("vw", 0.5), ("nd", 0.7),
    ("dJ", 0.6), ("tC", 0.6), ("nl", 0.7), ("sT", 0.5),
):  # fmt: skip
    for _one in _group:
        for _other in _group:
            _pair = frozenset((_one, _other))
            _KIN[_pair] = min(_cost, _KIN.get(_pair, 1.0))
_VOWEL_SWAP, _VOWEL_LOST = 0.25, 0.45
_LOST = {"h": 0.4, "r": 0.4, "w": 0.6, "t": 0.6, "d": 0.6, "s": 0.6, "n": 0.7, "l": 0.7}
_LOST_AT_END = {"t": 0.35, "d": 0.3, "s": 0.35, "r": 0.25}


@lru_cache(maxsize=20_000)
def phones(spelling: str) -> str:
    """Return the rough phones of a word or of words, one character each."""
    out = []
    for word in re.findall(r"[a-z]+", spelling.casefold().replace("'", "")):
        for pattern, instead in _RULES:
            word = pattern.sub(instead, word)
        out.append(word)
    return "".join(out)


def _swap(one: str, other: str) -> float:
    if one == other:
        return 0.0
    if one in _VOWELS and other in _VOWELS:
        return _VOWEL_SWAP
    return _KIN.get(frozenset((one, other)), 1.0)


def _lost(text: str, at: int) -> float:
    phone = text[at]
    if phone in _VOWELS:
        return _VOWEL_LOST
    usual = _LOST.get(phone, 0.85)
    return _LOST_AT_END.get(phone, usual) if at == len(text) - 1 else usual


@lru_cache(maxsize=100_000)
def distance(heard: str, meant: str) -> float:
    """Return how far the phones of two words are apart: 0 when they are the same, about 1 for each foreign phone."""
    above = [0.0]
    for j in range(len(meant)):
        above.append(above[-1] + _lost(meant, j))
    for i, phone in enumerate(heard):
        row = [above[0] + _lost(heard, i)]
        for j, other in enumerate(meant):
            row.append(min(above[j] + _swap(phone, other), above[j + 1] + _lost(heard, i), row[j] + _lost(meant, j)))
        above = row
    return above[-1]
