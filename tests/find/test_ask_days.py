"""All that was done on a day, told in a sentence or two."""

from __future__ import annotations

import pytest

from journal import flow
from journal.find.ask.days import _PAST, act_told
from journal.record import ACTIONS
from tests.find.kept import kept, on, use
from tests.find.typed_workshop import Clock, typed_workshop


@pytest.fixture(scope="module")
def clock():
    return Clock("2026-11-24T16:30:00+00:00")


@pytest.fixture(scope="module")
def shop(tmp_path_factory, clock):
    opened = typed_workshop(tmp_path_factory.mktemp("days"), clock)
    yield opened
    opened.close()


@pytest.fixture
def ask(shop, clock):
    def asked(at, text, build):
        clock.at = Clock(at).at
        return flow.ask(shop, text, build)

    return asked


def test_every_act_has_its_past():
    assert set(_PAST) == set(ACTIONS)


def test_all_acts_of_yesterday_are_told_in_their_order_and_what_is_flagged_after_them(ask):
    told = ask("2026-11-24T09:00:00+00:00", "what did we do yesterday", "niche-3")
    acts = ("sealed the right half", "released with", "mixed 300", "brushed on", "mixed 420", "thickened", "filled the")
    places = [told.text.index(act) for act in acts]
    assert places == sorted(places)
    assert told.text.endswith("To check: 100 to 29 by weight is 93 % over the catalogue's 100 to 15.")
    assert told.text.count(". ") == 1
    assert len(told.evidence) == told.numbers["acts"] == 8


def test_one_who_did_it_all_is_named_and_little_acts_are_told_where_there_is_little_else(ask):
    told = ask("2026-11-24T16:00:00+00:00", "what did we do this morning", "niche-3")
    assert "laid 2 layers of 200 glass cloth on the right half, wet it out and mixed 500 grams" in told.text
    told = ask("2026-04-25T09:00:00+01:00", "what was done yesterday", "niche-2")
    assert told.text == "Yesterday the second maker took a pull and released with 2 coats of release wax."


def test_a_weekday_is_the_last_one_there_was(ask):
    told = ask("2026-04-15T12:00:00+01:00", "what did we do on Monday", "niche-2")
    assert told.text.startswith("On the 13th we sealed with 3 coats of shellac")
    told = ask("2026-04-13T18:00:00+01:00", "what did we do on Monday", "niche-2")
    assert told.text.startswith("Nothing is logged on the 6th")


def test_a_place_asked_for_narrows_the_day_and_an_empty_day_is_said(ask):
    told = ask("2026-11-25T09:00:00+00:00", "what did we put on the right half yesterday", "niche-3")
    assert told.text == "Yesterday the second maker laid 2 layers of 200 glass cloth on the right half."
    nothing = ask("2026-11-25T09:00:00+00:00", "what did we do today", "niche-3")
    assert nothing.text.startswith("Nothing is logged today on niche-3")
    assert nothing.lacks


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (kept(1, "demould"), "demoulded"),
        (kept(1, "sand", places=on("left half")), "sanded on the left half"),
        (kept(1, "fill", use("epoxy putty", 90, "g"), places=on("undercut")), "filled the undercut with 90 grams of"),
        (kept(1, "seal", places=on("behind the hinge")), "sealed behind the hinge"),
    ],
)
def test_an_act_is_told_as_one_tells_it(step, told):
    assert act_told(step, []).startswith(told)
