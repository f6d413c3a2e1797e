"""What makers say of what they see in several words ("orange peel"), by the kinds of the step record.

In a saying `*` stands for up to two words.
"""

from __future__ import annotations


def _sayings(table: dict[str, str]) -> dict[str, str]:
    return {saying.strip(): kind for kind, sayings in table.items() for saying in sayings.split("|")}


SAYINGS = _sayings({
    "exotherm":
        "got * hot to hold | got * hot to touch | got * hot | getting * hot | gone * hot | went * hot | got * warm"
        " | getting * warm | warm to the hand | warm to the touch | hot to the touch | cooked off | cooked in the"
        " pot | too hot to hold | too hot to touch | kicked off * hot | melted the cup | melted the pot | hot spot |"
        " hot spots | started to warm | started to steam | started steaming | went off in my hand | started smoking"
        " | started to smoke | went off like a | cooked | smoked | cooking away | 's cooking | is cooking | was"
        " cooking | started cooking | started to cook | cooking in the pot | cooking in the bucket | cooking in the"
        " cup | fizzing | piping hot | red hot | melted the bucket | melting the cup | melting the pot | cup 's"
        " melted | bucket 's melted | pot 's melted | pot got away | batch got away | resin got away | steam coming"
        " off | smoke coming off | hot to touch | hot to hold | warm to touch",
    "fisheye":
        "orange peel | fish eyeing | fish eyes | fish eye | separated on the wax | crawled | beaded up | pulled"
        " into beads",
    "wrinkle":
        "crocodile skin | elephant skin",
    "bridging":
        "pulled away | pulling away | pulled off the corner | sprung back | springing back | spanned",
    "delamination":
        "came apart | coming apart | come apart | lifted off | peeled off | sounds hollow | sounded hollow | let go"
        " | pre-release | pre-released | sound hollow | sounding hollow | dull spot | dull spots | dull patch |"
        " drummy | hollow spot | hollow patch | hollow sound | sounds dull | sounds dead | dead spot | taps dull |"
        " tapped dull | taps hollow | hollow under | gone hollow",
    "print-through":
        "print through | printing through | printed through | weave showing | see the weave printing through | see"
        " the weave coming through | see the weave | see the glass through | print - through | weave printing"
        " through | weave has printed | weave coming through | mat showing through | print of the | grain showing |"
        " joint showing | join showing | see the grain | see the joint | see the join",
    "dry glass":
        "dry glass | dry fibre | dry fibres | dry fibers | dry mat | white patch | white patches | white spots |"
        " white spot | dry spot | dry spots | dry patch | dry patches | dry bit | dry bits | dry area | dry areas |"
        " still white | resin starved",
    "soft":
        "soft spot | soft spots | soft patch | soft patches | dents with | can dent it | has n't cured | have n't"
        " cured | leaves a print | leaves a mark | takes a print",
    "tacky":
        "still wet | still too wet | still a bit wet | wet to the touch | tacky spot | tacky patch | sticky patch |"
        " sticky patches | comes off on the glove | came off on the glove | coming off on the glove | grabs the"
        " glove | sticks to the glove | does not come off on the glove | does n't come off on the glove",
    "blush":
        "greasy film | waxy film | white bloom | gone milky | gone cloudy | gone white | went milky | went white |"
        " went cloudy | turned milky | turned white | sweating",
    "colour":
        "gone yellow | went yellow | gone brown | went brown | went off colour | off colour | turned yellow |"
        " turned brown | turned amber | colour's off | wrong colour | funny colour | funny color | odd colour | odd"
        " color | strange colour | strange color",
    "bubble":
        "pips of air | pip of air | air bubble | air bubbles | trapped air | air trapped | air in it | air in the |"
        " bit of air | bits of air | blow hole | blow holes | air lock | air locks | air - lock",
    "void":
        "air pocket | air pockets | air hole | air holes | pocket of air | pockets of air | air under | see"
        " daylight | missed a bit | did n't fill | not filled | not quite filled | half filled | underfilled | bald"
        " spot | bald spots | short shot | short shots | short fill | came up short | come up short | missing where"
        " | tips missing | tip missing | end missing | ends missing | corner missing | missing a bit | missing the"
        " tip | daylight at | daylight under | daylight through | some daylight",
    "pinhole":
        "pin holes | pin hole",
    "dust":
        "dust nib | dust nibs | dust specks | dust spots",
    "other":
        "resin rich | too wet | cold shut | cold shuts | flash line | flash lines | witness line | bit of flash |"
        " cold seam | cold seams | cold join | cold joins | cold joint | cold joints | cold line | lap line | lap"
        " lines | flow line | flow lines | fill line | fill lines | knit line | pour line | pour lines | tide mark |"
        " tide marks | tide line | brush mark | brush marks | roller marks | tool mark | tool marks | drag mark |"
        " drag marks | sink mark | sink marks | damp patch | damp patches | still damp | still moist | moisture is |"
        " moisture still | moisture in | still moisture | some moisture | bit of moisture | started to thicken |"
        " starting to thicken | thickening up | took a bit of | seam gone | line where | a step at | a step in | a"
        " step along",
    "stuck":
        "stuck fast | stuck solid | stuck hard | locked on | locked solid | locked in | would n't come | wo n't"
        " come | would n't release | would n't budge | wo n't budge | wo n't release | hung up | did n't release |"
        " had to pry | had to be pried | took some persuading | took some doing | fought me | put up a fight | had"
        " to hit it | had to hammer | had to lever",
    "leak":
        "lost vacuum | losing vacuum | dropping vacuum | hissing | came through the seam | losing about | losing a"
        " bit of vacuum | vacuum dropping | vacuum 's dropping",
    "warp":
        "out of true | out of shape | out of flat | do n't line up | does n't line up | did n't line up | do n't"
        " meet | does n't sit flat | wo n't sit flat | rocks on the | is n't flat | is not flat | not flat | is n't"
        " square | is n't straight | is n't true",
    "tear":
        "pulled a chunk | pulled a piece | pulled off a",
    "chip":
        "lost * tip | lost * end | lost * corner | lost * edge | lost * point | lost * ear | lost a bit | lost a"
        " chunk | lost * finger | lost * toe | lost * tooth | corner stayed behind | broke off | snapped off |"
        " knocked off | knocked a * off | knocked the * off | bit missing | bits missing | stayed behind | stayed in"
        " the mould | stayed in the mold | left behind in the | snapped a * off | snapped the * off | broke a * off"
        " | broke the * off",
    "crack":
        "broke | spider cracks | stress cracks | star crack | star cracks",
    "good":
        "feels right | felt right | looks right | looking right | looked right | sounds right | just right | bang"
        " on | bob on | dead on | as it should | as it should be | dry all over | bone dry | dry to touch | hard all"
        " over | hard right through | in one piece | without a mark | without a scratch | without a hitch | hard as"
        " a rock | hard as nails | hard as glass | rock solid | off clean | lifted off clean | clean as a whistle |"
        " came out clean | like a dream | like a charm | a treat | one colour , no streaks | one colour | one color"
        " | spot on | happy with | like a mirror | like new | dead flat | sounds solid | sounded solid | tack free |"
        " tack - free | fully cured | rock hard | nice and even | nice and smooth | nice and flat | nice and clean |"
        " nice and runny | nice and hard | nice and clear | holding vacuum | holding steady | good as new | crystal"
        " clear | set hard | gone hard | gone off hard | gone off nice | gone off nicely | sharp as | did n't stick"
        " | wet out nicely | laid down nicely | touch dry | touch - dry | dry to the touch | cured right through |"
        " set solid | air all out | bubbles all out | bubbles all rose out | within tolerance | within spec | within"
        " drawing | in tolerance | rings like a bell | rang like a bell | rings true | rang true | nothing left"
        " behind | not bad | not too bad | did n't lose | never lost | lost nothing | good to go | every * there |"
        " every * present | are all there | is all there | 's all there | all present | test good | test all good |"
        " test ok | test okay | test fine | test passed | it passed | without force | without any force | without"
        " trouble | without any trouble | without fuss | without a fight | without damage | without any damage |"
        " held vacuum | holds vacuum | held the vacuum",
})  # fmt: skip
