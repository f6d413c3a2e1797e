"""Search over a small invented workshop, on both databases."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal.find.query import Query
from journal.find.search import Hit, search
from journal.keep.store import Store
from journal.record import Layer
from tests.keep.made import AT, build_of, evidence, heard, minutes, phrase, seen, spoken, step, use

SOFT = "the gel coat is soft on the left scroll"
PUTTY = "filled the undercuts with epoxy putty so they do not tear"
MAT = "two layers of mat on the flange"


@pytest.fixture
def shop(store: Store) -> Store:
    failed, worked, cornice = build_of(store), build_of(store), build_of(store, "Plaster Cornice")
    spoken(
        store, failed, SOFT,
        step("check", use("polyester gel coat"), words=SOFT, places=(phrase("left scroll"),),
             observations=(seen("soft", "soft"),)),
    )  # fmt: skip
    spoken(store, worked, PUTTY, step("fill", use("epoxy putty"), words=PUTTY), at=minutes(60))
    mat = (Layer("chopped strand mat", evidence("two layers of mat")),)
    spoken(store, worked, MAT, step("laminate", layers=mat, words=MAT), at=minutes(120))
    spoken(store, cornice, "hello, testing, 1 2 3", at=minutes(180))
    store.set_outcome(failed.id, "failed", "resin stayed tacky", "lead maker", minutes(200))
    store.set_outcome(worked.id, "worked", "sharp edges", "lead maker", minutes(200))
    return store


def found(store: Store, words: str = "", **filters: object) -> list[tuple[str, str]]:
    return [(hit.noun, hit.build_key) for hit in search(store, Query(words, **filters))]  # type: ignore[arg-type]


def only(store: Store, words: str, **filters: object) -> Hit:
    [hit] = search(store, Query(words, **filters))  # type: ignore[arg-type]
    return hit


def test_a_step_is_found_by_its_words_with_the_match_marked(shop: Store) -> None:
    hit = only(shop, "undercuts putty")
    assert (hit.noun, hit.build_key, hit.action, hit.outcome) == ("step", "niche-2", "fill", "worked")
    assert {piece for piece, matched in hit.snippet if matched} == {"undercuts", "putty"}
    assert hit.text.startswith("filled the undercuts")
    assert hit.audio == (0.5, 1.5)
    assert hit.exact
    assert hit.at == minutes(60)
    assert shop.step(hit.noun_id).note_id == hit.note_id


def test_forms_of_a_word_count_as_the_word(shop: Store) -> None:
    assert found(shop, "fill undercut") == [("step", "niche-2")]


def test_a_note_without_steps_is_found_by_what_was_heard(shop: Store) -> None:
    hit = only(shop, "testing")
    assert (hit.noun, hit.step_id, hit.build_key) == ("note", None, "plaster-cornice-1")
    assert hit.audio == (0.5, 1.0)  # the second word


def test_a_build_is_found_by_how_it_turned_out(shop: Store) -> None:
    assert found(shop, "tacky") == [("build", "niche-1")]
    assert found(shop, "sharp edges") == [("build", "niche-2")]


def test_every_word_must_match_when_some_text_has_them_all(shop: Store) -> None:
    assert found(shop, "soft scroll") == [("step", "niche-1")]


def test_when_no_text_has_them_all_some_will_do_and_the_hit_says_so(shop: Store) -> None:
    hit = only(shop, "undercuts zebra")
    assert (hit.build_key, hit.exact) == ("niche-2", False)


@pytest.mark.parametrize("typed", ["flnage", "flan", "flangge", "FLANJE"])
def test_misspelt_words_are_forgiven(shop: Store, typed: str) -> None:
    hit = only(shop, typed)
    assert (hit.action, hit.exact) == ("laminate", False)


def test_words_in_quotes_stand_together(shop: Store) -> None:
    assert found(shop, '"left scroll"') == [("step", "niche-1")]
    assert found(shop, '"scroll left"') == []


def test_synonyms_count(shop: Store) -> None:
    assert search(shop, Query("csm")) == []
    [hit] = search(shop, Query("csm"), {"csm": ("chopped strand mat", "mat")})
    assert hit.action == "laminate"


@pytest.mark.parametrize(
    ("filters", "builds"),
    [
        ({"material": "epoxy putty"}, {"niche-2"}),
        ({"material": "putty"}, {"niche-2"}),
        ({"material": "gel coat"}, {"niche-1"}),
        ({"material": "chopped strand mat"}, {"niche-2"}),
        ({"material": "put"}, set()),
        ({"material": "%"}, set()),
        ({"action": "laminate"}, {"niche-2"}),
        ({"action": "fill", "material": "chopped strand mat"}, set()),
        ({"outcome": "failed"}, {"niche-1"}),
        ({"outcome": "under way"}, {"plaster-cornice-1"}),
        ({"mould": "niche"}, {"niche-1", "niche-2"}),
        ({"mould": "Plaster Cornice"}, {"plaster-cornice-1"}),
        ({"mould": "cornice"}, {"plaster-cornice-1"}),
        ({"mould": "%"}, set()),
        ({"since": minutes(170)}, {"plaster-cornice-1"}),
        ({"since": minutes(100), "until": minutes(120)}, set()),
        ({"since": minutes(100), "until": minutes(121)}, {"niche-2"}),
    ],
)
def test_filters_hold_without_words(shop: Store, filters: dict[str, object], builds: set[str]) -> None:
    assert {build for _, build in found(shop, **filters)} == builds


def test_filters_hold_with_words(shop: Store) -> None:
    assert found(shop, "scroll", outcome="worked") == []
    assert found(shop, "scroll", outcome="failed", action="check") == [("step", "niche-1")]


def test_without_words_the_latest_come_first(shop: Store) -> None:
    times = [hit.at for hit in search(shop, Query())]
    assert times == sorted(times, reverse=True)
    assert len(search(shop, Query(limit=2))) == 2


def test_the_better_match_comes_first(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "wax", step("release", words="wax " + "and something else " * 30), at=minutes(9))
    spoken(store, build, "wax wax", step("release", words="wax, then wax again"), at=minutes(1))
    hits = search(store, Query("wax"))
    assert [hit.at for hit in hits] == [minutes(1), minutes(9)]
    assert hits[0].score > hits[1].score


def test_the_index_follows_corrections_withdrawals_and_new_readings(shop: Store) -> None:
    hit = only(shop, "putty")
    assert hit.step_id is not None
    shop.correct_step(hit.step_id, {"places": ["clamshell"]}, None, "", AT)
    assert found(shop, "clamshell") == [("step", "niche-2")]
    shop.withdraw_step(hit.step_id, None, "", AT)
    assert found(shop, "clamshell") == []
    assert found(shop, "putty") == [("note", "niche-2")]
    laminate = only(shop, "flange")
    assert laminate.note_id is not None
    shop.keep_steps(laminate.note_id, [step("brush", words="two coats on the rim")], "reader 2", AT)
    assert found(shop, "rim") == [("step", "niche-2")]
    shop.keep_transcript(laminate.note_id, heard("two coats on the brim"), AT)
    assert found(shop, "flange") == []


TYPED = ['"', "'", "AND", "OR NOT", "NEAR(a b)", "a*", "^a", "text:a", "-a", "a -b", "a & b | !c", "a:*",
         "(", ")))", "<->", "\\", "%_", "{a b}", "a\0b", "' ; DROP TABLE note; --", "🦁 paw", "½", "²", "ß",
         "\u0301", "ทดสอบ", "a" * 5000, "a " * 500, "\x02a\x03"]  # fmt: skip


@pytest.mark.parametrize("words", TYPED)
def test_no_marks_break_the_search(shop: Store, words: str) -> None:
    for hit in search(shop, Query(words)):
        assert hit.text
    search(shop, Query(material=words.replace("\0", ""), mould=words.replace("\0", "")))


@given(words=st.text(max_size=40))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_no_text_at_all_breaks_the_search(shop: Store, words: str) -> None:
    search(shop, Query(words))


def test_a_search_of_an_empty_store_finds_nothing(store: Store) -> None:
    assert search(store, Query("anything")) == []
    assert search(store, Query(since=datetime.fromisoformat("2020-01-01T00:00:00+00:00"))) == []
