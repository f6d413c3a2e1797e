"""What the pictures of a build and a mould show, in exact numbers, and that what is in doubt is drawn so."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from journal.record import Flag
from journal.review.life import life_of
from journal.review.pictures.air import limits_of, temperature_chart, temperatures_of
from journal.review.pictures.lives import life_chart
from journal.review.pictures.pictures import build_pictures, life_of_mould, strip_of
from journal.review.pictures.ratios import batches_of, ratio_chart
from journal.review.pictures.timeline import lanes_of, timeline
from tests.keep.made import seen, step, use
from tests.review.made import BEGUN, air, built

BELOW = 0.6


def coat(**more):
    return step("brush", use("polyester gel coat"), **more)


def gel(catalyst: float, **more):
    return step("mix", use("polyester gel coat", 600, "g"), use("catalyst", catalyst, "g"), **more)


def flagged(made, field):
    return replace(made, flags=(Flag(field, "say which"),))


def words(row):
    return [cell.words for cell in row]


def looks(picture, name):
    return [shape for shape in picture.drawings[0].shapes if name in shape.look]


def test_a_coat_too_early_is_marked_with_how_much(catalogue):
    record = built("a-1", (0, coat()), (0.5, coat()), (1.0, step("demould")))
    first, second, opened = lanes_of(record, catalogue, BELOW)
    earliest = catalogue.get("polyester gel coat").recoat_s[0]
    assert (first.state, second.state) == ("", "early")
    assert second.missed == timedelta(seconds=earliest - 1800)
    assert first.times[0].begins == BEGUN + timedelta(seconds=earliest)
    assert opened.state == "early"
    picture = timeline(record, catalogue, BELOW)
    assert "too early" in picture.about
    assert [shape.words.split(",")[0] for shape in looks(picture, "point triangle")] == [
        "Brush: polyester gel coat",
        "Opened",
    ]


def test_times_are_where_the_scale_puts_them(catalogue):
    record = built("a-1", (0, coat()), (1, coat()), (2, coat()))
    drawing = timeline(record, catalogue, BELOW).drawings[0]
    marks = [shape for shape in drawing.shapes if shape.look.startswith("point")]
    assert next(shape.at[0] for shape in marks if shape.tag == "circle") == ("cx", 10.0)
    assert drawing.width == 340.0
    for each in drawing.shapes:
        places = dict(each.at)
        assert 0 <= float(places.get("x", places.get("x1", 0))) <= drawing.width
        if each.tag == "rect":
            assert float(places["x"]) + float(places["width"]) <= drawing.width


def test_what_is_flagged_is_hollow_and_named(catalogue):
    record = built("a-1", (0, flagged(coat(), "materials")))
    (lane, *_) = lanes_of(record, catalogue, BELOW)
    assert lane.doubts == ("say which",)
    picture = timeline(record, catalogue, BELOW)
    (shape, *_) = looks(picture, "doubt")
    assert shape.words.endswith("(to check: say which)")
    assert "to check: say which" in words(picture.rows[0])[3]


def test_a_ratio_is_held_against_the_catalogue(catalogue):
    record = built(
        "a-1",
        (0, step("mix", use("laminating epoxy", 300, "g"), use("hardener", 87, "g"))),
        (1, step("mix", use("laminating epoxy", 300, "g"), use("hardener", 60, "g"))),
        (2, flagged(gel(30), "amount")),
    )
    right, little, much = batches_of(record, catalogue, BELOW)
    epoxy = catalogue.get("laminating epoxy")
    norm = 100 * epoxy.ratio[1] / epoxy.ratio[0]
    # 300 g to 87 g is 29 per hundred by weight
    assert right.mixed == pytest.approx(29)
    assert right.percent(right.mixed) == pytest.approx(100 * (29 / norm - 1))
    assert (little.outside, little.mixed) == (True, pytest.approx(20))
    assert (much.mixed, much.low, much.high, much.outside, much.ranged) == (pytest.approx(5), 1, 3, True, True)
    assert much.doubts == ("say which",)
    picture = ratio_chart(record, catalogue, BELOW)
    assert len(looks(picture, "point diamond")) == 2
    assert [shape.look for shape in looks(picture, "doubt")] == ["point diamond doubt"]


def test_a_cold_shop_is_below_the_limit(catalogue):
    record = built("a-1", (0, step("check", conditions=air(12))), (1, gel(12)), (2, step("check", conditions=air(20))))
    least, most = limits_of(record, catalogue)
    assert (least.least_c, most.most_c) == catalogue.get("polyester gel coat").temperature_range_c
    assert [(said.degc, said.at - BEGUN) for said in temperatures_of(record, BELOW)] == [
        (12.0, timedelta()), (20.0, timedelta(hours=2)),
    ]  # fmt: skip
    picture = temperature_chart(record, catalogue, BELOW)
    assert words(picture.rows[0])[2] == f"{least.least_c - 12:g} degC too cold"
    (cold,) = looks(picture, "point triangle")
    assert cold.words.startswith("12 degC")


def test_nothing_logged_is_said_and_not_drawn(catalogue):
    record = built("a-1")
    for picture in (timeline(record, catalogue, BELOW), ratio_chart(record, catalogue, BELOW),
                    temperature_chart(record, catalogue, BELOW), life_chart(life_of(record, catalogue))):  # fmt: skip
        assert picture.lacks
        assert picture.drawings == ()


def test_a_life_rises_with_its_pulls(catalogue):
    chipped = step("pull", pull=2, observations=(seen("chip", "small chip"),))
    record = built(
        "a-1", (0, step("demould")), (24, step("pull", pull=1)), (48, chipped), (72, step("repair")),
        (96, flagged(step("pull", pull=3), "action")),
    )  # fmt: skip
    picture = life_chart(life_of(record, catalogue))
    (line,) = looks(picture, "run")
    # four days on 34 to 324 px, three pulls on 174 to 44 px
    assert line.get("d") == (
        "M34 174 L106.5 174 L106.5 130.7 L179 130.7 L179 87.3 L179 87.3 L251.5 87.3 L324 87.3 L324 44"
    )
    assert [shape.look for shape in looks(picture, "point")] == [
        "point arrow", "point circle", "point circle", "point cross", "point square", "point circle doubt",
    ]  # fmt: skip
    fault = looks(picture, "point cross")[0]
    assert "small chip" in fault.words
    assert picture.about == "3 pulls, 1 fault, 1 repair. Not retired."


def test_every_shape_of_the_demo_has_its_words_in_the_table(workshop):
    for build in workshop.store.builds():
        for picture in build_pictures(workshop.store, workshop.catalogue, build.key, BELOW).pictures:
            assert picture.lacks or (picture.rows and len(picture.drawings) == 2)
            assert all(len(row) == len(picture.head) for row in picture.rows)


def test_photos_stand_by_place_across_builds(workshop):
    strip = strip_of(workshop.store, ["niche-1", "niche-2", "niche-1"])
    assert [build.key for build in strip.builds] == ["niche-1", "niche-2"]
    kept = [photo.id for key in ("niche-1", "niche-2") for photo in workshop.store.photos(key)]
    assert sorted(photo.id for row in strip.rows for photos in row.photos for photo in photos) == sorted(kept)
    assert life_of_mould(workshop.store, workshop.catalogue, "niche").faults
