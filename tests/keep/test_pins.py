"""Reference photos, and pins of places and of faults on photos."""

from __future__ import annotations

import pytest
from sqlalchemy.exc import IntegrityError

from journal.keep.store import Store
from journal.keep.tables import PinRow
from journal.keep.views import FieldError, NewPhoto, NewPin, NotKept
from tests.keep.made import AT, build_of, photo, seen, spoken, step


@pytest.fixture
def kept(store: Store) -> int:
    """The id of a photo of the niche."""
    return store.add_photo(build_of(store).id, NewPhoto(photo()))[0].id


def test_a_mould_has_one_reference_photo(store: Store, kept: int) -> None:
    assert store.reference("niche") is None
    assert store.set_reference("niche", kept, AT, "lead maker").id == kept
    other = store.add_photo(store.photo(kept).build_id, NewPhoto(photo("another")))[0].id
    store.set_reference("niche", other, AT)
    store.set_reference("niche", other, AT)
    reference = store.reference("niche")
    assert reference is not None
    assert reference.id == other
    changes = [c for c in store.history("mould", store.mould("niche").id) if c.what == "reference photo"]
    assert [(c.before, c.after) for c in changes] == [(None, kept), (kept, other)]


def test_a_photo_of_another_mould_is_no_reference(store: Store, kept: int) -> None:
    build_of(store, "Cornice")
    with pytest.raises(FieldError, match="is of the mould 'Niche'"):
        store.set_reference("cornice", kept, AT)


def test_a_place_is_pinned_moved_and_taken_off(store: Store, kept: int) -> None:
    first = store.add_pin(kept, NewPin(0.25, 0.75, "Left  Scroll"), AT, "lead maker")
    assert (first.place, first.label, first.step_id) == ("left scroll", "left scroll", None)
    moved = store.add_pin(kept, NewPin(0.5, 0.5, "left scroll"), AT)
    assert (moved.id, moved.x) == (first.id, 0.5)
    assert store.photo(kept).pins == (moved,)
    assert store.photo(kept).place is None  # a pin says where a place is, not what the photo is of
    assert store.remove_pin(moved.id, AT) == moved
    assert store.photo(kept).pins == ()
    assert "left scroll" in store.places("niche")
    assert [c.what for c in store.history("photo", kept)] == ["added", "pinned", "pinned", "unpinned"]


def test_a_fault_is_pinned_by_the_step_in_which_it_was_found(store: Store, kept: int) -> None:
    build = store.build(store.photo(kept).build_id)
    _, [found, good] = spoken(store, build, "void", step("check", observations=(seen("void", "small void"),)),
                              step("check", observations=(seen("good", "clean"),)))  # fmt: skip
    pin = store.add_pin(kept, NewPin(0.1, 0.2, step_id=found.id), AT)
    assert (pin.place, pin.label, pin.step_id) == (None, "void: small void", found.id)
    assert store.add_pin(kept, NewPin(0.3, 0.2, step_id=found.id), AT).id == pin.id
    with pytest.raises(FieldError, match="nothing was found wrong"):
        store.add_pin(kept, NewPin(0.1, 0.2, step_id=good.id), AT)
    with pytest.raises(NotKept):
        store.add_pin(kept, NewPin(0.1, 0.2, step_id=99), AT)


@pytest.mark.parametrize(
    ("pin", "field"),
    [(NewPin(1.1, 0, "rim"), "x"), (NewPin(0, -0.1, "rim"), "y"), (NewPin(float("nan"), 0, "rim"), "x"),
     (NewPin(0, 0), "place"), (NewPin(0, 0, "rim", 1), "place"), (NewPin(0, 0, " "), "place")],
)  # fmt: skip
def test_a_pin_that_makes_no_sense_is_refused(store: Store, kept: int, pin: NewPin, field: str) -> None:
    with pytest.raises(FieldError) as caught:
        store.add_pin(kept, pin, AT)
    assert caught.value.field == field


def test_the_database_holds_a_pin_to_one_of_both(store: Store, kept: int) -> None:
    with pytest.raises(IntegrityError), store.writing() as session:
        session.add(PinRow(photo_id=kept, x=0.1, y=0.1))


def test_an_unknown_pin_is_not_kept(store: Store) -> None:
    with pytest.raises(NotKept, match="there is no pin 7"):
        store.remove_pin(7, AT)
