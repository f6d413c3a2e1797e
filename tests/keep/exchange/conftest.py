from __future__ import annotations

from pathlib import Path

import pytest

from journal.keep.media import Media
from journal.keep.store import Store
from tests.keep.databases import database_url, new_postgresql, store
from tests.keep.exchange.filled import fill

__all__ = ["database_url", "store"]


@pytest.fixture
def media(tmp_path: Path) -> Media:
    return Media(str(tmp_path / "media"))


@pytest.fixture
def filled(store: Store, media: Media) -> Store:
    """A store with something of everything, on either database."""
    fill(store, media)
    return store


@pytest.fixture
def empty(request, database_url: str, tmp_path: Path):
    """An empty store on the same kind of database."""
    url = new_postgresql() if database_url.startswith("postgresql") else f"sqlite:///{tmp_path / 'new' / 'new.db'}"
    with Store(url) as opened:
        opened.migrate()
        yield opened
