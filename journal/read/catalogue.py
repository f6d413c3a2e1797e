"""The catalogue as a shop writes it: TOML text in, materials, general words and terms out.

One line is enough for a material:

    "marine filler" = { kind = "filler", general = ["filler"], heard_as = ["marine fella"] }

`kind` is one of `journal.trade.material.KINDS`, or "general word" (a word that stands for several
materials) or "term" (a word of the trade that hearing should know). The other fields are those of
`Material`.
"""

from __future__ import annotations

import difflib
import tomllib
from dataclasses import fields
from typing import Any

from journal.trade.material import CAUTIONS, KINDS, Catalogue, Material, ShopWord, catalogue_of, name_key

GENERAL_WORD, TERM = "general word", "term"

_TEXTS = frozenset({"synonyms", "heard_as", "general", "cautions"})
_NUMBERS = frozenset({"ratio", "gsm"})
_RANGES = frozenset({"recoat_s", "amount_range_g", "percent_range", "temperature_range_c"})
_WORDS = frozenset({"kind", "second_part", "ratio_by"})
_MATERIAL_FIELDS = frozenset(f.name for f in fields(Material)) - {"name"}
_WORD_FIELDS = frozenset({"kind", "synonyms", "heard_as"})


class CatalogueError(ValueError):
    """A catalogue that cannot be used; the message names the entry and field, and says what to do."""


def _fail(entry: str, field: str, problem: str, remedy: str) -> CatalogueError:
    return CatalogueError(f'catalogue entry "{entry}", field "{field}": {problem}; {remedy}')


def _closest(word: str, choices: frozenset[str]) -> str:
    close = difflib.get_close_matches(word, sorted(choices), n=1)
    return f'did you mean "{close[0]}"? ' if close else ""


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _texts(entry: str, field: str, value: object) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(x, str) and x.strip() for x in value):
        raise _fail(entry, field, "is not a list of texts", f'write {field} = ["...", "..."]')
    return tuple(value)


def _numbers(entry: str, field: str, value: object) -> tuple[float, ...]:
    if not isinstance(value, list) or not all(_is_number(x) and x > 0 for x in value):
        raise _fail(entry, field, "is not a list of numbers above 0", f"write {field} = [100, 28]")
    if field == "ratio" and len(value) < 2:
        raise _fail(entry, field, "needs two parts or more", "write main : second, such as ratio = [100, 28]")
    return tuple(float(x) for x in value)


def _range(entry: str, field: str, value: object) -> tuple[float, float]:
    if not isinstance(value, list) or len(value) != 2 or not all(map(_is_number, value)) or value[0] > value[1]:
        raise _fail(entry, field, "is not a range", f"write the least and the most, such as {field} = [1, 3]")
    return float(value[0]), float(value[1])


def _single(entry: str, field: str, value: object) -> float:
    if not _is_number(value) or value <= 0:  # type: ignore[operator]
        raise _fail(entry, field, "is not a number above 0", f"write {field} = 20")
    return float(value)  # type: ignore[arg-type]


