"""Read notes into step records."""

from __future__ import annotations

from dataclasses import dataclass

from spacy.language import Language

from journal.read import checks, hearings, repairs, unmarked
from journal.read.afterthoughts import make_advice
from journal.read.bind.drafts import AGAIN, Draft, group
from journal.read.bind.step import Binder
from journal.read.evidence import Witness, probabilities
from journal.read.findings import Findings, NoteWords
from journal.read.pipeline import find_all
from journal.read.plain import as_said, marked, plain_text, plain_words
from journal.read.recall import EMPTY, Memory, Recall, remember
from journal.read.segments import Clause, split
from journal.read.status import status_of
from journal.record import MaterialUse, NoteText, Step
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
        words = self.words(note)
        found = repairs.mended(words, find_all(words))
        drafts = group(words, _stated(split(words, found), words, found))
        binder = Binder(words, found, Witness(words, note.transcript))
        recall = Recall(self._catalogue, memory)
        steps = (self._finished(binder, recall, draft, note.transcript is not None) for draft in drafts)
        return tuple(step for step in steps if step.action != AGAIN)

    def words(self, note: NoteText) -> NoteWords:
        """Return the note's words, parsed, with the probability of each."""
        parsed = self._language(plain_text(note.text))
        lower = plain_words(tuple(token.lower_ for token in parsed))
        opened = unmarked.ends(lower, tuple(token.tag_ for token in parsed))
        doc, lower = marked(as_said(parsed, note.text), lower, opened)
        return NoteWords(
            doc=doc,
            lower=lower,
            catalogue=self._catalogue,
            locale=note.locale,
            recorded_at=note.recorded_at,
            probabilities=probabilities([t.idx for t in doc], [t.idx + len(t) for t in doc], note.transcript),
            tags=tuple(token.tag_ for token in doc),
            spoken=note.transcript is not None,
        )

    def _finished(self, binder: Binder, recall: Recall, draft: Draft, spoken: bool) -> Step:
        text = binder.words.doc[draft.start : draft.end].text
        recall.rest = f" {binder.words.doc[draft.end : draft.end + _AFTER].text}".partition(".")[0]
        step = recall.resolved(binder.step(draft), text)
        run_together = [item for item in draft.of("ratio") if item.value.run_together is not None]
        said = checks.Said(run_together, lambda use: _word_before(binder.words, draft, use), spoken)
        return checks.checked(step, self._catalogue, said)


def _word_before(words: NoteWords, draft: Draft, use: MaterialUse) -> str:
    """Return the word before the amount of a material, or nothing."""
    start, end = use.evidence.chars
    for item in draft.of("amount"):
        if item.value.low == use.amount and item.start and start <= words.doc[item.start].idx < end:
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
