"""Observations, as makers say them: what was seen and felt."""

import pytest

from tests.read.telling import told

BEFORE = [
    ("Small void under the left scroll.", [("void", "Small void under the left scroll")]),
    ("found a few pinholes on the nose", [("pinhole", "few pinholes on the nose")]),
    ("a few pips of air in the ear", [("bubble", "few pips of air in the ear")]),
    ("the batch got hot and smoked", [("exotherm", "got hot and smoked")]),
    ("cast nine came out lovely", [("good", "came out lovely")]),
    ("gel coat alligatored on the nose", [("wrinkle", "alligatored on the nose")]),
    ("bit of orange peel on the back", [("fisheye", "bit of orange peel on the back")]),
    ("the mat pulled away from the corner", [("bridging", "pulled away from the corner")]),
    ("flange is a bit tacky still", [("tacky", "a bit tacky still")]),
    ("popped off clean", [("good", "popped off clean")]),
    ("surface has gone milky", [("blush", "gone milky")]),
    ("there's a bloom on it", [("blush", "bloom")]),
    ("no voids that I can see", [("good", "no voids")]),
    ("wait till it's tacky or you get pinholes", []),
    ("watch for bubbles", []),
    ("rolled it so the glass does not bridge", []),
    ("hairline crack along the rim", [("crack", "hairline crack along the rim")]),
    ("the edge chipped when we opened it", [("chip", "chipped")]),
    ("it stuck on the undercut and tore", [("stuck", "stuck on the undercut"), ("tear", "tore")]),
    ("dry patch behind the ear", [("dry glass", "dry patch behind the ear")]),
    ("resin leaked out of the split line", [("leak", "leaked out of the split line")]),
    ("still soft after a day", [("soft", "still soft")]),
    ("popped the bubbles with the heat gun", []),
    ("panel's warped", [("warp", "warped")]),
    ("you can see the weave printing through on the face",
     [("print-through", "see the weave printing through on the face")]),
    ("dust in the gel coat", [("dust", "dust in the gel coat")]),
    ("it yellowed near the lamp", [("colour", "yellowed")]),
    ("the layers came apart at the flange", [("delamination", "came apart at the flange")]),
    ("if it cracks we'll fill it", []),
    ("brushed a good coat and gave it a good stir", []),
]  # fmt: skip


AFTER = [
    ("lots of tiny pinholes all over the face", [("pinhole", "lots of tiny pinholes all over the face")]),
    ("it's gone cloudy on the back", [("blush", "gone cloudy on the back")]),
    ("the first coat wrinkled up round the nose", [("wrinkle", "wrinkled up round the nose")]),
    ("came away lovely", [("good", "came away lovely")]),
    ("couldn't get it off the pattern, it's stuck solid", [("stuck", "stuck solid")]),
    ("Fisheyes on the flange where the wax was thick.", [("fisheye", "Fisheyes on the flange")]),
    ("didn't see any bubbles", [("good", "didn't see any bubbles")]),
    ("no sign of any cracking", [("good", "no sign of any cracking")]),
    ("filled two pinholes on the brow with putty", [("pinhole", "two pinholes on the brow")]),
    ("edges have curled up", [("warp", "curled up")]),
    ("the resin's still a bit sticky on the back", [("tacky", "still a bit sticky on the back")]),
    ("mat bridged across the corner", [("bridging", "bridged across the corner")]),
    ("big air pocket behind the ear", [("void", "big air pocket behind the ear")]),
    ("there was a fly in the gel coat", [("dust", "fly in the gel coat")]),
    ("laid it up and it went on beautifully", [("good", "went on beautifully")]),
    ("if you see pinholes, give it another skim", []),
    ("you usually get a few bubbles there", []),
    ("use the chip brush and a dry brush after", []),
    ("drilled two holes in the flange", []),
    ("put a soft cloth down", []),
    ("the pot was smoking by the time I got to it", [("exotherm", "smoking")]),
    ("second pull tore at the toe", [("tear", "tore at the toe")]),
    ("looks a treat", [("good", "looks a treat")]),
    ("it never cured properly under the lip", [("soft", "never cured properly under the lip")]),
    ("resin's weeping out of the seam", [("leak", "weeping out of the seam")]),
    ("layers have let go on the flange", [("delamination", "let go on the flange")]),
    ("colour's patchy", [("colour", "colour's patchy")]),
    ("the face is warped about two mil", [("warp", "warped")]),
    ("flange is nice and flat", [("good", "nice and flat")]),
    ("some dry fibres at the edge", [("dry glass", "some dry fibres at the edge")]),
    ("tapped it all over and it sounds hollow near the base", [("delamination", "sounds hollow near the base")]),
    ("no print-through, no pinholes", [("good", "no print-through, no pinholes")]),
    ("knocked a corner off it taking it out", [("chip", "knocked a corner off")]),
    ("split the mould and cleaned it", []),
    ("it wasn't quite cured so I left it", [("soft", "wasn't quite cured")]),
    ("not happy with the surface", [("other", "not happy with the surface")]),
]  # fmt: skip


