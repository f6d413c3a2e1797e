"""Questions that ask whether a time is too early, inside the window or too late. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from random import Random

from journal.find.clock import Clock
from journal.find.clocks import clocks_of
from journal.review.builds import BuildRecord
from journal.review.queries import queries
from journal.teach.question import Option, Question
from journal.teach.taught import Taught
from journal.trade.material import Catalogue

EARLY, INSIDE, LATE = "too early", "in time", "too late"
_WHAT = {
    "recoat": "lay the next coat on it",
    "pot life": "still use what is in the pot",
    "gel": "still use what is in the pot",
    "demould": "open the mould",
}
_SHARES = (0.3, 0.4, 0.5, 0.6)  # how far beyond or inside, of the time itself: far enough not to be a quibble
_TO_MINUTES = timedelta(minutes=5)


def window_questions(taught: Taught, catalogue: Catalogue, confirm_below: float, chance: Random) -> Iterator[Question]:
    """Yield a question for each kind of clock of each material; one that rests on a value in doubt is not asked."""
    asked: set[tuple[str, str]] = set()
    for record in taught.builds:
        for clock in clocks_of(record.steps, catalogue, _end(record)).all:
            what = (clock.kind, clock.material)
            if clock.kind in _WHAT and what not in asked and not _in_doubt(record, clock, confirm_below):
                asked.add(what)
                yield _question(taught, record, clock, chance)


def _end(record: BuildRecord) -> datetime:
    last = max((step.act_at for step in record.steps), default=record.build.started_at)
    return max(last, record.build.started_at) + timedelta(seconds=1)


def _in_doubt(record: BuildRecord, clock: Clock, confirm_below: float) -> bool:
    steps = {step.id: step for step in record.steps}
    resting = [steps[step_id] for step_id in clock.evidence if step_id in steps]
    values = (field for step in resting for field in queries(step, confirm_below).doubtful)
    return bool(clock.doubts) or any(field.startswith(("timings.", "clock.", "conditions.")) for field in values)


def _question(taught: Taught, record: BuildRecord, clock: Clock, chance: Random) -> Question:
    answers = _answers(clock)
    answer = chance.choice(sorted(answers))
    asked_at = _rounded(_time_for(answer, clock, chance.choice(_SHARES)), clock, answer)
    options = [Option(letter, text) for letter, text in zip("ABC", (EARLY, INSIDE, LATE), strict=True)]
    steps = {step.id: step for step in record.steps}
    begun = _at(clock.started_at, clock)
    degc = f", in a shop at {clock.degc:g} °C" if clock.degc is not None else ""
    return Question(
        key=f"window-{clock.evidence[0]}-{clock.kind.replace(' ', '-')}",
        kind="window",
        asked=f"On {record.build.name} the {clock.material} was {_begun(clock)} at {begun}{degc}. You want to "
        f"{_WHAT[clock.kind]} at {_at(asked_at, clock)}. Is that too early, in time or "
        "too late?",
        reason=_reason(clock),
        evidence=tuple(taught.voice(steps[step_id]) for step_id in clock.evidence if step_id in steps),
        options=tuple(options),
        letters=next(option.letter for option in options if option.text == answer),
    )


def _begun(clock: Clock) -> str:
    return "mixed" if clock.kind in ("pot life", "gel") else "put on"


def _answers(clock: Clock) -> set[str]:
    """Return what can be right: nothing is too early for a pot, nor too late where a window never closes."""
    opens = clock.window.opens > clock.started_at
    return {INSIDE} | ({EARLY} if opens else set()) | ({LATE} if clock.window.closes is not None else set())


def _time_for(answer: str, clock: Clock, share: float) -> datetime:
    opens, closes, begun = clock.window.opens, clock.window.closes, clock.started_at
    if answer == EARLY:
        return opens - share * (opens - begun)
    if answer == LATE:
        assert closes is not None  # only such a clock can be missed
        return closes + share * (closes - begun)
    return opens + share * ((closes - opens) if closes is not None else (opens - begun))


def _rounded(at: datetime, clock: Clock, answer: str) -> datetime:
    """Return the time to five minutes, unless that would make another answer right."""
    step = _TO_MINUTES.total_seconds()
    rounded = datetime.fromtimestamp(round(at.timestamp() / step) * step, clock.started_at.tzinfo)
    said = {"early": EARLY, "open": INSIDE}.get(clock.window.state(rounded), LATE)
    return rounded if said == answer else at


def _reason(clock: Clock) -> str:
    opens, closes = clock.window.opens, clock.window.closes
    span = f"from {_at(opens, clock)}" if opens > clock.started_at else ""
    until = f"until {_at(closes, clock)}" if closes is not None else "and stays open"
    source = "as the maker said" if clock.source == "said" else f"by the catalogue ({clock.rule})"
    more = "" if clock.source == "said" else " The material's own data sheet goes before the catalogue."
    return f"Its {clock.kind} runs {' '.join(filter(None, (span, until)))}, {source}.{more}"


def _at(moment: datetime, clock: Clock) -> str:
    """Return an instant as the wall clock of the note would show it: windows reckon in UTC."""
    local = moment.astimezone(clock.started_at.tzinfo)
    return f"{local:%H:%M} on {local.day} {local:%b}"
