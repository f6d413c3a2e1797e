"""Words that tell what was not done, is advised in general, or is still to come."""

from __future__ import annotations

from functools import cache

NOT_DONE = tuple(
    (
        "no need|gave up|given up|ran out|run out of|could n't be bothered|not been|never did|never got|did n't happen|"
        "n't bother|not bother|decided not|decided against|n't able|not able|no time|out of time|left off|"
        "left out|leaving out|without any|all set to|was about to|not yet|n't yet|still not|yet to|"
        "n't get round|never got|n't got round|not got round|did n't go|has n't been|have n't been|n't had|"
        "not had|should have had|could have done with|could 've done with|should 've had|would have liked|"
        "supposed to have"
    ).split("|")
)
ADVISED = tuple(
    (
        "advisable|recommended|i recommend|we recommend|i advise|preferably|prudent|wise to|tend to|"
        "the rule is|my rule is|"
        "it 's a must|a must|safest to|easier to|"
        "best to|it pays to|the trick is|as a rule|he says|she says|they say|says to|says you|said to|told me|"
        "told us|told you|wants us to|want us to|good idea to|worth|better to|rule of thumb|remember to|"
        "be sure to|make sure|be careful|try not to|try to|what we do is|what i do is|supposed to|like to|"
        "is better|are better|"
        "what i tell|what we tell|how i always|how we always|what i always|what we always|what i usually|how we do|"
        "how i do|i swear by|we swear by|'d be mad to|if it were me|if i were you|if you|when you|a good shop|you want|"
        "you need|you have to|you 've got to|do n't forget"
    ).split("|")
)
TO_YOU = tuple(
    "you want to|you need|you 've got to|you have to|you do n't want|you should|you must|you ought".split("|")
)
PLANNED = tuple(
    (
        "are to|am to|is to be|are to be|wants him to|want him to|want her to|want them to|asked him to|asked them to|"
        "told them to|told him to|told her to|due to be|aiming to|fixing to|remains to|left to|"
        "going to|gon na|about to|need to|needs to|plan is|plan to|planning|hoping to|thinking of|let 's|"
        "remind me|to do|next job|next is|next up|next time|plan :|due out|want to|wants to|still to|to go on|"
        "ready to|ready by|ready at|ready for|got to|have to|has to|wan na|got ta|the plan|intend to|"
        "meaning to"
    ).split("|")
)
FACT_PLANNED = tuple(
    (
        "set to|set for|put off|to follow|to be|to come|still to|yet to come|is booked|booked for|on the list|"
        "for tomorrow|up next|"
        "scheduled|needs another|wants another|need another|want another|needs a|wants a|need a|needs more|wants more|"
        "needs to be|has to be|must be|have to be|need to be|to go on|next is|'ll want|'ll need|will need|"
        "will want|'ll be|will be|next job|to do|plan is|the plan|going to|hoping to|need to|'ll get|will get|"
        "could do with|needs one|i need|we need|'s next|is next|next up|next time|plan :|due out|about to|due"
    ).split("|")
)
HABITS = frozenset("usually always normally generally typically tend tends ideally whenever supposed".split())
LATER = frozenset(
    "tomorrow later tonight soon monday tuesday wednesday thursday friday saturday sunday morning afternoon tea lunch "
    "weekend".split()
)
DROPPED = frozenset({("was", "going"), ("were", "going"), ("was", "meant"), ("meant", "to"), ("was", "gon")})
NEGATIONS = frozenset("n't not never dont didnt havent hasnt nobody none dinnae didnae cannae wasnae".split())
PAST = frozenset("did have has had was were 've didnt havent hasnt hadnt wasnt got is am are 'm 're 's been".split())
SAME_IN_PAST = frozenset("run hit put cut let set cast split spread fit wet shut read".split())
PRESENT = frozenset("'re 'm are am 's is".split())
TO_COME = frozenset("tomorrow tonight later".split())


def says(said: str, phrases: tuple[str, ...]) -> bool:
    """Tell whether one of the phrases stands in the words, as whole words."""
    known, here = _by_first_word(phrases), said.split()
    if known.keys().isdisjoint(here):
        return False
    padded = f" {said} "
    return any(f" {phrase} " in padded for word in here if word in known for phrase in known[word])


@cache
def _by_first_word(phrases: tuple[str, ...]) -> dict[str, list[str]]:
    out: dict[str, list[str]] = {}
    for phrase in phrases:
        out.setdefault(phrase.split()[0], []).append(phrase)
    return out
