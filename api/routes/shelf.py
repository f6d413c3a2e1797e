"""The shelf: lots, what is left of them, and what people state about a tin."""

from __future__ import annotations

from fastapi import APIRouter

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.answers import NewTinShape, TinShape
from journal import flow
from journal.keep.views import NewLot

router = APIRouter(prefix="/api/shelf", tags=["shelf"])


@router.get("", summary="The lots on the shelf")
def tins(shop: ShopHere) -> list[TinShape]:
    """Return every lot stated or spoken of, with what was used of it and what speaks against it."""
    return [TinShape.of(tin) for tin in flow.tins(shop)]


@router.put("", summary="State what a tin holds and when it expires", responses=problems(422))
def state(shop: ShopHere, now: Now, tin: NewTinShape) -> TinShape:
    """Keep what a person states about a tin, with an entry in the history."""
    known = shop.catalogue.get(tin.material)
    name = known.name if known else tin.material
    lot = NewLot(name, tin.number, tin.part, None, tin.use_by, tin.amount, tin.unit)
    kept = shop.store.state_lot(lot, now, tin.who)
    stated = (kept.material, kept.part, kept.number)
    return next(
        TinShape.of(each) for each in flow.tins(shop) if (each.lot.material, each.lot.part, each.lot.number) == stated
    )