LATER = [
    ("gel's gone all wrinkly on the left cheek", [("wrinkle", "gone all wrinkly on the left cheek")]),
    ("came off the pattern without a mark", [("good", "came off the pattern without a mark")]),
    ("two of the petals snapped off", [("chip", "snapped off")]),
    ("there's a soft patch by the spigot you can push a nail in", [("soft", "soft patch by the spigot")]),
    ("no dry spots anywhere", [("good", "no dry spots")]),
    ("it's pulling away in the corner", [("bridging", "pulling away in the corner")]),
    ("went on without any runs", [("good", "without any runs")]),
    ("found a hair in it", [("dust", "hair in it")]),
    ("the plaster's cracked right across the back", [("crack", "cracked right across the back")]),
    ("bag's leaking at the corner", [("leak", "leaking at the corner")]),
    ("it could crack if you rush it", []),
    ("I'd worry about bubbles there", []),
    ("stopped the leak with tape", []),
    ("that corner's a bit dry", [("dry glass", "a bit dry")]),
    ("pot got too hot to hold", [("exotherm", "got too hot to hold")]),
    ("surface feels greasy", [("blush", "feels greasy")]),
    ("turned out really well", [("good", "turned out really well")]),
    ("detail's crisp", [("good", "crisp")]),
    ("it's not sticking any more", [("good", "not sticking")]),
    ("silicone hasn't set at the toe", [("soft", "hasn't set at the toe")]),
    ("chipped the nose getting it out", [("chip", "chipped the nose")]),
    ("hard as a rock this morning", [("good", "hard as a rock")]),
    ("mixed it with a chip brush and a hole saw", []),
    ("put a crack stopper on it", []),
    ("Gel coat is still tacky after three hours. It comes off on the glove.",
     [("tacky", "still tacky"), ("tacky", "comes off on the glove")]),
    ("laid burlap in the back because it cracks without it", []),
    ("we both noticed there's a dry patch up by the bolt holes", [("dry glass", "dry patch up by the bolt holes")]),
    ("tacky in forty minutes", []),
    ("there's a void the size of a penny in the left ear", [("void", "void")]),
    ("came out a treat", [("good", "came out a treat")]),
    ("gel coat's gone wrinkly over the nose", [("wrinkle", "gone wrinkly over the nose")]),
    ("edge is still bendy", [("soft", "still bendy")]),
    ("resin went off too quick and got really hot", [("exotherm", "got really hot")]),
    ("if there's any bubbles prick them", []),
    ("two of the layers have separated at the rim", [("delamination", "separated at the rim")]),
    ("it's a bit yellow compared to the last one", [("colour", "a bit yellow")]),
    ("vacuum dropped to point seven so there's a leak somewhere", [("leak", "leak")]),
    ("rubber tore when I peeled it off the claws", [("tear", "tore")]),
    ("no bubbles at all this time", [("good", "no bubbles")]),
    ("dusted it with talc", []),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER)
def test_observations_are_kept_with_their_kind(said: str, expected: list[tuple[str, str]]) -> None:
    assert [(item.value.kind, item.value.text) for item in told(said, "observation")] == expected


