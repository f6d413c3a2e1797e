"""Find the acts of the trade: which words of a note say that something is, was or will be done."""

from __future__ import annotations

from journal.read import pulls
from journal.read.acts_around import REACH, SaidVerb, around, is_of_several
from journal.read.acts_patterns import LABELS, PLAIN_VERBS
from journal.read.acts_settled import settled
from journal.read.causing import causer
from journal.read.families import marks
from journal.read.findings import ActSaid, Findings, Found, NoteWords
from journal.read.grammar import STOPS, is_no_act, is_noun_here, is_purpose
from journal.read.sayings import Said, sayings
from journal.read.segments import told_tokens
from journal.read.senses import Around, meaning, verb_forms

_MEANS = 5
_IS = frozenset("'s is are was fully properly nicely".split())
_SEEING = frozenset("find notice spot".split())
_GOVERNING = frozenset({"let", "leave", "keep"})
_LEADING_IN = frozenset("go put get take".split())
_SAID_OF = frozenset("i we and then , . ; just 've".split())
_TAKING = frozenset("take get pop knock pull lift have bang turn strip".split())
_PUMPING = frozenset("pump pull draw suck vac".split())
_CHAMBER = frozenset("chamber jar degasser".split())
_UNDER_PRESSURE = frozenset({"autoclave", "clave"})
_BEFORE_A_THING = frozenset("a the some with of in into using from under".split())
_BIDDING = frozenset("always never n't not to 'll please should must just".split())
_COATS = frozenset({"gel", "top", "flow", "skim", "tie", "sand"})
_NEXT = frozenset("then , and can could ca going gonna gotta".split())
_THE = frozenset("a an the it them that this both every your my our each".split())
_REMAINING = frozenset("what whatever nothing anything little much none some more".split())
_FIRST_HALVES = frozenset("post de re pre un lay wet tack".split())


def _compound(lower: tuple[str, ...], i: int) -> tuple[str, int]:
    """Return the verb written in two words or with a hyphen from token i ("post - cure"), and its end."""
    if lower[i] not in _FIRST_HALVES or i + 1 >= len(lower):
        return lower[i], i + 1
    known, hyphen = verb_forms(), lower[i + 1] == "-"
    at = i + 2 if hyphen else i + 1
    if at < len(lower) and (hyphen or lower[i] == "post") and lower[i] + lower[at] in known:
        return lower[i] + lower[at], at + 1
    return lower[i], i + 1


def _candidates(words: NoteWords, found: Findings) -> list[SaidVerb]:
    """Return the words that stand as verbs, outside of names and reasons."""
    known, out = verb_forms(), []
    told, seen = told_tokens(words, found), _seen(words, found)
    named = _tokens(found, "material")
    at = 0
    while at < len(words.lower):
        word, end = _compound(words.lower, at)
        hit = known.get(word)
        i, at = at, end
        if word == "left" and (found.at("place", i) or not _REMAINING.isdisjoint(words.lower[max(0, i - 2) : i])):
            continue  # "binned what was LEFT"
        if hit is None or i in told or (i in seen and i and words.lower[i - 1] not in _SAID_OF):
            continue
        verb, form = hit
        in_name = i in named and (not words.tags[i].startswith("V") or i - 1 in named or i + 1 in named)
        if in_name and _is_ordered(words, i, form):
            out.append(SaidVerb(i, end, verb, form))
            continue
        if (
            in_name
            or (form == "ed" and _describes(words, named, i))
            or (form == "base" and words.lower[end : end + 1] == ("-",) and words.tags[end + 1 : end + 2] != ("CD",))
            or _is_named(words, i, end, verb, form)
        ):
            continue
        out.append(SaidVerb(i, end, verb, form))
    return out


def _is_named(words: NoteWords, i: int, end: int, verb: str, form: str) -> bool:
    """Tell whether the word is a noun or an adjective here, and no verb: "on the SLING rack"."""
    if verb in PLAIN_VERBS:
        thing = words.tags[end : end + 1] == ("NN",)
        return form == "base" and bool(i) and words.lower[i - 1] in ("a", "an", "the") and thing
    return is_noun_here(words, i, end, form) and not causer(words, i, form)


def _is_ordered(words: NoteWords, i: int, form: str) -> bool:
    """Tell whether a material's name is a verb here: "always SOAP a mould", "never WAX it", "then GEL COAT it"."""
    lower = words.lower
    first = i - 1 if lower[i] == "coat" and lower[i - 1 : i] and lower[i - 1] in _COATS else i
    bidden = first and lower[first - 1] in (_BIDDING if first == i else _BIDDING | _NEXT)
    return form == "base" and bool(bidden) and lower[i + 1 : i + 2] != () and lower[i + 1] in _THE


def _describes(words: NoteWords, named: set[int], i: int) -> bool:
    """Tell whether the word only describes a thing: "with thickened epoxy", "with gel coat THICKENED with silica"."""
    first = i
    while first - 1 in named:
        first -= 1
    if first < i and words.lower[i + 1 : i + 2] in (("with",), ("to",)):
        return bool(first) and words.lower[first - 1] in _BEFORE_A_THING
    return bool(i) and words.lower[i - 1] in _BEFORE_A_THING and words.tags[i + 1 : i + 2] in (("NN",), ("NNS",))


