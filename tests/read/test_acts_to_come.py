"""Acts that wait for something, one more of the same to come, an act done twice in one breath, looks and lamps."""

import pytest

from tests.read.reading import steps

SAID = {
    "brush planned": [
        "Another coat of latex once that's gone clear.",
        "I'll put another coat on once it's dry.",
    ],
    "laminate planned": ["Next layer of mat when this lot's gone tacky.", "Peel ply going on next."],
    "fit planned": ["Bolts go in when it's hard.", "Bulkheads next.", "Four dowels to fit yet."],
    "brush done": ["Gelcoat's on. Took two goes round the keel."],
    "release done, release planned": [
        "First coat of wax is on. Second one in fifteen minutes.",
        "I sprayed the silicone release, two coats. I'm going to do the second one after lunch.",
    ],
    "mix done, brush done": ["Gel coat is on. I mixed 600 grams of it with 12 of catalyst and brushed it on."],
    "seal done, wait done, seal done": ["Slapped some sealer on, gave it an hour, slapped another coat on."],
    "spray done, spray done": ["Shot the barrier coat at nine and the tie coat at half ten."],
    "sand planned": ["It'll want a rub down before it goes out."],
    "degas advised": ["It really wants degassing for five minutes or you get pinholes."],
    "pull done, pull done": ["Pulled two more this afternoon, numbers eight and nine."],
    "wait done, demould done": ["Left it forty minutes and whipped it out."],
    "thicken done, fill done": ["A bit of silica in what was left and squeezed it into the gap."],
    "fill done": ["Buttered the joints with epoxy putty."],
    "release planned": ["PVA after tea."],
    "fit planned, demould planned": ["Frame goes on first so it stays flat, and then we'll pop it at half nine."],
    "store planned": ["From now on I will keep the cans in the shade."],
    "store done": ["Put it on the sling rack deck down so it doesn't sag."],
    "cure done, post-cure done": ["Three days cure was given, then post cure 8 hours at 40 degrees."],
    "seal not done": ["Skipped the shellac, this sealer doesn't need it."],
    "pour planned": ["I'll pour the first cast in hard gypsum tomorrow."],
    "pull planned": ["We pull the first casting on Monday."],
    "wait advised": ["PVA wants twenty minutes before you put gel near it."],
    "brush advised": ["Careful not to load the brush or you trap air in the corners."],
    "roll advised": ["Roll from the middle out so you push the air to the edges."],
    "demould not done": ["Tried to get it off the plug but no luck."],
    "demould done, demould done": [
        "Took the deck half off at four and the hull half at five.",
        "Lifted the case at eight and the latex at ten past.",
    ],
    "pour done, pour done": ["Poured panel 3 at 10:45, panel 4 at 11:30."],
    "demould done, check done": ["Popped it. Had a good look round under the lamp, all good."],
    "mix done, pour done": ["Whacked the two parts together and tipped it down the sprue."],
    "photograph done, store done": ["Took the pictures and put it in the cabinet."],
    "cure done": ["She's had all weekend to go off."],
    "wait done": ["Gave the wax ten minutes to haze."],
    "sand done": ["Knocked the gloss off it with 400 grit."],
    "stipple done": ["Worked the air out of the corners with a stippling brush."],
    "spray done": ["Dusted on a mist coat of gel."],
    "cut done": ["Cut the kit: four of 450 mat, two of tissue."],
    "press done": ["Vacuum on at ten past nine.", "Peel ply, bleeder cloth and vacuum bag are on."],
    "release done, release done": ["Five coats of release wax on it and then PVA brushed over the top."],
    "laminate done": [
        "One layer of 300 mat, with two kilos of polyester resin and one percent catalyst.",
        "Laid two layers of 450 mat. Used three kilos of polyester resin with 45 grams of catalyst.",
    ],
    "roll done": ["Rolled it out till the bubbles stopped. Rolling took about an hour."],
    "drill done, fit done": ["Drilled the flange and fit eight bolts."],
    "release done": ["After that I passed petroleum jelly, very thin, on the base."],
    "wall done": ["I then bedded the fish to the midline in water clay."],
    "pull not done": ["Haven't pulled a casting yet."],
    "release not done": ["I never put the petroleum jelly on this week."],
    "post-cure not done": ["I skipped the post-cure, no oven free."],
    "post-cure done": [
        "In the oven at sixty for two hours. It's due out at half five.",
        "It came out of the oven at noon.",
    ],
    "repair done": [
        "Mended the chip with epoxy putty, fifty grams of part A and fifty of part B.",
        "Sorted the crack with superglue.",
    ],
    "mix done": ["First cast. Mixed ten kilos of hard gypsum with three litres of water."],
}


@pytest.mark.parametrize(("acts", "said"), [(acts, one) for acts, lines in SAID.items() for one in lines])
def test_the_acts_of_a_saying(acts: str, said: str) -> None:
    assert ", ".join(f"{step.action} {step.status}" for step in steps(said)) == acts


def test_a_warning_that_names_no_act_is_not_lost() -> None:
    (step,) = steps("Whatever you do, don't lose track of the time.")
    assert (step.status, [warning.text for warning in step.warnings]) == ("advised", ["don't lose track of the time"])


@pytest.mark.parametrize("said", ["Hello hello, checking, is it recording now?", "My arms are about to fall off."])
def test_talk_beside_the_work_is_no_step(said: str) -> None:
    assert steps(said) == ()


def test_an_hour_and_a_time_after_a_comma_are_no_range() -> None:
    (step,) = steps("Semi-permanent release on at ten, fifteen minutes between coats.")
    assert [(float(t.least or 0), float(t.most or 0)) for t in step.timings] == [(900, 900)]
