"""Photos: kept once, near a step, on a place."""

from __future__ import annotations

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, KeyReused, NewPhoto, NotKept
from tests.keep.made import AT, build_of, minutes, photo, phrase, spoken, step


def test_a_photo_comes_back_as_it_was_taken_in(store: Store) -> None:
    build = build_of(store)
    kept, created = store.add_photo(build.key, NewPhoto(photo(), who="apprentice", place="Left  Scroll"))
    assert created
    assert (kept.photo, kept.who, kept.place, kept.step_id) == (photo(), "apprentice", "left scroll", None)
    assert store.photo(kept.id) == kept
    assert store.photos(build.key) == [kept]


def test_the_same_picture_twice_is_one_photo(store: Store) -> None:
    build, other = build_of(store), build_of(store)
    kept, _ = store.add_photo(build.id, NewPhoto(photo(), client_key="k"))
    assert store.add_photo(build.id, NewPhoto(photo())) == (kept, False)
    assert store.add_photo(build.id, NewPhoto(photo(), client_key="k")) == (kept, False)
    assert store.add_photo(other.id, NewPhoto(photo()))[1]
    with pytest.raises(KeyReused):
        store.add_photo(build.id, NewPhoto(photo("another"), client_key="k"))


def test_a_photo_is_near_the_step_nearest_in_time(store: Store) -> None:
    build = build_of(store)
    _, [early] = spoken(store, build, "mixed", step("mix"), at=minutes(0))
    _, [late, _] = spoken(store, build, "poured", step("pour"), step("cure", status="planned"), at=minutes(20))
    kept = [store.add_photo(build.id, NewPhoto(photo(str(n), minutes(n))))[0] for n in (-90, 9, 11, 400)]
    assert [each.step_id for each in kept] == [early.id, early.id, late.id, late.id]
    store.withdraw_step(late.id, None, "", AT)
    assert {each.step_id for each in store.photos(build.id)} == {early.id}


def test_a_place_is_pinned_on_a_photo_and_can_be_moved(store: Store) -> None:
    build = build_of(store)
    kept, _ = store.add_photo(build.id, NewPhoto(photo()))
    store.place_photo(kept.id, "rim", AT, 0.25, 0.75, "lead maker")
    store.place_photo(kept.id, "flange", AT, 0, 1)
    moved = store.place_photo(kept.id, "Rim", AT, 0.5, 0.5)
    assert [(pin.place, pin.x, pin.y) for pin in moved.pins] == [("rim", 0.5, 0.5), ("flange", 0.0, 1.0)]
    assert moved.place == "rim"
    assert [change.what for change in store.history("photo", kept.id)] == ["added"] + 3 * ["placed"]


def test_a_place_needs_no_pin(store: Store) -> None:
    build = build_of(store)
    kept, _ = store.add_photo(build.id, NewPhoto(photo()))
    assert store.place_photo(kept.id, "rim", AT).pins == ()


@pytest.mark.parametrize(
    ("place", "x", "y", "field"),
    [("rim", -0.1, 0.5, "x"), ("rim", 0.5, 1.1, "y"), ("rim", float("nan"), 0, "x"), ("rim", 0.5, None, "y"),
     ("rim", None, 0.5, "x"), (" ", 0, 0, "place")],
)  # fmt: skip
def test_a_pin_off_the_photo_is_refused(store: Store, place: str, x: float | None, y: float | None, field: str) -> None:
    build = build_of(store)
    kept, _ = store.add_photo(build.id, NewPhoto(photo()))
    with pytest.raises(FieldError) as caught:
        store.place_photo(kept.id, place, AT, x, y)
    assert caught.value.field == field
    assert store.photo(kept.id) == kept


def test_the_places_of_a_mould_come_from_photos_and_steps(store: Store) -> None:
    build, other = build_of(store), build_of(store, "Cornice")
    store.add_photo(build.id, NewPhoto(photo(), place="rim"))
    spoken(store, build, "scroll", step(places=(phrase("Left Scroll"), phrase("rim"))))
    spoken(store, other, "foot", step(places=(phrase("foot"),)))
    assert store.places("niche") == ["left scroll", "rim"]


def test_an_unknown_photo_is_not_kept(store: Store) -> None:
    with pytest.raises(NotKept):
        store.photo(5)
