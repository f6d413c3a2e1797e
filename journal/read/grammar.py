"""Tell where a word that could name an act names none: nouns, subordinate clauses, mere purposes and states."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from journal.read.findings import Findings, NoteWords
from journal.read.status_words import LATER

STOPS = frozenset(".!?;\n")
_DETERMINERS = frozenset(
    "a an the this that these those my our your his her its their some any no each every another first second third "
    "fourth fifth last next final one two three four five six other same of with for in on from by per light thin "
    "thick quick good full single final extra fresh new old whole half few more splash mixed gel wax top".split()
)
_ARTICLES = frozenset(
    "a an the this these those my our your some any no each every another of with fresh newly freshly well un half "
    "fully partly".split()
)
_AFTER_VERB = frozenset(", . in on up out over with by for at".split())
_OBJECTS = frozenset("the it them that this a an all both my our some another each every up out down on off".split())
_SUBJECTS = frozenset(
    "i we you they to will 'll should must can could would shall let's not n't never always usually na just please "
    "normally generally lets ta dont didnt wo ca it".split()
)
_OPENERS = frozenset("then and , so now next right ok okay but also - – : ; . ! ? or \n".split()) | {""}
_HOW_TO = frozenset("from with into till until slowly gently carefully lightly only evenly away towards".split())
_TOOLS = frozenset(
    "pot pots cup cups bucket buckets tub tubs stick sticks paddle table block blocks paper disc discs pad pads pen "
    "agent agents brush brushes gun mop wheel line lines time bit bits mark marks ratio point rate tank room area "
    "machine press frame hole holes station".split()
)
_CAST_OF = frozenset("resin resins epoxy plaster urethane polyester".split())
_GERUND_NOT = frozenset(
    "before after when while for of without by from than with on in about until till since into".split()
)
_BY_THEN = frozenset("anything that this all lunch dinner tea breakfast work".split())
_BEGUN = frozenset("start started starting begin began begun".split())
_ONE = frozenset("i we".split())
_WHILE_SEEN = frozenset("from hollow solid dull sounds sounding sound gives moves".split())
_UNTIL = frozenset("before until till til once unless if than".split())
_FELT = frozenset("hot warm cold cool soft hard dry firm tacky".split())
_DROPS = frozenset("fall fell falling drop dropping come coming".split())
_LIMBS = frozenset("arms arm legs fingers knees feet back".split())
_HAPPENS = frozenset("thicken harden cure set gel kick dry".split())
_TOUCHING = frozenset("finger glove gloves fingers hand hands thumb tape".split())
_GOVERNORS = frozenset(
    "going want wants wanted need needs needed have has had got plan planning about ready used using managed forgot "
    "remember remembered started starting try tried meant wanna gonna gotta still left yet like decided be not ought "
    "supposed time going next".split()
)
_AM = frozenset("'m am 're are 's is".split())
_MAY = frozenset("ready able safe fit time enough good right".split())
_SETTING_IN = frozenset("starting beginning started just about".split())
_HOW = frozenset("wet dry hand block machine".split())
_CAST_FROM = frozenset("life body face head hand death plaster resin wax first".split())
_RUBBED = frozenset("sand sanded sanding flat flatted flatting rub rubbed".split())
_HELPERS = frozenset("did do does have has had".split())
_MENDS = frozenset("fix mend sort hurt cure".split())
_NUMBERED = frozenset("batch mix brew coat layer".split())
_TOOK = frozenset("took taken takes spent".split())
_LEAVES = frozenset("leave leaving left let letting dry dried drying wait waited waiting cure cured".split())
_HAD = frozenset((who, had) for who in ("i", "we") for had in ("'d", "had"))
_ITSELF = frozenset("it she that they".split())
_ALONG = frozenset("thrown added stirred chucked mixed blended folded put laid".split())
_NAMING = frozenset("DT JJ NN NNS CD PDT RB VBN PRP$ IN".split())
_BEEN = frozenset("was were been got i we it them".split())
_BEHIND_A_NAME = (("CD",), (".",), (",",), ("IN",), ("RP",), ("RB",))
_LETTING = frozenset("let make leave have letting leaving".split())


def is_noun_here(words: NoteWords, i: int, end: int, form: str) -> bool:
    """Tell whether a word that may be a verb is a noun or an adjective where it stands."""
    before = words.lower[i - 1] if i else ""
    after = words.lower[end] if end < len(words.lower) else ""
    tag = words.tags[i]
    bidden = form == "base" and after in _HOW_TO and (i == 0 or before in STOPS)  # "Roll from the middle out"
    if after == "'d" or bidden or _is_in_two_words(words, i, after, form):
        return False
    if form == "ing":
        return _is_gerund(words, i, before, after)
    if form == "ed":
        if after in ("mix", "mixture") and before in _OPENERS:
            return True
        return before in _ARTICLES and after not in _AFTER_VERB and (tag != "VBD" or before in ("the", "a", "of"))
    if before == "it" and (i < 2 or words.lower[i - 2] not in _LETTING):
        return tag[:2] != "VB" or tag == "VB"
    if (words.lower[i] == "cast" and before in _CAST_FROM) or (form == "base" and _is_named_so(words, i, after, end)):
        return True  # "rinsed the life cast", "a mix of", "batch two", "the hull plug"
    counted = before in ("and", "then") and words.tags[end : end + 1] == ("CD",)  # "drilled it and FIT eight bolts"
    if before in _SUBJECTS or (before in _OPENERS and (tag[0] == "V" or after in _OBJECTS)) or counted:
        return False
    return before in _DETERMINERS or after in _TOOLS or tag[0] != "V"


def _is_compounded(words: NoteWords, i: int, after: str) -> bool:
    """Tell whether it is the last noun of a name: "the hull PLUG"; not "have the lad WAX the flange"."""
    named = i > 1 and words.tags[i - 1] in ("NN", "NNP") and words.lower[i - 2] in _DETERMINERS
    let = i > 2 and words.lower[i - 3] in _LETTING
    return named and not let and words.tags[i + 1 : i + 2] in _BEHIND_A_NAME and after not in ("off", "out")


def _is_named_so(words: NoteWords, i: int, after: str, end: int) -> bool:
    return _is_compounded(words, i, after) or after == "of" or (words.lower[i] in _NUMBERED and _is_number(words, end))


def _is_in_two_words(words: NoteWords, i: int, after: str, form: str) -> bool:
    """Tell whether a verb is said in two words: "it was wet out", "going to wet sand it"."""
    before = words.lower[i - 1] if i else ""
    wet_out = words.lower[i] == "wet" and after in ("out", "through") and before in _BEEN
    return wet_out or (form == "base" and i > 1 and before in _HOW and words.lower[i - 2] in _SUBJECTS)


def _is_gerund(words: NoteWords, i: int, before: str, after: str) -> bool:
    """Tell whether an -ing form is a noun: "casting resin", "before sanding", not "I'm after dusting it down"."""
    told = (before == "by" and _BEGUN & set(words.lower[max(0, i - 6) : i])) or (
        before == "after" and i > 1 and words.lower[i - 2] in _AM
    )
    cast = words.lower[i] == "casting" and after in _CAST_OF
    timed = after in _TOOK and (i == 0 or before in STOPS | {",", "and"})  # "rolling took an hour"
    return cast or timed or (before in _GERUND_NOT and not told) or after in _TOOLS or before in _DETERMINERS


def _is_number(words: NoteWords, i: int) -> bool:
    return (
        i < len(words.tags) and words.tags[i] == "CD" and words.lower[i + 1 : i + 2] in ((), ("'s",), ("is",), (",",))
    )


class _Verb(NamedTuple):
    """A verb where it stands: its token, its word, the one after it, two before it and seven before it."""

    words: NoteWords
    found: Findings
    head: int
    word: str
    after: str
    before: tuple[str, ...]
    near: tuple[str, ...]

    @property
    def infinitive(self) -> bool:
        """Whether "to" stands before it."""
        return self.before[-1:] == ("to",)


def is_no_act(words: NoteWords, found: Findings, head: int) -> bool:
    """Tell whether the verb at `head` is no act that was done, planned or advised."""
    lower = words.lower
    after = lower[head + 1] if head + 1 < len(lower) else ""
    verb = _Verb(words, found, head, lower[head], after, lower[max(0, head - 2) : head], lower[max(0, head - 7) : head])
    return any(rule(verb) for rule in _NO_ACT)


def _is_subordinate(verb: _Verb) -> bool:
    """ "Before you drill it", "once the gel has cured": it only dates or limits another act."""
    lower = verb.words.lower
    for i in range(verb.head - 1, max(-1, verb.head - 7), -1):
        if lower[i] == "before" and lower[i + 1] in _BY_THEN and verb.word != "goes":
            return False
        seen_when = lower[i] == "when" and (lower[i + 1] in _ONE or (i and lower[i - 1] in _WHILE_SEEN))
        if lower[i] in _UNTIL or seen_when:
            cue = verb.found.at("cue", i)
            return cue is None or cue.end > verb.head
        if lower[i] in _OPENERS or lower[i] in STOPS:
            return False
    return False


def _is_of_a_time(verb: _Verb) -> bool:
    """ "Four hours to cure", "ready to demould", "demould time": it says what a time is for."""
    if not verb.infinitive:
        return verb.after in ("time", "times", "date", "day")
    if verb.before[0] in _MAY and "no" not in verb.near[-4:]:
        later = not LATER.isdisjoint(verb.words.lower[verb.head + 1 : verb.head + 6])
        return not later and not any(verb.head < m.start < verb.head + 8 for m in verb.found.of("moment"))
    return bool(verb.found.at("duration", verb.head - 2)) and _TOOK.isdisjoint(verb.near)


def _is_helper(verb: _Verb) -> bool:
    return verb.word in _HELPERS and verb.after in ("n't", "not")


def _is_state(verb: _Verb) -> bool:
    """ "Stuck" seen, "starting to thicken", "hot to touch", "the door open"."""
    if verb.word == "stuck" and verb.found.at("observation", verb.head):
        return True
    if verb.infinitive and (verb.before[0] in _FELT or (verb.word in _HAPPENS and verb.before[0] in _SETTING_IN)):
        return True
    if verb.word == "wet" and verb.after in _RUBBED:
        return True  # "wet sand it"
    return verb.before[-1:] in (("door",), ("window",))


def _is_talk(verb: _Verb) -> bool:
    """ "Testing, testing", "wait, ...", "I reckon ..."."""
    follows = verb.words.lower[verb.head + 1 : verb.head + 3]
    if verb.word == "checking" and (follows[:1] in (("is",), ("checking",), ("one",)) or follows == (",", "is")):
        return True
    if verb.word == "testing" and (verb.after in ("testing", "one", ",") or "testing" in verb.before):
        return True
    if verb.word == "wait" and verb.after == "," and (not verb.before or verb.before[-1] in STOPS):
        return True
    if {"'ll", "will", "going", "gonna"}.intersection(verb.near[-3:]):
        return False
    return not {"reckon", "think"}.isdisjoint(verb.near[-4:])


def _is_of_nothing(verb: _Verb) -> bool:
    """ "Nothing comes away", "a finger came away clean", "had not been stirred in"."""
    if "nothing" in (verb.near if verb.word in _MENDS else verb.near[-4:]) or verb.before[-1:] in (
        ("none",),
        ("anything",),
    ):
        return True
    lower = verb.words.lower
    beside = (*verb.near, *lower[verb.head + 1 : verb.head + 5]) if verb.near[-1:] == ("n't",) else verb.near
    if verb.word in ("came", "comes", "come") and not _TOUCHING.isdisjoint(beside):
        return True
    if verb.word in ("touch", "touches") and verb.before[-1:] == ("nobody",):
        return True
    return verb.near[-3:] == ("had", "n't", "been")


def _is_relative(verb: _Verb) -> bool:
    """ "With a brush I'd CUT short": it tells which thing is meant."""
    i = verb.head
    return verb.near[-2:] in _HAD and i > 2 and verb.words.tags[i - 3] in ("NN", "NNS")


def _is_aside(verb: _Verb) -> bool:
    """ "While it's soaking", "not waiting around": nothing was done."""
    for i in range(max(0, len(verb.near) - 4), len(verb.near)):
        if (
            verb.near[i] in ("while", "whilst")
            and i + 1 < len(verb.near)
            and (verb.near[i + 1] in _ITSELF or verb.word.startswith("wait"))
        ):
            return True
    if verb.word in _DROPS and not _LIMBS.isdisjoint(verb.near):
        return True  # "my arms are about to fall off"
    idle = verb.word in ("waiting", "hanging") and verb.after in ("around", "about")
    return idle and not {"not", "n't", "no"}.isdisjoint(verb.near[-3:])


def _is_of_each(verb: _Verb) -> bool:
    """ "Each one left till it went clear", "letting each go off": how coats were laid, no wait of its own."""
    after = verb.words.lower[verb.head + 1 : verb.head + 4]
    return verb.word in _LEAVES and "each" in (*verb.near[-2:], *after)


def _is_along_with(verb: _Verb) -> bool:
    """ "Mixed it WITH some loose strands THROWN in": it belongs to the act before it."""
    if verb.word not in _ALONG or "with" not in verb.near[-6:-1]:
        return False
    since = verb.head - 1
    while verb.words.lower[since] != "with":
        if verb.words.tags[since] not in _NAMING:
            return False
        since -= 1
    return True


_NO_ACT: tuple[Callable[[_Verb], bool], ...] = (
    _is_subordinate, _is_of_a_time, _is_helper, _is_state, _is_talk, _is_of_nothing, _is_of_each,
    _is_along_with,    _is_relative, _is_aside,
)  # fmt: skip


def is_purpose(words: NoteWords, head: int, since: int) -> bool:
    """Tell whether a "to" before the verb says what the act before it was for: "ran a bead round TO SEAL it"."""
    before = words.lower[max(since, head - 4) : head]
    return before[-1:] == ("to",) and STOPS.isdisjoint(words.lower[since:head]) and _GOVERNORS.isdisjoint(before)
