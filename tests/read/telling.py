"""Notes for the tests of what is told in words: places, observations, reasons, cues, warnings, questions."""

from journal.read import cues, observations, places, questions, reasons, remembered, warnings, who
from journal.read.findings import Findings, Found, NoteWords
from journal.read.language import load_language
from journal.trade.material import Catalogue

ORDER = (questions, remembered, reasons, cues, warnings, places, observations, who)


def note(text: str) -> NoteWords:
    doc = load_language()(text)
    lower = tuple(token.lower_ for token in doc)
    return NoteWords(doc, lower, Catalogue(), tags=tuple(token.tag_ for token in doc))


def told(text: str, kind: str) -> list[Found]:
    """Return what is found of the kind when the concerns run in their order, each checked against its words."""
    words, found = note(text), Findings()
    for concern in ORDER:
        found.add(concern.find(words, found))
    for item in found:
        assert item.value.text == words.doc[item.start : item.end].text
        assert item.rule.split(".")[0] in (item.kind, item.kind + "s")
    return found.of(kind)


def texts(text: str, kind: str) -> list[str]:
    return [item.value.text for item in told(text, kind)]
