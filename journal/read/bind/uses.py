"""Say which material each amount is of: "400 of A", "resin 400, hardener 112", "400 and 112 hardener"."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import inf

from journal.read.families import MAIN, family_of
from journal.read.findings import Found, NoteWords

_LINKS = frozenset("of the a an that this my our your mixed some more fresh new thick thin slow fast plain good - of,"
                   "and into in with".split())  # fmt: skip
_COPULA = frozenset(
    ", : - = – at was is are 's ’s about to came comes weighs weighed out and of roughly the total".split()
)
_APART = frozenset("and with . ; ! ? lot batch tin number".split())
_PRONOUNS = frozenset("that it this them these those base".split())
_OF_IT = (("it",), ("that",))
_THAT_IS = (("that", "'s"), ("that", "is"), ("that", "was"), ("it", "was"), ("total", "of"))
_THAT_REACH = 10
_UNBOUND = 3.0


@dataclass(frozen=True, slots=True)
class Use:
    """A material with its amount, either of which may be missing; a pronoun's material is None."""

    material: Found | None
    amount: Found | None
    pronoun: int | None = None

    @property
    def start(self) -> int:
        """The first token of the use."""
        return min(item.start for item in (self.material, self.amount) if item is not None)

    @property
    def end(self) -> int:
        """The token after its last."""
        ends = [item.end for item in (self.material, self.amount) if item is not None]
        return max([*ends, (self.pronoun or 0) + 1])


def _forward(words: NoteWords, amount: Found, material: Found) -> float:
    """Return the cost of reading the material after an amount as what it is of."""
    gap = words.lower[amount.end : material.start]
    if _numbered(words, amount.end, material.start):
        return _UNBOUND * 2  # "seven hundred grams with fourteen of catalyst"
    if "of" in gap and len(gap) <= 5 and "," not in gap:
        return 0.0
    if not gap:
        return 0.5
    if set(gap) <= _LINKS and len(gap) <= 3:
        return 0.7 if "and" not in gap and "with" not in gap else 2.2
    return 2.0 if len(gap) <= 2 and _APART.isdisjoint(gap) else _UNBOUND * 2


def _backward(words: NoteWords, material: Found, amount: Found) -> float:
    """Return the cost of reading the material before an amount as what it is of."""
    gap = _without_lot(words.lower[material.end : amount.start])
    if not gap:
        return 0.6
    if gap[-2:] in _THAT_IS and len(gap) <= _THAT_REACH and family_of(material.value.name, words) in MAIN:
        return 1.5  # "the gel's on, that's seven hundred grams"
    if len(gap) == amount.start - material.end and _numbered(words, material.end, amount.start):
        return _UNBOUND * 2
    if gap == (",",):
        return 1.0
    if set(gap) <= _COPULA and len(gap) <= 4:
        return 0.4 if "and" not in gap else 1.8
    return 1.6 if len(gap) <= 3 and _APART.isdisjoint(gap) else _UNBOUND * 2


