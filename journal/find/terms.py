"""From the words typed to what the full-text index is asked for. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rapidfuzz import process
from rapidfuzz.distance import DamerauLevenshtein

from journal.find.query import Synonyms

_WORDS_MOST = 32  # a search is a line, not a page
_NAME_WORDS_MOST = 4
_NEAR = 0.66  # one slip in three letters, two in six
_NEAR_MOST = 6


@dataclass(frozen=True, slots=True)
class Term:
    """Phrases of which any one will do. With `prefix` the last word of a phrase may go on."""

    phrases: tuple[str, ...]
    prefix: bool = False


def terms_of(words: str, synonyms: Synonyms) -> list[Term]:
    """Return a term for each word, quoted phrase, or name that has synonyms."""
    terms: list[Term] = []
    for quoted, bare in re.findall(r'"([^"]*)"|([^"]+)', words.replace("\0", " ")):
        if quoted:
            terms += [_term(quoted, synonyms)] if _has_word(quoted) else []
        else:
            terms += _named_terms([word for word in bare.split() if _has_word(word)], synonyms)
    return terms[:_WORDS_MOST]


def forgiving(terms: Sequence[Term], vocabulary: Iterable[str]) -> list[Term]:
    """Return the terms with words spelt nearly the same, and words that go on, allowed as well."""
    known = list(vocabulary)
    return [_forgiving(term, known) for term in terms]


def _has_word(text: str) -> bool:
    return re.search(r"[^\W_]", text) is not None


def _named_terms(words: list[str], synonyms: Synonyms) -> list[Term]:
    terms: list[Term] = []
    at = 0
    while at < len(words):
        for length in range(min(_NAME_WORDS_MOST, len(words) - at), 0, -1):
            name = " ".join(words[at : at + length])
            if length == 1 or name.casefold() in synonyms:
                terms.append(_term(name, synonyms))
                at += length
                break
    return terms


def _term(name: str, synonyms: Synonyms) -> Term:
    return Term((name, *synonyms.get(" ".join(name.casefold().split()), ())))


def _forgiving(term: Term, vocabulary: list[str]) -> Term:
    phrases = dict.fromkeys(term.phrases)
    first = term.phrases[0].casefold()
    if re.fullmatch(r"[^\W\d_]{3,}", first):  # a number misspelt is another number
        near = process.extract(
            first,
            vocabulary,
            scorer=DamerauLevenshtein.normalized_similarity,
            limit=_NEAR_MOST,
            score_cutoff=_NEAR,
        )
        phrases |= dict.fromkeys(word for word, _, _ in near)
        return Term(tuple(phrases), prefix=True)
    return Term(tuple(phrases), prefix=False)
