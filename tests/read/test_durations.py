from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from journal.read import durations
from journal.read.findings import Findings, Found, TermHeard
from tests.read.quantities import both, note, said


def ends(text: str) -> list:
    (found,) = both("duration", text)
    return [found.value.least, found.value.most]


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("forty minutes", 2400, 2400),
        ("about forty minutes", 2400, 2400),
        ("don't go over six hours", 0, 21600),
        ("don't recoat after twelve hours", 0, 43200),
        ("fifteen coats of latex over three days", 259200, 259200),
        ("40min", 2400, 2400),
        ("40 mins.", 2400, 2400),
        ("an hour and a half", 5400, 5400),
        ("one and a half hours", 5400, 5400),
        ("an hour and twenty", 4800, 4800),
        ("hour and twenty", 4800, 4800),
        ("an hour and twenty minutes", 4800, 4800),
        ("an hour ten", 4200, 4200),
        ("two hours thirty", 9000, 9000),
        ("half an hour", 1800, 1800),
        ("half hour", 1800, 1800),
        ("a quarter of an hour", 900, 900),
        ("three quarters of an hour", 2700, 2700),
        ("five to ten minutes", 300, 600),
        ("5-10 minutes", 300, 600),
        ("five or ten minutes", 300, 600),
        ("five, ten minutes", 300, 600),
        ("between five and ten minutes", 300, 600),
        ("ten to twelve minutes", 600, 720),
        ("left overnight", 28800, 57600),
        ("a couple of hours", 7200, 7200),
        ("at least sixteen hours", 57600, None),
        ("sixteen hours minimum", 57600, None),
        ("24 hours before it's demoulded, at least.", 86400, None),
        ("more than an hour", 3600, None),
        ("inside twenty minutes", 0, 1200),
        ("inside the twenty minutes", 0, 1200),
        ("within an hour", 0, 3600),
        ("up to an hour", 0, 3600),
        ("no more than ten minutes", 0, 600),
        ("ten minutes tops", 0, 600),
        ("two days", 172800, 172800),
        ("another ten minutes", 600, 600),
        ("ten more minutes", 600, 600),
        ("a minute or so", 60, 60),
        ("twenty odd minutes", 1200, 1200),
        ("twenty-ish minutes", 1200, 1200),
        ("24 hour cure", 86400, 86400),
        ("24-hour cure", 86400, 86400),
        ("thirty seconds", 30, 30),
        ("thirty second stir", 30, 30),
        ("two minutes thirty seconds", 150, 150),
        ("a week", 604800, 604800),
        ("an hour or two", 3600, 7200),
        ("a day or two", 86400, 172800),
        ("an hour or so", 3600, 3600),
        ("1h30", 5400, 5400),
        ("half an hour to forty minutes", 1800, 2400),
        ("half to three quarters of an hour", 1800, 2700),
        ("couple three hours", 7200, 10800),
        ("forty five minutes", 2700, 2700),
        ("twenty minutes give or take five", 1200, 1200),
    ],
)
def test_a_duration_has_its_least_and_most(text, least, most):
    assert ends(text) == [least, most]


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("pot life of 25 minutes", "pot life"),
        ("pot life's about twenty minutes", "pot life"),
        ("25 minutes pot life", "pot life"),
        ("working time is ten minutes", "pot life"),
        ("gelled in 12 minutes", "gel"),
        ("it went off in twelve minutes", "gel"),
        ("kicked after fifteen minutes", "gel"),
        ("tack free at two hours", "tack"),
        ("two hours between coats", "wait"),
        ("waited forty minutes", "wait"),
        ("left it for half an hour", "wait"),
        ("stirred for three minutes", "mix"),
        ("mixed it for three minutes", "mix"),
        ("24 hour cure", "cure"),
        ("cured for 24 hours", "cure"),
        ("post-cured for four hours", "post-cure"),
        ("post cure six hours", "post-cure"),
        ("four hours in the oven", "post-cure"),
        ("took me an hour", "work"),
        ("it took about an hour", "work"),
        ("took it to the bench for an hour", None),
        ("soaked for half an hour", "soak"),
        ("demoulded after 24 hours", "demould"),
        ("brushed the gel coat out in ten minutes", None),
        ("forty minutes", None),
        ("Pot life on the next one is shorter, about 18 minutes", "pot life"),
        ("use it inside twenty minutes", "pot life"),
        ("lay the next layer while it is tacky, between four and twenty-four hours", "wait"),
        ("I'll pop it in two hours", "demould"),
    ],
)
def test_the_words_beside_it_tell_what_it_is_the_time_of(text, hint):
    (found,) = both("duration", text)
    assert found.value.hint == hint


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("took fifty minutes to get tacky", "tack"),
        ("an hour to tack up", "tack"),
        ("first coat is tack free after one hour and a half", "tack"),
        ("after about two hours gel coat was tacky", "tack"),
        ("the gel was tacky to the touch inside forty minutes", "tack"),
        ("dry to the touch in 20 minutes", "tack"),
        ("nine minutes to go off", "gel"),
        ("it gelled in, like, three minutes", "gel"),
        ("took two hours to set", "cure"),
        ("took twenty minutes to sand", "work"),
        ("it's tacky now, took thirty five minutes", "tack"),
        ("gone off, that took half an hour", "gel"),
        ("It's gone off. That took 35 minutes.", "gel"),
        ("it went off gey quick, 12 minutes", "gel"),
        ("six hours before demoulding", "demould"),
        ("letting each dry for half an hour", "wait"),
        ("one every quarter of an hour", "wait"),
        ("the second applied 40 min after the first", "wait"),
        ("you get five minutes with it", "pot life"),
        ("she only gives you eight minutes", "pot life"),
        ("there are six minutes before it is too stiff", "pot life"),
        ("wait half an hour till it's tacky", "wait"),
        ("soaked it ten minutes before stirring", "soak"),
    ],
)
def test_what_came_of_it_tells_what_a_time_was_of(text, hint):
    (found,) = both("duration", text)
    assert found.value.hint == hint


