"""Where sentences end in running words without marks: dictation, and speech that a recogniser wrote down as one breath.

Only what opens a sentence of the trade in any wording counts: a verb in the past with its object, a subject with its
verb, counted layers or coats, a rule ("never ..."), a casting by its number. A place that is not certain is left alone.
"""

from __future__ import annotations

from itertools import pairwise

from journal.read.senses import verb_forms

_MARKS = frozenset(".!?;\n…")
_LEAST = 12  # words in a row without a mark before any end is looked for
_LEAST_BETWEEN = 24  # where others are marked
_APART = 3  # words between two ends
_OBJECTS = frozenset(
    "it them that 'em the a an her him my our both all half some this these each another number photos pictures".split()
)
_PARTICLES = frozenset("on in out up down off over round back away".split())
_GOES_ON = frozenset(
    "and then but so or to with of for from by at in into onto the a an my our your his her this that these those "
    "was were is are 's been be have has had 've 'd got just also not n't only well freshly newly about who which "
    "where when while if because cos cause since as than till until til before after once like what how why i we he "
    "she they you it's nor plus being getting never always un re still finally carefully all already going gonna na "
    "'ll 'm 're will would should could can must may might let".split()
)
_LINKS = frozenset(
    "and so but or because cos cause since that where when if what how why till until til before after once then "
    "while as which who than reckon think say says said tell told know hope hopes guess sure like whatever wherever "
    "whenever let lets for with of to in at by from about does do did is are was were has have had will would should "
    "could can the a an this my our".split()
)
_SUBJECTS = frozenset("i we he she they".split())
_THINGS = frozenset("it that there this".split())
_AUXILIARIES = frozenset("'s 'm 've 'll 're 'd is was are were am will have has had did do does gon".split())
_HELD = frozenset("up back still due going in off out ready".split())
_STATED = frozenset("shop room shed humidity temperature temp resin gel gelcoat rubber silicone latex".split())
# "The platinum SILICONE is ..." opens with its article.
_KINDS = frozenset(
    "platinum tin laminating casting infusion brushing epoxy polyester urethane polyurethane ester addition".split()
)
_KEPT = frozenset("mould mold jacket frame tool part mask hull tank plug wax pva resin oven".split())
_BE = frozenset("'s is was are were went gelled".split())
_OF_SUBJECT = frozenset("the this that first second last our".split())
_COUNTED = frozenset("layer layers coat coats ply plies".split())
_RULES = frozenset("never always".split())
_DAYS = frozenset("tomorrow tonight today next".split())
_CASTS = frozenset("pull cast casting".split())
_ENDS_WITH = ("N", "C", "R", "J")  # nouns, numbers, adverbs, adjectives
_BECAUSE = frozenset("because cos cause since that which who where when if till until before after once as".split())
_MEASURES = frozenset("weight volume percent".split())
_ALONE = frozenset("demoulded demolded opened popped".split())
_WENT = frozenset("gelled went kicked cured came took got set".split())
_SUBORDINATE = frozenset("if when once while whenever unless before until till because since where".split())
_LED_TO = _SUBORDINATE | {"or", "so", "how", "what", "cos"}
_GIVEN = frozenset("give gives gave given giving cut".split())
_LAST = frozenset("it them on off out in down up over that him her back one there away again now".split())
_BEING = frozenset(
    "'s is was are were 've has have had 'll will goes went came comes looks needs wants started".split()
)
_NAMED_FIRST = frozenset("the my our each both one another".split())
_LEADING = frozenset("tomorrow today tonight now later otherwise next".split())
_LEADING_TIMES = frozenset({("next", "time"), ("next", "one"), ("this", "morning"), ("this", "afternoon")})
_BIDDEN = frozenset("leave let keep give mind watch remember".split())
_YOU = frozenset("want must should need have ca do never always".split())
_AGAIN = frozenset({("same", "again"), ("same", "mix"), ("same", "amounts"), ("same", "batch")})
_SOME = frozenset("one two three four a some couple only small tiny slight little few no".split())
_FAULTS = frozenset(
    "void voids pinhole pinholes bubble bubbles chip chips crack cracks wrinkle wrinkles tear tears fisheye fisheyes "
    "scratch scratches dent dents delamination bridging print-through".split()
)
_JOINED = frozenset("and so then but or by".split())
_NO_END = _LINKS | _GOES_ON
_HELPING = _BE | _AUXILIARIES | _BEING | _GIVEN | {"let", "got", "get", "put", "took", "take"}


def ends(lower: tuple[str, ...], tags: tuple[str, ...]) -> list[int]:
    """Return the tokens that open a sentence with no mark before them, in order.

    `lower` are the lower-cased words of a note and `tags` their fine part-of-speech tags, one a token.
    """
    out: list[int] = []
    since = 0
    for start, end in _stretches(lower):
        since = start
        for i in range(start + 1, end):
            if i - since >= _APART and _may_end(lower, tags, i - 1) and _opens(lower, tags, i, end):
                if _tells(lower[since:i], tags[since:i]):
                    out.append(i)
                since = i
    return out