def _seen(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens of faults: "lifted off the mat" is a delamination, not an act."""
    return {
        i for x in found.of("observation")
        if x.value.kind not in ("good", "other") and "out" not in words.lower[x.end : x.end + 2]
        for i in range(x.start, x.end)
    }  # fmt: skip


def _tokens(found: Findings, *kinds: str) -> set[int]:
    return {token for item in found.of(*kinds) for token in range(item.start, item.end)}


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the acts of a note, each with the token of its verb as `head`."""
    places, verbs = marks(words, found), _candidates(words, found)
    out = pulls.numbered(words, found) + _labels(words)
    taken = {i for item in out for i in range(item.start, item.end)}
    told = _sayings(words, found, places)
    out += [_by_saying(said) for said in told if taken.isdisjoint(range(said.start, said.end))]
    pulled = {i for item in out for i in range(item.start, item.end)}
    pulled |= {v.start for v in verbs if v.verb in _LEADING_IN and v.end in {item.start for item in out}}
    swallowed = -1
    for n, verb in enumerate(verbs):
        if n == swallowed or verb.start in pulled or is_no_act(words, found, verb.start):
            continue
        if out and verb.form == "base" and is_purpose(words, verb.start, out[-1].end):
            continue
        governs = verb.verb in _GOVERNING and n + 1 < len(verbs) and _governed(words, verb.end, verbs[n + 1])
        action = _action(words, found, verb, around(words, found, places, verbs, n, governs))
        if action:
            swallowed = n + 1 if governs else -1
            out.append(_by_verb(words, verb, action))
    return settled(words, found, sorted(out, key=lambda item: item.start))


def _sayings(words: NoteWords, found: Findings, places: list[tuple[int, str]]) -> list[Said]:
    told, seen = told_tokens(words, found), _seen(words, found)
    return [
        said for said in sayings(words, places)
        if told.isdisjoint(range(said.start, said.end))
        and not is_no_act(words, found, said.start)
        and not _is_a_means(words, said)
        and not (said.form == "" and seen.issuperset(range(said.start, said.end)))
    ]  # fmt: skip


def _is_a_means(words: NoteWords, said: Said) -> bool:
    """Tell whether a saying without a verb only says with what it was done: "with a dab of petroleum jelly"."""
    before = words.lower[max(0, said.start - _MEANS) : said.start]
    since = next((i for i in range(len(before) - 1, -1, -1) if before[i] in STOPS or before[i] in (",", "and")), -1)
    return not said.form and "with" in before[since + 1 :]


def _by_verb(words: NoteWords, verb: SaidVerb, action: str) -> Found:
    """Return the act that a verb names; one had done by another starts at what had it done."""
    by = causer(words, verb.start, verb.form)
    start = by.head if by else verb.start
    form = "s" if is_of_several(words, verb.start, verb.form) else verb.form
    form = "ed" if _has_come(words, verb.start, form) else form
    value = ActSaid(action, start, by.form if by else form)
    return Found("act", start, verb.end, value, f"acts.{verb.verb}", 0.95)


def _by_saying(said: Said) -> Found:
    return Found("act", said.start, said.end, ActSaid(said.action, said.start, said.form), "acts.saying", 0.9)


def _action(words: NoteWords, found: Findings, verb: SaidVerb, around: Around) -> str | None:
    """Return the act that a verb means here; some forms of some verbs tell a time or a state instead."""
    took = verb.verb == "take" and _tells_what_it_took(words, found, verb.end)
    if took or (verb.verb in _SEEING and verb.form != "ed"):
        return None
    action = meaning(verb.verb, around)
    if action == "weigh" and verb.form == "s" and not around.families & {"resin", "second", "rubber", "gel", "plaster"}:
        return "check"  # "weighs 3.4 kilos": a thing was weighed
    counted = action == "demould" and pulls.are_counted(words, found, verb.end)
    if counted or (verb.verb in _TAKING and pulls.are_taken(words, found, verb.end)):
        return "pull"
    before = words.lower[max(0, verb.start - REACH) : verb.start]
    if action == "press" and verb.verb in _PUMPING and not _CHAMBER.isdisjoint(before):
        return "degas"
    if action == "post-cure" and not _UNDER_PRESSURE.isdisjoint(around.after):
        return "cure"
    if action in ("demould", "cure") and verb.form == "s" and verb.verb not in ("come", "pop", "go"):
        return None  # "demoulds in an hour" tells a time
    if (
        action == "cure"
        and verb.verb not in ("keep", "leave", "put")
        and (verb.form == "ed" or verb.verb == "set")
        and verb.start
        and words.lower[verb.start - 1] in _IS
    ):
        return "check"  # "the skin's cured" tells a state
    return action


def _tells_what_it_took(words: NoteWords, found: Findings, tail: int) -> bool:
    """Tell whether "took" tells a time or a batch: "took two hours", "that took one bag of plaster"."""
    amount = found.at("amount", tail)
    of = amount is not None and words.lower[amount.end : amount.end + 1] == ("of",)
    batch = amount is not None and (of or amount.value.unit in ("g", "ml"))
    return batch or found.at("duration", tail) is not None


def _governed(words: NoteWords, tail: int, verb: SaidVerb) -> bool:
    """Tell whether a verb hangs on the one before it: "left it to CURE", "let it SOAK"."""
    between = words.lower[tail : verb.start]
    return verb.form in ("base", "ing") and len(between) <= 7 and "and" not in between and "," not in between


def _labels(words: NoteWords) -> list[Found]:
    """Return the acts that label a line of a log: "Post-cure: eight hours at sixty"."""
    out = []
    for i, word in enumerate(words.lower):
        if word != ":":
            continue
        start = i
        while start > 0 and i - start < 3 and words.lower[start - 1] not in STOPS:
            start -= 1
        action = LABELS.get(" ".join(words.lower[start:i]))
        if action:
            out.append(Found("act", start, i, ActSaid(action, start), "acts.label", 0.9))
    return out


def _has_come(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether "come" is said for came: "left half COME away lovely"."""
    one = words.tags[head - 1 : head] in (("NN",), ("NNP",)) or words.lower[head - 1 : head] in (
        ("it",),
        ("she",),
        ("he",),
    )
    return form == "base" and words.lower[head] == "come" and one
