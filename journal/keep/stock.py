"""Materials in use and their lots: what the steps say, and what people state about a tin."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from journal.keep.corrections import UNITS
from journal.keep.history import History, write_down
from journal.keep.lookup import find_build
from journal.keep.steps import standing_steps
from journal.keep.tables import LotRow, StepMaterialRow, StepRow
from journal.keep.texts import checked, checked_or_none
from journal.keep.times import Moment, local_or_none, moment_or_none
from journal.keep.views import Change, FieldError, LotView, MaterialInUse, NewLot

_Key = tuple[str, str, str]  # material, part, number
_Use = tuple[int, Moment]  # the id of a step, and when it was done


class Stock(History):
    """The part of the store that knows the shelf."""

    def state_lot(self, lot: NewLot, at: datetime, who: str | None = None) -> LotView:
        """Keep what a person states about a lot; stating again replaces it, with an entry in the history."""
        key = _key_of(lot)
        _check_amount(lot)
        with self.writing() as session:
            row = _stated(session, key)
            before = _facts(row) if row else None
            if row is None:
                row = LotRow(material=key[0], part=key[1], number=key[2])
                session.add(row)
            row.opened, row.use_by = moment_or_none(lot.opened_at), lot.use_by
            row.amount, row.unit = lot.amount, lot.unit
            session.flush()
            write_down(session, Change(at, who, "lot", row.id, "stated", "", before, _facts(row)))
            return _lot_view(key, row, _uses(session, lot.number.strip())[key])

    def lots(self) -> list[LotView]:
        """Return every lot stated or spoken of in a step in force, by material and number."""
        with self.reading() as session:
            return _lot_views(session.scalars(select(LotRow)), _uses(session))

    def lot(self, number: str) -> list[LotView]:
        """Return the lots of that number: one for each material and part that it was said of."""
        with self.reading() as session:
            stated = session.scalars(select(LotRow).where(LotRow.number == number))
            return _lot_views(stated, _uses(session, number))

    def materials_in_use(self, build_key: str | int) -> list[MaterialInUse]:
        """Return the materials named in a build's steps done, in the order of their first use."""
        with self.reading() as session:
            of_it = standing_steps().join(StepMaterialRow, StepMaterialRow.step_id == StepRow.id)
            of_it = of_it.where(StepRow.build_id == find_build(session, build_key).id, StepRow.status == "done")
            used: dict[tuple[str, str], list[tuple[StepRow, str | None]]] = defaultdict(list)
            columns = of_it.add_columns(StepMaterialRow.name, StepMaterialRow.part, StepMaterialRow.lot)
            for step, name, part, lot in session.execute(columns):
                used[name, part].append((step, lot))
            return [_in_use(name, part, uses) for (name, part), uses in used.items()]


def _key_of(lot: NewLot) -> _Key:
    key = (
        checked("material", lot.material),
        checked_or_none("part", lot.part) or "",
        checked("number", lot.number),
    )
    if not key[0] or not key[2]:
        raise FieldError("number" if key[0] else "material", "is empty")
    return key


def _check_amount(lot: NewLot) -> None:
    if lot.amount is not None and not (math.isfinite(lot.amount) and lot.amount >= 0):
        raise FieldError("amount", f"{lot.amount} is less than 0")
    if (lot.amount is None) != (lot.unit is None):
        raise FieldError("unit", "give an amount and its unit together, or neither")
    if lot.unit is not None and lot.unit not in UNITS:
        raise FieldError("unit", f"{lot.unit!r} is none of: {', '.join(UNITS)}")


def _stated(session: Session, key: _Key) -> LotRow | None:
    material, part, number = key
    return session.scalar(
        select(LotRow).where(LotRow.material == material, LotRow.part == part, LotRow.number == number)
    )


def _uses(session: Session, number: str | None = None) -> dict[_Key, list[_Use]]:
    """Return the steps done in which each lot was spoken of, in the order spoken."""
    used = standing_steps().join(StepMaterialRow, StepMaterialRow.step_id == StepRow.id)
    used = used.where(StepMaterialRow.lot.is_not(None), StepRow.status == "done")
    if number is not None:
        used = used.where(StepMaterialRow.lot == number)
    columns = used.with_only_columns(
        StepRow.id,
        StepRow.act_at,
        StepRow.act_offset_s,
        StepMaterialRow.name,
        StepMaterialRow.part,
        StepMaterialRow.lot,
        maintain_column_froms=True,
    )
    found: dict[_Key, list[_Use]] = defaultdict(list)
    for step_id, at, offset_s, name, part, lot in session.execute(columns):
        found[name, part, lot or ""].append((step_id, Moment(at, offset_s)))
    return found


def _lot_views(stated: Iterable[LotRow], uses: dict[_Key, list[_Use]]) -> list[LotView]:
    rows = {(row.material, row.part, row.number): row for row in stated}
    return [_lot_view(key, rows.get(key), uses.get(key, [])) for key in sorted({*rows, *uses})]


def _lot_view(key: _Key, row: LotRow | None, uses: list[_Use]) -> LotView:
    first = min((act for _, act in uses), key=lambda act: act.utc, default=None)
    return LotView(
        id=row.id if row else None,
        material=key[0],
        part=key[1] or None,
        number=key[2],
        opened_at=local_or_none((row.opened if row else None) or first),
        use_by=row.use_by if row else None,
        amount=row.amount if row else None,
        unit=row.unit if row else None,
        step_ids=tuple(dict.fromkeys(step_id for step_id, _ in uses)),
    )


def _facts(row: LotRow) -> dict[str, Any]:
    opened = local_or_none(row.opened)
    return {
        "opened_at": opened.isoformat() if opened else None,
        "use_by": row.use_by.isoformat() if row.use_by else None,
        "amount": row.amount,
        "unit": row.unit,
    }


def _in_use(name: str, part: str, uses: list[tuple[StepRow, str | None]]) -> MaterialInUse:
    first: Moment = min((step.act for step, _ in uses), key=lambda act: act.utc)
    return MaterialInUse(
        name=name,
        part=part or None,
        lots=tuple(dict.fromkeys(lot for _, lot in uses if lot)),
        first_at=first.local,
        step_ids=tuple(dict.fromkeys(step.id for step, _ in uses)),
    )
