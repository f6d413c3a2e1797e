"""Devices that may talk to this machine from the shop's network, and the codes that pair new ones.

A code works once and for a few minutes; a device's token for as long as the device is not revoked. Only sums of
both are kept, so that a copy of the database lets nobody in.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from datetime import datetime, timedelta

from sqlalchemy import delete, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.lookup import taken
from journal.keep.tables import DeviceRow, PairingRow
from journal.keep.texts import named
from journal.keep.times import Moment, local_or_none
from journal.keep.views import Change, DeviceView, NotKept, NotPaired

PAIRING_LASTS = timedelta(minutes=10)
SEEN_AFTER = timedelta(minutes=1)  # how exactly "last seen" is kept: not every request is worth a write
# Letters and digits that are not taken for one another (Crockford's base 32); 8 of them are 40 bits.
_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_LOOKALIKES = str.maketrans("OIL", "011")
_CODE_LENGTH = 8


class Devices(History):
    """The part of the store that knows who may talk to us from the network."""

    def new_pairing(self, at: datetime) -> str:
        """Return a code that pairs one device within PAIRING_LASTS, as two groups of four ("K7QM-2XWD")."""
        code = "".join(secrets.choice(_LETTERS) for _ in range(_CODE_LENGTH))
        with self.writing() as session:
            session.execute(delete(PairingRow).where(PairingRow.ends_at < at))
            session.add(PairingRow(code_sha256=_sum(code), ends_at=at + PAIRING_LASTS))
        return f"{code[:4]}-{code[4:]}"

    def pair(self, code: str, name: str, at: datetime) -> tuple[DeviceView, str]:
        """Let a device in: return it, and the token that it shows from now on; the code is used up.

        A name that was revoked may be given again. Raises NotPaired for a code that is not, no longer or not
        any more valid, NameTaken when a paired device has that name: the code then stays valid.
        """
        name, _ = named("name", name)
        secret = secrets.token_urlsafe(32)
        try:
            with self.writing() as session:
                _use_up(session, code, at)
                row = session.scalar(select(DeviceRow).where(DeviceRow.name == name))
                if row is not None and row.revoked_at is None:
                    raise taken("device", name)
                row = row or DeviceRow(name=name)
                row.token_sha256, row.paired, row.seen, row.revoked = _sum(secret), Moment.of(at), Moment.of(at), None
                session.add(row)
                session.flush()
                write_down(session, Change(at, None, "device", row.id, "paired", "", None, name))
                return _view(row), f"{row.id}.{secret}"
        except IntegrityError as error:  # another device took the name in the same moment
            raise taken("device", name) from error

    def device_of(self, token: str, at: datetime) -> DeviceView | None:
        """Return the device of a token and note that it was seen; None for no token of ours, or one revoked."""
        number, _, secret = token.partition(".")
        if not (number.isascii() and number.isdigit() and len(number) < 10):
            return None
        with self.reading() as session:
            row = session.get(DeviceRow, int(number))
            kept = row.token_sha256 if row is not None else _sum("")
            if not hmac.compare_digest(kept, _sum(secret)) or row is None or row.revoked_at is not None:
                return None
            view = _view(row)
        if at - view.seen_at >= SEEN_AFTER:
            self._saw(view.id, at)
        return view

    def _saw(self, device_id: int, at: datetime) -> None:
        with self.writing() as session:
            row = session.get(DeviceRow, device_id)
            if row is not None:
                row.seen = Moment.of(at)

    def devices(self) -> list[DeviceView]:
        """Return every device that was ever paired, by name; those revoked have the time of that."""
        with self.reading() as session:
            return [_view(row) for row in session.scalars(select(DeviceRow).order_by(DeviceRow.name))]

    def device(self, key: str | int) -> DeviceView:
        """Return one device by id or name. Raises NotKept."""
        with self.reading() as session:
            return _view(_found(session, key))

    def rename_device(self, key: str | int, name: str, at: datetime, who: str | None = None) -> DeviceView:
        """Give a device another name; notes that it sent keep the name of then. Raises NotKept, NameTaken."""
        name, _ = named("name", name)
        try:
            with self.writing() as session:
                row = _found(session, key)
                before, row.name = row.name, name
                session.flush()
                if before != name:
                    write_down(session, Change(at, who, "device", row.id, "renamed", "", before, name))
                return _view(row)
        except IntegrityError as error:
            raise taken("device", name) from error

    def revoke_device(self, key: str | int, at: datetime, who: str | None = None) -> DeviceView:
        """Let a device in no longer, from the next request on. Again changes nothing. Raises NotKept."""
        with self.writing() as session:
            row = _found(session, key)
            if row.revoked_at is None:
                row.revoked = Moment.of(at)
                session.flush()
                write_down(session, Change(at, who, "device", row.id, "revoked", "", row.name, None))
            return _view(row)


def _use_up(session: Session, code: str, at: datetime) -> None:
    said = "".join(each for each in code.upper() if each.isalnum()).translate(_LOOKALIKES)
    # Looked up by its sum: how long that takes tells nothing of the codes that there are.
    row = session.scalar(select(PairingRow).where(PairingRow.code_sha256 == _sum(said)).with_for_update())
    if row is None or row.ends_at <= at:
        raise NotPaired(
            "this code does not pair a device, or not any more: have a new one shown on the machine"
            " (the page Devices, or mouldbook devices --pair)"
        )
    session.delete(row)


def _found(session: Session, key: str | int) -> DeviceRow:
    if isinstance(key, int):
        row = session.get(DeviceRow, key)
    else:
        row = session.scalar(select(DeviceRow).where(DeviceRow.name == " ".join(key.split())))
    if row is None:
        raise NotKept(f"there is no device {key!r}: the list of devices names those there are")
    return row


def _sum(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


def _view(row: DeviceRow) -> DeviceView:
    return DeviceView(row.id, row.name, row.paired.local, row.seen.local, local_or_none(row.revoked))
