"""Sling legs against published tables: the load angle factor, bridles of manila, and the modes of textile slings.

Angles are from the horizontal in US texts and from the vertical in EN texts; each table says which.
"""

import pytest

from inspection_rules.measures.leg_tension import tension

from ..inspection_rules.uses import braided_sling, outcome, rope_sling, roundsling, rulings, stops, web_sling


@pytest.mark.parametrize(
    ("angle", "factor", "capacity"),
    [
        (90, 1.0000, 100.0), (75, 1.0353, 96.6), (60, 1.1547, 86.6), (45, 1.4142, 70.7), (30, 2.0000, 50.0),
        (15, 3.8637, 25.9), (5, 11.4737, 8.7),
    ],
)  # fmt: skip
def test_load_angle_factor_is_one_over_the_sine(angle, factor, capacity):
    """Load angle factors, from the horizontal (computed table); capacities as a supplier prints them (secondary)."""
    assert tension(1, 1, angle) == pytest.approx(factor, abs=5e-5)
    assert 100 / tension(1, 1, angle) == pytest.approx(capacity, abs=0.06)


@pytest.mark.parametrize(
    ("load", "angle", "each"),
    [(45, 60, 25.981), (50, 90, 25.00), (50, 60, 28.8675135), (50, 45, 35.3553391), (50, 30, 50.0)],
)
def test_worked_lifts_on_two_legs(load, angle, each):
    """45 kN and 50 kN on two legs, angles from the horizontal (computed examples)."""
    assert tension(load, 2, angle) == pytest.approx(each, abs=5e-4)


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize("datum", ["60° from horizontal", "30° from vertical"])
def test_a_lift_is_the_same_in_either_datum(datum):
    use = {"load": "45 kN", "legs": 2, "leg_angle": datum, "hitch": "straight"}
    told = rulings(rope_sling(working_load_limit="30 kN"), use, "US lifting")["leg-tension"]
    assert float(told.value) == pytest.approx(25.981, abs=5e-4)
    assert outcome(told) == "for it"


@pytest.mark.parametrize(
    ("single", "angle", "bridle"),
    [(120, 60, 204), (120, 45, 170), (120, 30, 120), (200, 60, 346), (200, 45, 282), (200, 30, 200), (270, 60, 467)],
)
def test_manila_bridles_are_the_single_leg_times_the_sine(single, angle, bridle):
    """29 CFR 1915.118 table G-1, lbf, from the horizontal (read): at its rating each leg carries the single rating."""
    assert tension(bridle, 2, angle) == pytest.approx(single, rel=0.019)


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize(("straight", "kn"), [("15 kN", 15), ("25 kN", 20)])
def test_where_a_tag_says_a_straight_pull_twice_the_less_counts(straight, kn):
    item = rope_sling(rated=[{"hitch": "straight", "force": straight}])
    assert rulings(item, {"load": "5 kN", "hitch": "straight"}, "US lifting")["leg-tension"].limit == kn


def test_a_tag_that_gives_a_straight_pull_and_no_working_load_limit_is_taken_at_its_word():
    item = rope_sling(rated=[{"hitch": "straight", "force": "15 kN"}])
    del item["working_load_limit"]
    assert rulings(item, {"load": "5 kN", "hitch": "straight"}, "US lifting")["leg-tension"].limit == 15


# --- angle near the vertical, and flat legs ---


@pytest.mark.parametrize(("angle", "kn"), [("85° from horizontal", 10.0), ("5° from vertical", 10.0)])
def test_five_degrees_from_the_vertical_are_vertical(angle, kn):
    """29 CFR 1910.184(b), read."""
    use = {"load": "20 kN", "legs": 2, "leg_angle": angle, "hitch": "straight"}
    assert float(rulings(rope_sling(), use)["leg-tension"].value) == kn


def test_six_degrees_from_the_vertical_are_not():
    use = {"load": "20 kN", "legs": 2, "leg_angle": "6° from vertical", "hitch": "straight"}
    assert float(rulings(rope_sling(), use)["leg-tension"].value) > 10.05


@pytest.mark.criterion("leg-angle")
@pytest.mark.parametrize(
    ("angle", "told"),
    [("29°", "not for it"), ("30°", "too near"), ("33°", "too near"), ("34°", "for it"), ("60°", "for it")],
)
def test_legs_under_30_degrees_from_the_horizontal_take_the_makers_word(angle, told):
    """ASME B30.9, from memory; the angle is good to 3.3° by default."""
    use = {"load": "1 kN", "legs": 2, "leg_angle": f"{angle} from horizontal", "hitch": "straight"}
    assert outcome(rulings(rope_sling(), use, "US lifting")["us-leg-angle"]) == told


@pytest.mark.criterion("leg-angle")
@pytest.mark.parametrize(("regime", "rule"), [("EU", "eu-leg-angle"), ("UK", "uk-leg-angle")])
@pytest.mark.parametrize(("angle", "told"), [("61°", "not for it"), ("60°", "too near"), ("56°", "for it")])
def test_legs_beyond_60_degrees_from_the_vertical_are_not_used(regime, rule, angle, told):
    """EN 1492-1, -2 and -4, from memory."""
    use = {"load": "1 kN", "legs": 2, "leg_angle": f"{angle} from vertical", "hitch": "straight"}
    assert outcome(rulings(web_sling(), use, regime)[rule]) == told


