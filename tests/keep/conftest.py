from tests.keep.databases import database_url, store

__all__ = ["database_url", "store"]