def _without_lot(gap: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words between without the lot: "tin silicone lot 0713: 850 g"."""
    if not {"lot", "batch"} & set(gap):
        return gap
    at = next(i for i, word in enumerate(gap) if word in ("lot", "batch"))
    end = next((i for i in range(at + 1, len(gap)) if gap[i] in (",", ":", ";", ".")), len(gap) - 1)
    before = gap[:at][:-1] if gap[:at][-1:] == (",",) else gap[:at]
    return before + gap[end:] if gap[end:] and gap[end] in (",", ":") else gap


def _numbered(words: NoteWords, start: int, end: int) -> bool:
    """Tell whether another number stands between: nothing is bound across it."""
    return "CD" in words.tags[start:end]


def _of_main(words: NoteWords, *pair: Found) -> float:
    """Return what it costs to read a percentage as one of the main material: it is of what is added."""
    share = any(item.kind == "amount" and item.value.unit == "percent" for item in pair)
    main = any(
        item.kind == "material"
        and (item.value.part == "A" or family_of(item.value.name, words) in MAIN)
        and item.value.part != "B"
        for item in pair
    )
    return _UNBOUND if share and main else 0.0


def bind(words: NoteWords, materials: list[Found], amounts: list[Found]) -> list[Use]:
    """Return one use for each material and amount, amounts bound to the neighbour that costs least in all.

    Each amount takes the material before it, the one after it, or none; each material one amount at most.
    The cheapest reading of the whole list wins, so that "resin 400 hardener 112" and "400 resin 112
    hardener" both come out right.
    """
    items = sorted([*materials, *amounts], key=lambda item: (item.start, item.end))
    first = next((i for i in range(len(items)) if _are_listed(words, items[i : i + 4])), None)
    if first is not None:
        one, two, of_one, of_two = items[first : first + 4]
        listed = [Use(one, of_one), Use(two, of_two)]
        return [*_bound(words, items[:first]), *listed, *_bound(words, items[first + 4 :])]
    return _bound(words, items)


def _are_listed(words: NoteWords, items: list[Found]) -> bool:
    """Tell whether two names are followed by their two amounts: "hard gypsum with water, 3 kilos to 900 grams"."""
    if [item.kind == "material" for item in items] != [True, True, False, False]:
        return False
    names, lead, amounts = (words.lower[a.end : b.start] for a, b in pairwise(items))
    joined = len(names) <= 3 and bool(names) and names[0] in ("and", "with", "to", ",", "&", "plus")
    led = lead[:1] in ((",",), (":",), ("at",), ("-",), ("in",)) and len(lead) <= 3
    return joined and led and amounts in (("and",), ("to",), (",",), ("with",), ("&",), (",", "and"))


def _bound(words: NoteWords, items: list[Found]) -> list[Use]:
    pairs = _cheapest_pairs(words, items)
    seconds = {i + 1 for i in pairs}
    uses = []
    for i, item in enumerate(items):
        if i in pairs:
            material, amount = sorted((item, items[i + 1]), key=lambda x: x.kind != "material")
            uses.append(Use(material, amount))
        elif i not in seconds:
            uses.append(Use(item, None) if item.kind == "material" else _alone(words, item))
    return uses


def _cheapest_pairs(words: NoteWords, items: list[Found]) -> set[int]:
    """Return the places i at which items i and i + 1 belong together, so that the whole list costs least."""
    cost, paired = [0.0] * (len(items) + 2), [False] * len(items)
    for i in range(len(items) - 1, -1, -1):
        alone = cost[i + 1] + (_UNBOUND if items[i].kind != "material" else 0.0)
        together = _link(words, items, i) + cost[i + 2]
        cost[i], paired[i] = min((alone, False), (together, True))
    out, i = set(), 0
    while i < len(items):
        if paired[i]:
            out.add(i)
        i += 1 + paired[i]
    return out


def _link(words: NoteWords, items: list[Found], i: int) -> float:
    """Return the cost of item i with the next one; infinite where they are no material and amount, or too far."""
    if i + 1 >= len(items) or (items[i].kind == "material") == (items[i + 1].kind == "material"):
        return inf
    amount = items[i + 1] if items[i].kind == "material" else items[i]
    if words.lower[amount.end : amount.end + 1] == ("of",) and words.lower[amount.end + 1 : amount.end + 2] in _OF_IT:
        return inf  # "hard gypsum, 100 to 30 water, 500 grams of it"
    link = _backward if items[i].kind == "material" else _forward
    cost = link(words, items[i], items[i + 1]) + _of_main(words, items[i], items[i + 1])
    return cost if cost < _UNBOUND else inf


def _alone(words: NoteWords, amount: Found) -> Use:
    """Return the use of an amount without a material: of a pronoun ("200 of that") where there is one."""
    more = words.lower[amount.end : amount.end + 1] == ("more",)
    after = words.lower[amount.end + more : amount.end + more + 3]
    if after[:3] == ("of", "the", "same"):
        return Use(None, amount, amount.end + more + 2)
    if len(after) >= 2 and after[0] == "of" and after[1] in _PRONOUNS:
        return Use(None, amount, amount.end + 1)
    return Use(None, amount)
