"""What was done, is planned, is advised in general, and was not done."""

import pytest

from tests.read.reading import steps

SAID = [
    ("I'm going to wax it tonight.", "planned"),
    ("Going to pour at three.", "planned"),
    ("I'll demould it tomorrow morning at eight.", "planned"),
    ("Demould due at six tonight.", "planned"),
    ("Tomorrow: second layer of mat, then the flange.", "planned"),
    ("Next job is to trim the flange.", "planned"),
    ("Next is the tissue.", "planned"),
    ("Still need to drill the flange.", "planned"),
    ("Needs sanding.", "planned"),
    ("That'll need filling.", "planned"),
    ("We'll be pulling it around four.", "planned"),
    ("Should be ready to come off the plug by ten tomorrow.", "planned"),
    ("Plan is to laminate both halves on Friday.", "planned"),
    ("Let's get the second coat on after lunch.", "planned"),
    ("Just about to mix 300 grams of epoxy.", "planned"),
    ("About to pour.", "planned"),
    ("got to fit the inserts yet", "planned"),
    ("I want to get the gel on by two.", "planned"),
    ("gonna give it another hour", "planned"),
    ("We still have to cut the glass for the back.", "planned"),
    ("might do a third layer on the flange tomorrow", "planned"),
    ("I've got to polish it before the next one.", "planned"),
    ("To do: wax, PVA, gel.", "planned"),
    ("Third coat to go on at half four.", "planned"),
    ("Casting number ten first thing Monday.", "planned"),
    ("will clean it up with acetone when it's out", "planned"),
    ("We're demoulding at noon.", "planned"),
    ("We're going to have to patch that corner.", "planned"),
    ("I will be back to put the second coat on in two hours.", "planned"),
    ("second coat at four", "planned"),
    ("tomorrow I'm pouring the mother mould", "planned"),
    ("It'll get its post-cure on Sunday, eight hours at fifty.", "planned"),
    ("You want to brush the first coat out thin.", "advised"),
    ("Always wax the flange last.", "advised"),
    ("Never brush over a coat that's started to go.", "advised"),
    ("I usually leave it overnight.", "advised"),
    ("We normally give it four coats of wax.", "advised"),
    ("You need to degas it twice.", "advised"),
    ("Make sure you roll out all the air.", "advised"),
    ("Don't pour it all in one place.", "advised"),
    ("You have to lay the tissue while the gel's still tacky.", "advised"),
    ("It's best to mix it by hand.", "advised"),
    ("The trick is to pour slowly from one corner.", "advised"),
    ("You should let the wax haze before you buff it.", "advised"),
    ("Best to sand it wet.", "advised"),
    ("You can't lay it thicker than three layers at a go.", "advised"),
    ("Ideally you'd leave it two days before you demould.", "advised"),
    ("What we do is brush a thin coat in first and then pour.", "advised"),
    ("Weigh the hardener last.", "advised"),
    ("Be careful not to press the mat too hard into the corner.", "advised"),
    ("you never sand the gel coat dry", "advised"),
    ("Mix small batches or it'll go off in the pot.", "advised"),
    ("Remember to stipple the corners before you roll.", "advised"),
    ("On a big mould you'd lay the bulker after the second mat.", "advised"),
    ("Generally we'd leave that overnight.", "advised"),
    ("I tend to stipple rather than roll the tissue.", "advised"),
    ("I always mix it for at least three minutes.", "advised"),
    ("if it's cold you want two percent, no more", "advised"),
    ("when you demould, start at the thick end", "advised"),
    ("Try not to flood the glass.", "advised"),
    ("Once it's tacky you can lay the first tissue.", "advised"),
    ("A good shop would post-cure it at sixty.", "advised"),
    ("He says to degas it first.", "advised"),
    ("Boss wants us to wax between every pull.", "advised"),
    ("Skipped the tissue.", "not done"),
    ("No tissue on this one.", "not done"),
    ("Haven't waxed it yet.", "not done"),
    ("I didn't degas it.", "not done"),
    ("Never got round to polishing it.", "not done"),
    ("Forgot to seal the edge.", "not done"),
    ("Not post-cured.", "not done"),
    ("We've not trimmed it yet.", "not done"),
    ("No pigment in this batch.", "not done"),
    ("Left out the silica this time.", "not done"),
    ("Didn't bother with a second coat of PVA.", "not done"),
    ("I haven't poured the back yet.", "not done"),
    ("The flange hasn't been drilled.", "not done"),
    ("couldn't get it off the plug", "not done"),
    ("decided not to spray it", "not done"),
    ("missed the wax on the lip", "not done"),
    ("without any wax this time", "not done"),
    ("Nobody sealed the base.", "not done"),
    ("did not roll it", "not done"),
    ("still not demoulded", "not done"),
    ("hadn't stirred the pigment in", "not done"),
    ("no wax on the flange this time", "not done"),
    ("I've just put the second coat on.", "done"),
    ("Second coat going on now.", "done"),
    ("Brushing it on as we speak.", "done"),
    ("had to sand it back and wax it again", "done"),
    ("Managed to get it out without chipping it.", "done"),
    ("Started laminating at nine.", "done"),
    ("finished waxing at ten past", "done"),
    ("it's been waxed four times", "done"),
    ("We ended up pouring it in two goes.", "done"),
    ("Got it waxed and polished.", "done"),
    ("The gel's been on since eight.", "done"),
    ("went ahead and poured it", "done"),
    ("The back is all sanded.", "done"),
    ("That's it trimmed.", "done"),
    ("It was degassed for five minutes.", "done"),
    ("I had it waxed before lunch.", "done"),
    ("Kept stirring for three minutes.", "done"),
    ("used a knife to trim the flange", "done"),
    ("having mixed it I poured it straight in", "done"),
    ("Both halves clamped up.", "done"),
    ("I've gone and waxed the wrong side.", "done"),
]

