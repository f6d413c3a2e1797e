"""Real databases for tests: a SQLite file, and a PostgreSQL server of our own where one is installed."""

from __future__ import annotations

import atexit
import functools
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from uuid import uuid4

import pytest
from sqlalchemy import create_engine, text

from journal.keep.store import Store
from journal.keep.tables import Base

_MIGRATED = "migrated"


@pytest.fixture(params=["sqlite", "postgresql"])
def database_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty, migrated database."""
    if request.param == "postgresql":
        return _emptied_postgresql()
    shutil.copy(_migrated_sqlite(), tmp_path / "mouldbook.db")
    return f"sqlite:///{tmp_path / 'mouldbook.db'}"


@pytest.fixture
def store(database_url: str) -> Iterator[Store]:
    """A store on an empty database."""
    with Store(database_url) as opened:
        yield opened


def new_postgresql() -> str:
    """Return the address of a new database without tables; skips the test when no server can be started."""
    server = _postgresql()
    if isinstance(server, str):
        pytest.skip(server)
    name = f"t{uuid4().hex}"
    _command(server, "postgres", f"CREATE DATABASE {name}")
    return _address(server, name)


def _emptied_postgresql() -> str:
    """Return the address of the migrated database, with nothing in it: emptying is quicker than making."""
    server = _postgresql()
    if isinstance(server, str):
        pytest.skip(server)
    tables = ", ".join(Base.metadata.tables)
    _command(server, _MIGRATED, f"TRUNCATE {tables} RESTART IDENTITY CASCADE")
    return _address(server, _MIGRATED)


@functools.cache
def _migrated_sqlite() -> Path:
    folder = Path(tempfile.mkdtemp())
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    with Store(f"sqlite:///{folder / 'mouldbook.db'}") as opened:
        opened.migrate()
        opened.fold_into_one_file()
    return folder / "mouldbook.db"


@functools.cache
def _postgresql() -> Path | str:
    """Start a server that listens on a socket in its own folder; return that, or why there is none."""
    programs = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    found = shutil.which("initdb") or (str(programs[-1]) if programs else None)
    if found is None:
        return "PostgreSQL is not installed: no initdb"
    folder = Path(tempfile.mkdtemp(prefix="pg"))
    if os.geteuid() == 0:  # PostgreSQL will not run as root
        shutil.chown(folder, "postgres", "postgres")
    _run(found, "-D", f"{folder}/data", "-A", "trust", "-U", "postgres", "--no-sync")
    pg_ctl = str(Path(found).resolve().with_name("pg_ctl"))
    options = f"-c listen_addresses='' -c unix_socket_directories={folder} -c fsync=off"
    _run(pg_ctl, "-D", f"{folder}/data", "-w", "-l", f"{folder}/log", "-o", options, "start")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    atexit.register(_run, pg_ctl, "-D", f"{folder}/data", "-m", "immediate", "stop")
    _command(folder, "postgres", f"CREATE DATABASE {_MIGRATED}")
    with Store(_address(folder, _MIGRATED)) as opened:
        opened.migrate()
    return folder


def _run(*command: str) -> None:
    as_root = os.geteuid() == 0
    who = {"user": "postgres", "group": "postgres", "extra_groups": []} if as_root else {}
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, cwd="/", **who)


def _address(folder: Path, name: str) -> str:
    return f"postgresql://postgres@/{name}?host={folder}"


def _command(folder: Path, name: str, command: str) -> None:
    address = _address(folder, name).replace("postgresql:", "postgresql+psycopg:")
    engine = create_engine(address, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(command))
    engine.dispose()
