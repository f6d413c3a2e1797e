from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from journal.read.findings import Findings, Moment
from journal.read.moments import find, resolve
from tests.read.quantities import both, note, said

NOON = datetime(2026, 5, 4, 14, 10, tzinfo=timezone(timedelta(hours=1)))  # a Monday


def only(text: str) -> Moment:
    (found,) = both("moment", text)
    return found.value


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [
        ("at ten past two", 2, 10),
        ("ten minutes past two", 2, 10),
        ("quarter past nine", 9, 15),
        ("half past two", 2, 30),
        ("first coat of gel on at nine fifteen", 9, 15),
        ("half-past two", 2, 30),
        ("half eight", 8, 30),
        ("popped it at half eight", 8, 30),
        ("clamped it at quarter past and left it", None, 15),
        ("it was five past when I mixed it", None, 5),
        ("at quarter to nine", 8, 45),
        ("a quarter to one", 12, 45),
        ("at ten to twelve", 11, 50),
        ("at ten to two", 1, 50),
        ("it's twenty five to six", 5, 35),
        ("five minutes to ten", 9, 55),
        ("poured at two fifteen", 2, 15),
        ("at two oh five", 2, 5),
        ("at ten ten", 10, 10),
        ("at oh seven thirty", 7, 30),
        ("oh-six-hundred hours", 6, 0),
        ("1430 hours", 14, 30),
        ("fourteen thirty hours", 14, 30),
        ("at 14h30", 14, 30),
        ("five and twenty past ten", 10, 25),
        ("at quarter of six", 5, 45),
        ("at twelve noon", 12, 0),
        ("at fourteen oh five", 14, 5),
        ("14:05", 14, 5),
        ("at 14:05", 14, 5),
        ("at 1405", 14, 5),
        ("2.15 pm", 2, 15),
        ("at 2.15", 2, 15),
        ("2:15pm", 2, 15),
        ("at three", 3, 0),
        ("three o'clock", 3, 0),
        ("by four o'clock", 4, 0),
        ("due at six", 6, 0),
        ("noon", 12, 0),
        ("at midday", 12, 0),
        ("around three.", 3, 0),
        ("before five.", 5, 0),
    ],
)
def test_a_time_of_day_is_read(text, hour, minute):
    assert (only(text).hour, only(text).minute) == (hour, minute)


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [("ten after two", 2, 10), ("quarter after nine", 9, 15), ("quarter of three", 2, 45), ("five of four", 3, 55)],
)
def test_american_clock_talk_is_read(text, hour, minute):
    (found,) = said("moment", text, "en-US")
    assert (found.value.hour, found.value.minute) == (hour, minute)


def test_a_span_of_the_day_has_a_start_and_an_end():
    start, end = both("moment", "from 8 to 10 this morning")
    assert (start.value.hour, start.value.half, start.value.hint) == (8, "am", "start")
    assert (end.value.hour, end.value.half, end.value.hint) == (10, "am", "end")
    assert both("amount", "from 8 to 10 this morning") == []


@pytest.mark.parametrize(
    ("text", "half", "day"),
    [
        ("2.15 pm", "pm", None),
        ("2 p.m.", "pm", None),
        ("eight a.m.", "am", None),
        ("at nine this morning", "am", 0),
        ("this morning at nine", "am", 0),
        ("at eight in the evening", "pm", None),
        ("tonight at eight", "pm", 0),
        ("last night at ten", "pm", -1),
        ("tomorrow morning at eight", "am", 1),
        ("yesterday at five", None, -1),
        ("at five yesterday afternoon", "pm", -1),
        ("tomorrow at eight", None, 1),
    ],
)
def test_the_day_and_its_half_are_taken_along(text, half, day):
    assert (only(text).half, only(text).day) == (half, day)


@pytest.mark.parametrize(
    ("text", "seconds", "hint"),
    [
        ("started ten minutes ago", -600, "start"),
        ("an hour ago", -3600, None),
        ("half an hour ago", -1800, None),
        ("finished a couple of hours ago", -7200, "end"),
        ("a moment ago", 0, None),
        ("due in an hour", 3600, "due"),
        ("ready in ten minutes' time", 600, "due"),
    ],
)
def test_a_time_from_now_is_an_offset(text, seconds, hint):
    assert (only(text).offset_s, only(text).hint) == (seconds, hint)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("started at ten past two", "start"),
        ("finished at half eight", "end"),
        ("due at six", "due"),
        ("by four o'clock", "due"),
        ("popped it at half eight", None),
        ("I just quit at noon", "end"),
        ("should be good to demould at one", "due"),
        ("poured the rest at, um, two thirty", None),
        ("finished filling the left wing at 10:25", "end"),
        ("tipped it in at one end at quarter past nine", None),
        ("last coat went on at ten past nine", "end"),
        ("last coat needs to be on by twenty past four", "due"),
        ("the last one came out at five", None),
        ("demoulded just before ten", None),
        ("finished bang on eleven", "end"),
        ("scheduled for 2.15 this afternoon", None),
        ("going to trim it about one", None),
        ("should be good to demould at about seven", "due"),
    ],
)
def test_the_words_before_it_tell_whose_moment_it_is(text, hint):
    assert only(text).hint == hint