KINDS = [
    ("Twelve's got a bubble in the ear.", "bubble"),
    ("Pull 3 has a void under the chin.", "void"),
    ("Found two bubbles in the left leg and one in the right leg.", "bubble bubble"),
    ("I'm looking at a couple pinholes by the hatch.", "pinhole"),
    ("Bit wavy on the big flat face.", "warp"),
    ("Still claggy at the lip.", "tacky"),
    ("Tacky after forty minutes.", "tacky"),
    ("Cast's come out a bit grey.", "colour"),
    ("The resin's gone like treacle.", "other"),
    ("One drummy spot near the rudder.", "delamination"),
    ("Bloom all over the back.", "blush"),
    ("Short shot at the toe.", "void"),
    ("Got rid of the bubbles with a pin.", ""),
    ("Stuck a needle in the bubbles.", ""),
    ("Sprayed expanding foam into the back.", ""),
    ("Put a speck of red pigment in the B.", ""),
    ("Cracked it open with wedges.", ""),
    ("Cracked the halves apart at noon.", ""),
    ("Dust swept off the bench.", ""),
    ("Four holes through the flange for the bolts.", ""),
    ("Poured it through a small hole in the back.", ""),
    ("Post-cured with the door open a crack.", ""),
]


@pytest.mark.parametrize(("said", "kinds"), KINDS)
def test_faults_are_told_from_things_of_use(said: str, kinds: str):
    assert " ".join(item.value.kind for item in told(said, "observation")) == kinds


@pytest.mark.parametrize("text", ["Sanded the back with 80 grit.", "Gave it a scuff with eighty grit all over."])
def test_the_grit_of_a_paper_is_no_dust(text: str):
    assert told(text, "observation") == []


KINDS_OF_CLASSES = [
    ("Pull number two had a cold seam over the brow.", "other"),  # lines and marks of a casting
    ("Tide mark on the base.", "other"),
    ("Pull number five had a void inside the nose.", "void"),
    ("The tips missing on two fingers.", "void"),
    ("The bottom flange has warped two millimetres.", "warp"),
    ("The halves don't line up.", "warp"),
    ("Resin is quite hot, 61 degrees at the end.", "exotherm"),  # heat of a batch
    ("It read seventy by the drain, it's cooking.", "exotherm"),
    ("The cup's melted.", "exotherm"),
    ("The colour's a bit warm next to her other hand.", "colour"),  # a colour that is off
    ("The color came out too dark.", "colour"),
    ("Had my hand on the shellac, it's dry all over.", "good"),
    ("Had a look, feels right.", "good"),
    ("Took some persuading.", "stuck"),
    ("Moisture is still there by the wrist.", "other"),
    ("32's got a chip off one ear, knocked it on the bench.", "chip"),
    ("Popped it, a few chips.", "chip"),
    ("Heard a hiss at the flange corner.", "leak"),
    ("Pot was hot by the end.", "exotherm"),
    ("Every rivet present.", "good"),
    ("Found a couple of bridged bits in the keel.", "bridging"),
    ("Corner of the plinth stayed in the mould.", "chip"),
    ("I dropped it and the tail snapped.", "chip"),
    ("There's some daylight at the flange.", "void"),
    ("It has gone a funny colour near the sprue.", "colour"),
    ("The bolt holes don't line up.", "warp"),
    ("Held vacuum all night.", "good"),
    ("The batch is hot already.", "exotherm"),
    ("Vacuum tested it, holds fine.", "good"),
    ("The pieces opened without force.", "good"),
]


@pytest.mark.parametrize(("said", "kinds"), KINDS_OF_CLASSES)
def test_faults_are_told_by_their_class(said: str, kinds: str):
    assert " ".join(item.value.kind for item in told(said, "observation")) == kinds


IDLE = [
    "My heart cracked when I saw it.",
    "My head was cracking so I stopped for tea.",
    "He tore a lion's head clean off a pattern.",
    "Nearly tore my hair out.",
    "The lad peeled off his gloves.",
    "There's a stone stuck in my boot.",
    "Every wrinkle of him is there.",
    "Had fish and chips for lunch.",
    "I'll have a crack at the second half tomorrow.",
    "Gave it a scuff with a pad.",
    "Did a dry run with the straps.",
    "The brush broke so I used a rag.",
    "Blew 2 bar of air in the port.",
    "It's cooking in the oven at sixty.",
    "The shop's pretty hot today.",
    "If it's under fifteen degrees it won't go off.",
    "Waxed it twice because the last one tore.",
    "Finished bang on eleven.",
    "Didn't post cure it yet.",
    "I didn't sand it because it was still tacky.",
    "Leak's fixed with more tape.",
    "Rolled it really hard.",
    "Knocked the dags off with a blade.",
    "I repaired pinhole with silicone.",
    "Fast pour makes bubble.",
    "Finger is clean.",
]


@pytest.mark.parametrize("said", IDLE)
def test_people_idioms_and_other_work_have_no_fault(said: str):
    assert told(said, "observation") == []
