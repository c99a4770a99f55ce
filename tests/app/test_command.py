"""The command line, as called and as installed. `demo`, `report` and `verify` have tests of their own."""

import json
import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

import app
from app.command import main
from app.resources import asset

from .calling import EXAMPLES, PACK, changed, complaint, measured, printed

ANSWERS = ("serviceable", "watch", "hold", "remove")
SOUND = asset("examples/two-eye-sling-before-use-serviceable.json")
HELD = asset("examples/a-question-left-out-hold.json")
REMOVED = asset("examples/cut-strand-remove.json")
WATCHED = asset("examples/grit-inside-watch.json")
WRONG_USE = asset("examples/eye-on-a-large-pin-not-for-this-use-serviceable.json")
THROATMARK = Path(sys.executable).parent / "throatmark"

ASKS_MORE = PACK.replace(
    'condition = { observation = "tag", when = ["unreadable"], outcome = "remove" }',
    'applies = { item = ["rope sling"] }\nneeds = { inspection = ["before use"], observations = ["body_inside"] }',
)


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
    first, second, third = printed(capsys, "judge", path).splitlines()[:3]
    head = {
        "serviceable": "serviceable: use it; next inspection by ",
        "watch": "watch: use it, look again by ",
        "hold": "DO NOT USE · hold, ",
        "remove": "DO NOT USE · remove: out of service now",
    }[answer_in_name(path)]
    assert first.startswith(json.loads(path.read_bytes())["item"]["tag"])
    if "-not-for-this-use-" in path.name:
        second = third.removeprefix("The item itself: ")
    assert second.startswith(head)


@pytest.mark.parametrize("path", [p for p in EXAMPLES if answer_in_name(p) != "serviceable"], ids=lambda p: p.stem)
def test_account_gives_the_source_of_what_stops_or_is_watched(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "judge", path)
    assert re.search(r"no published source|as recorded, not verified|secondary source|29 CFR 1910\.184", text)


def test_account_says_not_for_this_use_and_leaves_the_items_answer(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, "judge", WRONG_USE).splitlines()
    assert lines[1] == "NOT FOR THIS USE: another rig is needed."
    assert lines[2].startswith("The item itself: serviceable: ")


KEYS: dict[str, tuple[type, ...]] = {
    "on": (str,),
    "inspection_sha256": (str,),
    "regimes": (list,),
    "site": (dict,),
    "use": (dict, type(None)),
    "answer": (str,),
    "door": (str, type(None)),
    "rulings": (list,),
    "not_for_this_use": (list,),
    "for_this_use": (list,),
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
    "closed_by": (list,),
    "if_accepted": (str,),
    "accepted": (str,),
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


@pytest.mark.parametrize(("data", "named"), VAGUE.values(), ids=VAGUE)
def test_refusal_repeats_what_was_written(
    data: bytes, named: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(data)
    assert named in complaint(capsys, "judge", path)


@pytest.mark.parametrize("regime", ["a\nb", "\x1b[2J"], ids=["line break", "terminal command"])
def test_regime_that_is_not_printable_does_not_reach_the_terminal(
    regime: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "regimes", to=[regime]))
    assert complaint(capsys, "judge", path).isprintable()


def test_tag_that_commands_the_terminal_is_refused_and_does_not_reach_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "item", "tag", to="RS-03\x1b[2J\nserviceable: use it"))
    said = complaint(capsys, "judge", path)
    assert "item.tag: " in said
    assert said.isprintable()


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


def test_tag_that_the_terminal_cannot_show_does_not_stop_the_answer(tmp_path: Path) -> None:
    path = tmp_path / "case.json"
    path.write_bytes(changed(measured(), "item", "tag", to="RS-≥03"))
    done = run("judge", path, PYTHONIOENCODING="cp1252")
    assert (done.returncode, done.stderr) == (0, b"")