# --- modes ---


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize("regime", ["EU", "UK"])
@pytest.mark.parametrize(
    ("hitch", "legs", "angle", "mode"),
    [
        ("straight", 1, None, 1.0), ("choker", 1, None, 0.8),                      # 0.8: secondary
        ("basket", 1, "0°", 2.0), ("basket", 1, "30°", 1.4), ("basket", 1, "50°", 1.0),  # 2: secondary; rest memory
        ("straight", 2, "0°", 1.4), ("straight", 2, "40°", 1.4), ("straight", 2, "55°", 1.0),
        ("straight", 3, "40°", 2.1), ("straight", 4, "40°", 2.1), ("straight", 4, "55°", 1.5),
        ("choker", 2, "40°", 1.12), ("choker", 4, "55°", 1.2),                     # 0.8 of the legs' factor
    ],
)  # fmt: skip
def test_modes_of_textile_slings(regime, hitch, legs, angle, mode):
    """EN 1492 mode factors, from the vertical, from memory; 1.4, 1.0, 2.1, 1.5 read in EN 13414-1 for wire."""
    use = {"load": "1 kN", "legs": legs, "hitch": hitch, **({"leg_angle": f"{angle} from vertical"} if angle else {})}
    told = rulings(web_sling(working_load_limit="10 kN"), use, regime)[f"{regime.lower()}-modes"]
    assert float(told.limit) == pytest.approx(10 * mode)


@pytest.mark.parametrize(("angle", "mode"), [("41°", 1.4), ("42°", 1.0), ("45°", 1.0)])
def test_an_angle_too_near_the_end_of_its_band_takes_the_next(angle, mode):
    """The doubt about the angle, 3.3° by default, counts against the sling."""
    use = {"load": "1 kN", "legs": 2, "hitch": "straight", "leg_angle": f"{angle} from vertical"}
    assert float(rulings(web_sling(), use, "EU")["eu-modes"].limit) == pytest.approx(20 * mode)


@pytest.mark.parametrize(
    ("use", "why"),
    [
        ({"hitch": "straight", "legs": 2, "leg_angle": "58° from vertical"}, "angle"),
        ({"hitch": "basket", "legs": 2, "leg_angle": "10° from vertical"}, "basket"),
    ],
)
def test_a_mode_the_table_does_not_have_is_not_for_this_use(use, why):
    told = rulings(web_sling(), {"load": "1 kN", **use}, "EU")["eu-modes"]
    assert outcome(told) == "not for it"
    assert why in told.sentence


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize(("load", "told"), [("28.1 kN", "not for it"), ("27.9 kN", "too near"), ("27 kN", "for it")])
def test_two_legs_within_45_degrees_lift_1_4_times_the_working_load_limit(load, told):
    """EN 1492, from memory: 1.4 × 20 kN = 28 kN."""
    use = {"load": load, "legs": 2, "hitch": "straight", "leg_angle": "30° from vertical"}
    assert outcome(rulings(web_sling(), use, "EU")["eu-modes"]) == told


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize(
    ("item", "regime", "rule", "half"),
    [
        (rope_sling(), "US lifting", "us-choker", 0.5),     # 29 CFR 1918 appendix II, read
        (braided_sling(), "US lifting", "us-choker", 0.5),
        (web_sling(), "Australia", "australia-choker", 0.8),   # AS 1353 of 1997, secondary
        (roundsling(), "Australia", "australia-choker", 0.8),  # AS 4497 of 1997, secondary
    ],
)  # fmt: skip
def test_what_a_choker_may_carry_is_the_regimes_own_factor(item, regime, rule, half):
    told = rulings(item, {"load": "1 kN", "hitch": "choker"}, regime)[rule]
    assert float(told.limit) == pytest.approx(20 * half)


@pytest.mark.criterion("working-load")
def test_under_two_regimes_the_stricter_choker_counts():
    """0.5 in the United States, 0.8 in Europe: of 20 kN, 12 kN is between."""
    use = {"load": "12 kN", "hitch": "choker"}
    assert stops(rope_sling(), use, "EU") == set()
    assert stops(rope_sling(), use, "US lifting", "EU") == {"us-choker"}


@pytest.mark.parametrize("regime", ["US lifting", "EU", "Australia"])
def test_the_tags_own_rating_for_a_hitch_goes_before_any_factor(regime):
    item = web_sling(rated=[{"hitch": "choker", "force": "9 kN"}])
    told = rulings(item, {"load": "1 kN", "hitch": "choker"}, regime)
    assert {float(one.limit) for one in told.values()} == {9.0}


def test_the_tags_basket_rating_is_carried_by_its_two_parts():
    item = web_sling(rated=[{"hitch": "basket", "force": "36 kN"}])
    use = {"load": "1 kN", "hitch": "basket", "leg_angle": "0° from vertical"}
    told = rulings(item, use, "EU")
    assert float(told["leg-tension"].limit) == 18
    assert float(told["eu-modes"].limit) == 36


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize("item", [rope_sling(), web_sling()])
def test_a_stiff_load_on_four_legs_may_hang_on_two(item):
    """NAVEDTRA 14081, page 13-28, read: two of four legs may support practically the full load."""
    use = {"legs": 4, "hitch": "straight", "leg_angle": "90° from horizontal"}
    rule = "us-stiff-load-web" if item["kind"] == "web sling" else "us-stiff-load-rope"
    told = [
        outcome(rulings(item, {"load": load, **use}, "US lifting")[rule]) for load in ("40.1 kN", "39.9 kN", "38 kN")
    ]
    assert told == ["not for it", "too near", "for it"]
