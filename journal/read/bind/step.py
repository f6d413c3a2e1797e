"""Turn a draft into a step: its facts bound, converted and pointed back to the words."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from journal.read.bind.draft import Draft
from journal.read.bind.layers import layers_of
from journal.read.bind.lone_ratios import take_lone_ratio
from journal.read.bind.materials import Materials
from journal.read.bind.things import is_of_stuff
from journal.read.bind.told_facts import is_gel_time, is_pot_life, is_tack_time
from journal.read.bind.weights import PRONOUN, Weights
from journal.read.evidence import Witness
from journal.read.findings import Findings, Found, Moment, NoteWords, TermHeard
from journal.read.moments import resolve
from journal.record import (
    TIMING_KINDS,
    ClockTime,
    Condition,
    Flag,
    Layer,
    Observation,
    Phrase,
    Ratio,
    Step,
    Timing,
)

_TIMING_OF = {"mix": "mix", "thicken": "mix", "tint": "mix", "wait": "wait", "cure": "cure", "post-cure": "post-cure",
              "demould": "demould", "pull": "demould"}  # fmt: skip
_AHEAD = frozenset("'ll will should ready due be needs need must has have".split())
_BEGUN = frozenset("started began kicked".split())
_UNDER_WAY = frozenset("'m am 're are 's is".split())
_TILL = frozenset("till til until".split())
_ROUGHLY = (("about",), ("around",), ("roughly",))
_DONE_BY = frozenset("on in off out down up done dry tacky finished closed open".split())
_ELAPSED = frozenset("still yet been after since".split())
_TOOK = frozenset("took taken takes call at".split())
_SOAKS = frozenset("soak soaked soaking slake slaked slaking steep steeped".split())


@dataclass(slots=True)
class Binder:
    """Binds the drafts of one note."""

    words: NoteWords
    found: Findings
    witness: Witness
    flags: list[Flag] = field(default_factory=list)

    def step(self, draft: Draft) -> Step:
        """Return the draft's step; general words and pronouns are left for the memory to resolve."""
        self.flags = []
        take_lone_ratio(draft)
        layers, used = layers_of(self.words, draft)
        uses = Weights(self.words, self.found).uses(draft, used)
        materials = Materials(self.words, self.found, self.witness, self.flags)
        head = draft.acts[0] if draft.acts else None
        first, last = (head.start, head.end) if head else (draft.start, draft.end)
        return Step(
            action=draft.action,
            status=draft.status,
            evidence=self.witness.of(first, last, draft.rule, draft.confidence),
            materials=materials.of(draft, uses, layers),
            ratio=self._ratio(draft),
            layers=tuple(self._layer(item) for item in layers),
            timings=tuple(
                self._timing(draft, item)
                for item in draft.of("duration")
                if not self._is_from_now(draft, item) and not self._is_feared(item)
            ),
            clock=self._clock(draft),
            conditions=self._conditions(draft),
            places=self._phrases(draft, "place"),
            reasons=self._phrases(draft, "reason"),
            cues=self._phrases(draft, "cue"),
            warnings=self._phrases(draft, "warning"),
            observations=tuple(
                Observation(item.value.kind, item.value.text, self._evidence(item)) for item in draft.of("observation")
            ),
            flags=tuple(dict.fromkeys(self.flags)),
            pull=self._pull(draft) if draft.action == "pull" else None,
            who=next((item.value.text for item in draft.of("who")), None),
        )

    def _evidence(self, item: Found) -> Any:
        self.flags.extend(item.flags)
        return self.witness.of_found(item)

    # ---- the other facts -------------------------------------------------------------------------------

    def _ratio(self, draft: Draft) -> Ratio | None:
        said = [r for r in draft.of("ratio") if not self._is_time(draft, r)]
        if not said:
            return None
        item = next((r for r in said if r.value.run_together is None), said[0])
        if item.value.run_together is not None:
            return None
        return Ratio(item.value.parts, self._evidence(item), item.value.by)

    def _layer(self, item: Found) -> Layer:
        flags = tuple(Flag("layers", f.why) if f.field == "materials" else f for f in item.flags)
        evidence = self._evidence(item if item.value.coat else replace(item, flags=flags))
        return Layer(item.value.name or PRONOUN, evidence, item.value.count, item.value.gsm)

    def _timing(self, draft: Draft, item: Found) -> Timing:
        kind = item.value.hint or _TIMING_OF.get(draft.action, "work")
        span = self.words.lower[draft.start : draft.end]
        if item.value.hint is None and draft.action == "check":
            told = (("pot life", is_pot_life), ("gel", is_gel_time), ("tack", is_tack_time))
            kind = next((name for name, is_told in told if is_told(span)), kind)
        if kind == "work" and draft.action == "check" and item.value.hint is None and not _ELAPSED.isdisjoint(span):
            kind = "wait"  # "still soft after three hours"
        if kind in ("work", "gel") and draft.action == "check" and self._came_tacky(draft, item):
            kind = "tack"
        if kind == "demould" and draft.action == "wait":
            kind = "wait"  # "leave it an hour before you strip it"
        heard = next((t for t in draft.of("sound") if isinstance(t.value, TermHeard)), None)
        if heard is not None and heard.value.term in TIMING_KINDS and item.value.hint is None:
            kind = heard.value.term
            self.flags.append(Flag("timings", f'heard "{heard.value.heard}", read as {kind}'))
        if kind == "wait" and _SOAKS & set(self.words.lower[draft.start : draft.end]):
            kind = "soak"
        return Timing(kind, item.value.least, item.value.most, self._evidence(item))

    def _came_tacky(self, draft: Draft, item: Found) -> bool:
        """Tell whether a coat took so long to tack: "it's tacky, that TOOK an hour", "tacky AT forty minutes"."""
        tacky = [x.start for x in draft.of("observation") if x.value.kind == "tacky" or "tack" in x.value.text]
        if self.words.lower[item.end : item.end + 1] == ("later",) and any(at > item.end for at in tacky):
            return True  # "an hour later it was tack free"
        seen = any(at < item.start for at in tacky)
        span = self.words.lower[draft.start : item.start]
        return seen and not _TOOK.isdisjoint(span[-4:]) and _ELAPSED.isdisjoint(span)

    def _clock(self, draft: Draft) -> tuple[ClockTime, ...]:
        recorded = self.words.recorded_at
        if recorded is None:
            return ()
        out = []
        for item in draft.of("duration"):
            if draft.status == "planned" and self._is_from_now(draft, item):
                ahead = Moment(offset_s=item.value.least or item.value.most)
                out.append(ClockTime("start", resolve(ahead, recorded, "planned"), self._evidence(item)))
        for item in draft.of("moment"):
            if any(
                r.start < item.end and item.start < r.end and not self._is_time(draft, r) for r in draft.of("ratio")
            ):
                continue
            kind, moment = self._whose(draft, item)
            began = item.value.hint == "start" and not _BEGUN.isdisjoint(self._led(item, 8))
            status = "done" if began and moment.day is None else draft.status  # "started at 10:30, due out at six"
            out.append(ClockTime(kind, resolve(moment, recorded, status), self._evidence(item)))
        return tuple(out)

    def _led(self, item: Found, reach: int) -> tuple[str, ...]:
        return self.words.lower[max(0, item.start - reach) : item.start]

    def _whose(self, draft: Draft, item: Found) -> tuple[str, Moment]:
        """Return whether a moment is a start, an end or due, and the moment with what tells its day."""
        moment, kind = item.value, item.value.hint or "start"
        if kind == "end" and draft.action == "check" and not draft.said:
            moment, kind = replace(moment, hint="due"), "due"
        if kind == "end" and self._is_left_till(draft, item):
            moment = replace(moment, hint="due")  # a time to come
        if kind == "due" and draft.status == "done" and self._is_past(draft, item):
            moment, kind = replace(moment, hint="end"), "end"
        return kind, moment

    def _is_left_till(self, draft: Draft, item: Found) -> bool:
        """Tell whether what is under way is to end then: "I'm LEAVING it TILL three", "it's curing until six"."""
        acts = [act for act in draft.acts if act.start < item.start]
        under_way = bool(acts) and acts[-1].value.form == "ing" and draft.status == "done"
        lead = self.words.lower[acts[-1].start - 2 : item.start] if under_way else ()
        return not _UNDER_WAY.isdisjoint(lead) and not _TILL.isdisjoint(self.words.lower[item.start - 2 : item.start])

    def _is_feared(self, item: Found) -> bool:
        """Tell whether the time only belongs to a limit or to what would follow: "don't open it under five days"."""
        reason, warning = self.found.at("reason", item.start), self.found.at("warning", item.start)
        limit = warning is not None and (item.value.most is None or "before" in warning.value.text)
        return limit or (reason is not None and self.words.lower[reason.start] in ("or", "otherwise"))

    def _is_from_now(self, draft: Draft, item: Found) -> bool:
        """Tell whether a duration is a point ahead: "going to start the mat in twenty minutes"."""
        if item.rule == "durations.overnight" and draft.action == "check" and item.value.hint is None:
            return True  # "dropped to 55 overnight" says when
        lead = self.words.lower[max(0, item.start - 2) : item.start]
        return draft.status == "planned" and "in" in lead and item.value.hint != "demould"

    def _is_time(self, draft: Draft, item: Found) -> bool:
        """Tell whether "ten to two" is a time of day here: weights that agree make it a ratio."""
        if not any(m.start < item.end and item.start < m.end for m in draft.of("moment")):
            return False
        weights = [a.value.low for a in draft.of("amount") if a.value.low]
        if len(weights) == 2 and len(item.value.parts) == 2:
            wanted = item.value.parts[1] / item.value.parts[0]
            return bool(abs(weights[1] / weights[0] / wanted - 1) > Fraction(1, 10))
        return True

    def _is_past(self, draft: Draft, item: Found) -> bool:
        """Tell whether "by" a time is told of the past: "tacky by 10:25", not "ready by six"."""
        start = max(draft.start, item.start - 8)
        span = self.words.lower[start : item.start]
        span = span[:-1] if span[-1:] in _ROUGHLY else span
        there = span[-2:-1] and span[-2] in _DONE_BY  # "on by ten, gauge said point six"
        told = (
            draft.said
            or draft.of("observation")
            or any(t in ("VBD", "VBN") for t in self.words.tags[start : item.start])
        )
        return bool(told or there) and span[-1:] == ("by",) and _AHEAD.isdisjoint(span)

    def _conditions(self, draft: Draft) -> tuple[Condition, ...]:
        return tuple(
            Condition(item.value.kind, item.value.value, item.value.unit, self._evidence(item), item.value.of)
            for item in draft.of("condition")
            if self._holds(draft, item)
        )

    def _holds(self, draft: Draft, item: Found) -> bool:
        """Tell whether a state belongs to the step: what a warning or a question names does not."""
        if is_of_stuff(self.words, draft, item):
            return False
        warm = item.value.kind in ("temperature", "humidity") and draft.status == "done"
        kinds = ("warning", "question") if warm else ("warning", "reason", "question")
        if item.value.kind == "temperature" and draft.status == "planned":
            kinds = (*kinds, "cue")  # "I'll brush it on once the shed's above sixteen"
        return not any(self.found.at(kind, item.start) for kind in kinds)

    def _phrases(self, draft: Draft, kind: str) -> tuple[Phrase, ...]:
        return tuple(Phrase(item.value.text, self._evidence(item)) for item in draft.of(kind))

    def _pull(self, draft: Draft) -> int | None:
        numbers = [n for n in draft.of("number") if n.value.low == n.value.high and n.value.low.denominator == 1]
        given = [act for act in draft.acts if act.rule == "acts.pull-number"]
        named = next((n for n in numbers if any(act.start <= n.start < act.end for act in given)), None)
        if named is not None:
            return int(named.value.low)
        around = set("cast casting castings pull pulled number no no. # shot".split())
        for item in numbers:
            near = set(self.words.lower[max(0, item.start - 3) : item.start]) | set(
                self.words.lower[item.end : item.end + 1]
            )
            if near & around and not any(self.found.at(k, item.start) for k in ("amount", "duration", "moment")):
                return int(item.value.low)
        return None
