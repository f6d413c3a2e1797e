"""The builds that a sheet teaches from: their records, notes and photos, and the past builds of the same moulds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from journal.keep.store import Store
from journal.keep.views import FieldError, NoteView, PhotoView, StepView
from journal.record import Evidence
from journal.review.builds import BuildRecord, build_record
from journal.review.review import MOST_COMPARED
from journal.teach.voice import Voice, phrase_voice, step_voice

MOST_TAUGHT = 6  # side by side on one sheet


@dataclass(frozen=True, slots=True)
class Taught:
    """Builds to be taught from, those that worked first, and past builds of their moulds to be warned by.

    `notes` are those of all of them by id, `photos` by build key.
    """

    builds: tuple[BuildRecord, ...]
    past: tuple[BuildRecord, ...]
    notes: Mapping[int, NoteView]
    photos: Mapping[str, tuple[PhotoView, ...]]

    @property
    def every(self) -> tuple[BuildRecord, ...]:
        """The builds taught from, then the past ones."""
        return self.builds + self.past

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the builds taught from."""
        return tuple(record.key for record in self.builds)

    @property
    def worked(self) -> tuple[BuildRecord, ...]:
        """The builds taught from that are known to have worked."""
        return tuple(record for record in self.builds if record.build.outcome == "worked")

    def voice(self, step: StepView) -> Voice:
        """Return what was said of a step."""
        return step_voice(step, self.notes[step.note_id])

    def saying(self, text: str, evidence: Evidence, step: StepView) -> Voice:
        """Return a phrase of a step as it was said."""
        return phrase_voice(text, evidence, step, self.notes[step.note_id])


def load_taught(store: Store, build_keys: Sequence[str | int]) -> Taught:
    """Return the builds of these keys with what goes with them. Raises NotKept, FieldError."""
    notes: dict[int, NoteView] = {}
    named = {record.key: record for key in build_keys for record in [_load(store, key, notes)]}
    if not 1 <= len(named) <= MOST_TAUGHT:
        raise FieldError("builds", f"name 1 to {MOST_TAUGHT} builds to teach from; there are {len(named)}")
    builds = sorted(named.values(), key=lambda record: record.build.outcome != "worked")
    moulds = dict.fromkeys(record.build.mould_id for record in builds)
    others = [build for mould_id in moulds for build in store.builds(mould_id) if build.key not in named]
    past = [_load(store, build.id, notes) for build in others[-(MOST_COMPARED - len(builds)) :]]
    photos = {record.key: tuple(store.photos(record.build.id)) for record in (*builds, *past)}
    return Taught(tuple(builds), tuple(past), notes, photos)


def _load(store: Store, build_key: str | int, notes: dict[int, NoteView]) -> BuildRecord:
    build = store.build(build_key)
    own = store.notes(build.id)
    notes.update({note.id: note for note in own})
    hands = {note.id: note.who for note in own if note.who}
    words = {note.id: note.text or "" for note in own}
    return build_record(build, store.mould(build.mould_id), store.steps(build.id), hands, words)
