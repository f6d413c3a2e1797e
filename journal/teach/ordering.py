"""Questions that ask for the order of acts. Pure.

Only acts that stand once in a build are asked for, and only such as every build taught from that has them did in
the same order: where makers differed there is no one answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from random import Random

from journal.teach.question import Option, Question
from journal.teach.sheet import Lesson, TrainingSheet
from journal.teach.taught import Taught

_LEAST, _MOST = 3, 5


def order_questions(taught: Taught, sheet: TrainingSheet, chance: Random) -> Iterator[Question]:
    """Yield a question on the order of acts that are far enough apart to be told; none when too few are."""
    lessons = _apart(taught, sheet)
    if len(lessons) < _LEAST:
        return
    chosen = sorted(chance.sample(range(len(lessons)), min(_MOST, len(lessons))))
    picked = [lessons[i] for i in chosen]
    shuffled = list(picked)
    while shuffled == picked:
        chance.shuffle(shuffled)
    letters = {lesson.number: "ABCDEFGH"[i] for i, lesson in enumerate(shuffled)}
    first = taught.builds[0].build.name
    told = ", ".join(f"{lesson.item} {lesson.done.step.act_at:%d %b %H:%M}" for lesson in picked)
    yield Question(
        key=f"order-{'-'.join(str(lesson.done.step.id) for lesson in picked)}",
        kind="order",
        asked=f"In which order was this done on {first}?",
        reason=f"On {first}: {told}.",
        evidence=tuple(lesson.voice for lesson in picked),
        options=tuple(Option(letters[lesson.number], lesson.item) for lesson in shuffled),
        letters="".join(letters[lesson.number] for lesson in picked),
    )


def _apart(taught: Taught, sheet: TrainingSheet) -> list[Lesson]:
    """Return lessons of the first build that stand for one act each, in an order that every build kept."""
    first = taught.builds[0]
    own = [lesson for lesson in sheet.lessons if lesson.done.build_key == first.key]
    counts = Counter(lesson.item for lesson in own)
    once = [lesson for lesson in own if counts[lesson.item] == 1 and lesson.done.step.record.action != "wait"]
    once.sort(key=lambda lesson: lesson.done.step.act_at)
    found: list[Lesson] = []
    for lesson in once:
        if all(_same_order(earlier, lesson) for earlier in found):
            found.append(lesson)
    return found


def _same_order(earlier: Lesson, later: Lesson) -> bool:
    """Return whether every build that has both acts did them in this order."""
    pairs = zip(earlier.steps, later.steps, strict=True)
    return all(one is None or other is None or one.act_at < other.act_at for one, other in pairs)
