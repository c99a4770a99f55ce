"""Parts of the breaking strength and design factors, by regime, and what lifts no person."""

import pytest

from ..inspection_rules.uses import braided_sling, judged, outcome, rope_sling, roundsling, rulings, stops, web_sling


@pytest.mark.criterion("load-limit")
@pytest.mark.parametrize(
    ("item", "regime", "rule", "factor"),
    [
        (rope_sling(), "US lifting", "us-design-factor", 5),       # ASME B30.9, from memory
        (web_sling(), "US lifting", "us-design-factor", 5),        # DOE-STD-1090 has the same, read
        (roundsling(), "US lifting", "us-design-factor", 5),
        (web_sling(), "EU", "eu-design-factor-web", 7),            # EN 1492-1 and -2, secondary
        (roundsling(), "UK", "uk-design-factor-web", 7),
        (rope_sling(), "EU", "eu-design-factor-rope", 7),          # EN 1492-4, from memory
        (rope_sling(), "UK", "uk-design-factor-rope", 7),
        (web_sling(), "Australia", "australia-factor-web", 8),             # AS 1353 of 1997, secondary
        (roundsling(), "Australia", "australia-factor-roundsling", 7),     # AS 4497 of 1997, secondary
    ],
)  # fmt: skip
def test_the_certificate_bears_out_the_tag_by_the_regimes_factor(item, regime, rule, factor):
    """Breaking force over a working load limit of 20 kN: exact, so at the factor it passes."""
    use = {"load": "1 kN", "hitch": "straight"}
    told = [
        rulings({**item, "breaking_force": f"{20 * factor + more} kN", "breaking_spliced": True}, use, regime)[rule]
        for more in (-1, 0, 1)
    ]
    assert [outcome(one) for one in told] == ["not for it", "for it", "for it"]
    assert float(told[1].limit) == factor


ALBERTA = "Canada Alberta"
STRONG = {"breaking_force": "100 kN", "breaking_spliced": True}


@pytest.mark.criterion("load-limit")
@pytest.mark.parametrize(("load", "told"), [("20.1 kN", "not for it"), ("19.9 kN", "too near"), ("19 kN", "for it")])
def test_alberta_loads_no_more_than_a_fifth_of_the_breaking_strength(load, told):
    """Alberta OHS Code s.292(1), read: 20 % of the breaking strength of the weakest part."""
    found = rulings(rope_sling(**STRONG), {"load": load, "hitch": "straight"}, ALBERTA)["alberta-load-limit"]
    assert outcome(found) == told


@pytest.mark.criterion("load-limit")
@pytest.mark.parametrize(("load", "told"), [("10.1 kN", "not for it"), ("9.9 kN", "too near"), ("9 kN", "for it")])
def test_alberta_loads_no_more_than_a_tenth_with_a_person(load, told):
    """Alberta OHS Code s.292(1), read: 10 % where a worker is raised or lowered."""
    use = {"load": load, "hitch": "straight", "persons": True}
    assert outcome(rulings(rope_sling(**STRONG), use, ALBERTA)["alberta-load-limit-persons"]) == told
    assert "alberta-load-limit-persons" not in rulings(rope_sling(**STRONG), use | {"persons": False}, ALBERTA)


@pytest.mark.criterion("persons")
@pytest.mark.parametrize(
    ("item", "rule"),
    [
        (web_sling(), "persons-web"),                # EN 1492-1, scope, read
        (roundsling(), "persons-roundsling"),        # EN 1492-2, scope, read
        (braided_sling(), "persons-hmpe"),           # ISO 18264, scope, read
        (rope_sling(), "persons-rope"),              # EN 1492-4, from memory
    ],
)  # fmt: skip
@pytest.mark.parametrize("regime", ["EU", "UK"])
def test_slings_for_goods_lift_no_person(item, rule, regime):
    assert f"{regime.lower()}-{rule}" in stops(item, {"persons": True}, regime)
    assert stops(item, {"persons": False}, regime) == set()


def test_the_range_of_design_factors_is_advice_beside_a_lift():
    """CI 1401, secondary: 5 to 12."""
    lifted = judged(rope_sling(**STRONG), {"load": "10 kN", "hitch": "straight"})
    assert [one for one in lifted.advisories if "CI 1401" in one and "10 times" in one]
