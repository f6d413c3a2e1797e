"""The way of a note, and of a question, from end to end. This is the only wiring.

    capture  ->  hear  ->  read  ->  keep  ->  find

One stage's record is handed to the next; the stages do not know each other. The clock is the shop's.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Literal, cast

from journal import planning
from journal.capture.kind import CaptureError, media_kind, read_text, size_and_digest
from journal.capture.photo import make_copies, take_photo
from journal.capture.recording import decode, take_recording
from journal.find.ask.answer import answer
from journal.find.ask.facts import Answer, build_meant, gather, tins_of
from journal.find.ask.question import Question, understand
from journal.find.chips import plain_words
from journal.find.clock import BuildClocks
from journal.find.clocks import build_clocks
from journal.find.found import Findings
from journal.find.found import find as find_kept
from journal.find.query import QueryError, parse_query, synonyms_of
from journal.find.search import Hit
from journal.find.search import search as search_kept
from journal.find.shelf import Tin
from journal.hear.weights import WeightsError
from journal.keep import backup as backups
from journal.keep.exchange import exchange
from journal.keep.views import (
    BuildView,
    FieldError,
    KeepError,
    MouldView,
    NewMould,
    NewNote,
    NewPhoto,
    NoteState,
    NoteView,
    NotKept,
    Outcome,
    PhotoView,
    StepView,
)  # fmt: skip
from journal.lan.authority import LanError
from journal.obey import commanded, obey
from journal.obey import correct as correct
from journal.paper.build_sheet import build_sheet_pdf as build_sheet_on_paper
from journal.paper.training_sheet import training_sheet_pdf as training_sheet_on_paper
from journal.read.catalogue import CatalogueError, glossary
from journal.read.commands import rest_of
from journal.read.hearings import asked_of_the_ears
from journal.read.pipeline import find_all
from journal.read.reader import Reading
from journal.read.recall import EMPTY, Memory, remember
from journal.record import NoteText, Transcript
from journal.review import outcome as review_outcome
from journal.review import review
from journal.review import sheet as sheets
from journal.review.factors import Pattern
from journal.review.outcome import NewOutcome
from journal.review.pinned import Pinned
from journal.review.pinned import pinned as find_pinned
from journal.review.trace import Trace
from journal.shop import Shop
from journal.teach import teach
from journal.teach.sheet import TrainingSheet
from journal.teach.test import SelfTest
from journal.trade.limits import TradeError

log = logging.getLogger(__name__)

READER_VERSION = "1"
OUR_FAULT = "a fault of Mouldbook itself; what was recorded is kept, try again after an update"
PAGE_COPY, THUMBNAIL = "page.webp", "thumbnail.webp"
# What a user can mend: said in one line, without a traceback.
USER_ERRORS = (CaptureError, CatalogueError, KeepError, LanError, OSError, QueryError, TradeError, WeightsError)
Progress = Callable[[str, float], None]  # what is being done, and the share of it that is, 0 to 1


# ---- a note or a photo comes in: capture -> keep -----------------------------------------------------


@dataclass(frozen=True, slots=True)
class Incoming:
    """A file as it arrives: its bytes, and what the sender says of it. `given_time` is aware, `place` a photo's."""

    data: bytes
    filename: str = ""
    given_time: datetime | None = None
    who: str | None = None
    device: str | None = None
    client_key: str | None = None
    place: str | None = None
    guessed_time: datetime | None = None  # counts after the time in the file, before that of its arrival


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of it; `created` is False when the same thing had been kept before."""

    kind: Literal["note", "photo"]
    note: NoteView | None
    photo: PhotoView | None
    created: bool

    @property
    def id(self) -> int:
        """The id of the note or the photo."""
        kept = self.note or self.photo
        assert kept is not None
        return kept.id


def take_in(shop: Shop, build_key: str | int, incoming: Incoming) -> Taken:
    """Keep a recording, a photo or a text in a build; the original bytes are kept before anything reads them.

    Raises NotKept for an unknown build and CaptureError for what is no such file, with what to do.
    """
    shop.store.build(build_key)
    size_and_digest(incoming.data, shop.settings.max_bytes)
    kind = media_kind(incoming.data)
    if kind == "text":
        return _take_text(shop, build_key, incoming)
    shop.media.keep(incoming.data)
    return _take_photo(shop, build_key, incoming) if kind == "photo" else _take_recording(shop, build_key, incoming)


def _take_text(shop: Shop, build_key: str | int, incoming: Incoming) -> Taken:
    at = incoming.given_time or shop.now()
    new = NewNote(at, None, read_text(incoming.data), incoming.who, incoming.device, incoming.client_key, shop.now())
    note, created = shop.store.add_note(build_key, new)
    return Taken("note", note, None, created)


def _take_recording(shop: Shop, build_key: str | int, incoming: Incoming) -> Taken:
    clip = take_recording(incoming.data, shop.recording_limits, incoming.given_time, shop.now(), shop.zone)
    new = NewNote(clip.recorded_at, clip, None, incoming.who, incoming.device, incoming.client_key, shop.now())
    note, created = shop.store.add_note(build_key, new)
    return Taken("note", note, None, created)


def _take_photo(shop: Shop, build_key: str | int, incoming: Incoming) -> Taken:
    at_the_latest = incoming.guessed_time or shop.now()
    photo = take_photo(incoming.data, shop.photo_limits, incoming.given_time, at_the_latest, shop.zone)
    copies = make_copies(incoming.data, shop.photo_limits)
    shop.media.keep_derived(photo.sha256, PAGE_COPY, copies.page)
    shop.media.keep_derived(photo.sha256, THUMBNAIL, copies.thumbnail)
    new = NewPhoto(photo, incoming.who, incoming.device, incoming.client_key, shop.now(), incoming.place)
    kept, created = shop.store.add_photo(build_key, new)
    return Taken("photo", None, kept, created)


# ---- a kept note is heard and read: hear -> read -> keep ---------------------------------------------


def _silent(_what: str, _share: float) -> None:
    """Report progress to nobody."""


def process_note(shop: Shop, note_id: int, progress: Progress = _silent) -> NoteView:
    """Hear a kept note, read it in the light of its build's earlier ones, and keep both.

    What cannot be heard or read is marked failed with the reason; the recording stays.
    """
    hear_note(shop, note_id, progress)
    return _advance(shop, note_id, "heard", lambda note: _read_note(shop, note))


def hear_note(shop: Shop, note_id: int, progress: Progress = _silent) -> NoteView:
    """Hear a kept note and keep what was heard; one that is heard already is returned as it is."""
    return _advance(shop, note_id, "kept", lambda note: _hear_note(shop, note, progress))


def _advance(shop: Shop, note_id: int, state: NoteState, step: Callable[[NoteView], NoteView]) -> NoteView:
    """Take a note one step further if it is in `state`; one note at a time, for a build is read in order."""
    with shop.one_at_a_time:
        note = shop.store.note(note_id)
        if note.state != state:
            return note
        try:
            return step(note)
        except USER_ERRORS as error:
            log.warning("note %s: %s", note_id, error)
            return shop.store.fail_note(note_id, str(error), shop.now())
        except Exception as error:  # a fault of ours must not be tried again every minute, nor stop the other notes
            log.exception("note %s", note_id)
            return shop.store.fail_note(note_id, f"{OUR_FAULT}: {error!r}", shop.now())


def process_waiting(shop: Shop, progress: Progress = _silent) -> list[NoteView]:
    """Hear and read every note that waits, in the order they were recorded."""
    waiting = shop.store.notes_waiting()
    done = []
    for number, note in enumerate(waiting):
        progress(f"note {number + 1} of {len(waiting)}", number / len(waiting))
        done.append(process_note(shop, note.id))
    progress("done", 1.0)
    return done


def _hear_note(shop: Shop, note: NoteView, progress: Progress) -> NoteView:
    if note.clip is None:
        raise FieldError("text", "a note without a recording has nothing to hear")
    data = shop.media.read(note.clip.sha256)
    heard = _hear(shop, data, lambda share: progress("hearing", share))
    return shop.store.keep_transcript(note.id, heard, shop.now())


def _hear(shop: Shop, data: bytes, progress: Callable[[float], None] | None = None) -> Transcript:
    """Hear a recording; what words and numbers sound like those heard is put to the sound once more."""
    samples = decode(data)
    heard = shop.ears.hear(samples, glossary(shop.catalogue), progress)
    return asked_of_the_ears(heard, shop.catalogue, partial(shop.ears.weigh, samples, heard))


def _read_note(shop: Shop, note: NoteView) -> NoteView:
    text = note_text(shop, note)
    commands = commanded(shop, text)
    own = rest_of(text, commands)  # what is said about the record itself is no step of the build
    steps = () if own is None else shop.reader.read(own, memory_before(shop, note)).steps
    shop.store.keep_steps(note.id, steps, READER_VERSION, shop.now())
    obey(shop, note, text, commands)
    planning.follow_note(shop, note, text)
    return shop.store.note(note.id)


def note_text(shop: Shop, note: NoteView) -> NoteText:
    """Return a note as the reader is given it."""
    return NoteText(note.text or "", note.recorded_at, shop.settings.locale, note.transcript)


def memory_before(shop: Shop, note: NoteView) -> Memory:
    """Return what the build's notes before this one established, corrections included."""
    return memory_of(shop, note.build_id, until=note.id)


