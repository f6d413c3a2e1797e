"""How makers talk: sentences unlike one another, each with an act and status that a foreman would write down."""

from __future__ import annotations

import pytest

from tests.read.reading import steps

SAID = """
brush: Face coat on, brushed it into the beading with a chip brush.
brush: Brushed on about half a litre of gel coat, came up a bit short on the left jaw.
brush: Gel went on at quarter past nine, second coat at ten to eleven.
brush: First gel coat, half a millimetre, 450 grams per square metre.
brush: Brush coat of silicone on, about 800 grams, just the face.
brush: On with the gel, one good even coat, half hour it took me.
brush: Brushed half of it into the corners and poured the rest on the flat.
brush: Print coat on, platinum, thin as milk, blown into the corners with the airline.
brush: Butter coat, about 10 millimetres all over, trowelled on with a bent palette knife.
brush: Backed the gel up with a thickened coat so the corners don't print.
brush: Flow coat rolled on with a mohair.
brush: Put 300 grams of gel on the left half and 350 on the right.
brush planned: I'll gel coat the plug tomorrow.
brush planned: I have to gel coat the hatch before the boss gets in.
brush not done: I didn't bother with the tie coat.
brush not done: No second gel coat on this one, ran out of time.
check: Gel coat's tacky but it doesn't come off on the glove.
check: Had a look this morning, it's gone off nicely.
check: Barcol reads 38 across the face.
check: Temperature in the bay is 17.5 and damp, 70 percent.
check: No fisheyes this time.
check: The edge is starting to fray.
release: Gave the hull plug six coats of release wax.
mix: Spatulated it for a minute by hand.
check: Took the clamps off, it's flat as a pancake.
check: It's sitting at sixty-two on the surface and still climbing.
check: Thickness gauge says point six wet.
check: Found a hairline across the lower lip of the shell.
check: Twenty six degrees in here now and the resin's getting away from me.
check: Pot's getting warm at eighteen minutes.
check: Checked at three, still soft, so left it another hour.
check: Measured the gap, 3 mm at the top, 5 at the bottom.
check: The left scroll is still tacky, the rest is hard.
check: Water was about 20 degrees.
check: Tacky at 50 minutes, stays on the mould not the glove.
check: Demould time on the tin says six hours, it's cold so I'd call it eight.
check: Looked under the bag, two dry spots by the spigot.
check: It's 12 degrees and pouring with rain, humidity's 88.
check: Drop test, lost 3 millibar in ten minutes, happy with that.
check: Exotherm peaked at 41 on the thermocouple at half twelve.
check: Cheesy at an hour ten, finger leaves a print but comes away dry.
check: Barcol 35 to 40 next morning.
check: Bit of a run on the gel by the left volute.
check: Smells strong, gone off hot, I'd say too much cat.
check: Gelled at 14 minutes, the tin says 20.
check: It was 18 and a half degrees at 8 o'clock and 24 by dinner.
check: 1.2 bar on the gauge when I left, 0.9 this morning.
check: 0.45 to 0.6 mil wet on the comb.
check: Wall's 6 mil at the rim and 4 in the bowl.
check planned: Tomorrow I'll see whether it's cured.
check planned: Want to look at that corner again once it's out.
clean: Gave the master a good going over with isopropyl and a lint free rag.
clean: Tacked it off.
clean: I have wiped the hatch plug down with acetone.
clean: Brushes are in the acetone.
clean: Washed the PVA off with warm water.
clean: Hosed it out and a scrub with washing up liquid.
cure: Left the lot overnight under the heat lamps.
cure: Cooking under the lamp since noon.
cure: It's been curing since yesterday lunchtime, about 20 hours.
cure: It had 14 hours under the bag.
cure: Kicked off about ten past three and sitting under the lamp now.
cure: 24 hours at 20 then 16 at 40.
cut: Templates cut for the second half, 12 pieces of 300 gram.
cut: Snipped darts in the mat for the return.
cut: Cut 14 bits of 450 for the rim and 6 of tissue.
cut: Cut 6 pieces 300 by 400 of 450 mat and a strip 100 wide.
cut planned: Need to cut eight more bits for the back.
degas: Pulled vacuum on the silicone till it rose and dropped.
degas: Degassed for four minutes at 29 inches.
degas: Three minutes on the pump.
demould: She came off the plug with three wedges and a bit of swearing.
demould: Cracked the seal with a plastic wedge and the air line, popped clean.
demould: Demoulded at 26 hours.
demould: Popped it at half nine, sucked on a bit at the left ear.
demould: Got it out, no tears, one bubble in the beading.
demould: Jacket off, sock off, pattern out in two bits.
demould: Lifted her out at Tuesday lunchtime, edges pinging all round.
demould: Came off after 18 hours, the plug lost a bit of filler at the toe.
demould not done: Couldn't shift it, it's staying on another day.
demould planned: Will pull it from the pattern Thursday.
demould planned: Due to come out at four tomorrow.
demould planned: I'll have it off first thing Monday.
drill: Put the six mil bolt holes through the flange, 80 mil apart.
drill: Drilled eight holes, 8 mil, 100 mil centres.
drill: Eight mil holes every hundred and fifty.
drill: Flange holes drilled with the jacket still on, ten mil.
drill: Six 8 mil holes at 120 centres.
fill: Packed the deep undercut behind the scroll with thickened epoxy.
fill: Filleted all the corners with that.
fill: All the sharp internals filleted with milled fibre paste, 6 mil radius.
fit: Glassed the steel frame to the back.
fit: Bolted the two halves together with M8s.
fit: Set four M6 inserts in the flange with putty.
laminate: Two plies of 450 down over the whole shell.
laminate: Got the last of the mat on just as it started to gel.
laminate: Six layers in total on the flange now.
laminate: Tissue on, then one 300, then one 450.
laminate: Scrim and plaster, two layers of burlap on the back.
laminate: Laid a layer of 600 woven, then 450 chop over it, then a tissue.
laminate: Three ply on the flange and four on the corners.
laminate: Put 2 more layers of the biax on the back, same resin.
laminate: Two layers of one and a half ounce mat, wet out on the bench then carried over.
laminate: Glassed the back with 3 layers chop 450 and let it kick overnight.
laminate: Tissue then two 300s, all in while it's wet.
laminate: Next three layers of 450, 2 kilos of resin at 1 and a quarter percent.
laminate: Biax 600, one layer, then another at ninety to it.
laminate: Skin coat, ounce and a half, one layer, resin at 1.25.
laminate: Bulked it out with three more ounce and a halfs and a 24 ounce roving in the middle.
laminate: All the glass is in.
laminate: Corners are reinforced with an extra two strips of 300.
laminate: Left half had two layers of 300 and right half three.
laminate: 1 ply 200 twill, 3 ply 600 biax, 1 ply 200 twill.
laminate: One tissue, two 300, four 450.
laminate: Two layers 450 CSM with 2.4 kilos resin at 1.2 percent MEKP.
laminate: Three layers of one-fifty tissue... no, thirty gram tissue, sorry.
laminate: 4 x 450 on flange, 2 x 450 everywhere else.
laminate: A layer of 10 ounce then a layer of inch and a half mat.
laminate: One more layer of 450 to bring it to six.
laminate not done: Didn't get round to the second layer on the rim.
laminate not done: No roving in this one, too tight.
laminate planned: Next I'll lay the two layers of biax at plus minus 45 on the flange.
laminate planned: Tomorrow morning, first thing, it's getting the last two layers.
mix: Stirred it slow for three minutes, scraped the sides twice.
mix: Batch three's made, 600 all up.
mix: Right, mixed up 350 of the laminating with 98 of hardener for the left wing.
mix: Two and a half kilo of polyester at one and a half percent.
mix: One to one by volume, 300 mil of each.
mix: Mixed A and B one to one by volume, 300 mil each.
mix: Ten to one, so 40 grams of catalyst to 400 of the tin cure.
mix: Pot life on this stuff is 25 minutes so I only made up 300 grams.
mix: Made up another 200 same ratio.
mix: Mixed 12 ounces of resin with 3 of hardener.
mix: Put the catalyst in at 2 percent, 14 grams to 700.
mix: Catalysed 700 grams at 2 percent.
mix: 10 parts A, 3 parts B, 1 part filler, 500 grams all told.
mix: Plaster at 1.4 to 1, 7 kilos powder 5 litres water.
mix: Gel coat, 600 grams, 12 of catalyst.
mix: Right, 1200 polyester, 18 cat, for the skin.
mix: Silicone, platinum, one to one, 450 a side.
mix: A hundred of A, twenty eight of B.
mix: Fresh pot, 300 and 84.
mix: 150 A 42 B plus a bit of silica so it don't run.
mix: Mixed at 20 past, gone at quarter to.
mix: Powder to water, let it slake two minutes, then whisked for three.
mix: 1.8 kilos of infusion resin at 100 to 30, so 540 of slow hardener.
mix: Both pots catalysed at one and a half, one after the other.
mix: Hot coat: 400 of resin, 1.5 percent cat, splash of styrene and wax.
mix: 500 grams epoxy, slow hardener, 100 to 28, so that's 140.
mix: Of the 640 grams I mixed, about a third's still in the pot.
mix: Mixed half a kilo of laminating resin and a hundred and forty of the slow.
mix: Gel coat: 1 kilo. Catalyst: 15 mil. Pigment: 20 grams.
mix: A is 212, B is 59.4.
mix: Resin four hundred, hardener hundred and twelve.
mix: 220 of A with 22 B, plus 5 grams of black.
mix: Three kilos of resin, 45 mil of catalyst, stirred for two minutes with the paddle.
mix: I did 3 pots of 250 with 70 hardener in each.
mix: One part catalyst to ten silicone, 90 grams cat.
mix: Mix ratio's five to one by weight, 250 to 50.
mix: 100 grams resin and 2 percent so 2 grams catalyst.
mix: Seven fifty gel coat at one point eight percent, thirteen and a half grams.
mix: I put 1.5 percent in the first pot and 2 in the second.
mix: 10 mil per kilo of accelerator then 20 mil per kilo cat.
mix: Plaster 3 kilo to 2 litres of water give or take.
mix: About 1 and three quarter pounds of resin, 2 ounces of hardener.
mix: 8 oz A, 8 oz B by volume in the same cup.
mix advised: Always pour the A into the B, never the other way about.
mix advised: Never mix more than a pound at a time in the heat of the day.
mix advised: If it's below fifteen I put two and a half percent in.
photograph: Snapped the left scroll before and after.
photograph: Took a few pictures on the tablet for the file.
photograph not done: Forgot to take a picture before the second coat.
polish: Cut and buffed the inside to a mirror.
polish: Went through the compounds, coarse then fine.
post-cure: Eight hours at sixty in the tent.
post-cure: Post cure is 2 hours at 40, 2 at 60 then 4 at 80.
post-cure: Ramped it up ten degrees an hour to 60 and held for six.
post-cure: Fifty degrees for six hours in the box.
post-cure: Straight into the oven, up a degree every three minutes, 65 for eight hours, cool in the oven.
post-cure: Post cured 4 hours at 60, 2 at 80.
pour: Filled the box from the lowest corner.
pour: Tipped the rest along the back edge.
pour: Poured the mother mould, 4 kilos of hard plaster.
pour: Poured 6.2 kilos of silicone in a thin stream from about two foot up.
pour: Poured from one corner, let it find its level.
pour: Cast it hollow, slushed 3 layers, about 400 grams each.
pour: Poured at 21 degrees, 45 minute pot life, in by ten past.
pour: I poured 2 and a bit litres of silicone.
pour not done: Didn't pour the second half because the humidity is at 85.
press: Vacuum's on, 900 millibar and no leaks.
press: Clamped the flanges and left it.
press: Bag pulled down to 28 inches and held it for an hour.
press: Peel ply, breather, bag. 0.9 bar.
press: Bagged it with two lines of tape, spiral round the edge, feed in the middle.
press: Clamped the feed off at quarter past eleven, left the pump on.
pull: That's casting seven out, good edges.
pull: Fifth one out today, slight print on the nose.
pull: Pull 12 this afternoon, demould took five minutes, no damage.
pull: Got three castings out of it before lunch.
pull: First plaster out of it, lovely.
pull: Number two had an airlock in the ear.
pull: Number 9, ten minutes on the vibrating table, no voids.
release: First coat of mold release on, waiting on the haze.
release: Two squirts of PVA with the gun, dry in twenty.
release: Six coats of paste wax, half an hour between each, buffed each one.
release: Five waxes then one PVA.
release: Sprayed PVA, three light passes and a wet one.
release: Morning. Pattern's had its five waxes, last one went on at eight.
release: PVA over the top, misted, and it's dry now.
release: Three wipes of semi perm, ten minutes apart, last one at 4.
release planned: Still to wax the return edge.
fill: Filled two pinholes by the crown with gel coat and faired them.
fill: Three pinholes on the crown, filled with gel.
repair: Dab of plaster in the bug holes.
repair: Knocked the run back with 80 and touched it in.
repair planned: That chip wants a dab of gel in the morning.
roll: Worked the air out with the finned roller.
roll: Rolled hard into the radii, no air I can see.
sand: Flatted it back with 400 wet and dry.
sand: Keyed the back of the gel with 120 for the bonding.
sand: Gave it a rub with 240.
sand: Went over the whole buck with 320 wet, then 600.
sand: Sanded 180, 320, 600.
seal: Three thin coats of shellac on the plaster, sanded between the second and third.
seal: Two coats of sealer at 50 percent thinned, then two neat.
seal not done: I haven't sealed the back of the pattern.
spray: Second tooling coat went on with the gun at 40 psi.
stipple: Dabbed it into the detail with a stiff brush to knock the bubbles out.
store: Mould's back in the rack with a dust sheet over.
store: Back in its jacket and up on the top rack.
thicken: Added silica until it would hang on a vertical, roughly 8 percent by weight.
thicken: Second coat fortified with thixotropic agent, three drops to the hundred.
thicken: Added 30 grams of silica to the 400.
tint: Dropped in a bit of ivory pigment.
tint: Five percent white paste in the gel, that's 35 grams.
trim: Took the flash off with the oscillating tool.
trim: Trimmed the flange to 60 mil all the way round.
trim: Ran round the edge with the diamond blade.
trim: Green trimmed the flange with a knife before supper.
trim: Trimmed 20 mil off the flange all round leaving 50.
trim planned: Flange still wants cutting back to 75.
wait: Giving it forty minutes before the next coat.
wait: It's flashing off.
wait: Let the PVA dry fifteen minutes.
wait: Waited 25 minutes, still wet, gave it another ten.
wall: Ran a clay fence along the parting line and keyed it with a marble.
wall: Boxed the paw in with melamine offcuts and hot glued the corners.
wall: Sulphur clay pushed up to the centre line and trimmed square.
wall: Keys in the clay, eight of them, with a ball tool.
weigh: Cup's on zero, 412 of resin going in.
weigh: Measured out 250 A, 72 and a half B.
weigh: Scales says 418 but I wanted 420, near enough.
weigh: Weighed a kilo out in two pots, 500 apiece.
weigh: The jug weighs 84 empty, 506 with resin.
wet out: Wetted the biax out on the bench on some polythene.
wet out: Let the resin creep through the glass before rolling.
wet out: Opened the feed at 10:42, wet to the far edge by 11:15.
"""
LINES = [tuple(line.split(": ", 1)) for line in SAID.strip().splitlines()]


