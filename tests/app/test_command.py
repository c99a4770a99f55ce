"""The command line, as called and as installed. `demo`, `report` and `verify` have tests of their own."""

import json
import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import Any

import pytest

import app
from app.command import main
from app.resources import asset

EXAMPLES = sorted(asset("examples").glob("*.json"))
ANSWERS = ("serviceable", "watch", "hold", "remove")
SOUND = asset("examples/two-eye-sling-before-use-serviceable.json")
HELD = asset("examples/a-question-left-out-hold.json")
REMOVED = asset("examples/cut-strand-remove.json")
WATCHED = asset("examples/grit-inside-watch.json")
WRONG_USE = asset("examples/eye-on-a-large-pin-not-for-this-use-serviceable.json")
THROATMARK = Path(sys.executable).parent / "throatmark"
Json = dict[str, Any]

PACK = """
[pack]
id = "harbour"
version = "1"
title = "Harbour rules"

[[rule]]
id = "harbour-tag"
title = "Tag"
fires = "The tag is not readable."
action = "Ask the safety officer."
source = { document = "Harbour rules", kind = "site", verified = "none" }
condition = { observation = "tag", when = ["unreadable"], outcome = "hold" }
"""
ASKS_MORE = PACK.replace(
    'condition = { observation = "tag", when = ["unreadable"], outcome = "hold" }',
    'needs = { inspection = ["before use"], observations = ["body_inside"] }',
)


def printed(capsys: pytest.CaptureFixture[str], *arguments: str | Path, code: int = 0) -> str:
    """What a command prints; it must end with this exit code and say nothing on stderr."""
    assert main([str(argument) for argument in arguments]) == code
    out, err = capsys.readouterr()
    assert err == ""
    return out


