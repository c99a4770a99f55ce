"""What is worth asking of a use, telling it bit by bit, and what a use never changes."""

import json

import pytest

from inspection_rules.book import shipped
from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.rounds import Round
from inspection_rules.use_told import askable, differ, joined, lacking, needs, with_told
from inspection_rules.words import Chemical

from .uses import braided_sling, climbing_line, judged, rope_sling, roundsling, web_sling

ITEMS = [rope_sling(), braided_sling(), web_sling(), roundsling(), climbing_line()]
REGIMES = [(), ("EU",), ("US lifting",), ("Canada Alberta",)]
LIGHT = {"load": "1 kN", "hitch": "straight", "hottest": "20 °C", "coldest": "10 °C", "moisture": "dry"}
RUINOUS = {"load": "900 kN", "hitch": "straight", "persons": True, "chemicals": list(Chemical), "hottest": "200 °C"}
ROUND = {
    "id": "r", "at": "2050-03-08T08:00:00Z", "by": {"name": "mate", "competence": "user"}, "place": "deck",
    "expected": ["ml1"],
}  # fmt: skip


def fields(item: dict[str, object], *regimes: str) -> tuple[str, ...]:
    one = Item.model_validate_json(json.dumps(item), strict=True)
    return askable(one, shipped().chosen(regimes, one))


@pytest.mark.parametrize("regimes", REGIMES, ids=str)
@pytest.mark.parametrize("use", [LIGHT, RUINOUS], ids=["light", "ruinous"])
@pytest.mark.parametrize("item", ITEMS, ids=lambda one: one["tag"])
def test_telling_a_use_changes_nothing_of_the_items_own_answer(
    item: dict[str, object], use: dict[str, object], regimes: tuple[str, ...]
) -> None:
    without, told = judged(item, None, *regimes), judged(item, use, *regimes)
    own = ("answer", "door", "rulings", "missing", "next_due", "examination_due")
    assert {name: getattr(told, name) for name in own} == {name: getattr(without, name) for name in own}


@pytest.mark.parametrize("field", Use.model_fields)
def test_telling_less_never_speaks_for_a_use(field: str) -> None:
    whole = Use.model_validate({**LIGHT, "legs": 1, "pin_diameter": "30 mm", "eye_length": "400 mm"})
    said = with_told(whole, field, None)
    spoken = {one.rule for one in judged(rope_sling(), whole.model_dump(mode="json")).for_this_use}
    less = {one.rule for one in judged(rope_sling(), said.model_dump(mode="json")).for_this_use}
    assert less <= spoken


def test_how_a_load_hangs_is_asked_of_slings_only() -> None:
    assert {"legs", "leg_angle", "hitch"} <= set(fields(web_sling()))
    assert not {"legs", "leg_angle", "hitch"} & set(fields(climbing_line()))


def test_a_pin_is_asked_of_an_eye_that_a_rule_judges_only() -> None:
    assert "pin_diameter" in fields(rope_sling())
    assert "pin_diameter" not in fields(web_sling())


def test_heat_is_asked_where_a_rule_knows_the_fibre_only() -> None:
    assert "hottest" in fields(web_sling())
    assert "hottest" not in fields(web_sling(fibre="aramid"))


def test_a_regime_adds_what_its_rules_can_use() -> None:
    assert "hottest" not in fields(rope_sling(fibre="manila"))
    assert "hottest" in fields(rope_sling(fibre="manila"), "US lifting")


@pytest.mark.parametrize("item", ITEMS, ids=lambda one: one["tag"])
def test_whether_a_person_is_held_is_always_asked(item: dict[str, object]) -> None:
    assert "persons" in fields(item)


def lacks(item: dict[str, object], use: Use | None, *regimes: str) -> tuple[str, ...]:
    one = Item.model_validate(item)
    return lacking(use, [needs(one, shipped().chosen(regimes, one))])


@pytest.mark.parametrize(
    ("legs", "told", "missing"),
    [
        (1, {"load": "5 kN"}, ("hitch",)),
        (2, {"load": "5 kN"}, ("leg_angle", "hitch")),
        (2, {"hitch": "straight"}, ("load", "leg_angle")),
        (1, {"load": "5 kN", "hitch": "basket"}, ("leg_angle",)),
        (1, {"load": "5 kN", "hitch": "straight"}, ()),
        (1, {"hottest": "20 °C"}, ()),
        (1, {"eye_length": "300 mm"}, ("pin_diameter",)),
    ],
)
def test_all_that_a_rule_still_needs_is_named_at_once(
    legs: int, told: dict[str, object], missing: tuple[str, ...]
) -> None:
    assert lacks(rope_sling(legs=legs), Use.model_validate(told)) == missing


@pytest.mark.parametrize(("regimes", "missing"), [((), ()), (("Canada Alberta",), ("load",))])
def test_a_person_on_a_line_needs_the_load_only_where_a_rule_reckons_it(
    regimes: tuple[str, ...], missing: tuple[str, ...]
) -> None:
    assert lacks(climbing_line(), Use(persons=True), *regimes) == missing


def test_what_is_told_is_one_thing_more_and_the_rest_stays() -> None:
    assert with_told(Use(load="5 kN"), "legs", 2) == Use(load="5 kN", legs=2)


def test_a_use_of_which_all_was_taken_back_is_none() -> None:
    assert with_told(Use(load="5 kN"), "load", None) is None


def test_of_two_uses_joined_the_second_counts_where_both_were_told() -> None:
    assert joined(Use(load="5 kN", legs=2), Use(load="9 kN")) == Use(load="9 kN", legs=2)


def test_a_use_joined_with_none_stays_as_it_was_told() -> None:
    assert joined(Use(load="5 kN"), None) == Use(load="5 kN")


def test_uses_differ_in_what_both_were_told_only() -> None:
    assert differ(Use(load="5 kN"), Use(load="9 kN", legs=2))
    assert not differ(Use(load="5 kN"), Use(load="5 kN", legs=2))
    assert not differ(Use(load="5 kN"), None)


def test_a_round_without_a_use_is_written_as_it_always_was() -> None:
    assert "use" not in Round.model_validate_json(json.dumps(ROUND)).model_dump(mode="json")


def test_a_round_keeps_the_use_it_was_made_for() -> None:
    made = Round.model_validate_json(json.dumps({**ROUND, "use": {"load": "5 kN"}}))
    assert Round.model_validate_json(made.model_dump_json()) == made
