"""Read notes into step records."""

from __future__ import annotations

from dataclasses import dataclass

from spacy.language import Language

from journal.read import checks, repairs
from journal.read.bind.drafts import AGAIN, Draft, group
from journal.read.bind.step import Binder
from journal.read.segments import Clause, split
from journal.read.evidence import Witness, probabilities
from journal.read.findings import Findings, NoteWords
from journal.read.pipeline import find_all
from journal.read.recall import EMPTY, Memory, Recall, remember
from journal.read.status import status_of
from journal.record import NoteText, Step
from journal.trade.material import Catalogue

_SPELLED = str.maketrans({"’": "'", "‘": "'"})


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
        words = self.words(note)
        found = repairs.mended(words, find_all(words))
        clauses = _stated(split(words, found), words, found)
        drafts = [draft for draft in group(words, clauses) if draft.clauses]
        binder = Binder(words, found, Witness(words, note.transcript))
        recall = Recall(self._catalogue, memory)
        steps = tuple(self._finished(binder, recall, draft) for draft in drafts)
        steps = tuple(step for step in steps if step.action != AGAIN)
        return Reading(steps, remember(memory, steps, note))

    def words(self, note: NoteText) -> NoteWords:
        """Return the note's words, parsed, with the probability of each."""
        doc = self._language(note.text.translate(_SPELLED))
        return NoteWords(
            doc=doc,
            lower=tuple(token.lower_ for token in doc),
            catalogue=self._catalogue,
            locale=note.locale,
            recorded_at=note.recorded_at,
            probabilities=probabilities([t.idx for t in doc], [t.idx + len(t) for t in doc], note.transcript),
            tags=tuple(token.tag_ for token in doc),
        )

    def _finished(self, binder: Binder, recall: Recall, draft: Draft) -> Step:
        text = binder.words.doc[draft.start : draft.end].text
        step = recall.resolved(binder.step(draft), text)
        unsettled = [item for item in draft.of("ratio") if item.value.run_together is not None]
        return checks.checked(step, self._catalogue, unsettled)


def _stated(clauses: list[Clause], words: NoteWords, found: Findings) -> list[Clause]:
    """Return the clauses that tell of acts or facts, each with its status; questions tell nothing."""
    out: list[Clause] = []
    for clause in clauses:
        if found.at("question", clause.start) or (clause.act and found.at("question", clause.act.start)):
            continue
        before = out[-1] if out and out[-1].sentence == clause.sentence else None
        clause.status = status_of(words, clause, before)
        out.append(clause)
    put_off = repairs.put_off(words)
    if put_off is not None:
        for clause in out:
            clause.status = "planned" if clause.start < put_off and clause.status == "done" else clause.status
    return out
