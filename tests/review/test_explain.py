"""Why a mould could have failed: on the demo workshop, and by the table of faults and their usual causes."""

from __future__ import annotations

import re

import pytest

from journal import flow
from journal.keep.views import FieldError, NotKept
from journal.record import OBSERVATION_KINDS, Flag
from journal.review import traits as named
from journal.review.causes import ANY_FAULT, CAUSES, PRACTICE, PRESS, RULES
from journal.review.explain import explain
from tests.keep.made import phrase, seen, step, use
from tests.review.made import air, built

SOFT = step("demould", use("polyester gel coat"), observations=(seen("soft", "soft on the left scroll"),))
GOOD = step("demould", observations=(seen("good", "came off clean"),))


def gel_mix(catalyst, **more):
    return step("mix", use("polyester gel coat", 600, "g"), use("catalyst", catalyst, "g"), **more)


def test_the_soft_gel_coat_of_the_demo_is_put_down_to_little_catalyst_and_a_cold_shop_before_all_else(workshop):
    [found] = flow.compare(workshop, ["niche-1", "niche-2"]).explanations
    first, second = found.likely[:2]
    assert (found.build, found.against) == ("niche-1", ("niche-2",))
    assert first.factor == named.LITTLE_SECOND
    assert "catalyst at 1 per 100 of polyester gel coat" in first.words
    assert second.factor == named.COLD
    assert "13 to 14 degC" in second.words
    assert "soft" in first.faults
    assert "soft" in second.faults


def test_every_likely_cause_of_the_demo_points_to_words_in_both_builds(workshop):
    compared = flow.compare(workshop, ["niche-1", "niche-2"])
    [found] = compared.explanations
    difference = found.likely[0].differences[0]
    [own], [other, *_] = compared.cite(difference.step_ids), compared.cite(difference.against_ids)
    assert own.build_key == "niche-1"
    assert "six grams of catalyst" in own.words
    assert other.build_key == "niche-2"
    assert "fourteen grams of catalyst" in other.words


def test_the_order_of_the_builds_does_not_matter_and_the_failed_one_alone_meets_those_that_worked(workshop):
    forwards = flow.compare(workshop, ["niche-1", "niche-2"]).explanations
    assert flow.compare(workshop, ["niche-2", "niche-1"]).explanations == forwards
    assert flow.compare(workshop, ["niche-1"]).explanations == forwards


def test_the_demo_lacks_lots_and_says_so_and_tells_what_was_seen_before(workshop):
    [found] = flow.compare(workshop, ["niche-1", "niche-2"]).explanations
    assert any("lot" in words for words in found.lacks)
    assert {sign.kind for sign in found.signs} == {"tacky"}
    assert {fault.kind for fault in found.faults} == {"soft", "tear"}


def test_builds_that_cannot_be_compared_say_what_to_do(workshop):
    with pytest.raises(NotKept):
        flow.compare(workshop, ["niche-1", "no such build"])
    with pytest.raises(FieldError, match="name one as well"):
        flow.compare(workshop, ["paw-1"])


def test_it_says_could_and_never_did(catalogue):
    found = explain(built("a-1", (0, gel_mix(6)), (40, SOFT)), [built("a-2", (0, gel_mix(12)), (40, GOOD))], catalogue)
    assert found.likely
    for likely in found.likely:
        assert " could " in likely.words
        assert not re.search(r"\b(did|caused|because of)\b", likely.words + likely.why)


def test_what_every_other_build_shows_too_is_no_difference(catalogue):
    chilly = (0, step("check", conditions=air(13)))
    record, other = (
        built("a-1", chilly, (1, gel_mix(6)), (40, SOFT)),
        built("a-2", chilly, (1, gel_mix(12)), (40, GOOD)),
    )
    assert named.COLD not in [likely.factor for likely in explain(record, [other], catalogue).likely]


def test_a_queried_value_ranks_lower_and_keeps_its_query(catalogue):
    doubtful = gel_mix(6, flags=(Flag("amount", "heard as sixteen"),))
    others = [built("a-2", (0, gel_mix(12)), (40, GOOD))]
    sure = explain(built("a-1", (0, gel_mix(6)), (40, SOFT)), others, catalogue).likely[0]
    unsure = explain(built("a-1", (0, doubtful), (40, SOFT)), others, catalogue).likely[0]
    assert unsure.score < sure.score
    assert unsure.differences[0].doubts == ("heard as sixteen",)


def test_what_the_record_lacks_follows_the_fault(catalogue):
    vague = built("a-1", (0, step("mix", use("polyester gel coat"))), (40, SOFT))
    lacks = " ".join(explain(vague, [], catalogue).lacks)
    assert "No shop temperature" in lacks
    assert "No humidity" in lacks
    assert "ratio of the batch in step 100" in lacks
    unopened = " ".join(explain(built("a-1", (0, gel_mix(6))), [], catalogue).lacks)
    assert "No fault is recorded" in unopened
    assert "opening of the mould is not recorded" in unopened


def test_builds_not_known_to_have_worked_are_told_with_caution(catalogue):
    record, other = built("a-1", (0, gel_mix(6)), (40, SOFT)), built("a-2", (0, gel_mix(12)), outcome="failed")
    assert "a-2" in explain(record, [other], catalogue).caution
    assert "no other build" in explain(record, [], catalogue).caution


def test_a_difference_at_the_very_place_of_the_fault_counts_more(catalogue):
    def mixed(place):
        return gel_mix(6, places=(phrase(place),))

    torn = step("demould", observations=(seen("soft", "soft"),), places=(phrase("hinge"),))
    others = [built("a-2", (0, gel_mix(12)), (40, GOOD))]
    here = explain(built("a-1", (0, mixed("hinge")), (40, torn)), others, catalogue).likely[0]
    there = explain(built("a-1", (0, mixed("crown")), (40, torn)), others, catalogue).likely[0]
    assert here.score > there.score


def test_every_row_of_the_table_of_faults_is_of_a_known_fault_and_factor_and_says_whose_knowledge_it_is():
    assert set(CAUSES) <= set(OBSERVATION_KINDS)
    for cause in (*ANY_FAULT, *(cause for causes in CAUSES.values() for cause in causes)):
        assert cause.factor in named.FACTORS
        assert cause.source in (PRESS, RULES, PRACTICE)
        assert 0 < cause.weight <= 3


@pytest.mark.parametrize("kind", [kind for kind in OBSERVATION_KINDS if kind not in ("good", "other")])
def test_every_fault_has_a_usual_cause(kind):
    assert CAUSES[kind]
