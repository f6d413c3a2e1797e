"""Training: sheets, self-tests as they are asked and marked, progress and sign-offs, as the API sends them."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal

from pydantic import BaseModel, Field

from api.shapes.examples import RECORD, SAID_AT, example
from api.shapes.record import RecordShape
from api.shapes.views import Shape
from journal.record import step_to_json
from journal.teach.sheet import Lesson, TrainingSheet
from journal.teach.test import SelfTest


class VoiceShape(Shape):
    """Words of a note; `chars` [start, end) in its text, `audio` seconds in its recording, null when typed."""

    text: str
    build_key: str
    note_id: int
    step_id: int
    at: datetime
    who: str | None
    chars: tuple[int, int]
    audio: tuple[float, float] | None


class SayingShape(Shape):
    """A cue (until), reason (because), warning (mind), advice or something seen, as it was said."""

    kind: str
    voice: VoiceShape


class DoneShape(Shape):
    """How one build did an act: the step's record, and the places in it of the values in doubt."""

    build_key: str
    step_id: int
    record: RecordShape
    doubtful: list[str]


class LessonShape(Shape):
    """One act to be learnt; `common` says that every build that worked did it, `mistakes` count from 1."""

    number: int
    stage: str
    item: str
    done: DoneShape
    voice: VoiceShape
    builds: list[str]
    common: bool
    others: list[DoneShape]
    sayings: list[SayingShape]
    photo_ids: list[int]
    cautions: list[str]
    mistakes: list[int]


class MistakeShape(Shape):
    """What went wrong before: a fault, window, limit or query, with its steps, and what could have brought it about."""

    kind: str
    words: str
    builds: list[str]
    step_ids: list[int]
    could: list[str]
    doubts: list[str]


_VOICE = {
    "text": "Mixed 700 grams of polyester gel coat", "build_key": "niche-2", "note_id": 14, "step_id": 31,
    "at": SAID_AT, "who": "lead maker", "chars": [0, 37], "audio": [0.5, 3.1],
}  # fmt: skip
_LESSON = {
    "number": 1, "stage": "gel coat", "item": "mix: polyester gel coat and catalyst", "voice": _VOICE,
    "done": {"build_key": "niche-2", "step_id": 31, "record": RECORD, "doubtful": []},
    "builds": ["niche-2"], "common": True, "others": [], "photo_ids": [4], "mistakes": [1],
    "sayings": [{"kind": "until", "voice": _VOICE}], "cautions": ["Peroxide harms eyes: wear goggles."],
}  # fmt: skip
_MISTAKE = {
    "kind": "limit", "words": "2 coats of shellac, the other build's 3", "builds": ["niche-1"], "step_ids": [2],
    "could": [], "doubts": [],
}  # fmt: skip


class TrainingSheetShape(Shape):
    """What is taught from some builds; `lacks` says what the record cannot tell."""

    model_config = example(
        {
            "builds": ["niche-2"],
            "lessons": [_LESSON],
            "mistakes": [_MISTAKE],
            "cautions": _LESSON["cautions"],
            "lacks": [],
        }
    )

    builds: list[str]
    lessons: list[LessonShape]
    mistakes: list[MistakeShape]
    cautions: list[str]
    lacks: list[str]

    @classmethod
    def of(cls, sheet: TrainingSheet) -> TrainingSheetShape:
        """Return the shape of a training sheet."""
        return cls(
            builds=[build.key for build in sheet.builds],
            lessons=[_lesson(lesson) for lesson in sheet.lessons],
            mistakes=[MistakeShape.model_validate(mistake) for mistake in sheet.mistakes],
            cautions=list(sheet.cautions),
            lacks=list(sheet.lacks),
        )


def _lesson(lesson: Lesson) -> LessonShape:
    done, *others = (
        DoneShape(
            build_key=each.build_key,
            step_id=each.step.id,
            record=RecordShape.model_validate(step_to_json(each.step.record)),
            doubtful=sorted(each.doubtful),
        )
        for each in (lesson.done, *lesson.others)
    )
    return LessonShape(
        number=lesson.number, stage=lesson.stage, item=lesson.item, done=done, others=others,
        voice=VoiceShape.model_validate(lesson.voice), builds=list(lesson.builds), common=lesson.common,
        sayings=[SayingShape.model_validate(saying) for saying in lesson.sayings],
        photo_ids=[photo.id for photo in lesson.photos], cautions=list(lesson.cautions),
        mistakes=list(lesson.mistakes),
    )  # fmt: skip


