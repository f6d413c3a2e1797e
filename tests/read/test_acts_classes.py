"""Acts by class of saying: done by another's hand, kept for later, mended, waited, counted out of the mould."""

import pytest

from journal.record import Status
from tests.read.reading import steps

BY_ANOTHER: list[tuple[str, str, Status]] = [
    ("Had the apprentice stipple the corners while I held the lamp.", "stipple", "done"),
    ("Got Dave to sand the flange back to 240.", "sand", "done"),
    ("Had it sanded down by the new fella before lunch.", "sand", "done"),
    ("Helped Dave lift it off the plug.", "demould", "done"),
    ("I'll get Tom to sand it tomorrow.", "sand", "planned"),
    ("We'll have the flange waxed by Friday.", "release", "planned"),
    ("Always have the lad wax the flange first.", "release", "advised"),
    ("Couldn't get Dave to sand it.", "sand", "not done"),
]
ONLY = {
    "store": [
        "Set aside 200 grams of the mix for patching.",
        "Kept back half a litre of gel coat in a lidded pot.",
        "Put 200 grams by for the patch.",
        "Roll back in the freezer.",
    ],
    "wait": [
        "Dew point was close so I held off the gel coat till after lunch.",
        "Left the clamps on overnight.",
        "Weights stayed on for 12 hours.",
        "Stood about for half an hour.",
    ],
    "brush": ["6 coats of latex brushed on, each one left till it went clear.", "Spread fairing compound over it."],
    "release": [
        "Gave the model a wipe of soft soap.",
        "A smear of petroleum jelly round the keys.",
        "Put petroleum jelly on the plywood.",
    ],
    "trim": ["Scraped the top level with a straightedge.", "Struck the back off flush with a lath."],
    "wall": [
        "Water clay wall up to the halfway line, then a plywood fence round the outside.",
        "Plywood box is up.",
        "Screwed a plywood frame down around the slate for a wall.",
        "Pushed a row of brass shims in over the crown.",
    ],
    "fit": ["Laid the core down on wet mat.", "I've set a steel rod up the back.", "Glassed the stringers in."],
    "laminate": ["Laid three layers of 160 gram glass cloth on the frame.", "Pressed in two layers of burlap."],
    "pull": ["Knocked out a dozen ears.", "Three heads out so far.", "Took four good tiles off before lunch."],
    "demould": [
        "Mould's off.",
        "First stamp is off the stone.",
        "Opened both halves.",
        "I had it apart at ten to four.",
        "Took it out twenty minutes ago.",
    ],
    "mix": ["I ran the paddle for 2 minutes.", "Mixed plaster and water with a few chopped strands thrown in."],
    "fill": ["Rubbed a bit more putty into the lip.", "Filled it with gel coat thickened with a bit of silica."],
    "degas": ["Hit it with the heat gun for a minute to pop the bubbles."],
    "drill": ["Drilled the bolt holes at six inch centres along the flange."],
    "sand": ["Cut it back with four hundred grit."],
    "press": ["Popped it in the pressure pot at 40 psi.", "Taped the vacuum bag down over it."],
    "cure": ["In the autoclave overnight.", "It is kept for curing."],
}
MENDED = [
    "Ripped it by the nostril. Fixed it with more of the silicone.",
    "She's cracked at the foot. Glued it back with superglue.",
    "Bag's leaking at the port. Taped it up.",
    "The edge chipped so I built it back up with gel.",
]
NONE = ["Not waiting around for it.", "Ready for the touch-up gun."]


@pytest.mark.parametrize(("said", "action", "status"), BY_ANOTHER)
def test_an_act_had_done_has_the_status_of_having_it_done(said: str, action: str, status: Status) -> None:
    assert [(step.action, step.status) for step in steps(said)] == [(action, status)]


@pytest.mark.parametrize(("action", "said"), [(action, said) for action, every in ONLY.items() for said in every])
def test_a_saying_names_this_act_and_no_other(action: str, said: str) -> None:
    assert {step.action for step in steps(said)} == {action}


@pytest.mark.parametrize("said", MENDED)
def test_what_is_done_to_damage_just_told_is_a_repair(said: str) -> None:
    assert "repair" in {step.action for step in steps(said)}


@pytest.mark.parametrize("said", NONE)
def test_talk_of_an_act_is_none(said: str) -> None:
    assert steps(said) == ()
