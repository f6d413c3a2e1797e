"""Reasons, as makers say them: why a thing is done, and what comes of not doing it."""

import pytest

from tests.read.telling import texts, told

BEFORE = [
    ("Rolled the first layer down so the glass doesn't bridge.", ["so the glass doesn't bridge"]),
    ("Don't press too hard or you drag the fibres.", ["or you drag the fibres"]),
    ("put a fillet in the corner so that the mat lies down, then laid two layers", ["so that the mat lies down"]),
    ("added a bit of silica to stop it sagging and brushed it into the undercut", ["to stop it sagging"]),
    ("Used the slow hardener because the shop was at 28.", ["because the shop was at 28"]),
    ("used slow hardener cos it was roasting in here", ["cos it was roasting in here"]),
    ("So I mixed three hundred of resin.", []),
    ("mixed 300 of resin so 87 of hardener", []),
    ("wait till it's tacky otherwise you get pinholes", ["otherwise you get pinholes"]),
    ("Popped a bag over it in case the dust gets in.", ["in case the dust gets in"]),
    ("two coats of wax, just to be safe, then the gel coat", ["just to be safe"]),
    ("warm the resin first, that way it runs into the detail", ["that way it runs into the detail"]),
    ("need to mix another two hundred", []),
    ("going to pour the rest tomorrow", []),
    ("started to go off so I binned it", []),
    ("it took an hour or so to gel", []),
    ("laid the tissue in to avoid print-through and rolled it", ["to avoid print-through"]),
    ("keep it thin, or else it cracks", ["or else it cracks"]),
    ("keep your batches small or it'll cook", ["or it'll cook"]),
    ("since the wax was old I gave it another coat", ["since the wax was old"]),
    ("been an hour since we poured", []),
    ("skipped the second coat due to the humidity", ["due to the humidity"]),
    ("five or six layers, or maybe seven", []),
    ("Poured it from one corner so as not to trap air.", ["so as not to trap air"]),
    ("degassed it to get the air out, poured it at ten past two", ["to get the air out"]),
    ("drilled the flange so we can bolt it up and then polished the edge", ["so we can bolt it up"]),
    ("warmed the B side because it was thick and brushed a coat on the nose", ["because it was thick"]),
    ("wet the pattern down so it doesn't suck the water out of the plaster",
     ["so it doesn't suck the water out of the plaster"]),
    ("it went a bit stiff so far so good", []),
    ("you want to stipple it rather than brush it because brushing drags the tissue",
     ["because brushing drags the tissue"]),
]  # fmt: skip


BY_AGREEMENT = [  # taggers take the verb for a noun
    ("Poured it slow, so the bubbles pop on the way down.", ["so the bubbles pop on the way down"]),
    ("Poured it thin so the bubbles burst before the face", ["so the bubbles burst before the face"]),
    ("Waxed the ribs so the fins lift off whole.", ["so the fins lift off whole"]),
    ("Filled the corners so the glass doesnae bridge.", ["so the glass doesnae bridge"]),
    ("Don't demould these under five days or the flange warps.", ["or the flange warps"]),
    ("Keep it under the lamp or the top skin cracks on you.", ["or the top skin cracks on you"]),
    ("Wax or the PVA tomorrow.", []),
    ("So the halves tomorrow.", []),
    ("So that first coat took fifty minutes.", []),
    ("so the boss says that'll be it", []),
    ("left it so that resin runs in", ["so that resin runs in"]),
    ("You must not rush this one, if you rush it you will see holes.", ["if you rush it you will see holes"]),
    ("Never bulk up the same day. You want to leave the skin overnight.", []),
    ("Small bubbles under the chin, I think because I poured too fast.", ["because I poured too fast"]),
]  # fmt: skip


