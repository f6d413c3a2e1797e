"""Alembic migrations, shipped with the package and run by `Store.migrate`."""