def _tells(lower: tuple[str, ...], tags: tuple[str, ...]) -> bool:
    """Tell whether words tell something by themselves, and do not only lead in: "for the first cast I mixed ..."."""
    leads_in = lower[0] in _SUBORDINATE or (tags[0] == "IN" and not any(tag[0] == "V" for tag in tags))
    return not leads_in or not _COUNTED.isdisjoint(lower)


def _stretches(lower: tuple[str, ...]) -> list[tuple[int, int]]:
    """Return the stretches of tokens without a mark that are long enough to hold several sentences."""
    marks = [i for i, word in enumerate(lower) if word in _MARKS or word == "," or "\n" in word]
    edges = [-1, *marks, len(lower)]
    least = _LEAST if marks[-1:] in ([], [len(lower) - 1]) and len(marks) < 2 else _LEAST_BETWEEN
    return [(a + 1, b) for a, b in pairwise(edges) if b - a > least]


def _may_end(lower: tuple[str, ...], tags: tuple[str, ...], i: int) -> bool:
    """Tell whether a sentence may end with the token."""
    done = tags[i] in ("VBN", "VBD") and i > 0 and lower[i - 1] in ("is", "was", "'s", "were", "are")
    done = done or (tags[i][0] == "V" and _is_whole(lower, tags, i))
    return done or lower[i] in _LAST or (tags[i][:1] in _ENDS_WITH and lower[i] not in _NO_END)


def _is_whole(lower: tuple[str, ...], tags: tuple[str, ...], i: int) -> bool:
    """Tell whether a verb needs nothing after it: "... or it TEARS", "... so it doesn't LEAK"."""
    if lower[i] in _HELPING:
        return False
    at = i - 1
    while at > 0 and (tags[at] in ("MD", "RB") or lower[at] in ("does", "do", "did")):
        at -= 1
    return lower[at] in ("it", "they", "she") and not _LED_TO.isdisjoint(lower[max(0, at - 4) : at])


def _opens(lower: tuple[str, ...], tags: tuple[str, ...], i: int, end: int) -> bool:
    after = lower[i + 1 : min(end, i + 4)]
    if not after:
        return False
    return (
        _is_act(lower, tags, i, after)
        or _is_told(lower, tags, i, after)
        or _is_state(lower, i, after)
        or _is_counted(lower, tags, i, after)
        or _is_rule(lower, tags, i)
        or _is_lack(lower, i, after)
        or _is_of_a_thing(lower, tags, i, end)
        or _is_seen(lower, tags, i, after)
        or (lower[i], after[0]) in _AGAIN
    )