AFTER = [
    ("Put the second coat on thicker so the weave can't show through.", ["so the weave can't show through"]),
    ("I ran out of the fast stuff so I used slow", []),
    ("chamfered the edge so it releases easier and sanded it", ["so it releases easier"]),
    ("Left a tail on the peel ply so there's something to grab.", ["so there's something to grab"]),
    ("warm the tin up first because cold resin won't wet the mat", ["because cold resin won't wet the mat"]),
    ("I never pour straight on the detail, it traps air.", ["it traps air"]),
    ("Don't mix more than half a kilo, it'll go off in the bucket.", ["it'll go off in the bucket"]),
    ("thinned it ten percent with acetone to help it spray", ["to help it spray"]),
    ("put a bead of clay in the corner to keep the resin from leaking", ["to keep the resin from leaking"]),
    ("bagged it to get a better squeeze on the corners then left it", ["to get a better squeeze on the corners"]),
    ("we did it in two halves because you'd never get it off in one piece",
     ["because you'd never get it off in one piece"]),
    ("as it was a humid day I kept the heater on", ["as it was a humid day"]),
    ("brush it from the middle out as you go", []),
    ("two layers of woven on the flange for stiffness", ["for stiffness"]),
    ("left it for two hours", []),
    ("you have to be quick or the stuff gels on the brush", ["or the stuff gels on the brush"]),
    ("either PVA or wax is fine", []),
    ("So that's the first half done.", []),
    ("so what I did was put another coat on", []),
    ("stop there if it's stringing because you'll pull the first coat off", ["because you'll pull the first coat off"]),
    ("Cut darts in the mat so it lies flat around the nose, then stippled it down.",
     ["so it lies flat around the nose"]),
    ("held back ten grams of hardener since it was thirty degrees in there", ["since it was thirty degrees in there"]),
    ("waxed it five times cause it's a new mould", ["cause it's a new mould"]),
    ("tied a string to the core so we don't lose it and poured the rest in", ["so we don't lose it"]),
    ("clean the brush straight away otherwise it's scrap", ["otherwise it's scrap"]),
    ("Mixed some milled fibre in for strength and filled the corners with it.", ["for strength"]),
    ("add it slow to avoid lumps", ["to avoid lumps"]),
    ("forgot to keep the lid on", []),
    ("the trick is to stop before it drags", []),
    ("I tilt the mould so the air can get out of the toes", ["so the air can get out of the toes"]),
    ("Keep the layers staggered or you'll get a ridge.", ["or you'll get a ridge"]),
    ("pulled it early in case it locked on", ["in case it locked on"]),
    ("that took an hour because of the undercuts", ["because of the undercuts"]),
    ("seal it twice since plaster drinks the first coat", ["since plaster drinks the first coat"]),
]  # fmt: skip