def memory_of(shop: Shop, build_key: str | int, until: int | None = None) -> Memory:
    """Return what the notes of a build established, corrections included: all of them, or those before one."""
    memory, steps = EMPTY, shop.store.steps(build_key)
    for earlier in shop.store.notes(build_key):
        if earlier.id == until:
            break
        records = tuple(step.record for step in steps if step.note_id == earlier.id)
        memory = remember(memory, records, note_text(shop, earlier))
    return memory


# ---- without keeping anything ------------------------------------------------------------------------


def hear_only(shop: Shop, data: bytes) -> Transcript:
    """Hear a recording and keep nothing. Raises CaptureError, WeightsError."""
    size_and_digest(data, shop.settings.max_bytes)
    return _hear(shop, data)


def read_only(shop: Shop, note: NoteText, memory: Memory = EMPTY) -> Reading:
    """Read the words of one note in the light of what earlier ones established, and keep nothing."""
    return shop.reader.read(note, memory)


def file_bytes(path: Path) -> bytes:
    """Return the bytes of a file. Raises CaptureError with what to do when there is none."""
    try:
        return path.read_bytes()
    except OSError as error:
        raise CaptureError(f"{path} cannot be read ({error.strerror}): give the path of a file") from error


# ---- people's words over the record, and questions to it ---------------------------------------------


