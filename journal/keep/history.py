"""The history: every change of anything, with who, when, why, before and after. It only grows."""

from __future__ import annotations

from journal.keep.base import Opened
from journal.keep.views import Change, Noun


class History(Opened):
    """The part of the store that says what was changed."""

    def history(self, noun: Noun, noun_id: int) -> list[Change]:
        """Return every change of one thing, oldest first."""
        raise NotImplementedError
