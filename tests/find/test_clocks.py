"""Running clocks from kept steps: by what was said, else by the catalogue at the shop's temperature."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from journal import flow
from journal.find.clock import BuildClocks
from journal.find.clocks import build_clocks, clocks_of
from journal.keep.views import StepView
from journal.shop import Shop
from journal.trade.cure import shift
from tests.find.kept import AT, CATALOGUE, Flag, after, degrees, due, kept, layer, on, timing, use
from tests.find.typed_workshop import Clock

EPOXY = CATALOGUE.get("laminating epoxy")
GEL_COAT = CATALOGUE.get("epoxy gel coat")
CHECK = kept(1, "check", at=after(hours=-2), conditions=(degrees(19),))
MIX = kept(2, "mix", use("epoxy gel coat", 300, "g"), use("hardener", 45, "g"))
COAT = kept(3, "brush", at=after(minutes=10), places=on("right half"))
GLASS = {"layers": (layer("glass cloth", 2, 200),), "places": on("right half")}


def clocks(*steps: StepView, now: datetime = AT) -> BuildClocks:
    return clocks_of(steps, CATALOGUE, now)


def seconds(clock, end: str = "closes") -> float:
    return (getattr(clock.window, end) - clock.started_at).total_seconds()


def test_a_pot_life_that_was_said_rules_and_says_so():
    said = kept(4, "check", at=after(minutes=10), timings=(timing("pot life", 1500, 1500),))
    (pot,) = clocks(CHECK, MIX, COAT, said, now=after(minutes=15)).of("pot life")
    assert (pot.source, pot.rule, pot.evidence) == ("said", "as said", (2, 4))
    assert seconds(pot) == 1500
    assert pot.left(after(minutes=15)) == timedelta(minutes=10)


def test_a_pot_life_that_was_not_said_is_the_catalogues_at_the_shops_temperature():
    (pot,) = clocks(CHECK, MIX, now=after(minutes=1)).of("pot life")
    assert (pot.source, pot.rule, pot.degc) == ("catalogue", "arrhenius", 19)
    assert seconds(pot) == pytest.approx(shift(GEL_COAT.pot_life_s, 19, GEL_COAT.activation_energy_kj).seconds)


def test_without_an_activation_energy_the_halving_rule_is_named():
    polyester = kept(2, "mix", use("polyester resin", 1000, "g"), use("catalyst", 20, "g"))
    (pot,) = clocks(CHECK, polyester).of("pot life")
    assert pot.rule == "halving per 10 degC"


def test_without_a_temperature_the_time_stands_as_quoted_and_says_so():
    (pot,) = clocks(MIX).of("pot life")
    assert (pot.rule, pot.degc, seconds(pot)) == ("as quoted", None, GEL_COAT.pot_life_s)


def test_an_oven_a_resin_and_a_post_cure_are_not_the_shop():
    oven = kept(4, "check", at=after(hours=-1), conditions=(degrees(60), degrees(30, "resin")))
    post = kept(5, "post-cure", at=after(hours=-1), conditions=(degrees(40),))
    (pot,) = clocks(CHECK, oven, post, MIX).of("pot life")
    assert pot.degc == 19


def test_a_clock_warns_before_it_ends_and_is_shown_for_a_while_after():
    end = seconds(clocks(CHECK, MIX).of("pot life")[0])
    states = {
        share: [
            c.state(after(seconds=share * end))
            for c in clocks(CHECK, MIX, now=after(seconds=share * end)).of("pot life")
        ]
        for share in (0.5, 0.9, 1.1, 4)
    }
    assert states == {0.5: ["open"], 0.9: ["ending"], 1.1: ["over"], 4: []}


def test_the_next_coat_has_a_window_from_earliest_to_latest():
    (window,) = clocks(CHECK, MIX, COAT, now=after(minutes=20)).of("recoat")
    earliest, latest = (shift(s, 19, GEL_COAT.activation_energy_kj).seconds for s in GEL_COAT.recoat_s)
    assert (window.material, window.places) == ("epoxy gel coat", ("right half",))
    assert seconds(window, "opens") == pytest.approx(earliest)
    assert seconds(window) == pytest.approx(latest)
    assert window.state(after(minutes=20)) == "waiting"
    assert window.state(after(hours=2)) == "open"


@pytest.mark.parametrize(("hours", "state"), [(0.4, "early"), (2, None), (18, "late")])
def test_a_coat_outside_the_window_of_the_one_below_is_told(hours, state):
    upper = kept(4, "brush", use("epoxy gel coat"), at=after(hours=hours), places=on("right half"))
    found = clocks(CHECK, MIX, COAT, upper, now=after(days=1)).outside
    assert [missed.state for missed in found] == ([state] if state else [])
    if state:
        assert (found[0].step_id, found[0].below_id) == (4, 3)
        assert found[0].missed_by > timedelta(minutes=5)


def test_what_excuses_a_late_coat():
    late = kept(6, "laminate", at=after(hours=20), **GLASS)
    sanded = kept(5, "sand", at=after(hours=19))
    elsewhere = replace(late, record=replace(late.record, places=on("flange")))
    opened = kept(5, "demould", at=after(hours=19))
    assert len(clocks(CHECK, MIX, COAT, late, now=after(days=1)).outside) == 1
    for steps in ((sanded, late), (elsewhere,), (opened, late)):
        assert clocks(CHECK, MIX, COAT, *steps, now=after(days=1)).outside == ()


def _filled(hours: float, *uses, **more):
    return kept(5, "fill", *uses, at=after(hours=hours), places=on("right half"), **more)


@pytest.mark.parametrize("uses", [(), (use("fumed silica", None, None),), (use("epoxy putty", 90, "g"),)])
@pytest.mark.parametrize(("hours", "state"), [(0.3, "early"), (3, None), (14, "late")])
def test_a_filled_undercut_has_to_meet_the_window_of_the_coat_below(uses, hours, state):
    outside = clocks(CHECK, MIX, COAT, _filled(hours, *uses), now=after(hours=20)).outside
    assert [(each.step_id, each.below_id, each.state) for each in outside] == ([(5, 3, state)] if state else [])


def test_clay_in_an_undercut_is_no_wet_act():
    assert clocks(CHECK, MIX, COAT, _filled(14, use("oil clay", None, None)), now=after(hours=20)).outside == ()


def test_a_filled_undercut_leaves_the_coat_beside_it_bare_and_its_window_running():
    steps = (CHECK, MIX, COAT, _filled(3))
    (window,) = clocks(*steps, now=after(hours=4)).of("recoat")
    assert window.evidence == (3,)
    late = kept(6, "laminate", at=after(hours=14), **GLASS)
    assert [(each.step_id, each.below_id) for each in clocks(*steps, late, now=after(hours=20)).outside] == [(6, 3)]


def test_a_wait_said_of_the_filling_is_a_clock_and_paste_goes_on_wet_glass():
    waits = _filled(3, timings=(timing("wait", 1800, 1800),))
    assert clocks(CHECK, MIX, COAT, waits, now=after(hours=3.1)).of("recoat")[-1].evidence == (5,)
    glass = kept(4, "laminate", at=after(hours=2), **GLASS)
    assert clocks(CHECK, MIX, COAT, glass, _filled(2.2), now=after(hours=4)).outside == ()


def test_glass_goes_on_glass_wet_on_wet_and_coats_of_one_note_are_not_judged():
    mix = kept(2, "mix", use("laminating epoxy", 500, "g"))
    lay = [kept(n, "laminate", at=after(minutes=10 * n), **GLASS) for n in (3, 4)]
    assert clocks(mix, *lay, now=after(hours=2)).outside == ()
    wax = kept(5, "release", use("release wax"), note=5)
    pva = replace(kept(6, "release", use("pva release")), note_id=5)
    assert clocks(wax, pva, now=after(hours=2)).outside == ()


@pytest.mark.parametrize(
    ("least", "most", "opens", "closes"),
    [(3600, 3600, 3600, 86400), (300, 600, 300, 86400), (57600, None, 57600, 86400), (0, 1200, 0, 1200)],
)
def test_a_wait_that_was_said_sets_the_window(least, most, opens, closes):
    wax = kept(
        2, "release", use("release wax"), layers=(layer("release wax", 3),), timings=(timing("wait", least, most),)
    )
    (window,) = clocks(CHECK, wax).of("recoat")
    assert (seconds(window, "opens"), seconds(window), window.source) == (opens, closes, "said")


def test_what_only_dries_does_not_shift_with_the_temperature():
    (window,) = clocks(CHECK, kept(2, "seal", use("shellac"))).of("recoat")
    assert (window.rule, seconds(window, "opens")) == ("as quoted", 1200)


def test_demould_and_full_cure_count_from_the_last_coat_until_it_is_opened():
    mix = kept(2, "mix", use("laminating epoxy", 500, "g"))
    first, last = (kept(n, "laminate", at=after(hours=n), **GLASS) for n in (3, 4))
    found = clocks(CHECK, mix, first, last, now=after(hours=5))
    assert [clock.evidence for clock in (*found.of("demould"), *found.of("full cure"))] == [(4,), (4,)]
    ready = shift(EPOXY.cure_s, 19, EPOXY.activation_energy_kj).seconds
    assert seconds(found.of("demould")[0], "opens") == pytest.approx(ready)
    opened = kept(5, "demould", at=after(hours=60))
    assert clocks(CHECK, mix, first, last, opened, now=after(hours=61)).of("demould") == ()


def test_a_cure_that_was_said_and_a_time_that_is_due():
    mix = kept(2, "mix", use("platinum silicone", 1000, "g"))
    cure = kept(3, "cure", status="planned", timings=(timing("cure", 21600, 21600),))
    trim = kept(4, "trim", status="planned", clock=(due(after(hours=3)),))
    found = clocks(mix, cure, trim, now=after(minutes=5))
    (said,) = found.of("cure")
    assert (said.material, seconds(said, "opens"), said.source) == ("platinum silicone", 21600, "said")
    assert found.of("due")[0].left(after(hours=1)) == timedelta(hours=2)


def test_steps_planned_not_done_and_yet_to_come_start_no_clock():
    planned = kept(2, "mix", use("epoxy gel coat", 300, "g"), status="planned")
    not_done = kept(3, "mix", use("epoxy gel coat", 300, "g"), status="not done")
    later = kept(4, "mix", use("epoxy gel coat", 300, "g"), at=after(hours=1))
    assert clocks(planned, not_done, later).all == ()


def test_what_was_flagged_of_a_time_goes_with_its_clock():
    flagged = kept(2, "mix", use("epoxy gel coat", 300, "g"), flags=(Flag("clock", "two times were said"),))
    assert clocks(flagged).of("pot life")[0].doubts == ("two times were said",)
    confirmed = replace(flagged, confirmed_at=AT, confirmed_by="lead maker")
    assert clocks(confirmed).of("pot life")[0].doubts == ()


def test_clocks_reckon_in_instants_when_the_wall_clock_goes_back():
    # the last Sunday of October 2026 in London: 02:00 becomes 01:00
    london = ZoneInfo("Europe/London")
    start = datetime(2026, 10, 25, 0, 30, tzinfo=london)
    mix = kept(2, "mix", use("platinum silicone", 1000, "g"), at=start)
    cure = kept(3, "cure", status="planned", timings=(timing("cure", 21600, 21600),), at=start)
    (said,) = clocks(mix, cure, now=start).of("cure")
    assert said.window.opens == datetime(2026, 10, 25, 5, 30, tzinfo=london)
    assert said.left(datetime(2026, 10, 25, 0, 30, tzinfo=london)) == timedelta(hours=6)
    assert said.state(datetime(2026, 10, 25, 5, 29, tzinfo=london)) == "waiting"


def test_clocks_survive_a_restart(settings):
    clock = Clock("2026-11-23T14:20:00+00:00")
    first = Shop(settings, clock)
    flow.ensure_build(first, "niche", "niche-3")
    text = "Mixed 300 grams of epoxy gel coat with 45 grams of hardener. Pot life is 25 minutes."
    taken = flow.take_in(
        first, "niche-3", flow.Incoming(text.encode(), "note.txt", datetime(2026, 11, 23, 14, 5, tzinfo=UTC))
    )
    flow.process_note(first, taken.id)
    before = flow.clocks(first, "niche-3")
    first.close()
    second = Shop(settings, clock)
    try:
        after_restart = flow.clocks(second, "niche-3")
        assert after_restart == before
        assert after_restart.of("pot life")[0].left(second.now()) == timedelta(minutes=10)
    finally:
        second.close()


def test_on_a_build_that_has_ended_no_clock_runs(shop):
    flow.ensure_build(shop, "niche", "niche-9")
    build = flow.set_outcome(shop, "niche-9", "worked", "", None)
    found = build_clocks(build, [MIX], CATALOGUE, shop.now())
    assert (found.running, len(found.all)) == ((), 1)
