"""Which steps of a build use a material for the first time, and the cautions to show with them. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from journal.keep.views import StepView
from journal.trade.cautions import first_uses
from journal.trade.material import Catalogue


def first_cautions(steps: Iterable[StepView], catalogue: Catalogue) -> dict[int, tuple[str, ...]]:
    """Return the cautions of each step, by its id, that brings a dangerous material to a build, planned steps included.

    A general word ("resin") stands for all that it may mean.
    """
    ordered = sorted((s for s in steps if not s.withdrawn), key=lambda s: (s.act_at, s.recorded_at, s.position))
    named = [(step.id, names_of(step)) for step in ordered if step.record.status != "not done"]
    return first_uses(named, {name: kinds_of(name, catalogue) for _, names in named for name in names})


def names_of(step: StepView) -> list[str]:
    """Return the names of the materials and layers of a step, as said."""
    return [use.name for use in step.record.materials] + [layer.name for layer in step.record.layers]


def kinds_of(name: str, catalogue: Catalogue) -> tuple[str, ...]:
    """Return the kinds of danger of a material, or of all that a general word may mean."""
    known = catalogue.get(name)
    meant = (known,) if known else catalogue.meant_by(name)
    return tuple(dict.fromkeys(kind for material in meant for kind in material.cautions))