STATUSES = (" planned", " advised", " not done")


def told_as(told: str) -> tuple[str, str]:
    """Return the act and the status of "laminate not done"; without one it was done."""
    status = next((each for each in STATUSES if told.endswith(each)), "")
    return told.removesuffix(status), status.strip() or "done"


@pytest.mark.parametrize(("told", "said"), LINES)
def test_an_act_is_told_with_its_status(told: str, said: str) -> None:
    assert told_as(told) in {(step.action, step.status) for step in steps(said)}


@pytest.mark.parametrize(
    ("said", "amounts"),
    [
        ("Mixed A and B one to one by volume, 300 ml each.", {("A", 300, "ml"), ("B", 300, "ml")}),
        ("Urethane resin, 450 grams a side.", {("A", 450, "g"), ("B", 450, "g")}),
        ("Tin silicone, 10 parts A, 1 part B, 500 grams all told.", set()),
        (
            "Urethane rubber, seven hundred fifty grams of a seven hundred fifty of b.",
            {("A", 750, "g"), ("B", 750, "g")},
        ),
        ("Urethane rubber A is 212 grams, B is 59 grams.", {("A", 212, "g"), ("B", 59, "g")}),
        ("Casting's 2.3 kilos, last one was 2.1.", set()),
        ("Sample 3: 100.0 grams part A, 10.0 grams part B, tin silicone.", {("A", 100, "g"), ("B", 10, "g")}),
        ("Polyester resin one litre, catalysed with 15 cc.", {(None, 1000, "ml"), (None, 15, "ml")}),
    ],
)
def test_an_amount_is_of_what_it_was_said_of(said: str, amounts: set[tuple[str | None, int, str]]) -> None:
    found = [use for step in steps(said) for use in step.materials if use.amount is not None]
    assert {(use.part, int(use.amount), use.unit) for use in found if use.amount is not None} == amounts


