"""Notes for the tests of what things are called: materials, parts, layers, lots, mishearings."""

from functools import cache
from importlib.resources import files

from journal.read import amounts, conditions, durations, layers, lots, materials, moments, numbers, ratios, sounds
from journal.read.catalogue import catalogue_from_toml
from journal.read.findings import Findings, Found, MaterialSaid, NoteWords
from journal.read.language import load_language
from journal.trade.material import Catalogue

BEFORE = (numbers, ratios, moments, durations, conditions, amounts)
ORDER = (sounds, materials, layers, lots)


@cache
def shipped() -> Catalogue:
    return catalogue_from_toml(shipped_text())


def shipped_text() -> str:
    return files("journal").joinpath("catalogue.toml").read_text(encoding="utf-8")


def note(
    text: str, catalogue: Catalogue | None = None, locale: str = "en-GB", probabilities: tuple[float, ...] = ()
) -> NoteWords:
    doc = load_language()(text)
    lower, tags = tuple(token.lower_ for token in doc), tuple(token.tag_ for token in doc)
    return NoteWords(doc, lower, catalogue or shipped(), locale, probabilities=probabilities, tags=tags)


def found_in(words: NoteWords) -> Findings:
    found = Findings()
    for concern in (*BEFORE, *ORDER):
        found.add(concern.find(words, found))
    return found


def names(text: str, catalogue: Catalogue | None = None) -> list[str]:
    """Return the names of the materials found in the text, doubtful ones left out."""
    return [item.value.name for item in materials_in(text, catalogue) if item.confidence >= 0.5]


def materials_in(text: str, catalogue: Catalogue | None = None) -> list[Found]:
    return found_in(note(text, catalogue)).of("material")


def layers_in(text: str, locale: str = "en-GB") -> list[tuple[str | None, float | None, float | None, bool]]:
    items = found_in(note(text, locale=locale)).of("layer")
    return [(v.name, _plain(v.count), _plain(v.gsm), v.coat) for v in (item.value for item in items)]


def repaired(words: NoteWords) -> list[str]:
    """Return the names and terms that sounds put in place of what was heard."""
    return [_meant(item) for item in found_in(words).of("sound")]


def _meant(item: Found) -> str:
    return item.value.name if isinstance(item.value, MaterialSaid) else item.value.term


def _plain(value: object) -> float | None:
    return None if value is None else round(float(value), 2)  # type: ignore[arg-type]
