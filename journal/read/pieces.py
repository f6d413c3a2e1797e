"""The smallest parts that numbers and units are read from.

Tokenizers differ on "400g", "100:28", "p.m." and "2½". Pieces do not: digits, letters and signs stand
apart whatever the tokens are, and each piece knows its token.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_LEX = re.compile(
    r"\d+(?:st|nd|rd|th)(?![^\W\d_])"  # 2nd
    r"|\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d,])"  # 1,200
    r"|(?<![\d,.])\d{1,2},\d{1,2}(?![\d,.])"  # 0,5
    r"|\d+(?:\.\d+)?|\.\d+"
    r"|(?<=\d)[hx](?=\d)|(?<![\w])x(?=\d{1,2}(?!\w))"  # 2x450, 1h30
    r"|[^\W\d_]+(?:[\d²][\w²]*|'[^\W\d_]+)?"  # resin, p120, m2, m², o'clock
    r"|'[^\W\d_]+"  # 's
    r"|[^\w\s]|[½¼¾⅓⅔⅛⅜⅝⅞]"
)
_DECIMAL_COMMA = re.compile(r"(\d{1,2}),(\d{1,2})")
_SAME = {
    "–": "-", "—": "-", "−": "-", "’": "'", "p.m.": "pm", "a.m.": "am", "p.m": "pm", "a.m": "am", "k.g.": "kg",
    "sq.": "sq", "fl.": "fl", "oz.": "oz", "lb.": "lb", "lbs.": "lbs", "approx.": "approx", "no.": "no",
    "min.": "min", "mins.": "mins", "hr.": "hr", "hrs.": "hrs", "r.h.": "rh", "oclock": "o'clock",
    "°c": "°c", "º": "°", "∶": ":", "％": "%", "deg.": "deg",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pieces:
    """The pieces of a note: their lower-cased texts, and the token that each stands in.

    `signed` holds the pieces that are digits with a minus sign written against them.
    """

    texts: tuple[str, ...]
    tokens: tuple[int, ...]
    signed: frozenset[int]

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return the tokens [start, end) that hold the pieces [start, end)."""
        return self.tokens[start], self.tokens[end - 1] + 1


def split(lower: tuple[str, ...]) -> Pieces:
    """Split lower-cased tokens into pieces."""
    texts: list[str] = []
    tokens: list[int] = []
    signed: set[int] = set()
    for index, token in enumerate(lower):
        if token.isalpha():
            texts.append(token)
            tokens.append(index)
            continue
        token = _SAME.get(token, token)
        if len(token) > 1 and not token.isalpha():
            parts = _lex(token)
            if len(parts) > 1 and parts[0] == "-" and parts[1][0] in ".0123456789":
                del parts[0]
                signed.add(len(texts))
        else:
            parts = [token]
        texts += parts
        tokens += [index] * len(parts)
    return Pieces(tuple(texts), tuple(tokens), frozenset(signed))


def _decimal(part: str) -> str:
    """Return "0,5" with a decimal point; "1,200" stays as it is."""
    comma = _DECIMAL_COMMA.fullmatch(part)
    return f"{comma[1]}.{comma[2]}" if comma else part


def _lex(token: str) -> list[str]:
    parts = [_decimal(_SAME.get(part, part)) for part in _LEX.findall(token.replace("’", "'"))]
    if len(parts) > 2 and "." in parts:  # sq.ft
        parts = [
            part
            for n, part in enumerate(parts)
            if part != "." or n in (0, len(parts) - 1) or not parts[n - 1].isalpha()
        ]
    return parts or [token]