def set_outcome(shop: Shop, build_key: str | int, outcome: str, text: str, who: str | None) -> BuildView:
    """Say how a build turned out. Raises FieldError for what is no outcome."""
    return shop.store.set_outcome(build_key, cast(Outcome, outcome), text, who, shop.now())


def mould_named(shop: Shop, name: str) -> MouldView | None:
    """Return the mould of that name, or None when there is none."""
    try:
        return shop.store.mould(name)
    except NotKept:
        return None


def ensure_build(shop: Shop, mould: str, build: str) -> BuildView:
    """Return the build, made new of that mould when there is none; so is the mould."""
    try:
        return shop.store.build(build)
    except NotKept:
        pass
    try:
        shop.store.mould(mould)
    except NotKept:
        shop.store.add_mould(NewMould(mould), shop.now())
    return shop.store.add_build(mould, shop.now(), build)


def search(shop: Shop, text: str, limit: int = 30) -> list[Hit]:
    """Search with one line of words and filters; the catalogue's synonyms count. Raises QueryError."""
    query = replace(parse_query(text, shop.catalogue, shop.zone), limit=limit)
    return search_kept(shop.store, query, synonyms_of(shop.catalogue))


def find(shop: Shop, text: str, limit: int = 30) -> Findings:
    """Find with one line of plain words, and filters written out if any; steps and recipes. Raises QueryError."""
    given = parse_query(text, shop.catalogue, shop.zone)
    words = shop.reader.words(NoteText(given.words, shop.now(), shop.settings.locale))
    asked = plain_words(words, find_all(words), given, shop.now())
    return find_kept(shop.store, asked, synonyms_of(shop.catalogue), limit)


def ask(shop: Shop, text: str, build_key: str | int | None = None) -> Answer:
    """Answer a question, of the build under way if none is named. Raises FieldError, NotKept without any build."""
    question = _question(shop, text)
    build = build_meant(shop.store, question.plain, build_key, shop.now())
    if planned := planning.answer_next(shop, question, build.id):
        return planned
    return answer(question, gather(shop.store, shop.catalogue, build, shop.now(), partial(_question, shop)))


def _question(shop: Shop, text: str) -> Question:
    words = shop.reader.words(NoteText(text, shop.now(), shop.settings.locale))
    return understand(words, find_all(words))


def clocks(shop: Shop, build_key: str | int) -> BuildClocks:
    """Return the clocks of a build as they stand now, from its kept steps. Raises NotKept."""
    build = shop.store.build(build_key)
    return build_clocks(build, shop.store.steps(build.id), shop.catalogue, shop.now())


def tins(shop: Shop) -> tuple[Tin, ...]:
    """Return every lot stated or spoken of, with what the steps of all builds used of it."""
    return tins_of(shop.store, shop.catalogue, shop.now())


def compare(shop: Shop, build_keys: Sequence[str | int]) -> review.Comparison:
    """Say what differed between builds, and what could have caused a fault. Raises NotKept, FieldError."""
    return review.compare(shop.store, shop.catalogue, build_keys)


