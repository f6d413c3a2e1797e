"""The shipped catalogue, and the demo workshop as typed notes."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from journal.shop import Shop
from journal.trade.material import Catalogue
from tests.find.typed_workshop import Clock, typed_workshop
from tests.read.naming import shipped


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    return shipped()


@pytest.fixture(scope="session")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """The demo workshop, typed; tests only read it."""
    shop = typed_workshop(tmp_path_factory.mktemp("workshop"), Clock("2026-11-25T09:00:00+00:00"))
    yield shop
    shop.close()
