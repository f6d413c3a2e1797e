"""Training: self-tests taken and acts signed off. Entries are only added; the latest on an item stands."""

from __future__ import annotations

from datetime import datetime
from typing import cast

from sqlalchemy import select

from journal.keep.history import History
from journal.keep.lookup import find_build
from journal.keep.texts import checked
from journal.keep.times import Moment
from journal.keep.training_tables import SignOffRow, TrainingTestRow
from journal.keep.training_views import NewSignOff, NewTest, SignOffView, TestView, Verdict
from journal.keep.views import FieldError, NotKept

_REMARKS_MOST = 2000


class Training(History):
    """The part of the store that keeps how apprentices come along."""

    def keep_test(self, test: NewTest, at: datetime) -> TestView:
        """Keep a self-test as it was marked. Raises FieldError without a name, NotKept for an unknown build."""
        apprentice = _named("apprentice", test.apprentice)
        with self.writing() as session:
            builds = [find_build(session, key) for key in test.builds]
            row = TrainingTestRow(
                apprentice=apprentice,
                build=builds[0],
                builds=[build.key for build in builds],
                seed=test.seed,
                asked=len(test.answers),
                right=sum(bool(answer["right"]) for answer in test.answers),
                answers=list(test.answers),
                taken=Moment.of(at),
            )
            session.add(row)
            session.flush()
            return _test_view(row)

    def training_test(self, test_id: int) -> TestView:
        """Return one self-test. Raises NotKept."""
        with self.reading() as session:
            row = session.get(TrainingTestRow, test_id)
            if row is None:
                raise NotKept(f"there is no self-test {test_id}")
            return _test_view(row)

    def training_tests(self, build_key: str | int) -> list[TestView]:
        """Return the self-tests taken that begin with a build, the first one first."""
        with self.reading() as session:
            of_it = select(TrainingTestRow).where(TrainingTestRow.build_id == find_build(session, build_key).id)
            return [_test_view(row) for row in session.scalars(of_it.order_by(TrainingTestRow.id))]

    def sign_off(self, build_key: str | int, new: NewSignOff, at: datetime) -> list[SignOffView]:
        """Add a maker's word on each item. Raises FieldError: nobody signs off their own work."""
        apprentice, maker = _named("apprentice", new.apprentice), _named("maker", new.maker)
        if apprentice.casefold() == maker.casefold():
            raise FieldError("maker", f"{maker} cannot sign off their own work: another maker must")
        if not new.items:
            raise FieldError("items", "are empty: choose what is signed off")
        remarks = checked("remarks", new.remarks, _REMARKS_MOST)
        with self.writing() as session:
            build = find_build(session, build_key)
            rows = [
                SignOffRow(
                    apprentice=apprentice, build=build, stage=stage, item=checked("item", item, _REMARKS_MOST),
                    verdict=new.verdict, maker=maker, remarks=remarks, signed=Moment.of(at),
                )
                for stage, item in new.items
            ]  # fmt: skip
            session.add_all(rows)
            session.flush()
            return [_sign_off_view(row) for row in rows]

    def sign_offs(self, build_key: str | int) -> list[SignOffView]:
        """Return every entry of a build, the first one first."""
        with self.reading() as session:
            of_it = select(SignOffRow).where(SignOffRow.build_id == find_build(session, build_key).id)
            return [_sign_off_view(row) for row in session.scalars(of_it.order_by(SignOffRow.id))]


def _named(field: str, name: str) -> str:
    name = " ".join(checked(field, name).split())
    if not name:
        raise FieldError(field, "is empty: say who, by name or role")
    return name


def _test_view(row: TrainingTestRow) -> TestView:
    return TestView(
        id=row.id,
        apprentice=row.apprentice,
        build_key=row.build.key,
        builds=tuple(row.builds),
        seed=row.seed,
        asked=row.asked,
        right=row.right,
        answers=tuple(row.answers),
        taken_at=row.taken.local,
    )


def _sign_off_view(row: SignOffRow) -> SignOffView:
    return SignOffView(
        id=row.id,
        apprentice=row.apprentice,
        build_key=row.build.key,
        stage=row.stage,
        item=row.item,
        verdict=cast(Verdict, row.verdict),
        maker=row.maker,
        remarks=row.remarks,
        signed_at=row.signed.local,
    )
