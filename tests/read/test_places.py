"""Places, as makers say them: regions of a mould or a piece."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("slapped a coat on the left scroll and the flange with a chip brush", ["left scroll", "flange"]),
    ("Two layers on the top flange.", ["top flange"]),
    ("void on the inner edge of the rim", ["inner edge of the rim"]),
    ("small void under the left scroll", ["under the left scroll"]),
    ("brushed it underneath the lip", ["underneath the lip"]),
    ("pinholes on the back of the leaf", ["back of the leaf"]),
    ("a bit thin around the nose", ["around the nose"]),
    ("waxed the A half", ["A half"]),
    ("tissue into the corners and along the return edge", ["corners", "return edge"]),
    ("filled the undercut by the ear", ["undercut by the ear"]),
    ("leaked at the split line", ["split line"]),
    ("poured it in at the pour hole", ["pour hole"]),
    ("a chip at the heel and one on the toe", ["heel", "toe"]),
    ("crack in the hinge of the shell", ["hinge of the shell"]),
    ("mixed it in the pot on the bench", []),
    ("left it in the oven overnight", []),
    ("doesn't come off on the glove", []),
    ("half an hour later the shop was at nineteen", []),
    ("on the other hand it's half past two", []),
    ("topped it up and brought it back to the shop", []),
    ("did the upper left volute, lower right volute and the spigot",
     ["upper left volute", "lower right volute", "spigot"]),
    ("at the end of the day we had two thirds left", []),
    ("stippled gel coat into the deep grooves behind the mane", ["deep grooves behind the mane"]),
    ("left side first", ["left side"]),
    ("bagged it and pulled vacuum on the front face", ["front face"]),
    ("mixed by hand with both hands in the bucket", []),
]  # fmt: skip


AFTER = [
    ("stuffed some tissue down behind the acanthus leaf", ["behind the acanthus leaf"]),
    ("the mat won't lie down in the inside corner of the return", ["inside corner of the return"]),
    ("second layer on the flanges and round the spigot", ["flanges", "round the spigot"]),
    ("air bubble on the tip of the nose", ["tip of the nose"]),
    ("sanded the back of the left ear", ["back of the left ear"]),
    ("Filled the low spot next to the rosette.", ["low spot next to the rosette"]),
    ("waxed both halves", ["both halves"]),
    ("the other half needs another coat", ["other half"]),
    ("laid two strips along the top edge and the bottom edge", ["top edge", "bottom edge"]),
    ("put a bolt through each corner", ["each corner"]),
    ("gel coat's thin on the high points of the mane", ["high points of the mane"]),
    ("mixed half a litre and put it to one side", []),
    ("tapped the sides of the bucket", []),
    ("there's a run down the front of the cornice", ["front of the cornice"]),
    ("flange bolts are in", []),
    ("we'll face it tomorrow and head home", []),
    ("the paw came out fine but there's a tear between the claws", ["paw", "between the claws"]),
    ("clay wall along the parting line", ["parting line"]),
    ("trimmed the flashing off the seam", ["seam"]),
    ("left it under the heat lamp at the back of the shop", []),
    ("chip on the underside of the lip", ["underside of the lip"]),
    ("right-hand scroll's fine, left-hand one has a void", ["right-hand scroll"]),
    ("a crack in the gadrooning", ["gadrooning"]),
    ("three layers on the base", ["base"]),
    ("poured down the sprue till it came up the vent", ["sprue", "vent"]),
    ("brushed it into all the letters", ["letters"]),
    ("went over the top of the shell twice", ["top of the shell"]),
    ("on the whole it went well at the first go", []),
    ("working from the centre out to the rim", ["rim"]),
    ("soft spot at the heel end", ["heel end"]),
    ("stacked them in the corner of the shop", []),
    ("nine and a half on the clock", []),
]  # fmt: skip


LATER = [
    ("skimmed the whole of the outer face", ["outer face"]),
    ("the lower petals are bridged", ["lower petals"]),
    ("packed putty in around the steel tube at the heel", ["heel"]),
    ("one more layer on the lip, the rim and the back of the shell", ["lip", "rim", "back of the shell"]),
    ("brushed it well in under the volutes", ["under the volutes"]),
    ("sprayed the inside of the jacket", ["inside of the jacket"]),
    ("there's a gap where the two halves meet", ["two halves"]),
    ("on top of the mat I put tissue", []),
    ("the left-hand flange has a chip in it", ["left-hand flange"]),
    ("we did the left side yesterday and the right side today", ["left side", "right side"]),
    ("drilled through the flange at each corner", ["flange at each corner"]),
    ("I've got it on the side by the sink", []),
    ("worked it into the fluting and round the capital", ["fluting", "round the capital"]),
    ("it went off in the middle of the job", []),
    ("tissue over the eyelids and the bridge of the nose", ["eyelids", "bridge of the nose"]),
    ("put it down on its face", ["face"]),
    ("built up the rear flange and the two end flanges", ["rear flange", "two end flanges"]),
    ("gel coat on the mould face", ["mould face"]),
    ("first half hour was fine", []),
    ("a hand's width from the edge", ["edge"]),
    ("Starting the niche, left half.", ["left half"]),
    ("the back half of the lion", ["back half of the lion"]),
    ("there's a dry patch up by the bolt holes", ["by the bolt holes"]),
    ("the void in the corner of the tray, no the corner of the lip", ["corner of the lip"]),
    ("gel coat on the right cheek and down the neck", ["right cheek", "neck"]),
    ("stuffed milled fibre in the toes", ["toes"]),
    ("ran a bead along the inside of the flange", ["inside of the flange"]),
    ("three layers everywhere and four at the corners", ["corners"]),
    ("left it leaning on the wall", []),
    ("bolt went through the top left corner", ["top left corner"]),
    ("there's a pinhole by the eye", ["by the eye"]),
    ("put the lid back on the tin", []),
    ("tissue into the folds of the drapery", ["folds of the drapery"]),
    ("both ends of the cornice need another layer", ["both ends of the cornice"]),
    ("set it face up on the bench", []),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER)
def test_places_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "place") == expected


UNLISTED = [
    ("There's a void by the navel.", ["by the navel"]),
    ("Bubble at the manway.", ["manway"]),
    ("Small chip near the tiller hole.", ["near the tiller hole"]),
    ("Dry spot in the cockpit footwell.", ["cockpit footwell"]),
    ("A crack through the tragus.", ["tragus"]),
    ("Orange peel on the gun side.", ["gun side"]),
    ("Rubbed that into all the deep bits.", ["deep bits"]),
    ("Two layers of mat at the fin boxes.", ["fin boxes"]),
    ("One layer of 300 mat inside.", ["inside"]),
    ("Trimmed it all round.", ["all round"]),
    ("Dull patch, upper left.", ["upper left"]),
    ("Bubbles in the S again.", ["the S"]),
]

NONE = [
    "The boss said to wait.",
    "Hung it on the rafters.",
    "Cut it on the bandsaw.",
    "Keyed it with a spoon handle.",
    "Bolted two brackets on.",
    "Rolled it from the middle out.",
    "PVA over the top.",
    "Four coats of wax on the planter.",
    "An inch of clay either side.",
    "By the time I got there it had gone.",
]


@pytest.mark.parametrize(("said", "expected"), UNLISTED)
def test_a_place_that_no_list_has_is_told_by_its_preposition(said: str, expected: list[str]) -> None:
    assert texts(said, "place") == expected


@pytest.mark.parametrize("said", NONE)
def test_tools_people_and_whole_things_are_no_places(said: str) -> None:
    assert texts(said, "place") == []


BY_COMPANY = [
    ("Shot it at 45 psi, footwell first and then the seats, twenty mils thick.", ["footwell", "seats"]),  # in order
    ("I'm brushing it on now, flutes first, and working it in.", ["flutes"]),
    ("dabbed in with a soft brush all the veins first", ["veins"]),
    ("Petroleum jelly, only thin, on the face and the net.", ["face", "net"]),  # in a list
    ("Brushed it on the face and the hands, started at ten.", ["face", "hands"]),
    ("Poured panel 3 at 10:45.", ["panel 3"]),  # by number
    ("Poured it into mould 2.", ["mould 2"]),
    ("Mould's in bay four under a sheet.", ["bay four"]),  # where it is kept
    ("Put it away in the blue crate.", ["blue crate"]),
    ("Mold's up on the rack over the paint booth.", ["rack over the paint booth"]),
    ("One pinhole on the lip by the dolphin's tail.", ["lip by the dolphin's tail"]),  # of a figure
    ("Two coats of shellac on the base board.", ["base board"]),
    ("Brushed it right up to the dividing wall.", ["dividing wall"]),
    ("Chip at root.", ["root"]),  # without articles
    ("There is dry glass near drain hole.", ["near drain hole"]),
    ("Dry near the distal end only.", ["near the distal end"]),
    ("Waxed it between the fingers.", ["between the fingers"]),
    ("A tear starting at the rim of the rubber.", ["rim"]),
    ("Rolled it out from the keel to the sheer.", ["keel", "sheer"]),
    ("Worked it from bow to stern.", ["bow", "stern"]),
    ("Found a leak at the vacuum port.", ["vacuum port"]),
    ("Brushed it over the garboard and the transom.", ["garboard", "transom"]),
]


@pytest.mark.parametrize(("said", "expected"), BY_COMPANY)
def test_a_place_is_told_by_its_company(said: str, expected: list[str]) -> None:
    assert texts(said, "place") == expected


@pytest.mark.parametrize(
    "said",
    [
        "Second coat, strike that, dinner first.",
        "Put the buckets back on the shelf.",
        "Mixed it in the store.",
        "Put the lid on the tin.",
        "Put a straight edge on it.",
        "Half a millimetre by the comb.",
        "Today socket came out cleanly.",
        "I'll dab a bit of latex on that tonight.",
        "Filled it to the brim.",
        "All letters are sharp.",
        "Always wear the mask.",
        "Go steady on the wedges.",
        "Right, the urn.",
        "Popped the urn out at nine.",
        "Next hull I'll wait longer.",
        "Lifted it off the rose.",
        "Plaster jacket in two halves.",
        "Both halves off.",
        "Sanded that back.",
        "Lovely crisp edges.",
        "It stood in front of the heater.",
        "They want eleven by the fourteenth.",
        "Set a steel tube across for a handle.",
        "Waxed everything except the left flange.",
        "Two coats everywhere but the flange.",
    ],
)
def test_company_alone_makes_no_place(said: str) -> None:
    assert texts(said, "place") == []


def test_nothing_but_a_place_is_that_place() -> None:
    assert texts("Waxed nothing but the flange.", "place") == ["flange"]
