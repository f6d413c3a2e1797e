"""Praise: "came out lovely", "it's flush now", ", crisp throughout", "good edges", "clean as you like".

A word of praise is an observation where it is said of the work: after a verb of being or coming out, by itself
between stops, or of a quality ("finish", "edges"). "A good stir", "it's fine to leave it", "okay, next" are none.
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.phrase_ends import FILLERS, is_stop, tag_at, word_at

GOOD = frozenset(
    "lovely perfect perfectly beautiful beautifully nice nicely clean cleanly great good well brilliant"
    " brilliantly mint sweet sweetly solid smooth smoothly glossy shiny tidy crisp sharp even evenly level"
    " flawless flawlessly easy easily neatly neat fine flat clear bright alright okay ok gorgeous superb"
    " spotless awesome amazing fantastic excellent immaculate faultless ideal pristine magnificent"
    " terrific wonderful stunning impeccable grand class sound snug flush true firm silky slick"
    " straight square uniform consistent seamless better best pretty decent ace tight secure safe done ready".split()
) - {"safe", "done", "ready", "best"}
STRONG_GOOD = frozenset(
    "lovely perfect beautiful great brilliant mint crisp flawless gorgeous superb spotless good glossy solid"
    " awesome amazing fantastic excellent immaculate faultless pristine magnificent terrific wonderful"
    " stunning impeccable grand".split()
)
CAME = frozenset(
    "came come comes coming turned turns went gone looks look looked looking popped released pulled feels felt parted"
    " lifted demoulded demolded opened separated sounds sounded seems seemed flowing flowed flows peeled peels"
    " stripped dropped slid fell fits fitted close closes closed dried cured holding finished rings rang"
    " leveled levelled going holds held".split()
)
CAME_WITH = frozenset(
    "out off on down away up apart over really very pretty nice and all so quite absolutely dead back"
    " real first time a bit of the mould pattern mold clay plug"
    " master it still just super proper right together kinda".split()
)
_BEING = frozenset("'s is are was were 're been stays stayed has have had got".split()) - {"has", "have", "had", "got"}
_MORE = frozenset(
    "very really real super dead so pretty quite rather fairly absolutely nice and lovely all still nearly almost just"
    " much otherwise proper properly right mighty bloody gey some now again good a bit way lot looking also both"
    " perfectly reasonably generally mostly totally completely nearly".split()
)
_ON_THE_SPEAKER = frozenset("i we you he who what there here".split())
_TOUCHING = frozenset("finger glove fingers gloves thumb brush bucket pot hands".split())
_POINTING = frozenset("that this which".split())
_OPENERS = frozenset("good great nice sweet perfect".split())
_TALK = frozenset("okay ok alright right well even still easy clear pretty grand fine true sound".split())
_WEAK_ALONE = frozenset("even level straight square tight easy clear flat".split())
_NOT_AFTER = frozenset("to for if when that how till until than enough - before because with of".split())
_SENSED_TO = frozenset("touch hand eye finger gauge glove line".split())
_TAIL = frozenset(
    "now again so throughout all everywhere apart except bar but and as on in at along round around over under"
    " underneath by she he it they to today mostly though enough one like too both either this that"
    " straight right inside outside from after".split()
)
_QUALITIES = frozenset(
    "finish finishes edge edges detail details shine skin bond seal surface cure release colour color gloss"
    " cast casting pull one fit line lines face definition texture join joint seam impression print vacuum vac result"
    " results wet-out coverage corners corner job demould sheen copy".split()
)
_HAVING = frozenset("with has have had got gave 's there".split()) | {"and", "but"}
_TO_DO = frozenset("clean smooth sharp even level square flat clear tight neat".split())
"""Words of praise that are orders at the head of a sentence: "clean edges with acetone"."""
_PRAISING_ADVERBS = frozenset("nicely beautifully lovely perfectly cleanly brilliantly sweetly smoothly evenly".split())
_NOUNS = ("NN", "NNS", "NNP")
_WAYS = frozenset("off out up down in on over away back through after into onto across".split())
_GOING = frozenset("went going goes go gone".split())
_MERELY = frozenset("okay ok alright well fine good great easy".split())
_SIZED = frozenset(
    "long far soon well same such much many big wide thick thin deep high old fast quick large just".split()
)


def praise_at(words: NoteWords, at: int) -> tuple[int, int] | None:
    """Return the tokens of the praise whose word stands at the token, or None."""
    alike = likened_end(words, at)
    if alike is not None:
        return _grown(words, at), alike
    if word_at(words, at - 1) == "too" or (words.lower[at] == "straight" and word_at(words, at + 1) in _WAYS):
        return None
    if _is_attribute(words, at):
        return _quality(words, at)
    came = came_from(words, at)
    if came is not None:
        mere = came == at - 1 and words.lower[came] in _GOING and words.lower[at] in _MERELY
        return None if mere else (came, at + 1)
    return _said_of_work(words, at) or _well_done(words, at) or _alone(words, at)


def came_from(words: NoteWords, at: int) -> int | None:
    """Return the token of "came", "turned" and the like that lead to the word ("came out streaky"), or None."""
    lower, i = words.lower, at - 1
    while i >= 0 and at - i < 6 and lower[i] not in CAME and (lower[i] in CAME_WITH or lower[i] in GOOD):
        i -= 1
    return i if i >= 0 and lower[i] in CAME else None


def likened_end(words: NoteWords, at: int) -> int | None:
    """Return the end of "flat as a board", "clean as you like", "slick as" from its adjective, or None."""
    lower = words.lower
    if word_at(words, at + 1) != "as" or lower[at] in _SIZED or words.tags[at][0] not in "JRNV":
        return None
    after = at + 2
    if after >= len(lower) or is_stop(words, after) or lower[after] == ",":
        return after
    if lower[after : after + 2] in (("you", "like"), ("they", "come"), ("new",)):
        return after + 2
    if lower[after] in ("anything", "hell", "fuck", "ever", "new", "before"):
        return after + 1
    end = after
    while end < after + 5 and tag_at(words, end) in ("DT", "PRP$", "JJ", "POS", "NN"):
        if tag_at(words, end) == "NN" and tag_at(words, end + 1) not in ("NN", "NNS", "POS", "HYPH"):
            return end + 1
        end += 1
    return end + 1 if tag_at(words, end) == "NNS" else None


def _is_attribute(words: NoteWords, at: int) -> bool:
    """Whether the word goes on to a noun or another word of praise: "good stir", "nice and flat"."""
    after, tag = word_at(words, at + 1), tag_at(words, at + 1)
    if after in ("now", "today", "tonight", "all", "bar", "apart", "except"):
        return False
    if after == "straight" and word_at(words, at + 2) in _WAYS:
        return False
    joined = after == "and" and (tag_at(words, at + 2) in ("NN", "JJ") or word_at(words, at + 2) in GOOD)
    return tag in (*_NOUNS, "VBG", "CD") or joined or after in GOOD or (tag == "JJ" and tag_at(words, at + 2) in _NOUNS)


def _quality(words: NoteWords, at: int) -> tuple[int, int] | None:
    """ "Good edges", "nice clean finish", where the sentence says them of the piece."""
    lower, noun = words.lower, at + 1
    while noun < at + 4 and (lower[noun : noun + 1] == ("and",) or tag_at(words, noun) in ("JJ", "NN", "RB", ",")):
        if word_at(words, noun) in _QUALITIES:
            break
        noun += 1
    if word_at(words, noun) not in _QUALITIES or tag_at(words, noun + 1) in (*_NOUNS, "CD"):
        return None
    start = at
    while start > 0 and (lower[start - 1] in _MORE - {"and"} or lower[start - 1] in GOOD or lower[start - 1] == "a"):
        start -= 1
    opens = start == 0 or is_stop(words, start - 1) or lower[start - 1] in (",", "and", "but")
    if not opens and lower[start - 1] not in _HAVING:
        return None
    if start == at and opens and lower[at] in _TO_DO and (words.tags[at][0] == "V" or lower[at] == "clean"):
        return None
    return (at if lower[start] == "a" else start), noun + 1


def _said_of_work(words: NoteWords, at: int) -> tuple[int, int] | None:
    """ "It's flush now", "the edges are fine", "pull 2's fine"; not "I'm good", "it's fine to leave it"."""
    lower, start = words.lower, _grown(words, at)
    helper = start - 1
    if helper < 0 or lower[helper] not in _BEING or not _closes(words, at + 1):
        return None
    subject = word_at(words, helper - 1)
    if subject in _ON_THE_SPEAKER or subject in _TOUCHING or (subject in _POINTING and lower[at] not in STRONG_GOOD):
        return None
    if subject in ("", ".", ",") or (lower[helper] == "'s" and subject in ("let", "how")):
        return None
    return start, at + 1


def _closes(words: NoteWords, end: int) -> bool:
    """Whether the praise ends the clause or goes on to where and how far it holds."""
    after = word_at(words, end)
    if after == "to":
        return not _SENSED_TO.isdisjoint(words.lower[end + 1 : end + 3])
    if after == "with":
        return words.lower[end - 1] in ("flush", "level", "square")
    if after == "for":
        return word_at(words, end + 1) in ("once", "now")
    if after == "enough":
        return _closes(words, end + 1)
    return after not in _NOT_AFTER


def _well_done(words: NoteWords, at: int) -> tuple[int, int] | None:
    """ "Wet out nicely", "lifted out easy"."""
    if words.lower[at] not in _PRAISING_ADVERBS or tag_at(words, at - 1)[:1] not in ("V", "R", "I") or not at:
        return None
    if tag_at(words, at - 1) in ("IN", "RB") and tag_at(words, at - 2)[:1] != "V":
        return None
    start = at - 2 if at > 1 and tag_at(words, at - 1) in ("RP", "IN", "RB") else at - 1
    return start, at + 1


def _alone(words: NoteWords, at: int) -> tuple[int, int] | None:
    """ "Lovely." by itself, ", crisp throughout"; "good" and "okay" at the head just go on with the talk."""
    lower, start, end = words.lower, _grown(words, at), at + 1
    goes_on = end < len(lower) and not is_stop(words, end) and lower[end] != "," and lower[end] not in _TAIL
    word, headed = lower[at], start == 0 or is_stop(words, start - 1)
    apart = headed or lower[start - 1] == "," or _ends_note(words, start, end)
    if goes_on or not apart or not _closes(words, end):
        return None
    if start < at:
        return start, end
    ordered = words.tags[at][0] == "V" and word in _TO_DO
    idle = word in _TALK and not _is_qualified(words, end)
    if idle or ordered or (not headed and _only_talk_before(words, start - 1)):
        return None
    mere = word_at(words, end) in ("", ".", ",")
    if headed:
        return (start, end) if _heads(words, at, mere) else None
    return None if word in _WEAK_ALONE and mere else (start, end)


def _is_qualified(words: NoteWords, end: int) -> bool:
    """Whether plain praise is meant by what follows: "fine apart from the lip", "grand so far"."""
    return word_at(words, end) in ("apart", "except", "bar") or words.lower[end : end + 2] == ("so", "far")


def _heads(words: NoteWords, at: int, mere: bool) -> bool:
    """Whether one word of praise at the head of a sentence is meant: "Lovely.", "Firm now", not "Good, so ..."."""
    word, after = words.lower[at], word_at(words, at + 1)
    last = at > 0 and (at + 1 >= len(words.lower) or (is_stop(words, at + 1) and at + 2 >= len(words.lower)))
    talk = word in _OPENERS and after in (",", "", ".", "so", "and") and not last
    return not (word in _TO_DO or after == "," or talk or (mere and word not in STRONG_GOOD))


def _only_talk_before(words: NoteWords, comma: int) -> bool:
    """Whether nothing but fillers opens the sentence: "okay, good, so next ..."."""
    start = comma
    while start > 0 and not is_stop(words, start - 1):
        start -= 1
    return all(
        word in FILLERS or word in GOOD or word in (",", "so", "and", "now") for word in words.lower[start:comma]
    )


def _ends_note(words: NoteWords, start: int, end: int) -> bool:
    """Whether plain praise is the last word of a note without stops: "came out at twenty to ten lovely"."""
    last = end >= len(words.lower) or word_at(words, end) in ("she", "it", "now")
    if not last or words.lower[end - 1] not in STRONG_GOOD | {"clean", "nice", "smooth"}:
        return False
    return tag_at(words, start - 1) in ("NN", "NNS", "CD", "JJ", "RP") and word_at(words, start - 2) not in (
        "it",
        "and",
    )


def _grown(words: NoteWords, at: int) -> int:
    """Return the start of the praise with what strengthens it: "very nice and flat"."""
    start = at
    while start > 0 and at - start < 5 and (words.lower[start - 1] in _MORE or words.lower[start - 1] in GOOD):
        start -= 1
    while start < at and words.lower[start] in ("and", "a", "so", "but", "now", "all", "right", "well", "okay"):
        if words.lower[start] == "all":
            break
        start += 1
    return start
