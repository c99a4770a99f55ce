"""A maker's criteria as rules, and a maker's written instruction: the one thing that makes a removal milder."""

import json
from pathlib import Path
from typing import Any

import pytest

from inspection_rules.book import PackError, RuleBook, shipped, with_pack
from inspection_rules.rule import Criterion
from inspection_rules.words import Answer, Door, Mend

from .small_book import LINE, accepted, book, judged, look, pack_text, rule, ruling, surface

OURS = LINE | {"maker_pack": "maker"}
LIFE = 'age = { since = "made", longest = "3 years", outcome = "remove" }'
NOW = look("2050-03-10")


def offered(folder: Path, *rules: str, more: str = "maker = true", standing: tuple[str, ...] = ()) -> RuleBook:
    path = folder / "maker.toml"
    path.write_text(pack_text(*rules, name="maker", more=more), encoding="utf-8")
    return with_pack(book(*standing), path)


def test_a_makers_pack_counts_for_the_items_that_name_it_and_for_no_other(tmp_path: Path) -> None:
    known = offered(tmp_path, rule("scuffed", surface("scuffed", "remove"), kind="maker"))
    seen = look("2050-03-10", "scuffed")
    assert ruling(judged(known, seen, item=OURS), "scuffed").answer is Answer.REMOVE
    assert "scuffed" not in {one.rule for one in judged(known, seen).rulings}


def test_a_makers_life_is_binding(tmp_path: Path) -> None:
    known = offered(tmp_path, rule("life", LIFE, "nothing", kind="maker"))
    found = ruling(judged(known, NOW, item=OURS), "life")
    assert (found.answer, found.mends) == (Answer.REMOVE, Mend.NOTHING)


def test_a_makers_life_of_which_the_beginning_is_not_on_record_is_a_hold(tmp_path: Path) -> None:
    known = offered(tmp_path, rule("life", LIFE, "nothing", kind="maker"))
    assert ruling(judged(known, NOW, item=OURS | {"made": None}), "life").answer is Answer.HOLD


@pytest.mark.parametrize("years", [2, 12])
def test_a_makers_life_stands_beside_an_age_that_only_holds_whatever_its_length(tmp_path: Path, years: int) -> None:
    held = rule("old", 'age = { since = "made", longest = "5 years", outcome = "hold" }')
    life = rule("life", LIFE.replace("3 years", f"{years} years"), "nothing", kind="maker")
    assert offered(tmp_path, life, standing=(held,)).packs[-1].id == "maker"


def test_a_maker_does_not_loosen(tmp_path: Path) -> None:
    standing = rule("torn", surface("torn", "remove"))
    with pytest.raises(PackError, match=r"maker\.toml: rule mine: condition\.outcome: .*would loosen torn"):
        offered(tmp_path, rule("mine", surface("torn", "hold"), kind="maker"), standing=(standing,))


def test_a_makers_pack_is_of_no_regime(tmp_path: Path) -> None:
    with pytest.raises(PackError, match=r"maker\.toml: \[pack\] regime: a maker's pack counts for the items"):
        offered(tmp_path, rule("life", LIFE, kind="maker"), more='maker = true\nregime = "lifting"')


def test_an_item_whose_makers_pack_is_not_loaded_is_held() -> None:
    found = ruling(judged(book(), NOW, item=OURS), "not-covered")
    assert (found.answer, found.door) == (Answer.HOLD, Door.REFER)
    assert "'maker' that its record names are not loaded" in found.sentence


# --- the maker's written instruction ---------------------------------------------------------------------

# Product law: wear and cuts, and nothing else.
YIELDS = (
    "effective-diameter",
    "fibre-inside",
    "fuzz",
    "web-abrasion",
    "trade-wear",
    "powder",
    "cut-fibres",
    "web-edge-cut-lifting",
    "web-warp-damage",
    "cut-strand",
)
NEVER = (
    "load-bearing-stitches",
    "web-edge-cut-fall-arrest",
    "core-exposed",
    "heat-damage",
    "chemical-burn",
    "tag-illegible",
    "fall-arrest",
)
INSTRUCTION = {
    "rules": ["torn"],
    "document": "Rope handbook, edition 3, page 12",
    "reason": "A jacket carries no load.",
}


def instructed(criterion: str, outcome: str = "remove", **more: Any) -> Any:
    """What a rule with a shipped criterion says where the maker's instruction speaks of it."""
    known = book(
        rule("torn", surface("torn", outcome), criterion=criterion), criteria=tuple(shipped().criteria.values())
    )
    item = LINE | {"instructions": [INSTRUCTION]}
    return ruling(judged(known, look("2050-03-10", "torn"), item=item, **more), "torn")


@pytest.mark.parametrize("criterion", YIELDS)
def test_a_removal_for_wear_or_a_cut_becomes_a_hold_by_the_makers_instruction(criterion: str) -> None:
    found = instructed(criterion)
    assert (found.answer, found.door) == (Answer.HOLD, Door.REFER)
    assert "Rope handbook, edition 3, page 12" in found.sentence
    assert "A jacket carries no load." in found.sentence


@pytest.mark.parametrize("criterion", NEVER)
def test_no_instruction_speaks_of_anything_else(criterion: str) -> None:
    assert instructed(criterion).answer is Answer.REMOVE


@pytest.mark.parametrize("criterion", ["cut-fibres", "fuzz", "effective-diameter"])
def test_no_instruction_eases_anything_that_a_person_hangs_on(criterion: str) -> None:
    known = book(
        rule("torn", surface("torn", "remove"), criterion=criterion), criteria=tuple(shipped().criteria.values())
    )
    item = LINE | {"duty": "life support", "instructions": [INSTRUCTION]}
    assert ruling(judged(known, look("2050-03-10", "torn"), item=item), "torn").answer is Answer.REMOVE


def test_what_yields_is_about_wear_and_cuts() -> None:
    yielding = {name for name, one in shipped().criteria.items() if one.yields}
    assert set(YIELDS) <= yielding
    assert not yielding & set(NEVER)


@pytest.mark.parametrize("outcome", ["hold", "watch"])
def test_an_instruction_turns_nothing_but_a_removal(outcome: str) -> None:
    assert instructed("cut-fibres", outcome).answer == outcome


def test_what_an_instruction_eased_is_not_made_milder_again_by_an_acceptance() -> None:
    first = look("2050-03-01", "torn")
    known = book(
        rule("torn", surface("torn", "remove"), criterion="cut-fibres"),
        criteria=(Criterion(id="cut-fibres", says="Cut fibres.", evidence="none", yields=True),),
    )
    now = look("2050-03-10", "torn", accepted=["accepted 2050-03-02"])
    acceptance = [accepted("2050-03-02", first, "torn")]
    item = LINE | {"instructions": [INSTRUCTION]}
    found = ruling(judged(known, now, first, accepted=acceptance, item=item), "torn")
    assert (found.answer, found.if_accepted) == (Answer.HOLD, "")


@pytest.mark.parametrize("lacking", ["document", "reason"])
def test_an_instruction_names_its_document_and_its_reason(lacking: str) -> None:
    item = LINE | {"instructions": [INSTRUCTION | {lacking: ""}]}
    with pytest.raises(ValueError, match=lacking):
        judged(book(), NOW, item=json.loads(json.dumps(item)))