def _is_act(lower: tuple[str, ...], tags: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """A verb of the trade in the past, with what it is done to: "... on the flange | TOUCHED IT with a knuckle"."""
    form = verb_forms().get(lower[i], ("", ""))[1]
    if form != "ed" or lower[i - 1] in _GOES_ON or tags[i][0] != "V" or _has_subject(lower, tags, i):
        return False
    if lower[i - 1] in _MEASURES or (after[0] in ("at", "after") and lower[i] in _ALONE):
        return True
    at = 1 if after[0] in _PARTICLES else 0
    return _is_object(after[at : at + 1], tags[i + 1 + at : i + 2 + at])


def _has_subject(lower: tuple[str, ...], tags: tuple[str, ...], i: int) -> bool:
    """Tell whether what stands before a verb is its subject: "because the boy POURED it", "number five HAD a void"."""
    led = not _BECAUSE.isdisjoint(lower[max(0, i - 4) : i - 1]) or "then" in lower[max(0, i - 3) : i - 1]
    led = led or (lower[i - 1] in _THINGS | _SUBJECTS and lower[i - 2] in _JOINED)
    return led or (lower[i] in ("had", "has") and tags[i - 1] in ("CD", "NNP"))


def _is_object(word: tuple[str, ...], tag: tuple[str, ...]) -> bool:
    return bool(word) and (word[0] in _OBJECTS or tag[0] == "CD")


def _is_told(lower: tuple[str, ...], tags: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """A subject and its verb: "... was tacky | I MIXED 800 grams", "... at the top | IT GELLED in ten minutes"."""
    if lower[i - 1] in _LINKS:
        return False
    if _leads(lower, i) or _bids(lower, tags, i, after[0]):
        return True
    lead = 2 if lower[i - 2 : i] in _LEADING_TIMES else 1 if lower[i - 1] in _LEADING else 0
    led = lead and lower[i - lead - 1] in _JOINED  # "and now it's ..."
    if led or (lower[i] in _THINGS and lower[i - 1] in ("on", "in") and after[0] in _BE):
        return False  # "hot life on that's ten minutes"
    if lower[i] in ("going", "gon") and after[0] in ("to", "na"):
        return True
    if lower[i] not in _SUBJECTS | _THINGS:
        return False
    if after[0] in _AUXILIARIES or tags[i + 1] == "MD":
        return True
    if lower[i] in _SUBJECTS | _THINGS and after[0] in _WENT:
        return True
    return lower[i] in _SUBJECTS and tags[i + 1] == "VBD" and _is_object(after[1:2], tags[i + 2 : i + 3])


def _bids(lower: tuple[str, ...], tags: tuple[str, ...], i: int, after: str) -> bool:
    """What is to be done: "... minutes | LEAVE IT a full hour", "... | YOU WANT to wait"."""
    told = lower[i] in _BIDDEN and after in ("it", "them", "that", "the") and tags[i] in ("VB", "VBP")
    return told or (lower[i] == "you" and after in _YOU)


def _leads(lower: tuple[str, ...], i: int) -> bool:
    """A time that leads a sentence in: "... at the horn | NEXT TIME I'll ...", "... | NOW IT'S ..."."""
    at = i + 2 if lower[i : i + 2] in _LEADING_TIMES else i + 1 if lower[i] in _LEADING | _DAYS else i
    follows = lower[at : at + 2]
    return at > i and lower[i - 1] not in _JOINED and follows[:1] != () and follows[0] in _SUBJECTS | {"you"}


def _is_of_a_thing(lower: tuple[str, ...], tags: tuple[str, ...], i: int, end: int) -> bool:
    """A thing and what it is or does: "... 14 minutes | THE BOYS STARTED", "... there | ONE DRY PATCH WAS there"."""
    if lower[i] not in _NAMED_FIRST or lower[i - 1] in _LINKS | _PARTICLES | {"it"} or tags[i - 1][0] == "V":
        return False
    at = i + 1
    while at < min(end, i + 5) and tags[at][0] in "NJ" and lower[at] not in _BEING:
        at += 1
    return i + 1 < at < end - 1 and lower[at] in _BEING and lower[at + 1] not in _GOES_ON - _PARTICLES - {"the", "a"}


def _is_seen(lower: tuple[str, ...], tags: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """A fault that was seen: "... a treat | ONE LITTLE CHIP at the corner"."""
    led = lower[i - 1] in _SOME | {"got"} or (lower[i] == "no" and tags[i - 1][0] != "N")
    if lower[i] not in _SOME or led:
        return False
    at = next((n for n, word in enumerate(after) if word in _FAULTS), None)
    if at is None or after[at : at + 2] == ("scratch", "that"):
        return False
    return all(tags[i + 1 + n][0] in "JND" or after[n] == "of" for n in range(at))


def _is_state(lower: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """What is told of the shop or the stuff: "... on this one | SHOP'S 24", "... | POT LIFE IS ten minutes"."""
    lead = 1 if lower[i] in _OF_SUBJECT else 0
    words = (lower[i], *after)[lead:]
    if words[:2] == ("pot", "life"):
        return True
    if words[:1] and words[0] in _CASTS:
        return words[1:2] == ("number",) or (words[1:2] != () and words[1].isdecimal())
    if words[:1] and words[0] in _KEPT and words[1:2] == ("'s",) and words[2:3] and words[2] in _HELD:
        return True
    return len(words) > 1 and words[0] in _STATED and words[1] in _BE and lower[i - 1] not in _KINDS


def _is_counted(lower: tuple[str, ...], tags: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """Counted layers or coats of something: "... with acetone | FIVE COATS OF wax"."""
    before = tags[i - 1][:1] in ("N", "J") or lower[i - 1] in _LAST - {"on", "in", "up"}
    before = before and _GIVEN.isdisjoint(lower[max(0, i - 8) : i])
    return tags[i] == "CD" and after[0] in _COUNTED and after[1:2] == ("of",) and before


def _is_lack(lower: tuple[str, ...], i: int, after: tuple[str, ...]) -> bool:
    """A thing left out: "... till the white was gone | NO TISSUE IN THIS one"."""
    after = lower[i + 1 : i + 6]
    at = next((n for n, word in enumerate(after) if word in ("in", "on")), None)
    follows = lower[i + 2 + at : i + 3 + at] if at else ()
    return lower[i] == "no" and follows in (("this",), ("it",), ("that",), ("these",))


def _is_rule(lower: tuple[str, ...], tags: tuple[str, ...], i: int) -> bool:
    """A rule or a thing left undone: "... the corner | DON'T ever mix", "... | HAVEN'T sanded it yet"."""
    if lower[i - 1] in _GOES_ON or lower[i - 1] in _SUBJECTS | _THINGS | {"you", "please"}:
        return False
    if lower[i] in ("do", "have", "did", "has") and lower[i + 1] in ("n't", "not"):
        return True
    return lower[i] in _RULES and tags[i + 1] in ("VB", "VBP")
