"""Commands spoken at the bench, and which value a spoken correction means."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from journal.read.commands import Command, commands_in, rest_of
from journal.read.fitting import NoFit, fitting
from journal.read.pipeline import find_all
from journal.record import NoteText, Step
from tests.read.reading import reader

MIX = "Mixed 400 grams of laminating epoxy with 118 grams of hardener."
LAY = "Two layers of 450 chopped strand mat on the rim."


def commands(text: str) -> tuple[Command, ...]:
    words = reader().words(NoteText(text))
    return commands_in(words, find_all(words))


def steps(text: str) -> tuple[Step, ...]:
    return reader().read(NoteText(text)).steps


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Note. Mixed 420 grams of gel coat. End note.", ["begin", "end"]),
        ("New note: brushed the gel coat. And note.", ["begin", "end"]),
        ("Brushed the gel coat, end of note.", ["end"]),
        ("Mixed 400 grams, scratch that note.", ["cancel"]),
        ("Note, brushed the gel coat, cancel this note", ["begin", "cancel"]),
        ("Brushed the second gel coat, cancelled at no.", ["cancel"]),
        ("Brushed the second gel coat, cancelled that note.", ["cancel"]),
        ("Brushed the second gel coat. Canceled that note.", ["cancel"]),
        ("Then sprayed the release agent, and notep.", ["end"]),
        ("Scratch that note.", ["cancel last"]),
        ("No, cancel note.", ["cancel last"]),
        ("Scratch that.", ["cancel last"]),
        ("Correct that to 320.", ["correct"]),
        ("That was the flange, not the rim. Then brushed two coats of gel coat.", ["correct"]),
        ("Photo of the left scroll.", ["photo"]),
        ("Take a picture.", ["photo"]),
        ("How much hardener for 420 grams of epoxy?", ["ask"]),
        # Talk that only looks like a command
        ("Note that the flange is dry.", []),
        ("Do not forget the note.", []),
        ("Mixed 300, scratch that, 400 grams of gel coat.", []),
        ("Change that blade before the next cut.", []),
        ("That was the last coat on the rim.", []),
        ("Mixed 420 grams of gel coat. How long does it take?", []),
        ("Correct that to 2 to 3 layers of mat or so.", []),
    ],
)
def test_commands_are_told_from_talk(text: str, kinds: list[str]) -> None:
    assert [command.kind for command in commands(text)] == kinds


def test_a_photo_names_its_place() -> None:
    assert commands("Take a photo of the left scroll.")[0].place == "left scroll"
    assert commands("Photo.")[0].place == ""


@pytest.mark.parametrize(
    ("said", "correction", "changes"),
    [
        (MIX, "Correct that to 320.", {"materials.0.amount": 320}),  # much nearer to 400 than to 118
        (MIX, "Correct that to three hundred and twenty.", {"materials.0.amount": 320}),
        (MIX, "It was 320, not 400.", {"materials.0.amount": 320}),
        (MIX, "Correct the hardener to 90.", {"materials.1.amount": 90}),
        (MIX, "That was polyester, not laminating epoxy.", {"materials.0.name": "polyester resin"}),
        (LAY, "Correct that to 3.", {"layers.0.count": 3}),
        (LAY, "Make that three layers.", {"layers.0.count": 3}),
        (LAY, "That was the flange, not the rim.", {"places.0.text": "flange"}),
        (LAY, "It was not the rim but the flange.", {"places.0.text": "flange"}),
        ("Waited forty minutes between coats.", "Correct that to 45.", {"timings.0.seconds": [2700, 2700]}),
        ("Waited forty minutes between coats.", "Make that an hour.", {"timings.0.seconds": [3600, 3600]}),
        ("Mixed 2 kilos of plaster.", "Correct that to 3.", {"materials.0.amount": 3000}),
        ("The shop is at 19 degrees.", "Correct that to 21 degrees.", {"conditions.0.value": 21}),
    ],
)
def test_the_one_value_that_fits_is_corrected(said: str, correction: str, changes: dict[str, Any]) -> None:
    fit = fitting(steps(said), commands(correction)[0])
    assert {path: value for path, value in fit.changes.items() if not path.endswith("unit")} == changes


@pytest.mark.parametrize(
    ("said", "correction", "why"),
    [
        (MIX, "Correct that to 180.", "could be the amount of laminating epoxy or the amount of hardener"),
        (MIX, "It was 320, not 300.", "nothing that was said before fits"),
        (MIX, "Correct that to 21 degrees.", "nothing that was said before fits"),
        (MIX, "That was the flange, not the rim.", "nothing that was said before fits"),
        ("Mixed 400 grams of gel coat.", "Correct that to 5000.", "is far from the amount of"),
        ("Mixed 4 pounds of plaster.", "Correct that to 5.", "unit of the amount of"),
        ("Brushed the gel coat.", "Correct that to 320.", "nothing that was said before fits"),
    ],
)
def test_what_fits_nothing_or_several_is_not_chosen(said: str, correction: str, why: str) -> None:
    with pytest.raises(NoFit, match=why):
        fitting(steps(said), commands(correction)[0])


@pytest.mark.parametrize("change", [lambda text: text, str.lower])
def test_the_rest_of_a_note_keeps_its_places(change: Callable[[str], str]) -> None:
    text = change("That was the flange, not the rim. Then brushed two coats of gel coat.")
    rest = rest_of(NoteText(text), commands(text))
    assert rest is not None
    assert len(rest.text) == len(text)
    (step,) = reader().read(rest).steps
    start, end = step.layers[0].evidence.chars
    assert "two coats" in text[start:end]
    assert rest_of(NoteText("Scratch that note."), commands("Scratch that note.")) is None
