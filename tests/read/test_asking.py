"""What sounds like the words heard is put to the ears; what they say counts, and a likely other number is flagged."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from importlib import resources

import pytest

from journal.read.catalogue import catalogue_from_toml
from journal.read.hearing.agreed import agreed
from journal.read.hearing.asking import Replacement, alike_numbers
from journal.read.hearing.lattice import ASKED, Weights
from journal.read.hearing.mend import heard_pieces, mended
from journal.read.hearings import asked_of_the_ears, shop_of
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.record import Alternative, NoteText, Transcript, Word

CATALOGUE = catalogue_from_toml(resources.files("journal").joinpath("catalogue.toml").read_text("utf-8"))
SHOP = shop_of(CATALOGUE)
AT = datetime.fromisoformat("2026-05-04T14:10:00+01:00")


def words_of(text: str, probability: float) -> tuple[Word, ...]:
    found = enumerate(re.finditer(r"\S+", text))
    return tuple(Word(m.group(), m.span(), 0.4 * at, 0.4 * at + 0.3, probability) for at, m in found)


def heard(text: str, *others: str, probability: float = 0.6) -> Transcript:
    alternatives = tuple(Alternative(t, words_of(t, probability), -0.4, f"look {n}") for n, t in enumerate(others))
    return Transcript(text, words_of(text, probability), alternatives, -0.3)


class Ears:
    """Ears that say the same of every change but those named; what they were asked stands in `asked`."""

    def __init__(self, otherwise: float | None = -9.0, **nats: float) -> None:
        self.asked: list[str] = []
        self._otherwise, self._nats = otherwise, nats

    def __call__(self, changes: Sequence[Replacement]) -> list[float | None]:
        self.asked += [new for _, new in changes]
        return [self._nats.get(f"_{new}".replace(" ", "_"), self._otherwise) for _, new in changes]


def ask(transcript: Transcript, ears: Callable[[Sequence[Replacement]], list[float | None]]) -> Transcript:
    return asked_of_the_ears(transcript, CATALOGUE, ears)


@pytest.fixture(scope="module")
def reader() -> Reader:
    return Reader(load_language(), CATALOGUE)


@pytest.mark.parametrize(
    ("text", "alike"),
    [
        ("left it 50 minutes", {"50": "15"}),
        ("left it fifteen minutes", {"fifteen": "fifty"}),
        ("450 grams of resin", {"450": "415"}),
        ("laminating epoxy for 20", {"for 20": "420"}),
        ("mixed free 20 of it", {"free 20": "320"}),
        ("waited for two minutes", {"for two": "forty"}),
        ("left it six tea minutes", {"six tea": "sixty"}),
        ("100 to 28 by weight", {}),
        ("thirty-six grams and fifty six", {}),
        ("at 11:15 and 1.50 percent, 12 coats", {}),
    ],
)
def test_numbers_that_sound_like_those_heard_are_asked_about(text: str, alike: dict[str, str]) -> None:
    found = alike_numbers(text, heard_pieces(text, words_of(text, 0.6)))
    assert {text[slice(*chars)]: new for chars, new in found} == alike


def test_forty_may_have_been_for_two_as_well_as_fourteen() -> None:
    text = "waited forty minutes"
    assert {new for _, new in alike_numbers(text, heard_pieces(text, words_of(text, 0.6)))} == {"fourteen", "for two"}


def test_a_number_that_the_sound_bears_as_well_is_flagged_and_one_that_it_does_not_is_not(reader: Reader) -> None:
    said = heard("Put on six coats of wax with 50 minutes between each one.", probability=0.7)
    likely, unlikely = (ask(said, Ears(_15=nats)) for nats in (-1.1, -6.0))
    assert [other.text for other in likely.alternatives] == [said.text.replace("50", "15")]
    assert not unlikely.alternatives
    read = [reader.read(NoteText(t.text, AT, "en-GB", t)).steps[0] for t in (likely, unlikely)]
    assert [[flag.why for flag in step.flags if flag.field == "timings"] for step in read] == [
        ['it may have been "15"'],
        [],
    ]
    assert read[0].timings[0].least == 3000  # what was heard stands, and points to its words


@pytest.mark.parametrize(("probability", "flagged"), [(0.1, True), (0.9, False)])
def test_a_time_that_was_heard_unsurely_is_flagged(reader: Reader, probability: float, flagged: bool) -> None:
    sure = heard("Put on six coats of wax with 20 minutes between each one", probability=0.9)
    words = (replace(w, probability=probability) if w.text == "minutes" else w for w in sure.words)
    said = replace(sure, words=tuple(words))
    [step] = reader.read(NoteText(said.text, AT, "en-GB", said)).steps
    assert step.timings[0].least == 1200
    assert any(flag.field == "timings" for flag in step.flags) is flagged


def test_a_time_read_from_changed_words_is_flagged(reader: Reader) -> None:
    said = heard("Left it to tack up for 20 menuts", "Left it to tack up for 20 minutes", probability=0.7)
    [step] = reader.read(NoteText(said.text, AT, "en-GB", said)).steps
    assert step.timings[0].least == 1200
    assert any(flag.field == "timings" for flag in step.flags)


def test_what_was_asked_about_spells_its_words_at_their_places_and_moments() -> None:
    said = heard("Mixed free 20, then stirred.", probability=0.5)
    [other] = ask(said, Ears(_320=-1.0)).alternatives
    assert (other.source, other.text) == (ASKED, "Mixed 320, then stirred.")
    assert [other.text[slice(*word.chars)] for word in other.words] == [word.text for word in other.words]
    assert [word.text for word in other.words] == ["Mixed", "320,", "then", "stirred."]
    assert (other.words[1].start_s, other.words[1].end_s) == (said.words[1].start_s, said.words[2].end_s)
    assert other.log_probability == pytest.approx(said.log_probability - 1.0)


def test_the_sound_decides_whether_a_word_of_makers_takes_the_place_of_one_like_it() -> None:
    said = heard("demo time on this is 6 hours", "demo time on this is 6 ours", probability=0.5)
    ears = Ears(_demold=1.0)
    texts = []
    for told in (ask(said, ears), ask(said, Ears(_demold=-12.0))):
        better = mended(told, SHOP.talk, SHOP.sounds, Weights())
        texts.append(better.hearing.text if better else told.text)
    assert "demold" in ears.asked
    assert texts[0].startswith("demold time")
    assert texts[1].startswith("demo time")


def test_what_was_only_asked_about_is_no_look_of_its_own() -> None:
    said = heard("demo time on this is 6 hours", "demo time on this is 6 ours", probability=0.5)
    told = agreed(ask(said, Ears(_demold=-2.0)))
    assert told.words == agreed(said).words
    of_demold = [w.probability for o in told.alternatives for w in o.words if w.text == "demold"]
    assert of_demold
    assert max(of_demold) < told.words[0].probability


def test_nothing_is_asked_about_what_is_plainly_heard_nor_kept_where_the_sound_cannot_tell() -> None:
    ears = Ears()
    plain = heard("Left it 50 minutes.", probability=0.95)
    assert ask(plain, ears) == plain
    assert not ears.asked
    doubtful = heard("Left it 50 minutes.", probability=0.6)
    assert ask(doubtful, Ears(None)) == doubtful
    assert ask(Transcript(""), ears) == Transcript("")