LATER = [
    ("I like to leave the last layer till morning, that way the whole lot cures together.",
     ["that way the whole lot cures together"]),
    ("go round the edge with a knife while it's green because once it's hard you need a grinder",
     ["because once it's hard you need a grinder"]),
    ("split the batch in two so neither pot got too hot", ["so neither pot got too hot"]),
    ("so the plan is two layers tonight and two tomorrow", []),
    ("ran a fillet round the boss to ease the mat over the step then two layers of 450",
     ["to ease the mat over the step"]),
    ("dust it with talc so the halves part", ["so the halves part"]),
    ("used the roller not the brush because the brush lifts the fibres and then rolled it again",
     ["because the brush lifts the fibres"]),
    ("I put a spare vent in the ear in case air gets caught up there", ["in case air gets caught up there"]),
    ("Only mixed two hundred since that's all the cup will hold", ["since that's all the cup will hold"]),
    ("been curing since yesterday lunchtime", []),
    ("it wants a good hour or it'll stick", ["or it'll stick"]),
    ("you could use burlap or you could use glass", []),
    ("heated the wax to make it flow into the pores", ["to make it flow into the pores"]),
    ("want to get the second half done to keep on schedule", ["to keep on schedule"]),
    ("went to get more acetone", []),
    ("it was too cold in here so I moved it next to the heater", ["it was too cold in here"]),
    ("scuffed it up with a red pad for a better key and wiped it down", ["for a better key"]),
    ("tape over the bolt holes so resin doesn't get in the threads", ["so resin doesn't get in the threads"]),
    ("the reason I use tissue first is it stops the weave printing", ["it stops the weave printing"]),
    ("pulled it a day early as the client needs it", ["as the client needs it"]),
    ("Don't skip the PVA on a new mould, one missed spot and it's stuck for good.",
     ["one missed spot and it's stuck for good"]),
    ("thin first coat, otherwise the bubbles can't get out", ["otherwise the bubbles can't get out"]),
    ("poured in a thin stream so as to break the bubbles and filled it to the brim", ["so as to break the bubbles"]),
    ("lay the cloth on the bias so that it'll drape round the nose", ["so that it'll drape round the nose"]),
    ("it's had two hours so should be good", []),
    ("mix ratio is a hundred to thirty so for two hundred that's sixty", []),
    ("it's nice and even so I'm going to brush it on", []),
    ("it was roasting so I used the slow hardener", ["it was roasting"]),
    ("ran the heater all night so it'd be warm enough to laminate", ["so it'd be warm enough to laminate"]),
    ("stick a bit of tape on the flange to mark where the keys go", ["to mark where the keys go"]),
    ("so the second layer went on at four", []),
    ("put some weight on it or the mat floats", ["or the mat floats"]),
    ("thin the first coat a touch so it gets right into the grain then follow with a full coat",
     ["so it gets right into the grain"]),
    ("I want to leave it another hour", []),
    ("no need to sand since it's still inside the window", ["since it's still inside the window"]),
    ("swapped to the wide brush, it was taking forever", []),
    ("drill small holes in the plywood to let the water out", ["to let the water out"]),
    ("cut it back with a blade because it had gone over the parting line and sanded it flush",
     ["because it had gone over the parting line"]),
    ("you can skip the wax if you use PVA", []),
    ("lay it on while it's wet, otherwise you trap air under it.", ["otherwise you trap air under it"]),
    ("mixed it thin so it would run down the legs", ["so it would run down the legs"]),
    ("doubled up the flange for extra stiffness", ["for extra stiffness"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + BY_AGREEMENT + AFTER + LATER)
def test_reasons_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "reason") == expected


WITHOUT_A_MARKER = [
    ("Haven't glassed the back yet, the mat's not here.", "the mat's not here"),
    ("Haven't laid the back, we're right out of mat.", "we're right out of mat"),
    ("I skipped the second coat of wax, ran out of time.", "ran out of time"),
    ("haven't drilled it yet the bits are blunt", "the bits are blunt"),
    ("Not sanded the flange yet, too cold in here for my hands.", "too cold in here for my hands"),
    ("Haven't gelled the back, nobody sees it.", "nobody sees it"),
    ("Pull 6 warped, demoulded too soon.", "demoulded too soon"),
    ("Bubbles all along the lip, must have whipped air in.", "must have whipped air in"),
    ("Void under the nose, I reckon I poured too fast.", "I reckon I poured too fast"),
    ("Stuck at the corner, missed a bit of wax.", "missed a bit of wax"),
    ("I ran out of mat so the other end isn't done.", "I ran out of mat"),
    ("Don't wax it hot, she'll streak on you.", "she'll streak on you"),
    ("Wet the plaster first, it drinks the water otherwise.", "it drinks the water otherwise"),
    ("Stippled the corners where the roller can't get.", "where the roller can't get"),
    ("Used the slow hardener since the shop's so warm.", "since the shop's so warm"),
    ("Seal it twice, as bare plaster drinks it.", "as bare plaster drinks it"),
    ("Cut the keys deep so the halves lock.", "so the halves lock"),
    ("Bolted it down so it disnae shift.", "so it disnae shift"),
    ("Laid it wet so I didn't trap air.", "so I didn't trap air"),
]

NO_CAUSE = [
    "Haven't waxed it yet, I'll do it tomorrow.",
    "Didn't degas it, brushed it on thin instead.",
    "No voids, the face is perfect.",
    "Not waxed the flange yet, that's next.",
    "Never take it off before noon.",
    "The pot's too hot to hold.",
    "We don't use oil for release.",
    "Gone off hard as a rock and there's no tackiness at all.",
    "Pinholes along the base, otherwise he's fine.",
    "No pigment in it so it'll be amber.",
]


@pytest.mark.parametrize(("said", "why"), WITHOUT_A_MARKER)
def test_what_stopped_an_act_or_brought_a_fault_about_is_why(said: str, why: str) -> None:
    assert [item.value.text for item in told(said, "reason")] == [why]


@pytest.mark.parametrize("said", NO_CAUSE)
def test_what_goes_on_with_the_story_is_no_reason(said: str) -> None:
    assert told(said, "reason") == []
