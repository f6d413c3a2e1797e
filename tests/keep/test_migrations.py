"""Migrations: from nothing to the tables of the models, and back."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic import command
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text

from journal.keep.base import Opened, migration_config
from journal.keep.store import Store
from journal.keep.tables import Base
from journal.keep.views import KeepError
from tests.keep.databases import new_postgresql
from tests.keep.made import at_once, build_of, spoken, step


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    return new_postgresql() if request.param == "postgresql" else f"sqlite:///{tmp_path}/mouldbook.db"


def test_the_migrations_make_what_the_models_say(address: str) -> None:
    with Store(address) as store:
        store.migrate()
        with store.engine.begin() as connection:
            command.check(migration_config(connection))  # raises when an upgrade would be found
            assert set(Base.metadata.tables) <= set(inspect(connection).get_table_names())


def test_migrating_again_changes_nothing(address: str) -> None:
    with Store(address) as store:
        store.migrate()
        build = build_of(store)
        store.migrate()
        assert store.build(build.id) == build


def test_two_who_migrate_at_once_both_succeed(address: str) -> None:
    with Store(address) as one, Store(address) as two:
        at_once(one.migrate, two.migrate)
        build_of(one)
        assert len(two.builds()) == 1


def test_every_migration_can_be_taken_back_and_done_again(address: str) -> None:
    with Store(address) as store:
        store.migrate()
        with store.engine.connect() as connection:
            revisions = list(ScriptDirectory.from_config(migration_config(connection)).walk_revisions())
        assert len(revisions) >= 3
        for _ in revisions:
            _move(store, "-1")
        with store.engine.connect() as connection:
            assert set(inspect(connection).get_table_names()) == {"alembic_version"}
        store.migrate()
        build_of(store)


def test_taking_back_the_index_and_the_guards_loses_no_records(address: str) -> None:
    with Store(address) as store:
        store.migrate()
        build = build_of(store)
        spoken(store, build, "mixed it", step("mix"))
        kept = store.steps(build.id)
        _move(store, "0001")
        store.migrate()
        assert store.steps(build.id) == kept


def test_a_database_of_a_newer_version_is_left_alone(address: str) -> None:
    with Store(address) as store:
        store.migrate()
        with store.engine.begin() as connection:
            connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
        with pytest.raises(KeepError, match="newer Mouldbook"):
            store.migrate()


def _move(store: Opened, revision: str) -> None:
    with store.engine.begin() as connection:
        command.downgrade(migration_config(connection), revision)
