"""Every setting of Mouldbook, in one place: its default, and its environment variable.

Each field `name` is set by the environment variable `MOULDBOOK_NAME`.
"""

from __future__ import annotations

import os
from pathlib import Path

from platformdirs import user_data_path
from pydantic import Field
from pydantic_settings import BaseSettings, SettingsConfigDict


class Settings(BaseSettings):
    """The settings; unknown names are refused by pydantic with the field named."""

    model_config = SettingsConfigDict(env_prefix="MOULDBOOK_", frozen=True)

    data_dir: Path = Field(
        default_factory=lambda: user_data_path("mouldbook"),
        description="Folder of the database, the media and joined speech weights",
    )
    database_url: str = Field(default="", description="SQLAlchemy address; empty: SQLite in data_dir")
    media_url: str = Field(default="", description="fsspec address of the media; empty: a folder in data_dir")
    queue_url: str = Field(default="", description="Empty: SQLite in data_dir; else a redis:// address")
    catalogue: Path | None = Field(default=None, description="The shop's own catalogue file, added to ours")
    weights: str = Field(
        default="", description="Speech weights: a folder, `makers`, `base` or another model name; empty: `makers`"
    )
    hear_threads: int = Field(default=0, ge=0, description="Threads for hearing; 0: all cores")
    locale: str = Field(default="en-GB", pattern="^en-(GB|US)$", description="Dialect of units: en-GB or en-US")
    timezone: str = Field(default="", description="IANA zone of the shop; empty: the machine's")
    confirm_below: float = Field(
        default=0.7, ge=0, le=1, description="Values under this confidence are shown for confirmation"
    )
    max_bytes: int = Field(default=100_000_000, gt=0, description="Largest file that is taken in, in bytes")
    max_seconds: float = Field(default=900.0, gt=0, description="Longest recording that is taken in, in seconds")
    max_pixels: int = Field(default=80_000_000, gt=0, description="Largest photo that is taken in, in pixels")
    host: str = Field(default="127.0.0.1", description="Address that the server listens on")
    port: int = Field(default=8490, gt=0, lt=65536, description="Port that the server listens on")
    lan_host: str = Field(default="0.0.0.0", description="Address that `serve --lan` listens on for other devices")
    lan_port: int = Field(default=8491, gt=0, lt=65536, description="Port of the page for other devices, by https")
    trust_port: int = Field(
        default=8492, gt=0, lt=65536, description="Port where devices fetch the certificate that they are to trust"
    )
    lan_names: str = Field(default="", description="Further names of the machine on the network, between commas")

    @property
    def database(self) -> str:
        """The SQLAlchemy address in force."""
        return self.database_url or f"sqlite:///{self.data_dir / 'mouldbook.db'}"

    @property
    def media(self) -> str:
        """The fsspec address in force."""
        return self.media_url or str(self.data_dir / "media")

    @property
    def lan(self) -> Path:
        """The folder of the certificate authority."""
        return self.data_dir / "lan"

    def to_environment(self) -> None:
        """Write the settings into the environment, for a process or an app that reads them from there."""
        for name, value in self.model_dump(exclude_none=True).items():
            os.environ[f"MOULDBOOK_{name.upper()}"] = str(value)
