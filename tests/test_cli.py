"""The command line: answers, JSON, exit statuses, and errors on one line."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest


@pytest.fixture
def mouldbook(settings):
    """Return a function that runs the installed command in its own process."""
    environment = os.environ | {
        "MOULDBOOK_DATA_DIR": str(settings.data_dir), "MOULDBOOK_WEIGHTS": settings.weights, "COLUMNS": "200",
    }  # fmt: skip
    program = os.path.join(os.path.dirname(sys.executable), "mouldbook")

    def run(*words: str, stdin: str = "") -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [program, *words], input=stdin, capture_output=True, text=True, env=environment, check=False
        )

    return run


def test_reading_lines_keeps_their_order_and_tells_a_bad_one(mouldbook):
    lines = [
        {"id": "a", "build": "b", "text": "Mixed 700 grams of polyester gel coat with 14 grams of catalyst."},
        {"id": "b", "build": "b", "text": "Same again."},
        {"id": "c", "text": "Testing, testing."},
        {"id": "d"},
    ]
    done = mouldbook("read", "--lines", "-", stdin="\n".join(map(json.dumps, lines)) + "\nnot json\n")
    assert done.returncode == 0, done.stderr
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    assert [answer["id"] for answer in answers] == ["a", "b", "c", "d", None]
    assert answers[1]["steps"][0]["materials"][1]["amount"] == 14
    assert answers[2]["steps"] == []
    assert "text" in answers[3]["error"]
    assert "JSON" in answers[4]["error"]


def test_a_line_with_audio_is_heard_and_read(mouldbook, tmp_path, sample):
    (tmp_path / "note.opus").write_bytes(sample("notes/niche-3-03.opus"))
    source = tmp_path / "lines.jsonl"
    source.write_text('{"id": 1, "audio": "note.opus"}\n{"id": 2, "audio": "gone.opus"}\n')
    heard, missing = map(json.loads, mouldbook("read", "--lines", str(source)).stdout.splitlines())
    assert "gel coat" in heard["text"].lower()
    assert heard["steps"][0]["materials"][0]["audio"]
    assert "gone.opus" in missing["error"]


def test_add_takes_the_good_files_and_names_the_bad_one(mouldbook, tmp_path, sample):
    (tmp_path / "note.opus").write_bytes(sample("notes/niche-3-03.opus"))
    (tmp_path / "words.txt").write_text("Two coats of release wax on the flange.")
    (tmp_path / "bad.wav").write_bytes(b"")
    files = [str(tmp_path / name) for name in ("note.opus", "bad.wav", "words.txt")]
    done = mouldbook("add", "niche-9", *files, "--mould", "niche", "--json")
    rows = json.loads(done.stdout)
    assert done.returncode == 1
    assert [row.get("state") for row in rows] == ["read", None, "read"]
    assert "empty" in rows[1]["error"]
    shown = mouldbook("show", "niche-9")
    assert shown.returncode == 0
    assert "release wax" in shown.stdout
    found = mouldbook("find", "wax", "--json")
    assert {hit["build_key"] for hit in json.loads(found.stdout)["hits"]} == {"niche-9"}
    assert mouldbook("find", "vacuum").returncode == 1


def test_what_is_not_there_is_one_line_and_status_1(mouldbook):
    done = mouldbook("show", "nothing")
    assert done.returncode == 1
    assert len(done.stderr.strip().splitlines()) == 1
    assert "Traceback" not in done.stderr


def test_wrong_use_is_status_2(mouldbook):
    assert mouldbook("read").returncode == 2
    assert mouldbook("nonsense").returncode == 2


def test_a_mix_by_itself(mouldbook):
    assert "B 87 g" in mouldbook("mix", "300", "--ratio", "100:29").stdout
    assert json.loads(mouldbook("mix", "500", "--ratio", "4:1", "--of", "total", "--json").stdout)["weights"] == [
        400,
        100,
    ]
    refused = mouldbook("mix", "300", "--ratio", "100")
    assert refused.returncode == 1
    assert refused.stderr.startswith("ratio:")


def test_a_laminate_and_a_clock_by_themselves(mouldbook):
    assert "resin 1050 g" in mouldbook("laminate", "1", "1x450@30").stdout
    assert "50.0 min at 15 degC (halving per 10 degC)" in mouldbook("clock", "25", "--degc", "15").stdout


def test_backup_check_and_restore(mouldbook, tmp_path):
    words = tmp_path / "words.txt"
    words.write_text("Two coats of release wax on the flange.")
    mouldbook("add", "niche-9", str(words), "--mould", "niche")
    assert mouldbook("backup", str(tmp_path / "copy")).returncode == 0
    assert mouldbook("check").returncode == 0
    refused = mouldbook("restore", str(tmp_path / "copy"))
    assert refused.returncode == 1
    assert "empty" in refused.stderr


def test_a_question_is_answered_or_says_what_it_lacks(mouldbook, tmp_path):
    words = tmp_path / "words.txt"
    words.write_text("Mixed 300 grams of epoxy gel coat with 87 grams of hardener. 100 to 29 by weight.")
    mouldbook("add", "niche-9", str(words), "--mould", "niche")
    asked = mouldbook("ask", "how much B for 420", "--build", "niche-9")
    assert asked.returncode == 0, asked.stderr
    assert asked.stdout.startswith("122 grams of hardener for 420 of epoxy gel coat")
    answer = json.loads(mouldbook("ask", "how", "much", "B", "for", "420", "--json").stdout)
    assert (answer["numbers"]["second_g"], answer["lacks"]) == (pytest.approx(121.8), "")
    lacking = mouldbook("ask", "which lot of hardener did we use")
    assert lacking.returncode == 1
    assert "Lacking: a lot" in lacking.stdout
    assert "pot life" in mouldbook("clocks", "niche-9").stdout
    assert {"all", "running", "outside"} == set(json.loads(mouldbook("clocks", "niche-9", "--json").stdout))
    assert mouldbook("clocks", "niche-77").returncode == 1


def test_a_tin_is_stated_and_shown(mouldbook):
    assert "No tin yet" in mouldbook("shelf").stdout
    stated = mouldbook("tin", "hardener", "4471", "--amount", "500", "--unit", "g", "--use-by", "2001-01-31")
    assert "past its use-by date 2001-01-31" in stated.stdout
    assert json.loads(mouldbook("shelf", "--json").stdout)[0]["stock"]["held_g"] == 500
    refused = mouldbook("tin", "hardener", "4471", "--amount", "500")
    assert refused.returncode == 1
    assert refused.stderr.startswith("unit:")


def test_weighings_judged_and_air_told_by_themselves(mouldbook):
    assert "add 30.0 g of B" in mouldbook("judge", "500:110", "--ratio", "100:28", "--tolerance", "5").stdout
    assert "A 656.3 g" in mouldbook("mix", "1.4", "--of", "area", "--gsm", "600", "--ratio", "100:28").stdout
    assert "dew point 12.5 degC" in mouldbook("climate", "15", "85").stdout
    for words in (
        ("judge", "500", "--ratio", "100:28"),
        ("climate", "200", "50"),
        ("mix", "1", "--of", "area", "--ratio", "4:1"),
        ("mix", "-5", "--ratio", "100:28"),
    ):
        assert mouldbook(*words).returncode == 1


def test_the_other_sums_by_themselves(mouldbook):
    assert "hardener 14.71 g" in mouldbook("stoichiometry", "187", "27.5").stdout
    assert "the whole programme 18 h" in mouldbook("ramp", "60@8", "80@4", "--rate", "10").stdout
    assert "batches 5, each 1000 g" in mouldbook("batches", "5000", "--largest", "1200").stdout
    assert "weight 2640 g" in mouldbook("casting", "2400", "--density", "1.1").stdout
    assert "hardener 20.55 g" in mouldbook("blend", "80@189", "10@183", "10@0", "--ahew", "43").stdout
    assert "2 % 14 g, 0.5 % 3.5 g" in mouldbook("additions", "700", "2", "0.5").stdout
    assert "to put on 840 g" in mouldbook("film", "1.4", "--wet", "0.5", "--density", "1.2").stdout
    judged = mouldbook("judge", "500:110", "--ratio", "100:28", "--material", "laminating epoxy").stdout
    assert "outside tolerance" in judged
    assert "arrhenius" in mouldbook("clock", "25", "--degc", "19", "--material", "laminating epoxy").stdout
    aged = json.loads(mouldbook("age", "6@15", "6@35", "--json").stdout)
    assert aged["figures"][0]["value"] == pytest.approx(15)
    assert "limits of epoxy gel coat" in " ".join(
        mouldbook("climate", "15", "60", "--material", "epoxy gel coat").stdout.split()
    )
    for words in (
        ("voids", "1.9", "--glass", "30"),
        ("ramp", "sixty", "--rate", "10"),
        ("climate", "15", "60", "--material", "x"),
    ):
        refused = mouldbook(*words)
        assert refused.returncode == 1
        assert ":" in refused.stderr
