"""The worker and the page at once: nothing lost, nothing doubled, nobody turned away."""

from __future__ import annotations

from journal.keep.store import Store
from journal.keep.views import NewNote, NewPhoto
from tests.keep.made import AT, at_once, build_of, clip, heard, minutes, photo, step, use

NOTES = 12


def add_notes(store: Store, build_id: int, who: str) -> None:
    for number in range(NOTES):
        store.add_note(build_id, NewNote(minutes(number), clip=clip(f"{who} {number}"), who=who))
        store.steps(build_id)


def read_notes(store: Store, count: int) -> None:
    while count:
        for note in store.notes_waiting():
            store.keep_transcript(note.id, heard(f"mixed the same {note.id} again"), AT)
            store.keep_steps(note.id, [step("mix", use("hardener", 87, "g"))], "reader 1", AT)
            count -= 1


def correct_steps(store: Store, build_id: int, count: int) -> None:
    corrected: set[int] = set()
    while len(corrected) < count:
        for each in store.steps(build_id)[:count]:
            if each.id not in corrected:
                store.correct_step(each.id, {"materials.0.amount": 90}, "lead maker", "", AT)
                corrected.add(each.id)


def test_a_worker_reads_while_pages_add_and_correct(database_url: str) -> None:
    with Store(database_url) as page, Store(database_url) as worker:
        build = build_of(page)
        at_once(
            lambda: add_notes(page, build.id, "one"),
            lambda: add_notes(page, build.id, "two"),
            lambda: read_notes(worker, 2 * NOTES),
            lambda: correct_steps(page, build.id, NOTES),
        )
        steps = page.steps(build.id)
        assert [note.state for note in page.notes(build.id)] == 2 * NOTES * ["read"]
        assert len(steps) == 2 * NOTES
        assert sum(each.corrected for each in steps) >= NOTES
        for each in steps:
            assert len(page.history("step", each.id)) == each.corrected


def test_the_same_note_sent_by_two_at_once_is_kept_once(store: Store) -> None:
    build = build_of(store)
    for number in range(5):
        note = NewNote(minutes(number), clip=clip(str(number)), client_key=f"k{number}")
        sent = at_once(*4 * [lambda note=note: store.add_note(build.id, note)])
        assert sorted(created for _, created in sent) == [False, False, False, True]  # type: ignore[misc]
    assert len(store.notes(build.id)) == 5


def test_builds_begun_at_once_are_numbered_apart(store: Store) -> None:
    build_of(store)
    at_once(*4 * [lambda: store.add_build("niche", AT)])
    assert sorted(build.key for build in store.builds()) == [f"niche-{number}" for number in range(1, 6)]


def test_a_place_named_by_two_at_once_is_one_place(store: Store) -> None:
    build = build_of(store)
    photos = [NewPhoto(photo(str(number)), place="left scroll") for number in range(4)]
    at_once(*[lambda new=new: store.add_photo(build.id, new) for new in photos])
    assert store.places("niche") == ["left scroll"]
    assert len(store.photos(build.id)) == 4
