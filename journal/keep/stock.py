"""Materials in use and their lots: what the steps say, and what people state about a tin."""

from __future__ import annotations

from datetime import datetime

from journal.keep.history import History
from journal.keep.views import LotView, MaterialInUse, NewLot


class Stock(History):
    """The part of the store that knows the shelf."""

    def state_lot(self, lot: NewLot, at: datetime, who: str | None = None) -> LotView:
        """Keep what a person states about a lot; stating again replaces it, with an entry in the history."""
        raise NotImplementedError

    def lots(self) -> list[LotView]:
        """Return every lot stated or spoken of in a step in force, by material and number."""
        raise NotImplementedError

    def lot(self, number: str) -> list[LotView]:
        """Return the lots of that number: one for each material and part that it was said of."""
        raise NotImplementedError

    def materials_in_use(self, build_key: str | int) -> list[MaterialInUse]:
        """Return the materials named in a build's steps, in the order of their first use."""
        raise NotImplementedError