class OptionShape(Shape):
    """A thing to choose, or to put in order, by its letter."""

    letter: str
    text: str


_QUESTION = {
    "key": "weigh-31", "kind": "weigh", "options": [], "unit": "g", "photo_ids": [],
    "asked": "niche-2 used polyester gel coat with catalyst. How many g of catalyst go to 350 g of it?",
}  # fmt: skip


class QuestionShape(Shape):
    """A question without its answer. An order takes letters, the first act first; a weight a number in `unit`."""

    key: str
    kind: str
    asked: str
    options: list[OptionShape]
    unit: str
    photo_ids: list[int]


class SelfTestShape(Shape):
    """A self-test; `lacks` says what kinds of question the record does not bear, and why."""

    model_config = example({"builds": ["niche-2"], "seed": 7, "questions": [_QUESTION], "lacks": []})

    builds: list[str]
    seed: int
    questions: list[QuestionShape]
    lacks: list[str]

    @classmethod
    def of(cls, test: SelfTest) -> SelfTestShape:
        """Return the shape of a self-test."""
        questions = [
            QuestionShape(
                key=each.key, kind=each.kind, asked=each.asked, unit=each.unit,
                options=[OptionShape.model_validate(option) for option in each.options],
                photo_ids=[photo.id for photo in each.photos],
            )
            for each in test.questions
        ]  # fmt: skip
        return cls(builds=list(test.builds), seed=test.seed, questions=questions, lacks=list(test.lacks))


class TakenShape(BaseModel):
    """Answers to a self-test, by the question's key."""

    model_config = example({"builds": ["niche-2"], "seed": 7, "apprentice": "apprentice", "answers": {"weigh-31": "7"}})

    builds: list[str] = Field(min_length=1, max_length=10)
    seed: int
    apprentice: str
    answers: dict[str, str] = Field(max_length=50)


_MARKED = {
    "question": "weigh-31", "kind": "weigh", "asked": _QUESTION["asked"], "given": "7 g", "right": True,
    "answer": "7 g", "reason": "niche-2 mixed 100 : 2 by weight, so 350 × 2 / 100 = 7 g.", "evidence": [],
}  # fmt: skip
_TEST = {
    "id": 3, "apprentice": "apprentice", "build_key": "niche-2", "builds": ["niche-2"], "seed": 7, "asked": 1,
    "right": 1, "answers": [_MARKED], "taken_at": SAID_AT,
}  # fmt: skip


class TestShape(Shape):
    """A self-test as it was marked: each answer with the reason, and the words and seconds behind it."""

    model_config = example(_TEST)

    id: int
    apprentice: str
    build_key: str
    builds: list[str]
    seed: int
    asked: int
    right: int
    answers: list[dict[str, Any]]
    taken_at: datetime


class SignOffShape(Shape):
    """A maker's word on one act, or that it is taken back."""

    model_config = example(
        {
            "id": 5, "apprentice": "apprentice", "build_key": "niche-2", "stage": "gel coat", "item": _LESSON["item"],
            "verdict": "signed", "maker": "lead maker", "remarks": "", "signed_at": SAID_AT,
        }
    )  # fmt: skip

    id: int
    apprentice: str
    build_key: str
    stage: str
    item: str
    verdict: str
    maker: str
    remarks: str
    signed_at: datetime


class NewSignOffShape(BaseModel):
    """What a maker signs off: lessons of the sheet of these builds, by number."""

    model_config = example(
        {"builds": ["niche-2"], "lessons": [1], "apprentice": "apprentice", "maker": "lead maker", "remarks": ""}
    )

    builds: list[str] = Field(min_length=1, max_length=10)
    lessons: list[int]
    apprentice: str
    maker: str
    verdict: Literal["signed", "taken back"] = "signed"
    remarks: str = ""


class TallyShape(Shape):
    """Questions of a kind: how many were asked, and how many answered right."""

    kind: str
    right: int
    asked: int


class ProgressShape(Shape):
    """One apprentice on one build; `signed` are the entries that stand, `entries` all of them."""

    model_config = example(
        {
            "apprentice": "apprentice",
            "tests": [_TEST],
            "tallies": [{"kind": "weigh", "right": 1, "asked": 1}],
            "signed": [],
            "entries": [],
        }
    )

    apprentice: str
    tests: list[TestShape]
    tallies: list[TallyShape]
    signed: list[SignOffShape]
    entries: list[SignOffShape]
