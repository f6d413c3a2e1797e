"""Commands spoken at the bench: begin, end, cancel and correct a note, take a photo, answer a question. Pure.

Only the ends of a note hold commands about the note itself ("note ... end note"), and only its beginning one about
the note before ("correct that to 320"): what is taken back in mid-sentence is the reader's (`repairs`). A command
without a value that can be used is no command: its words are then read like any others.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Literal

from journal.read.findings import Findings, Found, NoteWords
from journal.record import NoteText, Transcript

Kind = Literal["begin", "end", "cancel", "cancel last", "correct", "photo", "ask"]
Measure = Literal["number", "amount", "seconds", "condition", "layers", "areal", "ratio", "place", "material"]

_LEAD = r"^\W*(?:(?:no|sorry|right|okay|ok|um|uh|er|well|actually|oh|wait|and|please)\b\W*)*"
_BEGIN = re.compile(_LEAD + r"(?:(?:new|begin|start)(?: a| the)?(?: new)? )?note\b\W*", re.I)
_NOTED = re.compile(r"\W*(?:that|how|to)\b", re.I)  # "note that ..." is talk
# "End note" is often heard as "and note" or "in note", once as "and notep".
_END = re.compile(r"\W*\b(?:(?:end|and|in|ends?)(?: of)?(?: the| this| that)? ?note[sp]?|note ends?)\W*$", re.I)
# "Cancel that note" is heard as "cancel that no", "cancelled that note" and "canceled at no".
_CANCEL = re.compile(
    r"\W*\b(?:(?:cancel|scratch|strike|scrap|forget|delete|discard|drop)(?: (?:that|this|the))?(?: last)? notes?"
    r"|cancel that no|cancell?ed (?:th)?at no(?:te)?)\W*$",
    re.I,
)
_NEGATED = re.compile(r"\b(?:not|never|do|don|n't|n’t|don't|don’t|to)\W*$", re.I)
_CANCEL_LAST = re.compile(
    _LEAD + r"(?:cancel|scratch|strike|scrap|forget|delete|discard)(?: (?:that|this|it|the))?(?: last| whole)?"
    r"(?: notes?)?\W*$",
    re.I,
)
_CORRECT = re.compile(
    _LEAD + r"(?:"
    r"(?:correct|change|amend)\b(?! (?:the|my) mind)[^.?!]*?\b(?:to|as)\b"
    r"|correction\b|make (?:that|it)\b|(?:that|it|this) (?:should|ought to) (?:be|have been|read|say)\b"
    r"|(?:that|it|this)(?:'s| was| is| were)(?= [^.?!]*\bnot\b)"
    r")",
    re.I,
)
_NOT = re.compile(r"\b(?:not|instead of|rather than)\b", re.I)
_SENTENCE_END = re.compile(r"[.?!](?=\s|$)")
_PHOTO = re.compile(
    _LEAD + r"(?:take |get |snap )?(?:an?(?:other)? )?(?:photo(?:graph)?|picture|snap)(?: of (?P<place>[^.?!]+))?\W*$",
    re.I,
)
_ARTICLE = re.compile(r"^(?:the|a|an|this|that)\s+", re.I)


@dataclass(frozen=True, slots=True)
class Said:
    """A value said in a correction: what it measures, the value (a fraction, parts or words), its unit, its words."""

    measure: Measure
    value: Any
    unit: str | None
    chars: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Command:
    """A command and where it stands in the note; `new`, `old` and `of` (a material's name) for a correction.

    `place` is where a photo is asked of, "" when it was not said.
    """

    kind: Kind
    chars: tuple[int, int]
    new: Said | None = None
    old: Said | None = None
    of: str | None = None
    place: str = ""


def commands_in(words: NoteWords, found: Findings) -> tuple[Command, ...]:
    """Return the commands of a note, in the order of its words."""
    text = words.doc.text
    whole = _of_the_last(text, words, found)
    if whole is not None:
        return (whole,)
    commands = []
    if (begun := _BEGIN.match(text)) and not _NOTED.match(text, begun.end() - 1):
        commands.append(Command("begin", begun.span()))
    start = begun.end() if begun else 0
    if (cancelled := _CANCEL.search(text, start)) and not _NEGATED.search(text[: cancelled.start()]):
        commands.append(Command("cancel", (_first_letter(text, cancelled.start()), cancelled.end())))
    elif ended := _END.search(text, start):
        commands.append(Command("end", ended.span()))
    return tuple(commands)


def _first_letter(text: str, at: int) -> int:
    while not text[at].isalnum():
        at += 1
    return at


def _of_the_last(text: str, words: NoteWords, found: Findings) -> Command | None:
    """Return the command that a note begins with and that is about something else than this note."""
    if cancelled := _CANCEL_LAST.match(text):
        return Command("cancel last", cancelled.span())
    if (asked := _CORRECT.match(text)) and (command := _correction(text, asked, words, found)):
        return command
    if wanted := _PHOTO.match(text):
        return Command("photo", wanted.span(), place=_ARTICLE.sub("", (wanted["place"] or "").strip(" ,")))
    questions = found.of("question")
    if questions and not re.search(r"\w", text[: words.doc[questions[0].start].idx]):
        return Command("ask", (0, len(text)))
    return None


def rest_of(note: NoteText, commands: Sequence[Command]) -> NoteText | None:
    """Return the note without the words of its commands, every other word in its place; None when none is left.

    "Note" and "end note" stay: the reader makes nothing of them.
    """
    if any(command.kind in ("correct", "cancel", "cancel last", "ask") for command in commands):
        text = _blanked(note.text, commands)
        return replace(note, text=text, transcript=_without(note.transcript, text)) if re.search(r"\w", text) else None
    return note


def _blanked(text: str, commands: Sequence[Command]) -> str:
    for command in commands:
        start, end = command.chars
        text = text[:start] + " " * (end - start) + text[end:]
    return text


def _without(transcript: Transcript | None, text: str) -> Transcript | None:
    """Return the hearing without the words that are blank in the text."""
    if transcript is None:
        return None
    words = tuple(word for word in transcript.words if text[slice(*word.chars)].strip())
    return replace(transcript, text=text, words=words, alternatives=())


def _correction(text: str, asked: re.Match[str], words: NoteWords, found: Findings) -> Command | None:
    ended = _SENTENCE_END.search(text, asked.end())
    end = ended.end() if ended else len(text)
    negated = _NOT.search(text, asked.end(), end)
    if negated is None:
        new, old = _values(words, found, asked.end(), end), []
    else:
        new = _values(words, found, asked.end(), negated.start())
        old = _values(words, found, negated.end(), end)
        if not new and len(old) == 2:  # "it was not the rim, the flange"
            old, new = old[:1], old[1:]
    if len(new) != 1 or len(old) > 1:
        return None
    named = _named(words, found, asked)
    return Command("correct", (asked.start(), end), new[0], old[0] if old else None, named)


def _named(words: NoteWords, found: Findings, asked: re.Match[str]) -> str | None:
    """Return the material named between the verb and its "to", as in "correct the hardener to 118"."""
    for item in found.of("material"):
        if asked.start() <= words.doc[item.start].idx < asked.end():
            return str(item.value.name)
    return None


# From the most telling to the least: "45 minutes" is a duration before it is a number.
_MEASURES: tuple[str, ...] = (
    "ratio", "duration", "condition", "areal", "layer", "amount", "number", "material", "place",
)  # fmt: skip


def _values(words: NoteWords, found: Findings, start: int, end: int) -> list[Said]:
    """Return the values said between two characters; what lies within another value is part of it."""
    taken: list[Said] = []
    if any(
        start <= words.doc[item.start].idx < end and item.value.low != item.value.high for item in found.of("number")
    ):
        return []  # a range: which end is meant cannot be told
    for kind in _MEASURES:
        for item in found.of(kind):
            chars = (words.doc[item.start].idx, words.doc[item.end - 1].idx + len(words.doc[item.end - 1]))
            inside = start <= chars[0] and chars[1] <= end
            if inside and not any(a.chars[0] < chars[1] and chars[0] < a.chars[1] for a in taken):
                said = _said(item, chars)
                if said is not None:
                    taken.append(said)
    if any(said.measure not in ("place", "material") for said in taken):
        taken = [said for said in taken if said.measure not in ("place", "material")]
    return sorted(taken, key=lambda said: said.chars)


def _said(item: Found, chars: tuple[int, int]) -> Said | None:
    measure, value, unit = _MEASURED[item.kind](item.value)
    return None if value is None else Said(measure, value, unit, chars)


def _one(low: Fraction | None, high: Fraction | None) -> Fraction | None:
    """Return the one value of a range, or None when there are two: which is meant cannot be told."""
    return low if low == high else None


def _amount(value: Any) -> tuple[Measure, Any, str | None]:
    return ("number" if value.unit is None else "amount"), _one(value.low, value.high), value.unit


_MEASURED: dict[str, Any] = {
    "ratio": lambda value: ("ratio", value.parts, value.by),
    "duration": lambda value: ("seconds", _one(value.least, value.most), None),
    "condition": lambda value: ("condition", value.value, value.kind),
    "areal": lambda value: ("areal", value.gsm, None),
    "layer": lambda value: ("layers", value.count, None),
    "amount": _amount,
    "number": lambda value: ("number", _one(value.low, value.high), None),
    "material": lambda value: ("material", value.name, None),
    "place": lambda value: ("place", value.text, None),
}