SIGNS = [
    ("Today's plan: wax, gel, then two of mat.", "planned"),
    ("Tomorrow: trim the flange and drill it.", "planned"),
    ("To do: sand the plug.", "planned"),
    ("Still to wax the second half.", "planned"),
    ("Want him to sand the flange.", "planned"),
    ("Told them to wax it twice more.", "planned"),
    ("Forgot to wax the flange.", "not done"),
    ("Ran out of catalyst so no second coat.", "not done"),
    ("Didn't bother waxing the back.", "not done"),
    ("Left off the tissue.", "not done"),
    ("Never got round to drilling the holes.", "not done"),
    ("As a rule we wax it five times.", "advised"),
    ("Rule of thumb, never lay more than four layers at once.", "advised"),
    ("Best to demould in the morning.", "advised"),
    ("It is advisable to degas the silicone twice.", "advised"),
    ("It's recommended to seal the plaster first.", "advised"),
    ("Job for Monday: polish the mould.", "planned"),
    ("Flange wants trimming.", "planned"),
    ("Flange still needs sanding back.", "planned"),
    ("Second half to be laminated tomorrow.", "planned"),
    ("Gel coat tomorrow first thing.", "planned"),
    ("Sanding is pending.", "planned"),
    ("Demoulding will be done at nine tomorrow.", "planned"),
    ("I'd better wax it again before I pour.", "planned"),
    ("Meant to post cure it but the oven was full.", "not done"),
    ("Should have waxed it again but didn't.", "not done"),
    ("No time to trim it.", "not done"),
    ("Skipped the PVA this time.", "not done"),
    ("Wax not yet applied.", "not done"),
    ("Trimming was not done today.", "not done"),
    ("Post cure cancelled.", "not done"),
    ("Post cure put off till Friday.", "planned"),
    ("Let it be noted the mould was waxed five times.", "done"),
    ("Waxed, buffed, waxed again.", "done"),
    ("Wax applied.", "done"),
    ("The demoulding was carried out at ten.", "done"),
    ("We are having it sanded now.", "done"),
    ("Being sanded as we speak.", "done"),
    ("You'd want to wax it first.", "advised"),
    ("Try not to stipple too hard.", "advised"),
    ("If it's cold, leave it overnight.", "advised"),
    ("Kindly wax the flange before evening.", "planned"),
    ("Please drill the vent holes.", "planned"),
    ("Mind you roll out the corners.", "advised"),
    ("Whatever you do don't sand it dry.", "advised"),
    ("I tend to brush it on in two goes.", "advised"),
    ("I like to leave it a day before I pull it.", "advised"),
    ("We'd normally bake it at sixty.", "advised"),
    ("Sealing it later on today.", "planned"),
    ("Aim to demould by six.", "planned"),
    ("Then it'll be trimmed and drilled.", "planned"),
    ("Due to be demoulded at four.", "planned"),
    ("Can't demould it yet.", "not done"),
    ("Haven't had a chance to wax it.", "not done"),
    ("Wasn't able to get the second coat on.", "not done"),
    ("Decided to leave the tissue out.", "not done"),
]

