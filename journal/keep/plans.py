"""Plans: the steps that a build is to be made by, and those that were skipped. Entries are only added."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from journal.keep.history import History
from journal.keep.lookup import find_build
from journal.keep.plan_tables import PlanRow, PlanSkipRow
from journal.keep.plan_views import NewPlan, NewSkip, PlanView, SkipView
from journal.keep.texts import checked
from journal.keep.times import Moment
from journal.keep.views import FieldError, NotKept

_WORDS_MOST = 2000


class Plans(History):
    """The part of the store that keeps plans."""

    def add_plan(self, build_key: str | int, new: NewPlan, at: datetime) -> PlanView:
        """Keep a plan; from now on it is the one of that build. Raises NotKept, FieldError for an empty one."""
        if not new.steps:
            raise FieldError("steps", "are none: the recipe has nothing that was done before the mould was opened")
        with self.writing() as session:
            row = PlanRow(
                build=find_build(session, build_key),
                recipe=find_build(session, new.recipe_key),
                scaled=new.scaled,
                steps=list(new.steps),
                who=new.who,
                started=Moment.of(at),
            )
            session.add(row)
            session.flush()
            return _view(session, row)

    def plan(self, build_key: str | int) -> PlanView | None:
        """Return the plan in force of a build, None when it has none. Raises NotKept for an unknown build."""
        with self.reading() as session:
            row = _in_force(session, find_build(session, build_key).id)
            return None if row is None else _view(session, row)

    def plans(self) -> list[PlanView]:
        """Return every plan, the latest first."""
        with self.reading() as session:
            return [_view(session, row) for row in session.scalars(select(PlanRow).order_by(PlanRow.id.desc()))]

    def skip_planned(self, build_key: str | int, new: NewSkip, at: datetime) -> PlanView:
        """Skip a step of the plan in force; again, it changes nothing. Raises NotKept, FieldError."""
        with self.writing() as session:
            build = find_build(session, build_key)
            plan = _in_force(session, build.id)
            if plan is None:
                raise NotKept(f"the build {build.key!r} has no plan: start one from a recipe")
            if not 1 <= new.number <= len(plan.steps):
                raise FieldError("number", f"{new.number} is no step of the plan: it has 1 to {len(plan.steps)}")
            if new.number not in [skip.number for skip in _skips(session, plan)]:
                words = checked("words", new.words, _WORDS_MOST)
                row = PlanSkipRow(
                    plan_id=plan.id, number=new.number, words=words, note_id=new.note_id, who=new.who,
                    skipped=Moment.of(at),
                )  # fmt: skip
                session.add(row)
                session.flush()
            return _view(session, plan)


def _in_force(session: Session, build_id: int) -> PlanRow | None:
    of_it = select(PlanRow).where(PlanRow.build_id == build_id)
    return session.scalar(of_it.order_by(PlanRow.id.desc()).limit(1))


def _skips(session: Session, plan: PlanRow) -> list[PlanSkipRow]:
    of_it = select(PlanSkipRow).where(PlanSkipRow.plan_id == plan.id)
    return list(session.scalars(of_it.order_by(PlanSkipRow.id)))


def _view(session: Session, row: PlanRow) -> PlanView:
    skips = (
        SkipView(skip.number, skip.words, skip.note_id, skip.who, skip.skipped.local) for skip in _skips(session, row)
    )
    return PlanView(
        id=row.id,
        build_key=row.build.key,
        recipe_key=row.recipe.key,
        scaled=row.scaled,
        steps=tuple(row.steps),
        who=row.who,
        started_at=row.started.local,
        skips=tuple(skips),
    )
