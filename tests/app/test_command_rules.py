"""The commands that show what the program knows: `schema` and `rules`."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from .calling import EXAMPLES, PACK, Json, changed, complaint, measured, printed

# --- schema ----------------------------------------------------------------------------------------------


@pytest.fixture
def schema(capsys: pytest.CaptureFixture[str]) -> Json:
    return dict(json.loads(printed(capsys, "schema")))


def misfits(value: Any, rules: Json, whole: Json, place: str = "case") -> list[str]:
    """Where a JSON value does not fit a schema: the part of JSON Schema 2020-12 that records use, no more.

    A keyword that is not known here is reported too, so that nothing passes unlooked at.
    """
    if "$ref" in rules:
        inner = whole["$defs"][rules["$ref"].removeprefix("#/$defs/")]
        return misfits(value, inner, whole, place)
    if "anyOf" in rules:
        tried = [misfits(value, one, whole, place) for one in rules["anyOf"]]
        return [] if [] in tried else tried[0]
    known = {
        "$defs",
        "title",
        "description",
        "default",
        "examples",
        "type",
        "enum",
        "const",
        "pattern",
        "format",
        "items",
        "properties",
        "required",
        "additionalProperties",
        "minLength",
        "maxLength",
        "minItems",
        "maxItems",
        "minimum",
        "maximum",
    }
    wrong = [f"{place}: keyword {name}" for name in set(rules) - known]
    kinds = {"object": dict, "array": list, "string": str, "integer": int, "boolean": bool, "null": type(None)}
    if "type" in rules and type(value) is not kinds[rules["type"]]:
        return [f"{place}: no {rules['type']}"]
    if "enum" in rules and value not in rules["enum"]:
        wrong.append(f"{place}: {value!r} is none of the list")
    if isinstance(value, str):
        wrong += [f"{place}: pattern"] if not re.search(rules.get("pattern", ""), value) else []
        wrong += [f"{place}: length"] if not rules.get("minLength", 0) <= len(value) else []
    if isinstance(value, list):
        wrong += [f"{place}: too few"] if len(value) < rules.get("minItems", 0) else []
        for number, inner in enumerate(value):
            wrong += misfits(inner, rules.get("items", {}), whole, f"{place}.{number}")
    if isinstance(value, dict):
        properties = rules["properties"]
        wrong += [f"{place}.{name}: missing" for name in rules.get("required", ()) if name not in value]
        for name, inner in value.items():
            if name in properties:
                wrong += misfits(inner, properties[name], whole, f"{place}.{name}")
            elif rules["additionalProperties"] is False:
                wrong.append(f"{place}.{name}: not known")
    return wrong


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_schema_accepts_every_example(path: Path, schema: Json) -> None:
    assert misfits(json.loads(path.read_bytes()), schema, schema) == []


SCHEMA_REFUSES: dict[str, tuple[tuple[str | int, ...], Any]] = {
    "field not known": (("item", "strength"), "80 %"),
    "unknown fibre": (("item", "fibre"), "steel"),
    "bare number": (("item", "diameter"), 24),
    "no parts": (("item", "parts"), []),
    "no values": (("inspection", "readings", 0, "values"), []),
}


@pytest.mark.parametrize(("path", "value"), SCHEMA_REFUSES.values(), ids=SCHEMA_REFUSES)
def test_schema_refuses_what_no_case_may_say(path: tuple[str | int, ...], value: Any, schema: Json) -> None:
    assert misfits(json.loads(changed(measured(), *path, to=value)), schema, schema) != []


# --- rules -----------------------------------------------------------------------------------------------


def test_rules_lists_every_pack_and_says_how_well_each_source_was_verified(
    capsys: pytest.CaptureFixture[str],
) -> None:
    lines = printed(capsys, "rules").splitlines()
    heads = [line for line in lines if line and not line.startswith(" ")]
    assert {"common-practice", "common-practice-rope", "us-lifting"} <= {h.split(" · ")[1].split()[0] for h in heads}
    rules = [line for line in lines if line.startswith("  ")]
    assert len(rules) > 50
    standings = r"\[(common practice|(regulation|standard|handbook), (read|(secondary|memory) source)|"
    standings += r"the splice's own instruction, as recorded)\]$"
    assert [line for line in rules if not re.search(standings, line)] == []


def test_one_rule_shows_its_limit_source_and_clause(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "rules", "tail-projection")
    assert "29 CFR 1910.184(h)(3)(iii)" in text
    assert "tail at least diameters (times 6, below 1 in, otherwise 6 in)" in text


def test_rules_as_json_are_those_that_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    listed = [line.split()[0] for line in printed(capsys, "rules").splitlines() if line.startswith("  ")]
    found = json.loads(printed(capsys, "rules", "--json"))
    assert [one["id"] for one in found] == listed
    assert {"pack", "id", "title", "source"} <= set.intersection(*(set(one) for one in found))


def test_one_rule_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    (found,) = json.loads(printed(capsys, "rules", "tucks-synthetic", "--json"))
    assert found["limit"] == {"measure": "tucks", "at_least": "4", "outcome": "remove"}


def test_unknown_rule_says_how_to_list_them(capsys: pytest.CaptureFixture[str]) -> None:
    assert complaint(capsys, "rules", "strength") == "throatmark: no rule 'strength'; `throatmark rules` lists them"


def test_observations_are_listed_from_the_eye_to_the_standing_part(capsys: pytest.CaptureFixture[str]) -> None:
    names = [line.split()[0] for line in printed(capsys, "rules", "--observations").splitlines()]
    assert {"tag", "shock", "body_surface"} <= set(names)
    assert names.index("eye_bearing") < names.index("throat_marks") < names.index("bury_feel")


def test_check_of_a_good_pack_counts_its_rules(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(PACK, encoding="utf-8")
    assert printed(capsys, "rules", "--check", pack) == f"{pack}: pack harbour 1, 1 rules, nothing wrong\n"


@pytest.mark.parametrize(
    ("good", "bad", "why"),
    [
        ('id = "harbour"', 'id = "common-practice"', "pack id 'common-practice' is taken"),
        ('outcome = "remove"', 'outcome = "pass"', "rule harbour-tag: condition.outcome"),
        ('outcome = "remove"', 'outcome = "hold"', "rule harbour-tag: condition.outcome: 'hold' is milder"),
        ("[pack]", "[pack", "is no TOML text"),
    ],
)
def test_check_of_a_bad_pack_says_what_is_wrong(
    good: str, bad: str, why: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(PACK.replace(good, bad), encoding="utf-8")
    assert f"harbour.toml: {why}" in complaint(capsys, "rules", "--check", pack)


def test_check_of_a_missing_pack_names_it(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "nowhere.toml: cannot be read" in complaint(capsys, "rules", "--check", tmp_path / "nowhere.toml")