def test_what_a_whole_batch_came_to_is_queried_not_given_to_a_part() -> None:
    (mix,) = steps("Tin silicone, 10 parts A, 1 part B, 500 grams all told.")
    assert [flag.why for flag in mix.flags if flag.field == "amount"] == ["500 g was said of the whole batch"]


@pytest.mark.parametrize(
    ("said", "layers"),
    [
        ("Tissue x1, 300 csm x2.", [("surface tissue", 1, None), ("chopped strand mat", 2, 300)]),
        ("One tissue, two 300, four 450.", [("surface tissue", 1, None), ("chopped strand mat", 2, 300),
                                            ("chopped strand mat", 4, 450)]),
        ("Laid a layer of 600 woven, then 450 chop over it, then a tissue.", [
            ("woven roving", 1, 600), ("chopped strand mat", None, 450), ("surface tissue", 1, None)]),
        ("Two layers of biax at plus minus 45 on the flange.", [("biaxial glass", 2, None)]),
        ("Mat's on, two layers of 300.", [("chopped strand mat", 2, 300)]),
        ("Backed it with four layers of burlap, five along the edges.", [("burlap", 4, None), ("burlap", 5, None)]),
    ],
)  # fmt: skip
def test_layers_are_counted_as_they_were_said(said: str, layers: list[tuple[str, int | None, int | None]]) -> None:
    assert [(layer.name, layer.count, layer.gsm) for step in steps(said) for layer in step.layers] == layers


@pytest.mark.parametrize(
    ("said", "seconds"),
    [
        ("Post cured 4 hours at 60, 2 at 80.", [14400, 7200]),
        ("Post-cured 2 h at 40, 2 h at 60 and 6 h at 80 degC.", [7200, 7200, 21600]),
        ("Mixed it for 180 s at low speed.", [180]),
        ("Into the oven, up a degree every three minutes, then eight hours.", [28800]),
    ],
)
def test_times_are_read_that_a_list_says_once_and_rates_are_none(said: str, seconds: list[int]) -> None:
    assert [timing.least for step in steps(said) for timing in step.timings] == seconds


def test_neither_a_side_nor_a_share_is_a_time_of_day() -> None:
    for said in ("Left half had two layers of 300 and right half three.", "Skin coat on, polyester resin at 1.25."):
        assert [clock for step in steps(said) for clock in step.clock] == []