def _word(entry: str, field: str, value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise _fail(entry, field, "is not a text", f'write {field} = "..."')
    return value


def _read_field(entry: str, field: str, value: object) -> Any:
    if field in _TEXTS:
        return _texts(entry, field, value)
    if field in _NUMBERS:
        return _numbers(entry, field, value)
    if field in _RANGES:
        return _range(entry, field, value)
    return (_word if field in _WORDS else _single)(entry, field, value)


def _check(entry: str, values: dict[str, Any]) -> None:
    kinds = frozenset({*KINDS, GENERAL_WORD, TERM})
    kind = values.get("kind")
    if kind is None:
        raise _fail(entry, "kind", "is missing", f"write one of: {', '.join(sorted(kinds))}")
    if kind not in kinds:
        raise _fail(
            entry,
            "kind",
            f'"{kind}" is not a kind',
            _closest(kind, kinds) + f"write one of: {', '.join(sorted(kinds))}",
        )
    if values.get("ratio_by") not in (None, "weight", "volume"):
        raise _fail(entry, "ratio_by", "is neither weight nor volume", 'write ratio_by = "weight"')
    for caution in values.get("cautions", ()):
        if caution not in CAUTIONS:
            raise _fail(entry, "cautions", f'"{caution}" is not known', f"choose from: {', '.join(CAUTIONS)}")
    for field in values.keys() - (_WORD_FIELDS if kind in (GENERAL_WORD, TERM) else _MATERIAL_FIELDS):
        raise _fail(entry, field, f"does not belong to a {kind}", "take it out")


def _read_entry(entry: str, table: object, earlier: dict[str, Any]) -> dict[str, Any]:
    if not isinstance(table, dict):
        raise CatalogueError(f'catalogue entry "{entry}" is not a table; write "{entry}" = {{ kind = "filler" }}')
    values = dict(earlier)
    for field, value in table.items():
        if field not in _MATERIAL_FIELDS:
            known = ", ".join(sorted(_MATERIAL_FIELDS))
            raise _fail(entry, field, "is not a field", _closest(field, _MATERIAL_FIELDS) + f"the fields are: {known}")
        read = _read_field(entry, field, value)
        if field in _TEXTS and field in earlier:
            read = tuple(dict.fromkeys((*earlier[field], *read)))
        values[field] = read
    _check(entry, values)
    return values


def _settle_synonyms(entries: dict[str, dict[str, Any]], fresh: set[str]) -> None:
    """Give each synonym one owner: a later text takes it from an earlier one; within one text it is an error."""
    owners: dict[str, str] = {}
    for name in sorted(entries, key=lambda n: n not in fresh):
        kept = []
        for synonym in entries[name].get("synonyms", ()):
            owner = owners.setdefault(name_key(synonym), name)
            if owner == name:
                kept.append(synonym)
            elif name in fresh:
                raise _fail(
                    name, "synonyms", f'"{synonym}" is a synonym of "{owner}" too', "take it out of one of the two"
                )
        if "synonyms" in entries[name]:
            entries[name]["synonyms"] = tuple(kept)


def catalogue_from_toml(*texts: str) -> Catalogue:
    """Return the catalogue that the TOML texts describe; later texts add to or override earlier ones.

    An entry that an earlier text has too keeps what the later one leaves out; lists of words grow,
    other fields are replaced. Raises CatalogueError on text that is no TOML or no catalogue.
    """
    entries: dict[str, dict[str, Any]] = {}
    for text in texts:
        try:
            tables = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise CatalogueError(f"the catalogue is not valid TOML: {error}; correct that line") from error
        fresh = {name_key(name) for name in tables}
        for name, table in tables.items():
            entries[name_key(name)] = _read_entry(name, table, entries.get(name_key(name), {}))
        _settle_synonyms(entries, fresh)
    return _built(entries)


def _built(entries: dict[str, dict[str, Any]]) -> Catalogue:
    materials, words = [], {GENERAL_WORD: [], TERM: []}  # type: ignore[var-annotated]
    for name, values in entries.items():
        kind = values["kind"]
        if kind in words:
            words[kind].append(ShopWord(name, values.get("synonyms", ()), values.get("heard_as", ())))
        else:
            materials.append(Material(name=name, **values))
    return catalogue_of(tuple(materials), tuple(words[GENERAL_WORD]), tuple(words[TERM]))


def glossary(catalogue: Catalogue) -> tuple[str, ...]:
    """Return the names and terms that bias the hearing, the most useful first.

    First what hearing is known to get wrong (entries with `heard_as`), then the rest, each in the
    order of the catalogue. Abbreviations ("PVA") stand beside their material.
    """
    entries: tuple[Material | ShopWord, ...] = (*catalogue.materials, *catalogue.terms, *catalogue.general_words)
    listed: dict[str, None] = {}
    for entry in sorted(entries, key=lambda e: not e.heard_as):
        abbreviations = (s for s in entry.synonyms if s.isupper())
        listed |= dict.fromkeys((entry.name, *abbreviations))
    return tuple(listed)
