"""The site's and the makers' packs on the command line: given by name, or lying with a register."""

import json
from pathlib import Path

import pytest

from app.register import Register

from .calling import PACK, asset, complaint, printed

SOUND = asset("examples/two-eye-sling-before-use-serviceable.json")
ASKS_MORE = PACK.replace(
    'condition = { observation = "tag", when = ["unreadable"], outcome = "remove" }',
    'applies = { item = ["rope sling"] }\nneeds = { inspection = ["before use"], observations = ["body_inside"] }',
)


@pytest.fixture
def register(tmp_path: Path) -> Path:
    """A register's folder with one pack of its own."""
    Register.create(tmp_path / "register", "office").close()
    (tmp_path / "register" / "packs").mkdir()
    (tmp_path / "register" / "packs" / "harbour.toml").write_text(ASKS_MORE, encoding="utf-8")
    return tmp_path / "register"


def test_a_case_is_judged_by_the_packs_of_the_register_that_is_named(
    register: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    alone = json.loads(printed(capsys, "judge", SOUND, "--json"))
    found = json.loads(printed(capsys, "judge", SOUND, "--register", register, "--json"))
    assert (alone["answer"], found["answer"]) == ("serviceable", "hold")
    assert [one["observation"] for one in found["missing"]] == ["body_inside"]


def test_the_register_may_be_named_before_the_command(register: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert json.loads(printed(capsys, "--register", register, "judge", SOUND, "--json"))["answer"] == "hold"


def test_a_broken_pack_of_the_register_stops_the_judgement(register: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (register / "packs" / "harbour.toml").write_text("[pack", encoding="utf-8")
    said = complaint(capsys, "judge", SOUND, "--register", register)
    assert "packs: harbour.toml: is no TOML text" in said
    assert "Nothing is judged without it" in said


def test_a_register_that_is_not_there_stops_the_judgement(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "there is no register here" in complaint(capsys, "judge", SOUND, "--register", tmp_path)


def test_rules_of_a_pack_are_listed_with_those_that_ship(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pack = tmp_path / "harbour.toml"
    pack.write_text(PACK, encoding="utf-8")
    heads = [line for line in printed(capsys, "rules", "--pack", pack).splitlines() if line[:1] not in ("", " ")]
    assert [head.split(" · ")[1] for head in heads][-1] == "harbour 1"
    assert "harbour-tag" in printed(capsys, "rules", "harbour-tag", "--pack", pack)


def test_rules_of_a_registers_packs_are_listed(register: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "harbour-tag" in printed(capsys, "rules", "--register", register)


def test_a_pack_is_checked_beside_those_of_the_register(register: Path, capsys: pytest.CaptureFixture[str]) -> None:
    again = register / "packs" / "harbour.toml"
    assert "pack id 'harbour' is taken" in complaint(capsys, "rules", "--register", register, "--check", again)
