"""Lot and batch numbers, as they are printed on the tin: "lot 4471", "batch number 22 B", "the tin marked 0923"."""

from __future__ import annotations

from dataclasses import dataclass

from journal.read.findings import Findings, Found, NoteWords, PhraseSaid

_DIGITS = {
    "zero": "0", "oh": "0", "o": "0", "nought": "0", "naught": "0", "one": "1", "two": "2",
    "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
}  # fmt: skip
_TEENS = {
    "ten": "10", "eleven": "11", "twelve": "12", "thirteen": "13", "fourteen": "14", "fifteen": "15",
    "sixteen": "16", "seventeen": "17", "eighteen": "18", "nineteen": "19",
}  # fmt: skip
_TENS = {
    "twenty": "2", "thirty": "3", "forty": "4", "fifty": "5", "sixty": "6", "seventy": "7",
    "eighty": "8", "ninety": "9",
}  # fmt: skip
_TIMES = {"double": 2, "triple": 3, "treble": 3}
# The international radiotelephony spelling alphabet (ICAO Annex 10; ITU Radio Regulations, appendix 14).
_SPELLED = {
    "alfa": "A", "alpha": "A", "bravo": "B", "charlie": "C", "delta": "D", "echo": "E", "foxtrot": "F",
    "golf": "G", "hotel": "H", "india": "I", "juliett": "J", "juliet": "J", "kilo": "K", "lima": "L",
    "mike": "M", "november": "N", "oscar": "O", "papa": "P", "quebec": "Q", "romeo": "R", "sierra": "S",
    "tango": "T", "uniform": "U", "victor": "V", "whiskey": "W", "xray": "X", "yankee": "Y",
    "zulu": "Z",
}  # fmt: skip
_HEADS = frozenset({"lot", "batch", "lots"})
_MARKED = frozenset({"marked", "labelled", "labeled", "stamped", "numbered"})
_NUMBER = frozenset({"number", "no", "no.", "num", "code", "#", "is", "was", ":", "ending", "reads", "says"})
_CONTAINERS = frozenset(
    {"tin", "drum", "can", "bottle", "tub", "bag", "bucket", "jug", "pail", "box", "roll", "container", "carton", "keg",
     "pot", "tube", "sack", "one"}
)  # fmt: skip
_SAYING = frozenset({"says", "reads"})
_LIDS = frozenset({"lid", "label", "sticker"})
_NOT_HEAD_AFTER = frozenset({"a", "whole", "quite"})
_LAID = frozenset({"layer", "layers", "coat", "coats", "ply", "plies"})
_CODE_SIGNS = frozenset({"-", "/"})
_SPOKEN_SIGNS = {"dash": "-", "hyphen": "-", "slash": "/", "stroke": "/"}


@dataclass(frozen=True, slots=True)
class _Code:
    """A code read so far: its text, the end token, and whether it was put together from spoken digits."""

    text: str
    end: int
    joined: bool


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the lots of the note, kind "lot", PhraseSaid(text) with letters in capitals and no spaces ("22B").

    Spoken digits are joined ("four four seven one" is 4471). Reads the amounts found so far, so that a
    weight or a count of layers after the lot is not taken into it. "Batch two" alone is the second mix, not a lot.
    """
    stops = {item.start for item in found.of("amount") if item.value.unit is not None}
    stops |= {item.start for item in found.of("areal", "duration", "condition", "ratio")}
    stops |= {item.start for item in found.of("number") if not _LAID.isdisjoint(words.lower[item.end : item.end + 1])}
    out: list[Found] = []
    done = 0
    for at, word in enumerate(words.lower):
        if at < done:
            continue
        item = _headed(words, at, stops) if word in _HEADS else _marked(words, at, stops) if word in _MARKED else None
        item = item or (_said(words, at, stops) if word in _SAYING else _on_the_lid(words, at))
        if item is not None:
            out.append(item)
            done = item.end
    return out


def _headed(words: NoteWords, at: int, stops: set[int]) -> Found | None:
    lower = words.lower
    lettered = at and (words.doc[at - 1].text == "A" or lower[max(at - 2, 0)] == "part")  # "part A lot 19872"
    if at and lower[at - 1] in _NOT_HEAD_AFTER and not lettered:
        return None
    start = at + 1
    while start < len(lower) and (lower[start] in _NUMBER or lower[start - 1 : start + 1] == ("no", ".")):
        start += 1
    start = _past_its_owner(lower, start)
    code = _code(words, start, stops)
    if code is None:
        return None
    numbered = start > at + 1 and lower[at + 1] not in ("is", "was")
    owned = lower[code.end : code.end + 2] in (("on", "the"), ("of", "the")) and "lot" in lower
    if lower[at] == "batch" and not numbered and not owned and not _looks_printed(code.text):
        return None
    return _lot(at, code, "lots.named", 0.93)


def _past_its_owner(lower: tuple[str, ...], at: int) -> int:
    """Return the place after "on the A bucket is" in "lot number on the A bucket is 2207", else the place itself."""
    if lower[at : at + 1] not in (("on",), ("of",), ("for",)):
        return at
    for after in range(at + 2, min(at + 7, len(lower))):
        if lower[after] in ("is", "'s", "was", ":", "reads", "says", "said", "ends"):
            return after + 1
        if lower[after] in (".", ",", ";"):
            break
    return at


def _marked(words: NoteWords, at: int, stops: set[int]) -> Found | None:
    """ "the tin marked 0923": a container's word stands before, within three words."""
    if _CONTAINERS.isdisjoint(words.lower[max(0, at - 3) : at]):
        return None
    start = at + 1
    while start < len(words.lower) and words.lower[start] in (*_NUMBER, "lot", "batch", "as", "with"):
        start += 1
    code = _code(words, start, stops)
    return None if code is None else _lot(at, code, "lots.marked", 0.85)