VOICES = [
    ("I would have pulled it but it's still soft at the corner.", "not done"),
    ("Should've waxed it twice.", "not done"),
    ("Was supposed to sand it but the compressor's down.", "not done"),
    ("I meant to seal it again.", "not done"),
    ("Nearly put a fourth layer on.", "not done"),
    ("No sanding this time round.", "not done"),
    ("Edges still untrimmed.", "not done"),
    ("Wax not on yet.", "not done"),
    ("Without the bag on this one.", "not done"),
    ("No post-cure on these.", "not done"),
    ("never got a second coat on the back", "not done"),
    ("I'd brush the second coat at right angles to the first.", "advised"),
    ("Silicone is best poured from a height.", "advised"),
    ("Tissue against the gel, always.", "advised"),
    ("10 pound of plaster to 7 of water, that's how I always mix it.", "advised"),
    ("I never use oil for release, I use petroleum jelly.", "advised"),
    ("No mat in tight corners, ever.", "advised"),
    ("Don't you ever sand it dry.", "advised"),
    ("A mould wants waxing every third go.", "advised"),
    ("cut everything before you open a tin", "advised"),
    ("Jacket comes off at two.", "planned"),
    ("Today we drill the holes for the dowels.", "planned"),
    ("Next I let it flash off for thirty minutes.", "planned"),
    ("Dowels next, four of them.", "planned"),
    ("Three more coats of wax to go.", "planned"),
    ("Pour's at nine tomorrow.", "planned"),
    ("Needs its edges trimmed.", "planned"),
    ("remind me to clean the gun", "planned"),
    ("that's how we did it, two coats of wax", "done"),
    ("no bubbles this time", "done"),
    ("In the chamber 4 minutes, good to go.", "done"),
]


@pytest.mark.parametrize(("said", "status"), SAID + SIGNS + VOICES)
def test_the_status_is_read_from_the_words_around_the_verb(said: str, status: str) -> None:
    found = steps(said)
    assert found
    assert {step.status for step in found} == {status}


def test_a_plan_goes_on_over_and() -> None:
    assert [s.status for s in steps("I'm going to wax it and brush on a coat of gel coat.")] == ["planned", "planned"]


def test_what_is_not_done_yet_is_planned_where_it_is_said_so() -> None:
    (step,) = steps("mixed 200 of laminating epoxy with 56 hardener no scratch that I haven't done it yet")
    assert step.status == "planned"


def test_a_warning_without_a_verb_of_the_trade_is_of_the_act_before_it() -> None:
    found = steps(
        "Three kilos of plaster sifted into two litres of water and stirred. Never whip it or it's full of air."
    )
    assert [(s.action, s.status) for s in found][-1] == ("mix", "advised")
    assert found[-1].warnings
    assert not found[0].warnings


@pytest.mark.parametrize(
    ("said", "acts"),
    [
        ("Two layers of 450 on the bottom, none on the transom.", [("laminate", "done"), ("laminate", "not done")]),
        ("Bleeder cloth on, no bag this time.", [("laminate", "done"), ("press", "not done")]),
        ("Four coats of wax, no PVA.", [("release", "done"), ("release", "not done")]),
        ("Two layers of mat on the hull, another two on Monday.", [("laminate", "done"), ("laminate", "planned")]),
    ],
)
def test_what_was_left_out_or_is_to_come_is_a_step_of_its_own(said: str, acts: list[tuple[str, str]]) -> None:
    assert [(step.action, step.status) for step in steps(said)] == acts


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("Told him, don't go near it with PVA till the wax is hard.", "release"),
        ("He said to wait a day before you sand it, and don't do it without the mask.", "sand"),
        ("Don't you stand downwind of that gun without a respirator.", "spray"),
        ("The bag is on, pulling nine hundred millibar. Don't anybody touch the taps.", "press"),
        ("Never more than a kilo at a go.", "mix"),
    ],
)
def test_a_warning_is_of_the_act_that_its_words_or_the_note_tell(said: str, act: str) -> None:
    step = steps(said)[-1]
    assert (step.action, step.status) == (act, "advised")
    assert step.warnings


def test_what_was_struck_is_told_no_more() -> None:
    assert steps("I'm going to mix another half litre. Actually scratch that, there's enough.") == ()
