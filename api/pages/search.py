"""The page that searches, with its filters."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Depends
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from api.problems import REFUSALS, problem_of
from journal import flow
from journal.find.found import Findings
from journal.keep.views import OUTCOMES, PhotoView
from journal.record import ACTIONS

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class Asked:
    """What the form was filled in with."""

    q: str = ""
    material: str = ""
    action: str = ""
    mould: str = ""
    outcome: str = ""
    since: str = ""
    until: str = ""

    @property
    def filters(self) -> dict[str, str]:
        """The filters that are set."""
        return {name: value.strip() for name, value in asdict(self).items() if name != "q" and value.strip()}

    def address(self, **changed: str) -> str:
        """Return the address of the same search with some fields changed."""
        fields = {"q": self.q.strip(), **self.filters, **changed}
        return f"/search?{urlencode({name: value for name, value in fields.items() if value})}"

    @property
    def line(self) -> str:
        """Words and filters as the one line that the search takes."""
        quoted = [f'{name}:"{value.replace(chr(34), "")}"' for name, value in self.filters.items()]
        return " ".join([*quoted, self.q.strip()]).strip()


def _photos(shop: ShopHere, found: Findings) -> dict[int, PhotoView]:
    """Return the photo nearest to each step found, by the id of the step."""
    builds = dict.fromkeys(hit.build_key for hit in found.hits)
    wanted = {hit.step_id for hit in found.hits if hit.step_id is not None}
    photos = (photo for key in builds for photo in shop.store.photos(key))
    return {photo.step_id: photo for photo in photos if photo.step_id is not None and photo.step_id in wanted}


@router.get("/search")
def search(shop: ShopHere, asked: Annotated[Asked, Depends()]) -> Response:
    """Search, or show the empty form."""
    found, troubles = None, []
    if asked.line:
        try:
            found = flow.find(shop, asked.line)
        except REFUSALS as error:
            troubles.append(problem_of(error))
    return render(
        "search.html",
        *troubles,
        here="search",
        asked=asked,
        found=found,
        photos=_photos(shop, found) if found else {},
        chips=[(chip, asked.address(q=found.asked.without(chip))) for chip in found.asked.chips] if found else [],
        actions=ACTIONS,
        outcomes=OUTCOMES,
        moulds=shop.store.moulds(),
        materials=sorted(material.name for material in shop.catalogue.materials),
    )
