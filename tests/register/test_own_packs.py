"""The packs in a register's folder: they count, what is wrong with one is told, and their texts are kept."""

from pathlib import Path

import pytest

from app.register import Register, RegisterError
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.words import Answer

from .making import EXAMINER, day, inspection, on, pendant

SITE = """
[pack]
id = "harbour"
version = "1"
title = "Harbour rules"

[[rule]]
id = "harbour-age"
title = "Age"
fires = "It is older than the harbour keeps its lines."
action = "Have it condemned."
source = { document = "Harbour rules", kind = "site", verified = "none" }
age = { since = "made", longest = "1 years", outcome = "remove" }
"""
MAKER = SITE.replace("harbour", "maker").replace('"Harbour rules"\n\n', '"Handbook"\nmaker = true\n\n')
MAKER = MAKER.replace('kind = "site"', 'kind = "maker"')


def put(folder: Path, text: str, name: str = "harbour.toml") -> Path:
    (folder / "packs").mkdir(exist_ok=True)
    path = folder / "packs" / name
    path.write_text(text, encoding="utf-8")
    return path


def ids(register: Register) -> list[str]:
    return [pack.id for pack in register.book().packs if pack not in shipped().packs]


def test_without_packs_of_its_own_a_register_judges_by_those_that_ship(register: Register) -> None:
    assert register.book() is shipped()


def test_packs_in_its_folder_count_in_the_order_of_their_names(register: Register, folder: Path) -> None:
    put(folder, MAKER, "z.toml")
    put(folder, SITE, "a.toml")
    put(folder, "no pack", "notes.txt")
    assert ids(register) == ["harbour", "maker"]


def test_a_pack_that_comes_goes_or_changes_counts_from_then_on(register: Register, folder: Path) -> None:
    assert ids(register) == []
    path = put(folder, SITE)
    assert ids(register) == ["harbour"]
    path.write_text(SITE.replace('id = "harbour"', 'id = "harbour-again"'), encoding="utf-8")
    assert ids(register) == ["harbour-again"]
    path.unlink()
    assert ids(register) == []


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        (SITE.replace('"remove"', '"passes"'), "rule harbour-age: age.outcome"),
        ("[pack", "is no TOML text"),
        ("\ud800".encode("utf-8", "surrogatepass").decode("latin-1"), "is no TOML text"),
    ],
)
def test_a_pack_that_cannot_be_used_is_told_and_none_is_left_out(
    register: Register, folder: Path, wrong: str, why: str
) -> None:
    put(folder, MAKER, "a.toml")
    put(folder, wrong)
    with pytest.raises(RegisterError, match=rf"packs: harbour\.toml: {why}.*Put the file right, or take it out"):
        register.book()


def test_what_was_judged_by_its_own_pack_stays_readable_without_it(register: Register, folder: Path) -> None:
    path = put(folder, SITE)
    register.revise_item(pendant(made=on(-800)), EXAMINER, day(0))
    seen = inspection("n1", readings=())
    verdict = judge(register.case(seen, on=on(0)), register.book())
    register.log_inspection(seen, verdict)
    path.unlink()
    assert ("harbour-age", Answer.REMOVE) in [(one.rule, one.answer) for one in verdict.rulings]
    (sha,) = [one.sha256 for one in verdict.packs if one.id == "harbour"]
    assert register.pack_text(sha) == SITE
    assert register.verify() == []


LOOSER = SITE.replace("harbour", "looser").replace(
    'age = { since = "made", longest = "1 years", outcome = "remove" }',
    'interval = { since = ["periodic"], until = ["periodic"], longest = { normal = "90 years" } }',
)


def left_in(folder: Path) -> list[str]:
    place = folder / "packs"
    return sorted(path.name for path in place.iterdir()) if place.is_dir() else []


def test_a_pack_is_added_from_a_file_and_counts(register: Register, folder: Path, tmp_path: Path) -> None:
    (tmp_path / "site.TOML").write_text(SITE, encoding="utf-8")
    assert register.own_packs.add(tmp_path / "site.TOML").id == "harbour"
    assert left_in(folder) == ["site.toml"]
    assert ids(register) == ["harbour"]


@pytest.mark.parametrize("text", ["no pack", LOOSER, SITE.replace('id = "harbour"', 'id = "common-practice"'), "\x00"])
def test_a_pack_that_cannot_be_used_is_not_added_and_leaves_nothing(
    register: Register, folder: Path, tmp_path: Path, text: str
) -> None:
    (tmp_path / "site.toml").write_text(text, encoding="utf-8")
    with pytest.raises(RegisterError, match="Nothing was added"):
        register.own_packs.add(tmp_path / "site.toml")
    assert left_in(folder) == []
    assert register.book() is shipped()


@pytest.mark.parametrize("name", ["site.txt", "missing.toml", ".hidden.toml"])
def test_a_file_that_is_no_pack_is_refused(register: Register, tmp_path: Path, name: str) -> None:
    if name != "missing.toml":
        (tmp_path / name).write_text(SITE, encoding="utf-8")
    with pytest.raises(RegisterError, match="Nothing was added"):
        register.own_packs.add(tmp_path / name)


def test_a_pack_is_not_added_over_another_of_its_name(register: Register, folder: Path, tmp_path: Path) -> None:
    put(folder, SITE, "site.toml")
    (tmp_path / "site.toml").write_text(MAKER, encoding="utf-8")
    with pytest.raises(RegisterError, match="there already"):
        register.own_packs.add(tmp_path / "site.toml")
    assert ids(register) == ["harbour"]


def test_a_broken_pack_says_what_is_wrong_and_can_be_taken_away(register: Register, folder: Path) -> None:
    put(folder, "no pack", "broken.toml")
    put(folder, SITE, "site.toml")
    broken, sound = register.own_packs.every()
    assert broken.pack is None
    assert broken.problem
    assert sound.pack is not None
    register.own_packs.take_away("broken.toml")
    assert ids(register) == ["harbour"]


def test_a_regime_goes_with_the_only_pack_that_knows_it(register: Register, folder: Path) -> None:
    put(folder, SITE.replace('title = "Harbour rules"', 'title = "Harbour rules"\nregime = "Harbour"'), "site.toml")
    register.set_regimes(["Harbour", "US lifting"])
    register.own_packs.take_away("site.toml")
    assert register.regimes() == ("US lifting",)
    assert left_in(folder) == ["site.toml.taken-out"]
    assert register.book() is shipped()
