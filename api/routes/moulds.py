"""Moulds."""

from __future__ import annotations

from typing import Literal

from fastapi import APIRouter
from pydantic import BaseModel, Field

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.examples import example
from api.shapes.sheet import FaultShape, PullShape
from api.shapes.views import ChangeShape, MouldShape
from journal.keep.views import NewMould

router = APIRouter(prefix="/api/moulds", tags=["moulds"])


class NewMouldShape(BaseModel):
    """A mould to be kept; `area_m2` is the surface to be laid up, in m2."""

    model_config = example({"name": "Scallop-shell niche", "pieces": 2, "size": "1.2 m high", "area_m2": 1.4})

    name: str = Field(min_length=1, max_length=200)
    pattern: str = ""
    pieces: int = Field(default=1, ge=1)
    size: str = ""
    area_m2: float | None = Field(default=None, gt=0)
    remarks: str = ""
    who: str | None = None


class MouldStatusShape(BaseModel):
    """What a mould is now, and why."""

    model_config = example({"status": "under repair", "who": "lead maker", "why": "chip on the right scroll"})

    status: Literal["planned", "being made", "in use", "under repair", "retired"]
    who: str | None = None
    why: str = ""


@router.get("", summary="All moulds, by name")
def every(shop: ShopHere) -> list[MouldShape]:
    """Return all moulds."""
    return [MouldShape.model_validate(mould) for mould in shop.store.moulds()]


@router.post("", status_code=201, summary="Add a mould", responses=problems(409, 422))
def add(shop: ShopHere, now: Now, new: NewMouldShape) -> MouldShape:
    """Keep a mould under a name of its own."""
    mould = NewMould(**new.model_dump(exclude={"who"}))
    return MouldShape.model_validate(shop.store.add_mould(mould, at=now, who=new.who))


@router.get("/{mould_key}", summary="One mould, by id, key or name", responses=problems(404))
def one(shop: ShopHere, mould_key: str) -> MouldShape:
    """Return one mould."""
    return MouldShape.model_validate(shop.store.mould(mould_key))


@router.put("/{mould_key}/status", summary="Say what a mould is now", responses=problems(404, 422))
def set_status(shop: ShopHere, now: Now, mould_key: str, said: MouldStatusShape) -> MouldShape:
    """Set the mould's status."""
    mould = shop.store.set_mould_status(mould_key, said.status, at=now, who=said.who, why=said.why)
    return MouldShape.model_validate(mould)


@router.get("/{mould_key}/pulls", summary="The castings taken from a mould", responses=problems(404))
def pulls(shop: ShopHere, mould_key: str) -> list[PullShape]:
    """Return the castings in time order, each with its condition."""
    return [PullShape.model_validate(pull) for pull in shop.store.pulls(mould_key)]


@router.get("/{mould_key}/faults", summary="What was found wrong on a mould", responses=problems(404))
def faults(shop: ShopHere, mould_key: str) -> list[FaultShape]:
    """Return the faults of all its builds and castings, in time order."""
    return [FaultShape.model_validate(fault) for fault in shop.store.faults(mould_key=mould_key)]


@router.get("/{mould_key}/history", summary="Every change of a mould, oldest first", responses=problems(404))
def history(shop: ShopHere, mould_key: str) -> list[ChangeShape]:
    """Return the changes of a mould."""
    changes = shop.store.history("mould", shop.store.mould(mould_key).id)
    return [ChangeShape.model_validate(change) for change in changes]
