"""What the invented makers of `make_year` say: each sentence with its step, every value with its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from journal.record import Evidence, Layer, MaterialUse, Observation, Phrase, Step, Timing


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence, and the step that it tells."""

    text: str
    step: Step


def evidence_of(text: str, words: str) -> Evidence:
    """Return where these words stand in the sentence."""
    start = text.index(words)
    return Evidence(words, (start, start + len(words)), 0.95, "made up")


def act(verb: str, action: str, rest: str, *names: str) -> Said:
    """Say an act, with the materials of these names."""
    text = f"{verb} {rest}."
    uses = tuple(MaterialUse(name, evidence_of(text, rest)) for name in names)
    return Said(text, Step(action, "done", evidence_of(text, verb), uses))


def coated(verb: str, action: str, name: str, count: int, minutes: int) -> Said:
    """Say how many coats went on, and how long between them."""
    said = f"{count} coats of {name}"
    text = f"{verb} {said}, {minutes} minutes between coats."
    wait = Timing("wait", Fraction(60 * minutes), Fraction(60 * minutes), evidence_of(text, f"{minutes} minutes"))
    layer = Layer(name, evidence_of(text, said), Fraction(count))
    use = MaterialUse(name, evidence_of(text, said))
    return Said(text, Step(action, "done", evidence_of(text, verb), (use,), layers=(layer,), timings=(wait,)))


def brushed(verb: str, name: str, place: str) -> Said:
    """Say that one coat went on at a place."""
    text = f"{verb} one coat of {name} on the {place}."
    said = evidence_of(text, f"one coat of {name}")
    where = (Phrase(place, evidence_of(text, place)),)
    layers, uses = (Layer(name, said, Fraction(1)),), (MaterialUse(name, said),)
    return Said(text, Step("brush", "done", evidence_of(text, verb), uses, layers=layers, places=where))


def laid(stack: Sequence[tuple[str, int, int]]) -> Said:
    """Say what was laid: name, count and g/m2 of each fabric."""
    said = [f"{count} layers of {gsm} gram {name}" for name, count, gsm in stack]
    text = f"Laid {' and '.join(said)}."
    layers = tuple(
        Layer(name, evidence_of(text, words), Fraction(count), Fraction(gsm))
        for words, (name, count, gsm) in zip(said, stack, strict=True)
    )
    return Said(text, Step("laminate", "done", evidence_of(text, "Laid"), layers=layers))


def seen(kind: str, place: str) -> Said:
    """Say what was found on the opened mould, a kind of observation."""
    words = "Came off clean" if kind == "good" else f"There is {kind} on the {place}"
    text = f"{words}."
    observation = Observation(kind, words, evidence_of(text, words))
    places = () if kind == "good" else (Phrase(place, evidence_of(text, place)),)
    return Said(text, Step("check", "done", evidence_of(text, words), observations=(observation,), places=places))


def moved(step: Step, by: int) -> Step:
    """Return a step whose words stand `by` letters further on in the note."""
    if not by:
        return step

    def shifted(part: object) -> object:
        if isinstance(part, Evidence):
            return replace(part, chars=(part.chars[0] + by, part.chars[1] + by))
        if isinstance(part, tuple):
            return tuple(shifted(each) for each in part)
        if hasattr(part, "evidence"):
            return replace(part, evidence=shifted(part.evidence))  # type: ignore[type-var]
        return part

    fields = {name: shifted(getattr(step, name)) for name in Step.__dataclass_fields__}
    return Step(**fields)  # type: ignore[arg-type]
