"""A build on one sheet: its recipe, its notes with their steps, its photos, and the cautions that go with it."""

from __future__ import annotations

from dataclasses import dataclass

from journal.find.first_uses import kinds_of, names_of
from journal.find.recipe import Recipe, recipe
from journal.keep.store import Store
from journal.keep.views import NoteView, PhotoView, StepView
from journal.trade.cautions import cautions_for
from journal.trade.material import Catalogue


@dataclass(frozen=True, slots=True)
class Sheet:
    """A build on one sheet."""

    recipe: Recipe
    notes: tuple[NoteView, ...]
    steps: tuple[StepView, ...]
    photos: tuple[PhotoView, ...]
    cautions: tuple[str, ...]

    def steps_of(self, note: NoteView) -> list[StepView]:
        """Return the steps read from a note."""
        return [step for step in self.steps if step.note_id == note.id]


def build_sheet(store: Store, catalogue: Catalogue, build_key: str | int) -> Sheet:
    """Return everything of a build. Raises NotKept."""
    made = recipe(store, build_key)
    steps = tuple(store.steps(build_key))
    names = {name for step in steps for name in names_of(step)}
    cautions = cautions_for(kind for name in names for kind in kinds_of(name, catalogue))
    return Sheet(made, tuple(store.notes(build_key)), steps, tuple(store.photos(build_key)), cautions)
