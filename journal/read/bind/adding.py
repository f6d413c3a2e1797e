"""Whether a clause without a verb only adds to the act before it: "with 1.25 % catalyst", "and two on the flange"."""

from __future__ import annotations

from journal.read.bind.draft import Draft
from journal.read.bind.view import families_in
from journal.read.families import MAIN, family_of
from journal.read.findings import NoteWords
from journal.read.segments import Clause

_SHORT = 6
_WITH_MORE = ("clean", "repair", "fill")
_EXTRA = (("extra",), ("more",), ("additional",), ("further",))
_WHERE = frozenset("on for in round over at along across under up".split())
_DOWN = frozenset("on down laid over then".split())


def only_adds(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether an actless clause only adds to the act before it: "with 1.25 % catalyst", "and tissue"."""
    first = next((w for w in words.lower[clause.start : clause.end] if w not in (",", "and", "-")), "")
    wetted = current.action == "laminate" and bool(clause.of("amount"))  # "one layer of mat, with two kilos of resin"
    if first in ("otherwise", "or", "else") or (first in ("with", "using") and (current.said or wetted)):
        return True
    tools = "with" in words.lower[current.start : current.end] and current.said and words.lower[clause.start] == "and"
    counted = any(item.value.count is not None or item.value.coat for item in clause.of("layer"))
    more = (
        clause.of("material")
        and current.action in _WITH_MORE
        and (current.action == "clean" or not clause.of("amount"))
    )
    if tools and more and not counted and clause.end - clause.start <= _SHORT:
        return True  # "repaired the tear with latex and a scrap of burlap"
    if _is_its_second(words, current, clause):
        return True
    if current.action in ("repair", "fill") and current.said and _is_more_of_it(current, clause):
        return True
    if current.action in ("cut", "repair") and current.said and clause.of("layer") and not clause.of("moment"):
        return not any(one in _DOWN for one in words.lower[clause.start : clause.end])  # "cut the kit: four of mat"
    if (
        current.action in ("mix", "weigh")
        and families_in(words, clause) & {"filler", "pigment"}
        and clause.of("amount")
    ):
        return True
    alone = clause.end - clause.start <= 3 and not any(clause.of(kind) for kind in ("layer", "amount", "place"))
    return current.said and bool(clause.of("material")) and alone


def _is_its_second(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether the catalyst goes with a resin weighed by another act: "wet it out with a gallon and 2 % of it"."""
    amounts, families = clause.of("amount"), families_in(words, clause)
    if not (current.said or current.action == "laminate") or not amounts or clause.of("ratio") or clause.of("layer"):
        return False
    main = {family_of(m.value.name, words) for m in current.of("material")} & MAIN
    weighed = any(item.value.unit in ("g", "ml") for item in current.of("amount"))
    shared = all(item.value.unit == "percent" for item in amounts)
    if families == {"second"}:
        return bool(main) and (weighed or shared)
    return families == {"water"} and "plaster" in main and not weighed and current.sentence == clause.sentence


def _is_more_of_it(current: Draft, clause: Clause) -> bool:
    """Tell whether the parts of what was used are told: "mended with epoxy putty, fifty of part A and fifty of B"."""
    mine = {item.value.name for item in current.of("material")}
    return bool(clause.of("amount") and clause.of("material")) and all(
        item.value.part is not None and item.value.name in mine for item in clause.of("material")
    )


def repeats_layer(words: NoteWords, current: Draft, clause: Clause) -> bool:
    """Tell whether the clause says a count again for another place: "four coats on the face, and two on the flange"."""
    told = clause.act or clause.of("layer") or clause.of("material") or clause.status != current.status
    if told or not current.of("layer"):
        return False
    whole = [n for n in clause.of("number") if n.value.low <= 12 and n.value.low.denominator == 1]
    ends = [n.end + (words.lower[n.end : n.end + 1] in _EXTRA) for n in whole]  # "one extra at the keel"
    counts = [end for end in ends if words.lower[end : end + 1] and words.lower[end] in _WHERE]
    return bool(counts and clause.of("place"))
