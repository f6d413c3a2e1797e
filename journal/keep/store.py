"""The store: one engine, opened once, safe to call from any thread. Each call is one transaction."""

from __future__ import annotations

from journal.keep.builds import Builds
from journal.keep.commands import Commands
from journal.keep.devices import Devices
from journal.keep.moulds import Moulds
from journal.keep.notes import Notes
from journal.keep.outcomes import Outcomes
from journal.keep.photos import Photos
from journal.keep.pins import Pins
from journal.keep.plans import Plans
from journal.keep.steps import Steps
from journal.keep.stock import Stock
from journal.keep.training import Training
from journal.keep.whole import Whole


class Store(Moulds, Builds, Notes, Steps, Photos, Stock, Devices, Pins, Commands, Training, Plans, Whole, Outcomes):
    """Everything that is kept. `Store(database_url)` opens it, `migrate()` makes or updates its tables.

    Reads give frozen views (`journal.keep.views`); writes take the time from the caller and leave an
    entry in the history. Unknown ids and names raise `NotKept`, impossible values `FieldError`.
    """
