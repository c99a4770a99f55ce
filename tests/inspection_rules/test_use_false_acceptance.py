"""A use at a limit, told with the default doubt of load, angle and temperature, passes at most one time in twenty."""

import json
import math
import random
from fractions import Fraction
from typing import Any

import pytest

from inspection_rules.book import shipped
from inspection_rules.case import Case, Use
from inspection_rules.quantity import Angle, Quantity
from inspection_rules.rule import Formula
from inspection_rules.rulings.limits import limit_ruling
from inspection_rules.words import Answer, Hitch, Scope

from .uses import MATE, braided_sling, climbing_line, rope_sling, roundsling, web_sling

DRAWS = 3000
# 5.2 % is the product's own ceiling; three standard deviations of a share of 5 % in this many draws come on top.
CEILING = 0.052 + 3 * math.sqrt(0.05 * 0.95 / DRAWS)
# Of exact figures, a certificate and a tag, nothing is left to chance; the throat angle is drawn elsewhere.
EXACT = ("rating_factor", "strength_for_persons", "throat_angle")
RULES = [
    (pack, rule)
    for pack in shipped().packs
    for rule in pack.rules
    if rule.scope is Scope.USE and rule.limit is not None and rule.limit.measure not in EXACT
]
STRONG = {
    "breaking_force": "100 kN",
    "breaking_spliced": True,
    "rated": [{"hitch": "choker", "force": "20 kN"}],
}
ITEMS = [
    make(fibre=fibre, **STRONG)
    for make in (rope_sling, web_sling, roundsling, braided_sling, climbing_line)
    for fibre in ("polyester", "nylon", "polypropylene", "HMPE", "manila")
]


def built(item: dict[str, Any]) -> Case:
    look = {"id": "look", "item": item["id"], "kind": "before use", "at": "2026-07-01T08:00:00Z", "by": MATE}
    return Case.model_validate_json(json.dumps({"on": "2026-07-01", "item": item, "inspection": look}), strict=True)


def kn(value: float) -> Quantity:
    return Quantity("drawn", Fraction(value), "kN")


def at_the_limit(measure: str, bound: Any, chance: random.Random) -> Use:
    """A use whose true value lies at the limit, as a person with the default doubt tells it.

    Defaults: load 2 %, angle 2°, temperature 2 °C. The tag says 20 kN, straight and choker; it breaks at 100 kN.
    """
    angle = 50.0  # from the horizontal, well inside the band of a table of modes
    told = Angle("drawn", Fraction(chance.gauss(angle, 2.0)), "horizontal")
    two = 2 * 20 * math.sin(math.radians(angle))
    if measure in ("hottest", "coldest"):
        return Use.model_construct(
            **{measure: Quantity("drawn", Fraction(chance.gauss(float(bound.to("°C")), 2)), "°C")}
        )
    if measure == "angle_from_horizontal":
        return Use.model_construct(
            leg_angle=Angle("drawn", Fraction(chance.gauss(float(bound.value), 2)), "horizontal")
        )
    if measure == "angle_from_vertical":
        return Use.model_construct(leg_angle=Angle("drawn", Fraction(chance.gauss(float(bound.value), 2)), "vertical"))
    loads = {
        "leg_tension": (two, 2), "leg_tension_on_two": (two, 4), "lifted_load": (28.0, 2),
        "design_factor": (two, 2), "design_factor_persons": (two / 2, 2),
    }  # fmt: skip
    load, legs = loads[measure]
    hitch = bound.factors[0].hitch if isinstance(bound, Formula) else Hitch.STRAIGHT
    if measure == "lifted_load":
        told = Angle("drawn", Fraction(chance.gauss(70.0, 2.0)), "horizontal")
    return Use.model_construct(
        load=kn(chance.gauss(load, 0.02 * load)), legs=legs, hitch=hitch, leg_angle=told,
        persons=measure == "design_factor_persons",
    )  # fmt: skip


@pytest.mark.parametrize(("pack", "rule"), RULES, ids=[rule.id for _, rule in RULES])
def test_use_at_its_limit_is_passed_at_most_one_time_in_twenty(pack: Any, rule: Any) -> None:
    chance = random.Random(20260101)
    case = next(one for one in map(built, ITEMS) if rule.applies.to_item(one.item))
    passed = 0
    for _ in range(DRAWS):
        use = at_the_limit(rule.limit.measure, rule.limit.bound, chance)
        ruling = limit_ruling(rule, rule.limit, pack, case.model_copy(update={"use": use}), "")
        assert ruling is not None
        passed += ruling.answer is Answer.SERVICEABLE
    assert 0 < passed / DRAWS <= CEILING


def test_legs_at_the_end_of_their_band_are_given_the_milder_factor_at_most_one_time_in_twenty() -> None:
    """26 kN would pass by 1.4 × 20 kN and fails by 1.0; the legs truly lie 45° off the vertical."""
    pack, rule = next(one for one in RULES if one[1].id == "eu-modes")
    case, chance, passed = built(web_sling()), random.Random(20260101), 0
    for _ in range(DRAWS):
        told = Angle("drawn", Fraction(chance.gauss(45.0, 2.0)), "vertical")
        use = Use.model_construct(load=kn(26), legs=2, hitch=Hitch.STRAIGHT, leg_angle=told)
        ruling = limit_ruling(rule, rule.limit, pack, case.model_copy(update={"use": use}), "")
        assert ruling is not None
        passed += ruling.answer is Answer.SERVICEABLE
    assert 0 < passed / DRAWS <= CEILING
