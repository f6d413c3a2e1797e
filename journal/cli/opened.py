"""The shop that a command works on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from journal.settings import Settings
from journal.shop import Shop


@contextmanager
def opened_shop() -> Iterator[Shop]:
    """Give the shop of the settings, and close it afterwards."""
    shop = Shop.open(Settings())
    try:
        yield shop
    finally:
        shop.close()