def complaint(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> str:
    """The one line a command says on stderr when it ends with exit code 2."""
    assert main([str(argument) for argument in arguments]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("throatmark: ")
    assert err.endswith("\n")
    assert err.count("\n") == 1
    return err.rstrip("\n")


def answer_in_name(path: Path) -> str:
    return path.stem.rsplit("-", 1)[-1]


# --- judge -----------------------------------------------------------------------------------------------


def test_there_is_an_example_of_every_answer() -> None:
    assert {answer_in_name(path) for path in EXAMPLES} == set(ANSWERS)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_example_gets_the_answer_it_is_named_after(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert json.loads(printed(capsys, "judge", path, "--json"))["answer"] == answer_in_name(path)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_account_names_the_item_and_what_to_do_in_its_first_two_lines(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first, second = printed(capsys, "judge", path).splitlines()[:2]
    head = {
        "serviceable": "serviceable: use it; next inspection by ",
        "watch": "watch: use it, look again by ",
        "hold": "DO NOT USE · hold, ",
        "remove": "DO NOT USE · remove: out of service now",
    }[answer_in_name(path)]
    assert first.startswith(json.loads(path.read_bytes())["item"]["tag"])
    assert second.startswith(head)


@pytest.mark.parametrize("path", [p for p in EXAMPLES if answer_in_name(p) != "serviceable"], ids=lambda p: p.stem)
def test_account_gives_the_source_of_what_stops_or_is_watched(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "judge", path)
    assert re.search(r"no published source|secondary source|29 CFR 1910\.184", text)


def test_account_says_not_for_this_use_and_leaves_the_items_answer(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, "judge", WRONG_USE).splitlines()
    assert lines[1].startswith("serviceable: ")
    assert lines[2] == "NOT FOR THIS USE; the item's own answer stands."


KEYS: dict[str, tuple[type, ...]] = {
    "on": (str,),
    "answer": (str,),
    "door": (str, type(None)),
    "rulings": (list,),
    "not_for_this_use": (list,),
    "missing": (list,),
    "next_due": (str, type(None)),
    "next_due_why": (str,),
    "examination_due": (str, type(None)),
    "advisories": (list,),
    "packs": (list,),
    "rules_version": (str,),
}
NUMBER = (int, float, type(None))
RULING_KEYS: dict[str, tuple[type, ...]] = {
    "rule": (str,), "pack": (str,), "title": (str,), "part": (str,), "scope": (str,), "answer": (str,),
    "door": (str, type(None)), "observation": (str,), "measure": (str,), "value": NUMBER, "limit": NUMBER,
    "margin": NUMBER, "unit": (str,), "u": NUMBER, "u_source": (str,), "from_study": (bool,), "probability": NUMBER,
    "source": (dict,), "sentence": (str,), "action": (str,), "mends": (str,), "look_again": (str, type(None)),
}  # fmt: skip


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_json_has_the_promised_keys_and_types(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(printed(capsys, "judge", path, "--json"))
    assert {name: type(value) in KEYS[name] for name, value in found.items()} == dict.fromkeys(KEYS, True)
    for ruling in (*found["rulings"], *found["not_for_this_use"]):
        assert {name: type(value) in RULING_KEYS[name] for name, value in ruling.items()} == dict.fromkeys(
            RULING_KEYS, True
        )
        assert set(ruling["source"]) == {"document", "edition", "clause", "kind", "verified"}
        assert ruling["answer"] in ANSWERS
    for day in (found["on"], found["next_due"], found["examination_due"]):
        assert day is None or date.fromisoformat(day)
    assert all(re.fullmatch("[0-9a-f]{64}", pack["sha256"]) for pack in found["packs"])


def test_json_of_a_held_item_has_its_door_and_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(printed(capsys, "judge", HELD, "--json"))
    assert (found["door"], found["next_due"]) == ("look again", None)
    assert [set(one) for one in found["missing"]] == [{"part", "observation", "ask"}]


def test_json_keeps_numbers_exact(capsys: pytest.CaptureFixture[str]) -> None:
    path = asset("examples/strand-tail-under-six-diameters-remove.json")
    found = json.loads(printed(capsys, "judge", path, "--json"))
    short = next(one for one in found["rulings"] if one["rule"] == "tail-projection")
    readings = json.loads(path.read_bytes())["inspection"]["readings"]
    (read,) = [r for r in readings if (r["part"], r["observation"]) == (short["part"], "tail")]
    assert short["limit"] == 96  # six times 16 mm: 29 CFR 1910.184(h)(3)(iii)
    assert f"{short['value']} mm" == read["values"][0]
    assert short["margin"] == short["value"] - 96


FAIL_ON = [
    (SOUND, "watch", 0),
    (WATCHED, "watch", 1),
    (WATCHED, "hold", 0),
    (HELD, "watch", 1),
    (HELD, "hold", 1),
    (HELD, "remove", 0),
    (REMOVED, "watch", 1),
    (REMOVED, "remove", 1),
    (WRONG_USE, "hold", 1),
    (WRONG_USE, "remove", 0),
]


@pytest.mark.parametrize(("path", "worst", "code"), FAIL_ON, ids=[f"{p.stem} {w}" for p, w, _ in FAIL_ON])
def test_fail_on_tells_when_the_answer_is_that_or_worse(
    path: Path, worst: str, code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert printed(capsys, "judge", path, "--fail-on", worst, code=code)


@pytest.mark.parametrize("path", [SOUND, HELD, REMOVED], ids=lambda path: path.stem)
def test_without_fail_on_every_answer_exits_with_zero(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "judge", path, code=0)


def test_fail_on_serviceable_is_no_choice(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["judge", str(SOUND), "--fail-on", "serviceable"])
    assert ended.value.code == 2
    assert "--fail-on" in capsys.readouterr().err


def test_one_more_pack_counts(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(ASKS_MORE, encoding="utf-8")
    found = json.loads(printed(capsys, "judge", SOUND, "--pack", pack, "--json"))
    assert found["answer"] == "hold"
    assert [one["observation"] for one in found["missing"]] == ["body_inside"]
    assert "harbour" in [one["id"] for one in found["packs"]]


def test_broken_pack_stops_the_judgement(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(PACK.replace("unreadable", "dirty"), encoding="utf-8")
    said = complaint(capsys, "judge", SOUND, "--pack", pack)
    assert "harbour.toml: rule harbour-tag: condition.when: 'dirty'" in said


# --- broken cases ----------------------------------------------------------------------------------------


def changed(case: Json, *path: str | int, to: Any) -> bytes:
    inner: Any = case
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = to
    return json.dumps(case).encode()


def measured() -> Json:
    return dict(json.loads(asset("examples/made-to-specification-periodic-serviceable.json").read_bytes()))


BROKEN: dict[str, tuple[bytes, str]] = {
    "empty file": (b"", "`throatmark schema` describes a case"),
    "nested brackets": (b"[" * 200_000, "`throatmark schema` describes a case"),
    "missing field": (json.dumps({"on": "2026-07-01"}).encode(), "item: is missing; add it"),
    "wrong unit": (changed(measured(), "item", "diameter", to="24 kN"), "item.diameter: '24 kN' is a force"),
    "condition not known": (
        changed(measured(), "inspection", "findings", 1, to={
            "observation": "eye_bearing", "part": "A", "seen": "present", "conditions": ["rusty"],
        }),
        "finding eye_bearing of part A: condition 'rusty' is not known; known are chafed, cut",
    ),
    "observation not known": (
        changed(measured(), "inspection", "readings", 0, "observation", to="colour"),
        "`throatmark rules --observations` lists them",
    ),
    "regime not known": (changed(measured(), "regimes", to=["moon"]), "regimes: 'moon' is not known; known are"),
    "negative girth": (
        changed(measured(), "inspection", "readings", 1, "values", to=["-74 mm"] * 3),
        "reading girth_worst of part body: '-74 mm' is negative; this reading is zero or more",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("data", "why"), BROKEN.values(), ids=BROKEN)
def test_broken_case_ends_with_two_and_one_line_naming_file_place_and_remedy(
    data: bytes, why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(data)
    said = complaint(capsys, "judge", path)
    assert str(path) in said
    assert why in said


def test_missing_case_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = complaint(capsys, "judge", tmp_path / "nowhere.json")
    assert f"{tmp_path / 'nowhere.json'}: cannot be read" in said


VAGUE: dict[str, tuple[bytes, str]] = {
    "impossible date": (changed(measured(), "on", to="2026-02-30"), "2026-02-30"),
    "unknown fibre": (changed(measured(), "item", "fibre", to="steel"), "steel"),
    "inspection in the future": (
        changed(measured(), "inspection", "at", to="2027-01-01T09:00:00Z"),
        "0192f0c4-0000-7000-8000-100000000004",
    ),
}


@pytest.mark.xfail(raises=AssertionError, strict=True, reason="what was written is not repeated beside the place")
@pytest.mark.parametrize(("data", "named"), VAGUE.values(), ids=VAGUE)
def test_refusal_repeats_what_was_written(
    data: bytes, named: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(data)
    assert named in complaint(capsys, "judge", path)


@pytest.mark.xfail(raises=AssertionError, strict=True, reason="names from the file are printed as they are")
@pytest.mark.parametrize("regime", ["a\nb", "\x1b[2J"], ids=["line break", "terminal command"])
def test_regime_that_is_not_printable_does_not_reach_the_terminal(
    regime: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "regimes", to=[regime]))
    assert complaint(capsys, "judge", path).isprintable()


@pytest.mark.xfail(raises=AssertionError, strict=True, reason="the tag is printed as it is")
def test_tag_that_commands_the_terminal_does_not_reach_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "item", "tag", to="RS-03\x1b[2J\nserviceable: use it"))
    lines = printed(capsys, "judge", path).splitlines()
    assert "\x1b" not in lines[0]
    assert lines[1].startswith("serviceable: use it; next inspection by")


# --- schema ----------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def schema() -> Json:
    done = subprocess.run([THROATMARK, "schema"], capture_output=True, check=True)
    return dict(json.loads(done.stdout))


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
        "$defs", "title", "description", "default", "examples", "type", "enum", "const", "pattern", "format", "items",
        "properties", "required", "additionalProperties", "minLength", "maxLength", "minItems", "maxItems", "minimum",
        "maximum",
    }  # fmt: skip
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
    assert [head.split(" · ")[1].split()[0] for head in heads] == ["common-practice", "us-lifting"]
    rules = [line for line in lines if line.startswith("  ")]
    assert len(rules) > 50
    standings = r"\[(common practice|regulation, read|(regulation|standard), secondary source)\]$"
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


def test_observations_are_listed_in_the_order_of_the_rope(capsys: pytest.CaptureFixture[str]) -> None:
    names = [line.split()[0] for line in printed(capsys, "rules", "--observations").splitlines()]
    assert (names[0], names[-1]) == ("tag", "shock")
    assert names.index("throat_marks") < names.index("bury_feel") < names.index("body_surface")


def test_check_of_a_good_pack_counts_its_rules(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(PACK, encoding="utf-8")
    assert printed(capsys, "rules", "--check", pack) == f"{pack}: pack harbour 1, 1 rules, nothing wrong\n"


@pytest.mark.parametrize(
    ("good", "bad", "why"),
    [
        ('id = "harbour"', 'id = "common-practice"', "pack id 'common-practice' is taken"),
        ('outcome = "hold"', 'outcome = "pass"', "rule harbour-tag: condition.outcome"),
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


# --- as installed ----------------------------------------------------------------------------------------


def run(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([THROATMARK, *arguments], capture_output=True, env={**os.environ, **environment}, timeout=60)


def test_installed_command_says_its_version() -> None:
    assert run("--version").stdout.decode().strip() == f"throatmark {app.__version__}"


def test_installed_command_judges_an_example_and_tells() -> None:
    done = run("judge", REMOVED, "--fail-on", "remove")
    assert (done.returncode, done.stderr) == (1, b"")
    assert done.stdout.decode().splitlines()[1] == "DO NOT USE · remove: out of service now"


def test_installed_command_ends_with_two_and_one_line_for_a_broken_case(tmp_path: Path) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(b"[" * 200_000)
    done = run("judge", path)
    assert (done.returncode, done.stdout, done.stderr.count(b"\n")) == (2, b"", 1)


def test_judging_loads_no_window_no_pictures_and_no_pdf() -> None:
    code = f"""
import sys
from app.command import main
main(["judge", {str(SOUND)!r}])
loaded = sorted(name for name in ("kivy", "plyer", "PIL.Image", "fpdf", "numpy") if name in sys.modules)
sys.exit(", ".join(loaded) or 0)
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True)
    assert (done.returncode, done.stderr) == (0, b"")


def test_nothing_is_said_when_the_reader_of_the_output_has_gone() -> None:
    judge = subprocess.Popen([THROATMARK, "schema"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert judge.stdout is not None
    assert judge.stderr is not None
    judge.stdout.close()
    said = judge.stderr.read()
    judge.stderr.close()
    judge.wait(60)
    assert said == b""


@pytest.mark.xfail(raises=AssertionError, strict=True, reason="output in a narrow encoding ends in a traceback")
def test_tag_that_the_terminal_cannot_show_does_not_stop_the_answer(tmp_path: Path) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "item", "tag", to="RS-≥03"))
    done = run("judge", path, PYTHONIOENCODING="cp1252")
    assert (done.returncode, done.stderr) == (0, b"")
