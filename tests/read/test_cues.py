"""Cues, as makers say them: how to tell that a thing is ready."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("Mix it until the streaks are gone.", ["until the streaks are gone"]),
    ("stirred it till it was one colour, no streaks, then poured it", ["till it was one colour, no streaks"]),
    ("wait until it's tacky but doesn't come off on the glove", ["until it's tacky but doesn't come off on the glove"]),
    ("wait until it's tacky so the next coat keys", ["until it's tacky"]),
    ("leave it till six o'clock", []),
    ("leave it until tomorrow morning", []),
    ("When it goes dull brush the second coat on.", ["When it goes dull"]),
    ("Sanded it, once it'd powder instead of gumming up.", ["once it'd powder instead of gumming up"]),
    ("When the skin wrinkles under your thumb it's ready.", ["When the skin wrinkles under your thumb"]),
    ("when I demoulded it the edge tore", []),
    ("once it's rubbery trim the flange", ["once it's rubbery"]),
    ("lay the first layer as soon as it stops smearing", ["as soon as it stops smearing"]),
    ("It should feel like a boiled sweet.", ["should feel like a boiled sweet"]),
    ("you're looking for a thick cream", ["looking for a thick cream"]),
    ("sand until smooth, then wipe it", ["until smooth"]),
    ("rolled it till I couldn't see any white", ["till I couldn't see any white"]),
    ("waited until it had kicked and then laid the mat", ["until it had kicked"]),
    ("wait till it's firm then trim it", ["till it's firm"]),
    ("until next week", []),
    ("cured it until it didn't dent with a fingernail", ["until it didn't dent with a fingernail"]),
    ("mix to a peanut butter consistency", ["peanut butter consistency"]),
    ("it's ready when it snaps off clean", ["when it snaps off clean"]),
]  # fmt: skip


AFTER = [
    ("Stippled it until all the white had gone.", ["until all the white had gone"]),
    ("keep stirring till you can't see any swirls then scrape the sides and go again",
     ["till you can't see any swirls"]),
    ("once the exotherm has died down pop it out", ["once the exotherm has died down"]),
    ("leave it alone until it rings when you tap it", ["until it rings when you tap it"]),
    ("degas until it stops rising", ["until it stops rising"]),
    ("degassed till it collapsed, about four minutes", ["till it collapsed"]),
    ("Start laminating when the gel's tacky but dry to the touch.", ["when the gel's tacky but dry to the touch"]),
    ("wait until after lunch", []),
    ("we were there till half past nine", []),
    ("it was six when we finished", []),
    ("when the apprentice came in we opened it up", []),
    ("It should snap off with a clean edge.", ["should snap off with a clean edge"]),
    ("it should be ready by four", []),
    ("sand it until it's matt all over and there's no shiny spots",
     ["until it's matt all over and there's no shiny spots"]),
    ("as soon as it's stiff enough to hold an edge carve the back", ["as soon as it's stiff enough to hold an edge"]),
    ("added silica until it hangs on the stick", ["until it hangs on the stick"]),
    ("thicken it up to a mayonnaise consistency", ["mayonnaise consistency"]),
    ("add plaster till it islands on the top", ["till it islands on the top"]),
    ("Rub it out until you get a shine.", ["until you get a shine"]),
    ("brush on the next coat the moment it stops tacking", ["the moment it stops tacking"]),
    ("when it starts to string then stop brushing", ["when it starts to string"]),
    ("leave the clamps on until I get back", []),
    ("pour slowly until it comes up out of the vents", ["until it comes up out of the vents"]),
    ("once I'd mixed the resin I poured it", []),
    ("polish till it squeaks", ["till it squeaks"]),
    ("you want it like double cream", ["like double cream"]),
    ("if a fingernail doesn't mark it it's ready", ["if a fingernail doesn't mark it"]),
    ("pull it once it's stone cold", ["once it's stone cold"]),
]  # fmt: skip


LATER = [
    ("Brush it out until it stops dragging, then leave it be.", ["until it stops dragging"]),
    ("you know it's mixed when the colour's even right down to the bottom of the cup",
     ["when the colour's even right down to the bottom of the cup"]),
    ("stop adding powder once it makes a dry island", ["once it makes a dry island"]),
    ("kept going round with the roller till the mat went clear", ["till the mat went clear"]),
    ("when you can lift the pot without it sloshing it's gone", ["when you can lift the pot without it sloshing"]),
    ("by the time it's warm to the touch you've got about two minutes", []),
    ("cover it up until the morning", []),
    ("until we get more catalyst the other half can wait", []),
    ("don't touch it till it's gone off hard", ["till it's gone off hard"]),
    ("after that I waited until it had lost its shine and laid the tissue", ["until it had lost its shine"]),
    ("it should be like wet sand", ["should be like wet sand"]),
    ("it should have been two layers", []),
    ("when I got in this morning it was hard", []),
    ("sand back until you just see the first colour coming through",
     ["until you just see the first colour coming through"]),
    ("clamp it up till resin squeezes out all round", ["till resin squeezes out all round"]),
    ("left it under vacuum till the froth dropped and gave it another two minutes", ["till the froth dropped"]),
    ("as soon as the batch starts to thicken bin it", ["as soon as the batch starts to thicken"]),
    ("as soon as I can I'll do the other half", []),
    ("wait until it's cheesy, you can cut it with a knife", ["until it's cheesy"]),
    ("pour when the plaster's like single cream", ["when the plaster's like single cream"]),
    ("mix until smooth and lump free", ["until smooth and lump free"]),
    ("keep the roller going until you stop hearing it crackle", ["until you stop hearing it crackle"]),
    ("once it's set hard knock the wedges in", ["once it's set hard"]),
    ("leave it till Thursday", []),
    ("poured until it was level with the rim and tapped the box", ["until it was level with the rim"]),
    ("you want it about the thickness of custard", ["about the thickness of custard"]),
    ("sand to 400 until it's dull all over", ["until it's dull all over"]),
    ("when we got back it had gone off", []),
    ("waited for it to go off", []),
    ("brush it thin, should be see through", ["should be see through"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER)
def test_cues_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "cue") == expected


@pytest.mark.parametrize(
    "said", ["It's like glass now.", "The clay came away like butter.", "Sanded back to good glass."]
)
def test_a_likeness_that_was_seen_is_no_cue(said: str) -> None:
    assert texts(said, "cue") == []


@pytest.mark.parametrize(
    ("said", "cue"),
    [
        ("Sanded it when it was like cheese.", "when it was like cheese"),
        ("Trimmed it before it got too stiff.", "before it got too stiff"),
        ("Mixed it till no streaks.", "till no streaks"),
    ],
)
def test_what_was_waited_for_is_a_cue(said: str, cue: str) -> None:
    assert texts(said, "cue") == [cue]