@pytest.mark.parametrize(
    "text",
    ["ten to one by weight", "mixed at ten to one by weight", "ten to twelve minutes", "two to three layers",
    "at 4 to 1",
     "at two percent", "at nineteen degrees", "two fifteen grams", "100:28", "4:1", "mixed three fifty",
     "two by four", "2 by 2 twill",
     "at one end", "catalyst at two", "weighed in at three fifty", "at three points", "at 450", "half a litre",
     "three and a half", "forty minutes", "by weight",
     "two hours at one fifty", "6 hrs at 8", "an hour at one twenty", "brushed on about two",
     "it ain't eight o'clock", "the heater's been going since six", "just now",
     "this morning about quarter past"],
)  # fmt: skip
def test_what_is_no_time_of_day_is_none(text):
    assert both("moment", text) == []


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("opened it at eight and the other at ten past", [(8, 0), (8, 10)]),
        ("started at twenty-five to ten, all on by five to", [(9, 35), (9, 55)]),
        ("finished at eleven, no, make that ten to", [(11, 0), (10, 50)]),
    ],
)
def test_a_time_without_an_hour_takes_the_one_before_it(text, times):
    assert [(item.value.hour, item.value.minute) for item in both("moment", text)] == times


def test_a_time_that_may_be_a_ratio_is_flagged():
    (found,) = said("moment", "ten to two")
    (ratio,) = said("ratio", "ten to two")
    assert found.flags[0].field == "clock"
    assert ratio.flags[0].field == "ratio"
    assert max(found.confidence, ratio.confidence) < 0.5


@pytest.mark.parametrize(
    ("moment", "status", "expected"),
    [
        (Moment(2, 10), "done", "2026-05-04T14:10"),
        (Moment(2, 15), "done", "2026-05-04T14:15"),  # five minutes of slack
        (Moment(2, 30), "done", "2026-05-04T02:30"),
        (Moment(2, 30), "planned", "2026-05-04T14:30"),
        (Moment(8, 30), "done", "2026-05-04T08:30"),
        (Moment(8, 30), "planned", "2026-05-04T20:30"),
        (Moment(9, 0, "am"), "planned", "2026-05-05T09:00"),
        (Moment(9, 0, "pm"), "done", "2026-05-03T21:00"),
        (Moment(16, 0), "done", "2026-05-03T16:00"),
        (Moment(16, 0), "planned", "2026-05-04T16:00"),
        (Moment(16, 0), "advised", "2026-05-04T16:00"),
        (Moment(6, 0, hint="due"), "done", "2026-05-04T18:00"),
        (Moment(3, 0, hint="end"), "done", "2026-05-04T15:00"),  # "we finish at three"
        (Moment(10, 0, hint="end"), "done", "2026-05-04T10:00"),
        (Moment(12, 0, "pm"), "done", "2026-05-04T12:00"),
        (Moment(12, 0, "am"), "done", "2026-05-04T00:00"),
        (Moment(0, 0), "planned", "2026-05-05T00:00"),
        (Moment(8, 0, "am", 1), "planned", "2026-05-05T08:00"),
        (Moment(5, 0, None, -1), "done", "2026-05-03T17:00"),
        (Moment(None, 15), "done", "2026-05-04T14:15"),
        (Moment(None, 30), "done", "2026-05-04T13:30"),
        (Moment(None, 5), "planned", "2026-05-04T14:05"),
        (Moment(None, 0), "planned", "2026-05-04T15:00"),
        (Moment(offset_s=-600), "done", "2026-05-04T14:00"),
        (Moment(offset_s=3600), "planned", "2026-05-04T15:10"),
    ],
)
def test_a_moment_is_the_nearest_that_fits(moment, status, expected):
    assert resolve(moment, NOON, status) == datetime.fromisoformat(expected + "+01:00")


def test_an_offset_counts_real_time_over_the_change_of_clocks():
    london = ZoneInfo("Europe/London")
    after = datetime(2026, 3, 29, 2, 30, tzinfo=london)  # clocks went from 01:00 to 02:00
    assert resolve(Moment(offset_s=-3600), after, "done") == datetime(2026, 3, 29, 0, 30, tzinfo=london)


def test_a_recording_without_a_zone_is_refused():
    with pytest.raises(ValueError, match="time zone"):
        resolve(Moment(2, 10), datetime(2026, 5, 4, 14, 10), "done")  # noqa: DTZ001


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("we'll have her off the plug Friday morning about nine", 4),
        ("waxed it on Friday at nine", -3),
        ("Monday at nine", 0),
        ("gonna demould her Monday at nine", 7),
    ],
)
def test_a_day_of_the_week_is_counted_from_the_recording(text, day):
    (found,) = find(note(text, recorded_at=NOON), Findings())
    assert (found.value.hour, found.value.day) == (9, day)


@given(st.integers(1, 12), st.sampled_from([0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55]), st.booleans())
def test_any_time_spelled_out_reads_back(hour, minute, digital):
    minutes = "" if not minute else f"oh {num2words(minute)}" if minute < 10 else num2words(minute)
    text = (
        f"at {hour}:{minute:02d}"
        if digital
        else f"poured at {num2words(hour)} {minutes or chr(111) + chr(39) + 'clock'}"
    )
    (found,) = said("moment", text)
    assert (found.value.hour, found.value.minute) == (hour, minute)


@given(st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1)), st.integers(1, 12), st.integers(0, 59))  # noqa: DTZ001
def test_a_resolved_time_shows_the_clock_that_was_said(recorded, hour, minute):
    recorded = recorded.replace(tzinfo=ZoneInfo("Europe/London"))
    for status in ("done", "planned", "advised"):
        at = resolve(Moment(hour, minute), recorded, status)
        assert (at.hour % 12, at.minute) == (hour % 12, minute)
        assert abs(at - recorded) <= timedelta(hours=13)
