"""A shop with something of everything in it. Invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from journal.keep.media import Media
from journal.keep.plan_views import NewPlan, NewSkip
from journal.keep.store import Store
from journal.keep.training_views import NewSignOff, NewTest
from journal.keep.views import NewLot, NewMould, NewNote, NewPhoto
from journal.record import Clip, Flag, Ratio
from tests.keep.made import AT, evidence, heard, minutes, photo, phrase, seen, step, use

SPOKEN, SEEN = b"spoken bytes", b"seen bytes"
NAMES = "Нiche Ψ, “half” ½ 10 µm"


def fill(store: Store, media: Media) -> None:
    """Put in moulds, builds, notes of each kind, corrections, photos, pins, lots and training."""
    store.add_mould(NewMould("Niche", NAMES, 2, '1.2 m, "high"', 1.2, "line one\nline two, =1+1"), AT, "lead maker")
    store.add_mould(NewMould("Paw"), AT)
    build = store.add_build("niche", AT, who="lead maker")
    second = store.add_build("niche", minutes(1), "Niche, again")
    sha256 = media.keep(SPOKEN)
    clip = Clip(sha256, "audio/webm", len(SPOKEN), 3.5, AT, "given")
    note, _ = store.add_note(build.key, NewNote(AT, clip, None, "lead maker", "bench phone", "key-1"))
    store.keep_transcript(note.id, heard("mixed four hundred of epoxy"), minutes(1))
    store.keep_transcript(note.id, heard("mixed 400 of epoxy"), minutes(2))
    exact = use("epoxy", 400, "g", part="A", lot="4471")
    third = Ratio((Fraction(100), Fraction(100, 3)), evidence("a third"), "weight", derived=True)
    mixed = step("mix", exact, use("hardener", 133.1, "g"), ratio=third, flags=(Flag("amount", "400 or 500?"),))
    pull = step("pull", pull=1, observations=(seen("void", "small void"),), places=(phrase("left scroll"),))
    steps = store.keep_steps(note.id, [mixed, step("roll"), pull], "reader 1", minutes(3))
    store.correct_step(steps[0].id, {"materials.0.amount": 450.25}, "second maker", "misheard", minutes(4))
    store.confirm_step(steps[2].id, "lead maker", minutes(5))
    store.withdraw_step(steps[1].id, "lead maker", "never done", minutes(6))
    store.keep_steps(note.id, [mixed], "reader 2", minutes(7))  # a person has spoken: it goes to the history
    typed, _ = store.add_note(second.key, NewNote(minutes(2), text='=cmd, typed\r\n"quoted"', who="apprentice"))
    store.keep_steps(typed.id, [step("seal", use("shellac"))], "reader 1", minutes(3))
    failed, _ = store.add_note(second.key, NewNote(minutes(9), text="what?", device="bench phone"))
    store.fail_note(failed.id, "no words", minutes(9))
    picture = replace(photo("x", minutes(8)), sha256=media.keep(SEEN), size_bytes=len(SEEN))
    shown, _ = store.add_photo(build.key, NewPhoto(picture, "apprentice", place="left scroll"))
    store.place_photo(shown.id, "right scroll", minutes(9), 0.25, 1 / 3, "apprentice")
    store.show_fault(steps[2].id, shown.id, minutes(10), "apprentice")
    lot = NewLot("epoxy", "4471", "A", AT, date(2027, 1, 31), 5000.0, "g")
    store.state_lot(lot, AT, "lead maker")
    store.set_outcome(build.key, "failed", "soft", "lead maker", minutes(20))
    said = {"note_id": note.id, "step_id": steps[0].id, "audio": [0.5, 1.5]}
    step_json = {"step_id": steps[0].id, "note_id": note.id, "number": 1}
    store.add_plan(
        second.key, NewPlan(build.key, {"by": "area", "times": 1.5}, (step_json,), "lead maker"), minutes(25)
    )
    store.skip_planned(second.key, NewSkip(1, "skip it", typed.id, "apprentice"), minutes(26))
    answer = {"kind": "weigh", "right": True, "photos": [shown.id], "evidence": [said]}
    store.keep_test(NewTest("apprentice", (build.key,), 7, (answer,)), minutes(30))
    store.sign_off(build.key, NewSignOff("apprentice", "lead maker", (("gel coat", "mix: epoxy"),)), minutes(31))