def _said(words: NoteWords, at: int, stops: set[int]) -> Found | None:
    """ "The tin says 0926", three signs or more; "the tin says 20 minutes" is none."""
    if at == 0 or words.lower[at - 1] not in _CONTAINERS | {"label", "lid", "sticker"}:
        return None
    code = _code(words, at + 1, stops)
    return _lot(at, code, "lots.marked", 0.75) if code and len(code.text) > 2 and code.text.isalnum() else None


def _on_the_lid(words: NoteWords, at: int) -> Found | None:
    """ "55-201 B on the lid": a code of figures and signs or letters that stands on a tin."""
    word = words.lower[at]
    if not (word[0].isdigit() or len(word) > 3) or not any(c.isdigit() for c in word):
        return None
    code = _code(words, at, set())
    if code is None or words.lower[code.end : code.end + 2] not in (("on", "the"), ("on", "its")):
        return None
    printed = any(not c.isdigit() for c in code.text) and len(code.text) > 3
    on_it = words.lower[code.end + 2 : code.end + 3] and words.lower[code.end + 2] in _CONTAINERS | _LIDS
    return _lot(at, code, "lots.marked", 0.7) if printed and on_it else None


def _lot(start: int, code: _Code, rule: str, confidence: float) -> Found:
    return Found("lot", start, code.end, PhraseSaid(code.text), rule, confidence - 0.05 * code.joined)


def _looks_printed(code: str) -> bool:
    """Whether a code is more than the count of a mix: three signs or more, or letters with digits."""
    return len(code) > 2 or (any(c.isalpha() for c in code) and any(c.isdigit() for c in code))


def _code(words: NoteWords, at: int, stops: set[int]) -> _Code | None:
    """Read the code that starts at the token: digits, letters, spoken digits, signs between them."""
    parts: list[str] = []
    start = at
    while at < len(words.lower):
        if at > start and at in stops and not _is_letter_after(words, at, parts):
            break
        part, end = _part(words, _past_its_spelling(words.lower, at, parts))
        if part is None or (parts and _is_new_number(part, words.lower[at], parts)):
            break
        parts.append(part)
        at = end
    while parts and parts[-1] in _CODE_SIGNS:
        parts, at = parts[:-1], at - 1
    if not any(c.isdigit() for part in parts for c in part):
        return None
    if len(parts) > 2 and all(len(part) == 1 for part in parts) and any(part in _CODE_SIGNS for part in parts):
        parts = [part for part in parts if part not in _CODE_SIGNS]
    return _Code("".join(parts), at, at - start > 1)


def _past_its_spelling(lower: tuple[str, ...], at: int, parts: list[str]) -> int:
    """Return the token after "as in golf," where a letter is spelled out: "G as in golf, 4 5 1"."""
    if not parts or len(parts[-1]) != 1 or not parts[-1].isalpha():
        return at
    end = at + 3 if lower[at : at + 2] == ("as", "in") else at + 2 if lower[at : at + 1] == ("for",) else at
    return end + 1 if end > at and lower[end : end + 1] == (",",) else end


def _is_letter_after(words: NoteWords, at: int, parts: list[str]) -> bool:
    return bool(parts) and len(words.lower[at]) == 1 and words.lower[at].isalpha()


def _is_new_number(part: str, word: str, parts: list[str]) -> bool:
    """Whether a second run of digits starts another number: "lot 4471 200 grams"; "44 71" goes on."""
    return part.isdigit() and word.isdigit() and parts[-1].isdigit() and len(word) + len(parts[-1]) > 4


def _part(words: NoteWords, at: int) -> tuple[str | None, int]:
    """Return one part of a code and the token after it, or (None, at)."""
    word, text = words.lower[at], words.doc[at].text
    spoken = _spoken(words.lower, at)
    if spoken is not None:
        return spoken
    if word in _SPOKEN_SIGNS and at + 1 < len(words.lower):
        return _SPOKEN_SIGNS[word], at + 1
    if word in _SPELLED:
        return _SPELLED[word], at + 1
    bare = text.rstrip(".")
    if len(bare) == 1 and bare.isalpha() and (bare.isupper() or bare not in "ai"):
        return bare.upper(), at + 1
    if word in _CODE_SIGNS:
        return word, at + 1
    return _printed(bare, at)


def _printed(text: str, at: int) -> tuple[str | None, int]:
    """Return a code written with digits: "4,471" and "4-4-7-1" are hearing's own way to write 4471."""
    if not any(c.isdigit() for c in text):
        return None, at
    parts = text.split("-")
    if len(parts) > 2 and all(len(part) == 1 and part.isdigit() for part in parts):
        return "".join(parts), at + 1
    if not all(c.isalnum() or c in "-/,." for c in text):
        return None, at
    return text.replace(",", "").upper(), at + 1


def _spoken(lower: tuple[str, ...], at: int) -> tuple[str, int] | None:
    """Return spoken digits: "four", "double four", "seventeen", "twenty two", "forty-four"."""
    word = lower[at]
    if word in _DIGITS:
        return _DIGITS[word], at + 1
    if word in _TIMES and lower[at + 1 : at + 2] and lower[at + 1] in _DIGITS:
        return _DIGITS[lower[at + 1]] * _TIMES[word], at + 2
    if word in _TEENS:
        return _TEENS[word], at + 1
    if word not in _TENS:
        return None
    after = at + 2 if lower[at + 1 : at + 2] == ("-",) else at + 1
    if after < len(lower) and _DIGITS.get(lower[after], "0") != "0":
        return _TENS[word] + _DIGITS[lower[after]], after + 1
    return _TENS[word] + "0", at + 1
