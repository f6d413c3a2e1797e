"""The published schemas are right, and what is exported holds to them, as judged by the standards' own libraries."""

from __future__ import annotations

import json

import frictionless
import jsonschema
import pytest

from journal.keep.exchange.document import gather
from journal.keep.exchange.exchange import export
from journal.keep.exchange.schema import json_schema
from tests.keep.made import AT, minutes


@pytest.fixture(scope="module")
def validator():
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema, format_checker=jsonschema.FormatChecker())


def test_a_document_holds_to_the_json_schema(filled, validator):
    document = json.loads(json.dumps(gather(filled, AT)))
    assert [error.message for error in validator.iter_errors(document)] == []


@pytest.mark.parametrize(
    ("noun", "values"),
    [("moulds", {"pieces": "two"}), ("moulds", {"colour": "red"}), ("steps", {"record": {"action": "dance"}})],
)
def test_the_json_schema_refuses_what_is_not_right(filled, validator, noun, values):
    document = json.loads(json.dumps(gather(filled, AT)))
    document[noun][0] |= values
    assert list(validator.iter_errors(document))


def test_every_list_and_field_is_described():
    schema = json_schema()
    for name, noun in schema["properties"].items():
        if noun.get("type") == "array":
            assert noun["description"], name
            assert noun["items"]["properties"]["id"] == {"type": "integer"}


@pytest.mark.filterwarnings("ignore")  # of libraries that the validator stands on
def test_the_tables_hold_to_their_table_schema(filled, media, tmp_path, monkeypatch):
    export(filled, media, tmp_path / "out", "csv", minutes(40))
    monkeypatch.chdir(tmp_path / "out")
    report = frictionless.validate("datapackage.json")
    assert report.valid, report.flatten(["name", "fieldName", "note"])[:5]
    assert report.stats["tasks"] == len(json.loads((tmp_path / "out" / "datapackage.json").read_text())["resources"])


@pytest.mark.filterwarnings("ignore")
def test_the_table_schema_refuses_what_is_not_right(filled, media, tmp_path, monkeypatch):
    export(filled, media, tmp_path / "out", "csv", minutes(40))
    monkeypatch.chdir(tmp_path / "out")
    table = tmp_path / "out" / "builds.csv"
    table.write_bytes(table.read_bytes().replace(b"\r\n1,", b"\r\none,"))
    assert not frictionless.validate("datapackage.json").valid
