"""Devices are paired once, known by their token, and refused when revoked."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import text

from journal.keep.devices import PAIRING_LASTS
from journal.keep.store import Store
from journal.keep.views import NameTaken, NotKept, NotPaired
from tests.keep.made import AT, at_once

MINUTE = timedelta(minutes=1)


def test_a_code_pairs_one_device_once(store: Store) -> None:
    code = store.new_pairing(AT)
    device, token = store.pair(code, "bench phone", AT)
    assert (device.name, device.paired_at, device.revoked_at) == ("bench phone", AT, None)
    assert store.device_of(token, AT) == device
    with pytest.raises(NotPaired, match="have a new one shown"):
        store.pair(code, "another phone", AT)
    assert store.devices() == [device]


def test_two_who_use_one_code_at_once_are_not_both_let_in(store: Store) -> None:
    code = store.new_pairing(AT)
    refused: list[NotPaired] = []

    def pairing(name: str) -> None:
        try:
            store.pair(code, name, AT)
        except NotPaired as error:
            refused.append(error)

    at_once(lambda: pairing("one"), lambda: pairing("two"))
    assert len(refused) == 1
    assert len(store.devices()) == 1


def test_a_code_is_taken_as_people_type_it(store: Store) -> None:
    code = store.new_pairing(AT)
    typed = code.lower().replace("-", " ").replace("0", "o").replace("1", "l")
    assert store.pair(typed, "tablet", AT)[0].name == "tablet"


def test_a_code_ends(store: Store) -> None:
    code = store.new_pairing(AT)
    with pytest.raises(NotPaired):
        store.pair(code, "late phone", AT + PAIRING_LASTS)
    assert store.devices() == []


def test_a_name_that_is_taken_leaves_the_code_as_it_was(store: Store) -> None:
    store.pair(store.new_pairing(AT), "bench phone", AT)
    code = store.new_pairing(AT)
    with pytest.raises(NameTaken, match="choose another name"):
        store.pair(code, "bench  phone", AT)
    assert store.pair(code, "second phone", AT)[0].name == "second phone"


def test_a_revoked_device_is_unknown_until_it_is_paired_again(store: Store) -> None:
    device, token = store.pair(store.new_pairing(AT), "bench phone", AT)
    revoked = store.revoke_device("bench phone", AT + MINUTE, "lead maker")
    assert revoked.revoked_at == AT + MINUTE
    assert store.device_of(token, AT + MINUTE) is None
    again, new_token = store.pair(store.new_pairing(AT), "bench phone", AT + 2 * MINUTE)
    assert again.id == device.id
    assert store.device_of(token, AT + 2 * MINUTE) is None
    assert store.device_of(new_token, AT + 2 * MINUTE) == again
    assert [(c.what, c.who) for c in store.history("device", device.id)] == [
        ("paired", None), ("revoked", "lead maker"), ("paired", None),
    ]  # fmt: skip


@pytest.mark.parametrize("token", ["", "1", "1.", "x.y", "-1.a", "99.abc", "1." + "a" * 43, "٣.a", "1" * 40 + ".a"])
def test_no_token_of_ours_is_nobody(store: Store, token: str) -> None:
    store.pair(store.new_pairing(AT), "bench phone", AT)
    assert store.device_of(token, AT) is None


def test_when_a_device_was_last_seen_is_kept_to_the_minute(store: Store) -> None:
    _, token = store.pair(store.new_pairing(AT), "bench phone", AT)
    store.device_of(token, AT + MINUTE / 2)
    assert store.device("bench phone").seen_at == AT
    store.device_of(token, AT + 2 * MINUTE)
    assert store.device("bench phone").seen_at == AT + 2 * MINUTE


def test_a_device_is_renamed_with_an_entry_in_the_history(store: Store) -> None:
    device, token = store.pair(store.new_pairing(AT), "phone", AT)
    store.pair(store.new_pairing(AT), "tablet", AT)
    assert store.rename_device(device.id, "bench phone", AT).name == "bench phone"
    assert store.device_of(token, AT) == store.device("bench phone")
    with pytest.raises(NameTaken):
        store.rename_device("bench phone", "tablet", AT)
    with pytest.raises(NotKept, match="there is no device 'phone'"):
        store.revoke_device("phone", AT)
    assert [(c.what, c.before, c.after) for c in store.history("device", device.id)][1:] == [
        ("renamed", "phone", "bench phone")
    ]


def test_neither_codes_nor_tokens_are_in_the_database(store: Store) -> None:
    waiting, used = store.new_pairing(AT), store.new_pairing(AT)
    _, token = store.pair(used, "bench phone", AT)
    with store.engine.connect() as connection:
        kept = repr([list(connection.execute(text(f"SELECT * FROM {each}"))) for each in ("device", "pairing")])
    assert token.partition(".")[2] not in kept
    assert waiting.replace("-", "") not in kept
