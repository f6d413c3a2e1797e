"""Moulds and their builds."""

from __future__ import annotations

from datetime import datetime

from journal.keep.history import History
from journal.keep.views import BuildView, MouldStatus, MouldView, NewMould, Outcome


class Moulds(History):
    """The part of the store that keeps moulds and builds. A key is an id, a key or a name."""

    def add_mould(self, mould: NewMould, at: datetime, who: str | None = None) -> MouldView:
        """Keep a mould. Raises NameTaken when there is one of that name, FieldError on a bad value."""
        raise NotImplementedError

    def moulds(self) -> list[MouldView]:
        """Return all moulds by name."""
        raise NotImplementedError

    def mould(self, key: str | int) -> MouldView:
        """Return one mould by id, key or name."""
        raise NotImplementedError

    def set_mould_status(
        self, key: str | int, status: MouldStatus, at: datetime, who: str | None = None, why: str = ""
    ) -> MouldView:
        """Say what the mould is now. A build begun or a build that worked sets it as well."""
        raise NotImplementedError

    def add_build(
        self,
        mould_key: str | int,
        started_at: datetime,
        name: str | None = None,
        remarks: str = "",
        who: str | None = None,
    ) -> BuildView:
        """Begin a build; without a name it is the mould's with the next number ("Niche 2")."""
        raise NotImplementedError

    def build(self, key: str | int) -> BuildView:
        """Return one build by id, key or name."""
        raise NotImplementedError

    def builds(self, mould_key: str | int | None = None) -> list[BuildView]:
        """Return the builds, of one mould or of all, in the order they were started."""
        raise NotImplementedError

    def set_outcome(
        self, build_key: str | int, outcome: Outcome, text: str, who: str | None, at: datetime
    ) -> BuildView:
        """Say how a build turned out; `text` is the reason in a person's words."""
        raise NotImplementedError
