"""Words that need no repair: everyday English, and the plain words of a workshop.

Written for this project. A word of this list is taken as heard unless the hearing itself doubted it.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from spacy.lang.en.stop_words import STOP_WORDS

from journal.read.language import load_language

_EVERYDAY = """
able about above accept according account across act actual add afraid after afternoon again against age ago
agree ahead air alive all allow almost alone along already also although always am amount an and angle angry
animal another answer any anybody anyone anything anyway apart apparently appear apple april area aren't arm
around arrive art ask asleep at august aunt autumn away awful baby back bad bag ball bar bare base basic
basket bath bathroom be bean bear beat beautiful because become bed bedroom beef been beer before began
begin behind being believe bell belong below bend beneath best bet better between beyond big bike bill bird
birthday bit bite black blank bless blind block blood blow blue board boat body boil bold bone book boot
border bore born boss both bother bottle bottom bought bowl box boy brain branch brave bread break breakfast
breath bridge brief bright bring broad broke broken brother brought brown build building built bump burn
burnt burst bus business busy but butter button buy by bye cake call calm came camera can can't candle cap
car card care careful carefully carry case catch caught cause center centre certain certainly chain chair
chalk chance change charge chase cheap check cheese child choice choose church circle city clean clear
clearly clever climb clock close clothes cloud club coat coffee coin cold collect color colour come
comfortable common company compare complete completely consider contain continue control cook cool copper
copy corner correct cost cotton cough could couldn't count country couple course cover crack crazy cream
cross crowd cry cup cupboard cut daily damage damp dance danger dark date daughter day dead deal dear
december decide deep degree desk did didn't die difference different difficult dig dinner direct direction
dirt dirty dish do doctor does doesn't dog doing don't done door double doubt down drag draw drawer drawn
dream dress drew dried drink drip drive drop drove dry due during dust duty each ear early earn earth ease
easily east easy eat edge effort egg eight eighteen eighty either electric eleven else empty end enemy
engine enough enter entire equal escape especially even evening event ever every everybody everyone
everything everywhere exact exactly example excellent except excuse exercise expect expensive explain extra
eye face fact fail fair fairly fall false family famous far farm fast fat father fault favour fear february
feel feeling feet fell fellow felt few field fifteen fifth fifty fight figure fill final finally find fine
finger finish fire firm first fish fit five fix flat flew float floor flow flower fly fold follow food fool
foot for force foreign forest forever forget fork form forty forward found four fourteen fourth free freeze
fresh friday friend from front frost fruit full fun funny further future game garden gas gate gave general
gentle gently get gift girl give given glad go goes going gold gone good got grand grass gray great green
grey grind ground group grow guess guest guide had hadn't hair half hall hammer hand handle hang happen
happy hard harder hardly has hasn't hat hate have haven't having he head health hear heard heart heat heavy
height held hello help her here hers hid hide high hill him his hit hold hole holiday home honest hope horse
hospital hot hotel hour house how however huge hundred hung hungry hurry hurt husband ice idea if ill
imagine important impossible in inch include indeed inside instead interest into iron island isn't it its
itself january job join joke july jump june just keep kept key kick kid kill kind kitchen knee knew knife
knock know known lack ladder lady laid lake lamp land language large last late later laugh law lay lazy lead
leaf leak learn least leather leave led left leg lemon lend length less lesson let letter level library lie
life lift light like likely line lip list listen little live load local lock long look loose lose lost lot
loud love low luck lucky lunch machine mad made main make man manage many map march mark market marry mass
match matter may maybe me meal mean meant measure meat meet melt member mend mention met metal middle might
mild mile milk million mind mine minute mirror miss mistake mix mixed moment monday money month moon more
morning most mother mouse mouth move much mud music must my nail name narrow national nature near nearly
neat necessary neck need needle neither nervous never new news next nice niece night nine nineteen ninety no
nobody noise none nor normal north nose not note nothing notice november now nowhere number obvious
obviously occasion october odd of off offer office often oil ok okay old on once one only onto open opposite
or orange order ordinary other ought our out outside oven over own pack page paid pain paint pair pan pants
paper parcel parent park part party pass past paste path patient pay peace pen pencil people pepper perfect
perhaps person phone photo pick picture piece pile pin pink pint pipe place plain plan plane plant plate
play please plenty pocket point poke police polish polite pool poor position possible post pot potato pound
pour powder power practice prefer prepare present press pressure pretty prevent price print private probably
problem produce promise proper properly protect proud prove public pull pump pure purple push put quality
quarter queen question quick quickly quiet quite race rag rain raise ran range rare rather raw reach read
ready real really reason receive recent recently recipe red regular remain remember remind remove rent
repair repeat replace reply report rest result return rich ride right ring rise risk river road rock roll
roller roof room root rope rough round row rub rubbish ruin rule run rush sad safe said salt same sand sat
saturday save saw say scale scared school science scissors scrape scratch sea search season seat second
secret see seem seen self sell send sense sensible sent separate september serious serve service set settle
seven seventeen seventy several shade shadow shake shall shame shape share sharp she sheet shelf shell shine
ship shirt shock shoe shook shoot shop short shot should shoulder shouldn't shout show shower shut sick side
sign silver similar simple simply since sing single sink sir sister sit six sixteen sixty size skin sky
sleep slice slide slight slightly slip slow slowly small smart smell smile smoke smooth snow so soap soft
soil sold some somebody someone something sometimes somewhere son song soon sore sorry sort sound soup south
space spare speak special speed spell spend spent spill spit split spoil spoke spoon sport spot spread
spring square squeeze stable staff stage stain stair stand standard star start state station stay steady
steal steam steel steep step stick sticky stiff still stir stock stomach stone stood stop store storm story
straight strange stream street strength stretch strike string strip strong stuck student study stuff stupid
such sudden suddenly sugar suggest suit summer sun sunday supper supply suppose sure surface surprise sweep
sweet swim switch table tail take taken talk tall tank tap tape taste taught tax tea teach team tear teeth
telephone tell temperature ten tend tent term terrible test than thank that the their them then there
thermometer these they thick thin thing think third thirteen thirty this those though thought thousand
thread three threw through throw thumb thursday ticket tidy tie tight till time tin tiny tip tired title to
today toe together told tomorrow tongue tonight too took tool tooth top total touch toward towards towel
town toy trade train travel tray tree trick trim trip trouble truck true trust try tube tuesday turn twelve
twenty twice twist two type ugly umbrella uncle under understand unless until up upon upper upset upside us
use used useful useless usual usually valley value van various vast vegetable very view village visit voice
wait wake walk wall want war warm warn was wash wasn't waste watch water wave way we weak wear weather
wednesday week weigh weight welcome well went were weren't west wet what whatever wheel when where whether
which while whip white who whole whose why wide wife wild will win wind window wine wing winter wipe wire
wise wish with within without woke woman won't wonder wood wooden wool word wore work world worn worry worse
worst worth would wouldn't wrap write wrong wrote yard yeah year yellow yes yesterday yet you young your
yours zero
"""
_WORKSHOP = """
acanthus afternoon's ah alligator alright anticlockwise apprentice armature balcony barrier basically batch
bead beetle bench blade bloody blooming blush bowl brace bracket bridging brilliant bristle bubble bucket
bung cardboard cast casting cavity ceiling cheers chip chisel clamp clockwise coarse colder column cone
container corners cornice cracked crap crazing crease crisp crumbly cure cured curing cut-off daft damp
decimal definitely delaminate dent dentil detail diagonal dimple disc dolly drape drill drum edges
egg-and-dart er eventually extractor faff fan fettle fiddly file filing fill film fine finial finish fisheye
flake flip flood flush fluting foil fold foot frame frieze fuzzy gap gauge gel gelled gelling glaze gloss
glossier glossy glove gloves glue gonna gotta grain gram grams grand grease grinder grit groove gun halfway
halves heater hinge hmm hook hopefully horizontal hose humid humidity hygrometer immediately increase jug
kerosene key kiln kilo kilos kinda lads lap layer leak lefthand lid lightly lion lip liter litre locator
luckily lump lumpy maker mallet mark mask master mate matt matte meanwhile measure meter metre micron midway
mil mill millilitre millimetre mitre mixer mixing mold morning's mould nasty nearly nib nice niche nick nope
nozzle numb nut o'clock offcut ogee oh originally ornament ounce overlap overnight oversize paddle pail
panel paw peel percent percentage perimeter pilaster pinch pinhole pit plane plastic pliers plinth plug
pocket podgy porosity pottery previously primer profile promote proper proud puddle pull putty quarter rag
rasp ratio rebate recess register relief rib rig righthand rim ripple rod rosette rough roughly router
rubbish ruler run runny rust sag sagged sample sander sanding sandpaper saw scales scallop scoop scrap screw
scroll scrolls scruffy scuff seal seam section sediment shade shim shiny shoulder shrink shrinkage side
sideways skim slot sludge slump slurry smear smell snag snug soak sod soften sorta spacer spatula speck
spike spiral spirit splash splinter splodge sponge spot-on spray spreader sprue squeegee stack stain staple
stir stirrer stodgy straightaway strand streak streaks streaky strip strut studs sunk sunken surplus swag
syringe ta tack tacked tacky tan tear template tested testing texture theater theatre thermo thickness tidy
tile tilt timber tin tool topside trace trim trowel tub tumble tweezers uh um undercut underneath underside
upright urn vac vacuum vent vents vertical void voids volute wad wanna warp washer waste wedge weight wiggle
wobble wobbly wrinkle yep yield zip
"""
ORDINARY = frozenset(_EVERYDAY.split()) | frozenset(_WORKSHOP.split()) | frozenset(STOP_WORDS)

_ENDINGS = (
    ("ies", "y"), ("ied", "y"), ("iest", "y"), ("ier", "y"), ("ily", "y"), ("ing", ""), ("ing", "e"),
    ("ed", ""), ("ed", "e"), ("es", ""), ("s", ""), ("ly", ""), ("er", ""), ("er", "e"), ("est", ""),
    ("est", "e"), ("y", ""), ("y", "e"), ("ness", ""), ("ful", ""), ("less", ""),
)  # fmt: skip


@lru_cache(maxsize=20_000)
def is_ordinary(word: str) -> bool:
    """Return whether a lower-case word, or the word it is an ending of, is an everyday one."""
    return len(word) < 2 or not word.isalpha() or is_of(word, ORDINARY)


@lru_cache(maxsize=20_000)
def is_english(word: str) -> bool:
    """Return whether a lower-case word, or the word it is an ending of, stands in the English word list.

    The list is that of the language pipeline's lemmatizer (WordNet's index, some 80,000 words).
    """
    return is_of(word, _dictionary())


def is_of(word: str, listed: frozenset[str]) -> bool:
    """Return whether a lower-case word, or the word it is an ending of, is listed."""
    if word in listed:
        return True
    for ending, instead in _ENDINGS:
        if word.endswith(ending):
            stem = word[: -len(ending)] + instead
            if stem in listed or (len(stem) > 3 and stem[-1] == stem[-2] and stem[:-1] in listed):
                return True
    return False


@cache
def _dictionary() -> frozenset[str]:
    lemmatizer: Any = load_language().get_pipe("lemmatizer")
    index, exceptions = (lemmatizer.lookups.get_table(name) for name in ("lemma_index", "lemma_exc"))
    words = frozenset(word for table in index.values() for word in table)
    return words | frozenset(word for table in exceptions.values() for word in table) | ORDINARY