def patterns(shop: Shop) -> Pattern:
    """Say what goes with each kind of fault over all builds."""
    return review.patterns(shop.store, shop.catalogue)


def lives(shop: Shop, mould_key: str | int | None = None) -> review.Lives:
    """Return the lives of moulds, and which recipe lasts longest. Raises NotKept."""
    return review.lives(shop.store, shop.catalogue, mould_key)


def record_outcome(shop: Shop, build_key: str | int, new: NewOutcome) -> StepView:
    """Put on record what came of a mould: opened, a pull, a fault, a repair, its end. Raises NotKept, FieldError."""
    with shop.one_at_a_time:  # or the worker would read the note that it is put in
        return review_outcome.record_outcome(shop.store, build_key, new, shop.now())


def trace(shop: Shop, what: str) -> Trace:
    """Follow a lot, a material or a batch to its moulds and pulls, or a pull back to its lots. Raises NotKept."""
    return review.trace(shop.store, shop.catalogue, what)


def build_sheet(shop: Shop, build_key: str | int) -> sheets.Sheet:
    """Return everything of a build. Raises NotKept."""
    return sheets.build_sheet(shop.store, shop.catalogue, build_key)


def pinned(shop: Shop, mould_key: str | int, build_key: str | int | None = None) -> Pinned | None:
    """Return the reference photo of a mould and what is known of each place pinned on it, from one build or all."""
    return find_pinned(shop.store, mould_key, build_key)


def training_sheet(shop: Shop, build_keys: Sequence[str | int]) -> TrainingSheet:
    """Return the training sheet of one build or several. Raises NotKept, FieldError."""
    return teach.sheet_of(shop.store, shop.catalogue, build_keys, shop.settings.confirm_below)


def build_sheet_pdf(shop: Shop, build_key: str | int) -> bytes:
    """Return the build sheet as PDF, its photos as copies without metadata. Raises NotKept."""
    sheet, below = build_sheet(shop, build_key), shop.settings.confirm_below
    return build_sheet_on_paper(sheet, _pictures(shop, sheet.photos), shop.catalogue, below, shop.now())


def training_sheet_pdf(shop: Shop, build_keys: Sequence[str | int]) -> bytes:
    """Return the training sheet as PDF, its photos as copies without metadata. Raises NotKept, FieldError."""
    sheet = training_sheet(shop, build_keys)
    photos = [photo for lesson in sheet.lessons for photo in lesson.photos]
    return training_sheet_on_paper(sheet, _pictures(shop, photos), shop.now())


def _pictures(shop: Shop, photos: Iterable[PhotoView]) -> dict[int, bytes]:
    copies = {photo.id: shop.media.derived(photo.photo.sha256, PAGE_COPY) for photo in photos}
    return {photo_id: copy for photo_id, copy in copies.items() if copy is not None}


def self_test(shop: Shop, build_keys: Sequence[str | int], seed: int) -> SelfTest:
    """Return the self-test of a seed on one build or several. Raises NotKept, FieldError."""
    return teach.test_of(shop.store, shop.catalogue, build_keys, shop.settings.confirm_below, seed)


def backup(shop: Shop, folder: Path) -> backups.BackupReport:
    """Copy everything, with its sums, into a folder."""
    return backups.backup(shop.store, shop.media, folder, shop.now())


def restore(shop: Shop, folder: Path) -> backups.BackupReport:
    """Bring a backup back into an empty shop."""
    return backups.restore(shop.store, shop.media, folder)


def check(shop: Shop, source: Path | None = None) -> backups.CheckReport:
    """Prove the database and every original; mend from a backup when one is given."""
    return backups.check(shop.store, shop.media, source)


def export(shop: Shop, target: Path, form: exchange.As = "json") -> exchange.ExportReport:
    """Write everything in an open format into a new folder or .zip file. Raises ExchangeError."""
    return exchange.export(shop.store, shop.media, target, form, shop.now())


def bring_in(shop: Shop, source: Path) -> exchange.ImportReport:
    """Take in what an exchange file or folder has that is not here; what is here stays. Raises ExchangeError."""
    report = exchange.bring_in(shop.store, shop.media, source, shop.settings.max_bytes, shop.now())
    for sha256 in report.photos:
        copies = make_copies(shop.media.read(sha256), shop.photo_limits)
        shop.media.keep_derived(sha256, PAGE_COPY, copies.page)
        shop.media.keep_derived(sha256, THUMBNAIL, copies.thumbnail)
    return report
