"""Read notes into step records."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spacy.language import Language
from spacy.tokens import Doc

from journal.read import checks, hearings, repairs, unmarked
from journal.read.afterthoughts import make_advice
from journal.read.bind.drafts import AGAIN, Draft, group
from journal.read.bind.step import Binder
from journal.read.evidence import Witness, probabilities
from journal.read.findings import Findings, NoteWords
from journal.read.pauses import fluent
from journal.read.pipeline import find_all
from journal.read.plain import as_said, plain_text, plain_words, with_marks
from journal.read.recall import EMPTY, Memory, Recall, remember
from journal.read.segments import Clause, split
from journal.read.status import status_of
from journal.record import MaterialUse, NoteText, Step, Transcript
from journal.trade.material import Catalogue

_AFTER = 12  # tokens of a note after a step


@dataclass(frozen=True, slots=True)
class Reading:
    """The steps of a note, and what the build's notes have established with it."""

    steps: tuple[Step, ...]
    memory: Memory


class Reader:
    """Reads notes, given a language pipeline (`language.load_language`) and the shop's catalogue."""

    def __init__(self, language: Language, catalogue: Catalogue) -> None:
        self._language = language
        self._catalogue = catalogue

    def read(self, note: NoteText, memory: Memory = EMPTY) -> Reading:
        """Return the note's steps in the order of the text, each in the light of the build's earlier notes.

        Pure: the same note and memory give the same reading.
        """
        steps = hearings.best_steps(note, lambda heard: self._steps(heard, memory), self._catalogue)
        return Reading(steps, remember(memory, steps, note))

    def _steps(self, note: NoteText, memory: Memory) -> tuple[Step, ...]:
        """Return the steps of one hearing of a note."""
        words = self.words(note, fluent(note.text))
        found = repairs.mended(words, find_all(words))
        drafts = group(words, _stated(split(words, found), words, found))
        binder = Binder(words, found, Witness(words, note.text, note.transcript))
        recall = Recall(self._catalogue, memory)
        steps = (self._finished(binder, recall, draft, note.transcript is not None) for draft in drafts)
        return tuple(step for step in steps if step.action != AGAIN)

    def words(self, note: NoteText, left: Sequence[int] = ()) -> NoteWords:
        """Return the note's words, parsed, with the probability of each; of the characters `left` only, if given."""
        text = "".join(note.text[i] for i in left) if len(left) < len(note.text) and left else note.text
        plain = plain_text(text)
        doc = self._language(plain)
        said = [(token.lower_, token.tag_) for token in doc]
        lower, tags = plain_words(tuple(word for word, _ in said)), tuple(tag for _, tag in said)
        opened = [i for i in unmarked.ends(lower, tags) if doc[i - 1].whitespace_]
        if opened or plain != text:
            doc = as_said(doc, text, opened)
            lower, tags = with_marks(lower, opened), with_marks(tags, opened)
        starts = tuple(left[token.idx] for token in doc) if text is not note.text else ()
        return NoteWords(
            doc=doc,
            lower=lower,
            catalogue=self._catalogue,
            locale=note.locale,
            recorded_at=note.recorded_at,
            probabilities=_sureness(doc, starts, note.transcript),
            tags=tags,
            spoken=note.transcript is not None,
            said=note.text,
            starts=starts,
        )

    def _finished(self, binder: Binder, recall: Recall, draft: Draft, spoken: bool) -> Step:
        text = binder.words.text(draft.start, draft.end)
        recall.rest = f" {binder.words.text(draft.end, draft.end + _AFTER)}".partition(".")[0]
        step = recall.resolved(binder.step(draft), text)
        run_together = [item for item in draft.of("ratio") if item.value.run_together is not None]
        said = checks.Said(run_together, lambda use: _word_before(binder.words, draft, use), spoken)
        return checks.checked(step, self._catalogue, said)


def _sureness(doc: Doc, at: tuple[int, ...], transcript: Transcript | None) -> tuple[float, ...]:
    """Return the probability of each token, which start at the characters `at` where given; 1.0 for typed notes."""
    if transcript is None:
        return (1.0,) * len(doc)
    starts = list(at) or [token.idx for token in doc]
    return probabilities(starts, [start + len(token) for start, token in zip(starts, doc, strict=True)], transcript)


def _word_before(words: NoteWords, draft: Draft, use: MaterialUse) -> str:
    """Return the word before the amount of a material, or nothing."""
    start, end = use.evidence.chars
    for item in draft.of("amount"):
        if item.value.low == use.amount and item.start and start <= words.chars(item.start, item.end)[0] < end:
            return words.lower[item.start - 1]
    return ""


def _is_no_step(words: NoteWords, clause: Clause, found: Findings) -> bool:
    """Tell whether a clause asks, tells of other days, or only chats in words of the trade."""
    opens = clause.start + (words.lower[clause.start] in (",", "and", "-"))
    tokens = (clause.start, opens, *([clause.act.start] if clause.act else ()))
    if clause.act and found.at("aside", clause.act.start):
        return True
    return any(found.at(kind, token) for kind in ("question", "remembered") for token in tokens)


def _planned_before(words: NoteWords, clause: Clause, out: list[Clause]) -> Clause | None:
    """Return the plan that a sentence goes on with: "I'll leave it till one. THEN a rub of petroleum jelly"."""
    goes_on = words.lower[clause.start] == "then" and bool(out) and out[-1].sentence == clause.sentence - 1
    verbless = goes_on and not any(tag[0] == "V" for tag in words.tags[clause.start : clause.end])
    return out[-1] if verbless and out[-1].status == "planned" else None


def _stated(clauses: list[Clause], words: NoteWords, found: Findings) -> list[Clause]:
    """Return the clauses that tell of acts or facts, each with its status; questions and old stories tell nothing."""
    out: list[Clause] = []
    for clause in clauses:
        struck = found.at("struck", clause.start)
        if _is_no_step(words, clause, found) or (struck and clause.end <= struck.end):
            continue
        before = out[-1] if out and out[-1].sentence == clause.sentence else None
        clause.status = status_of(words, clause, before or _planned_before(words, clause, out))
        out.append(clause)
    make_advice(words, out)
    put_off = repairs.put_off(words)
    if put_off is not None:
        for clause in out:
            clause.status = "planned" if clause.start < put_off and clause.status == "done" else clause.status
    return out
