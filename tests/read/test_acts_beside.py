"""Which clauses go with the act beside them, and which are an act of their own."""

import pytest

from tests.read.reading import steps

# Each line is the acts of a saying in order, with their status where they were not done.
SAID = """
mix | Mixed 600 g of tin silicone with 30 of catalyst. Stirred it for three minutes.
weigh, mix | Weighed 600 g of epoxy and 170 of hardener. Mixed it for three minutes.
check, release | Shop's at nineteen. Three coats of wax on the plug.
check, thicken | Went tacky in fifty minutes. Second lot, same again, then thickened it with silica.
check, mix | The first coat took forty minutes to get tacky. Mixed 300 g of epoxy with 84 of hardener.
mix planned, laminate planned | Going to mix four kilos of hard gypsum and lay it up with two layers of burlap.
cure planned, post-cure planned | It will cure for a day and then we post-cure it for eight hours at eighty degrees.
fill, sand planned | Filled it with epoxy putty, sand it tomorrow.
seal, release | Sealed it with two coats of shellac. After that, petroleum jelly on the undercuts.
release, polish | Six coats of wax on the plug, buffed the last one off at noon.
release planned | Doing the PVA, we're doing two coats, right after lunch.
pull, pull planned | Cast number seven is out. Cast number eight, I make tomorrow.
pull, pull | Cast 1 came out a bit soft. Cast 2 came out perfect.
press | Peel ply, bleeder cloth, then the bag. Pulled it down to 900 millibar.
laminate | Three layers of 450 mat on the back with polyester resin and 1 percent catalyst.
repair | Repaired it with hard gypsum, two hundred grams to sixty of water.
laminate | I dipped the burlap in the plaster and laid it over the face.
laminate, wet out | Laid two layers of 450 mat, wet it out with the brush.
laminate | Laid two layers of 450 mat, all wet out with the epoxy.
demould, store | Demoulded her at noon. Mould's in bay four under a sheet.
demould | Got it out this morning. The rubber peeled off lovely.
roll, check, wet out | Rolled it till it was clear. One dry patch was there at the handle, so we wetted it out.
clean | I'm after dusting down the angel with a soft brush.
clean | Rinsed the life cast with water.
brush | Brushed it on, right up to the dividing wall.
release not done | Didn't put petroleum jelly on the dividing wall.
check | Had my hand on the shellac just now.
cure | Cure started at two fifteen. Six hours.
sand planned, polish planned | Next I'm going to wet sand it and polish it out.
mix advised | When it's hot you want to cut your catalyst back to one and a quarter percent.
brush, brush advised | Brushed the gel on. What you want to do is start at the corners, because that's where it runs.
roll advised | When you roll it you roll it slow, and don't mash it or you'll squeeze it dry.
post-cure, post-cure advised | Post-cured it at sixty for eight hours. Never open the door early, you'll warp it.
mix | Before any glass goes near it, I took 150 g of laminating epoxy with 42 of hardener.
laminate | I used three, no, three and a half pounds of resin.
fit planned | The hinges go on tomorrow.
"""
LINES = [tuple(part.strip() for part in line.split("|")) for line in SAID.strip().splitlines()]


@pytest.mark.parametrize(("acts", "said"), LINES)
def test_the_acts_of_a_saying_in_order(acts: str, said: str) -> None:
    told = [step.action if step.status == "done" else f"{step.action} {step.status}" for step in steps(said)]
    assert told == acts.split(", ")


def test_a_coat_that_a_batch_was_mixed_for_is_laid_by_the_next_act() -> None:
    mixed, brushed = steps("Second coat of the gel coat mixed now, 300 g. Started brushing that on the belly.")
    assert not mixed.layers
    assert [(layer.name, layer.count) for layer in brushed.layers] == [("gel coat", 1)]


@pytest.mark.parametrize(
    "said",
    [
        "Pulls seven and eight out today.",
        "Casting number seven came out and number eight, both perfect.",
        "Casting number seven came out good. Number eight has a blush on the chest.",
        "Cast 7 and 8 are out.",
    ],
)
def test_every_casting_that_is_numbered_is_a_pull_of_its_own(said: str) -> None:
    assert [(step.action, step.pull) for step in steps(said)] == [("pull", 7), ("pull", 8)]


@pytest.mark.parametrize(
    ("acts", "said"),
    [
        ("weigh mix", "weighed 500 grams of epoxy and 150 of hardener mixed it four minutes scraping the sides"),
        ("mix brush", "mixed polyester gel coat 500 grams and 10 of catalyst brushed on one coat at half past one"),
        ("mix degas", "mixed platinum silicone a quart of a and a quart of b degassed it four minutes"),
    ],
)
def test_weights_stay_with_the_act_before_where_nothing_is_between(acts: str, said: str) -> None:
    told = steps(said)
    assert [step.action for step in told] == acts.split()
    assert [len([use for use in step.materials if use.amount]) for step in told] == [2, 0]