@pytest.mark.parametrize("text", ["still tacky after two hours", "waited ten minutes till it was tacky"])
def test_a_state_that_goes_on_is_no_time_to_tack(text):
    (found,) = both("duration", text)
    assert found.value.hint != "tack"


@pytest.mark.parametrize(
    "text",
    ["give us a minute", "hang on a second", "I'd sooner lose a day", "saved an hour", "he's calling every two hours"],
)
def test_a_manner_of_speaking_is_no_duration(text):
    assert both("duration", text) == []


def test_so_many_a_day_is_no_duration():
    assert both("duration", "no more than four layers a day") == []
    assert ends("two coats an hour apart") == [3600, 3600]
    assert ends("five coats of wax, hour between each") == [3600, 3600]
    assert ends("a full hour on the bench") == [3600, 3600]


def test_a_time_and_half_as_much_again_is_a_range():
    assert ends("give it a day, day and a half") == [86_400, 129_600]
    assert ends("an hour, hour and a half between coats") == [3600, 5400]


def test_what_the_weather_did_overnight_took_no_time():
    assert both("duration", "it dropped to 12 overnight") == []


def test_overnight_has_an_open_end_where_it_is_the_least():
    for text in ("leave it overnight at least", "at least overnight", "overnight or longer", "overnight minimum"):
        assert ends(text) == [28_800, None]
    for text in ("left it overnight", "left it curing all night", "bagged it for the night"):
        assert ends(text) == [28_800, 57_600]
    assert both("duration", "that's me away for the night, worried all night") == []


def test_a_kind_from_a_term_repaired_by_sound_is_flagged():
    words, found = note("Hot life is 25 minutes"), Findings()
    found.add([Found("sound", 0, 2, TermHeard("pot life", "hot life"), "sounds.listed")])
    (item,) = durations.find(words, found)
    assert item.value.hint == "pot life"
    assert item.flags[0].field == "timings"


def test_minutes_are_taken_for_a_gel_time_without_a_unit_and_flagged():
    for text in ("it kicked off in twenty", "pot life's about twenty."):
        (item,) = both("duration", text)
        assert (item.value.least, item.flags[0].field) == (1200, "timings")
        assert both("amount", text) == []


def test_each_duration_of_a_note_takes_its_own_hint():
    found = both("duration", "Stirred for three minutes, pot life is 25 minutes and it gelled in twelve minutes.")
    assert [item.value.hint for item in found] == ["mix", "pot life", "gel"]


def test_an_hour_takes_three_quarters_along_and_over_a_time_is_no_limit_for_a_test():
    (found,) = both("duration", "took an hour three quarters")
    assert found.value.least == 6300
    (found,) = both("duration", "six hours of post-cure at fifty in the oven")
    assert found.value.least == 21600
    (found,) = both("duration", "never leave it past two hours")
    assert (found.value.least, found.value.most) == (0, 7200)
    (found,) = both("duration", "drop test over 10 minutes")
    assert (found.value.least, found.value.most) == (600, 600)


def test_a_number_takes_the_unit_said_just_before():
    _, second = both("duration", "ten minutes under vacuum, then another five resting")
    assert (second.value.least, second.value.most, second.rule) == (300, 300, "durations.carried")
    _, second = both("duration", "Demould time's fifteen minutes, pot life's two and a half.")
    assert second.value.least == 150


def test_a_unit_that_was_not_said_again_is_flagged_unless_a_word_tells():
    _, second = both("duration", "three minutes with the paddle then another two in a clean pot")
    assert second.value.least == 120
    assert second.flags[0].field == "timings"
    assert len(both("duration", "three minutes with the paddle then another two coats")) == 1


@pytest.mark.parametrize(
    "text",
    ["ten minutes ago", "an hour and ten minutes ago", "due in an hour", "in ten minutes' time", "ten minutes past two",
     "five minutes to ten",
     "running a day late",
     "first coat at nine, second coat at ten", "a week old", "1430 hours", "the second coat", "a second coat",
     "at ten past two", "over the weekend",
     "some five minute epoxy"],
)  # fmt: skip
def test_a_moment_is_no_duration(text):
    assert both("duration", text) == []


@given(st.integers(1, 9999), st.sampled_from([("seconds", 1), ("minutes", 60), ("hours", 3600), ("days", 86400)]))
def test_any_duration_spelled_out_reads_back(tenths, unit):
    name, seconds = unit
    (found,) = said("duration", f"waited {num2words(tenths / 10, lang='en_GB')} {name} for it")
    assert found.value.least == found.value.most == Fraction(tenths, 10) * seconds


def test_a_time_put_in_figures_at_once_is_told_once():
    assert ends("Left it to cure all night, call it sixteen hours.") == [57600, 57600]


def test_the_hour_of_a_clock_is_no_end_of_a_range():
    assert ends("Post cure went in at quarter to four eight hours at 60.") == [28800, 28800]


def test_a_change_of_heat_takes_its_time_and_is_held_for_as_many_of_the_same():
    text = "Took it to 60 over two hours, held it for six, and let it come down on its own."
    lasting = [(item.value.least, item.value.most, item.value.hint) for item in both("duration", text)]
    assert lasting == [(7200, 7200, None), (21600, 21600, None)]
    assert both("duration", text)[1].flags  # hours, perhaps
    assert ends("The first coat, one over two hours.") == [7200, None]
    assert ends("It's been in the oven over two hours.") == [7200, None]
