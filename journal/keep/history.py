"""The history: every change of anything, with who, when, why, before and after. It only grows."""

from __future__ import annotations

from typing import cast

from sqlalchemy import select
from sqlalchemy.orm import Session

from journal.keep.base import Opened
from journal.keep.tables import ChangeRow
from journal.keep.times import Moment
from journal.keep.views import Change, Noun


def write_down(session: Session, change: Change) -> None:
    """Add an entry to the history, in the transaction of the change itself."""
    session.add(
        ChangeRow(
            at=Moment.of(change.at),
            who=change.who,
            noun=change.noun,
            noun_id=change.noun_id,
            what=change.what,
            why=change.why,
            before=change.before,
            after=change.after,
        )
    )


class History(Opened):
    """The part of the store that says what was changed."""

    def history(self, noun: Noun, noun_id: int) -> list[Change]:
        """Return every change of one thing, oldest first."""
        of_it = select(ChangeRow).where(ChangeRow.noun == noun, ChangeRow.noun_id == noun_id)
        with self.reading() as session:
            return [_view(row) for row in session.scalars(of_it.order_by(ChangeRow.id))]


def _view(row: ChangeRow) -> Change:
    return Change(
        at=row.at.local,
        who=row.who,
        noun=cast(Noun, row.noun),
        noun_id=row.noun_id,
        what=row.what,
        why=row.why,
        before=row.before,
        after=row.after,
    )
