"""What a leg carries: which parts are counted, what must be said, and how doubt counts."""

import json

import pytest

from inspection_rules.case import Case
from inspection_rules.measures.leg_tension import leg_tension, leg_tension_on_two, lifted_load
from inspection_rules.quantity import Measured, NotMeasured

from ..uses import MATE, climbing_line, rope_sling


def made(use, item=None):
    item = item or rope_sling()
    look = {"id": "look", "item": item["id"], "kind": "before use", "at": "2026-07-01T08:00:00Z", "by": MATE}
    raw = {"on": "2026-07-01", "item": item, "inspection": look, "use": use}
    return Case.model_validate_json(json.dumps(raw), strict=True)


def carried(use, item=None):
    found = leg_tension(made(use, item), "")
    assert isinstance(found, Measured), found
    return found


def lift(legs, angle, hitch="straight", load="60 kN"):
    return {"load": load, "legs": legs, "hitch": hitch, **({"leg_angle": angle} if angle else {})}


@pytest.mark.parametrize(
    ("use", "kn"),
    [
        (lift(1, None), 60.0),
        (lift(2, "90° from horizontal"), 30.0),
        (lift(2, "30° from horizontal"), 60.0),
        (lift(2, "60° from vertical"), 60.0),
        (lift(3, "90° from horizontal"), 20.0),
        (lift(4, "90° from horizontal"), 20.0),  # the fourth leg may hang slack
        (lift(1, "90° from horizontal", "choker"), 60.0),
        (lift(1, "90° from horizontal", "basket"), 30.0),  # both parts of the basket carry
        (lift(2, "90° from horizontal", "basket"), 15.0),
        (lift(3, "90° from horizontal", "basket"), 15.0),
    ],
)
def test_each_counted_part_carries_its_share(use, kn):
    assert float(carried(use).value) == pytest.approx(kn, abs=1e-6)


@pytest.mark.parametrize(
    ("use", "how"),
    [
        (lift(1, None), "60 kN on 1 leg straight down"),
        (lift(2, "60° from vertical"), "60 kN on 2 legs 60° from vertical"),
        (lift(4, "90° from horizontal"), "60 kN on 4 legs 90° from horizontal, 3 parts counted"),
        (lift(2, "90° from horizontal", "basket"), "60 kN on 2 baskets 90° from horizontal, 4 parts counted"),
        (lift(1, "90° from horizontal", "choker"), "60 kN on 1 choker leg 90° from horizontal"),
    ],
)
def test_how_it_was_reckoned_is_said_with_the_parts_that_were_counted(use, how):
    assert carried(use).how == how


def test_the_doubt_of_a_tension_is_that_of_the_load_and_of_the_angle_together():
    """34.641 kN: 2 % of it, and what 1.645 × 2° flatter adds, 35.889 kN in all, over 1.645."""
    assert carried(lift(2, "60° from horizontal")).u == pytest.approx(1.0275, abs=1e-4)


def test_a_stiff_load_on_four_legs_is_reckoned_on_two_of_them():
    found = leg_tension_on_two(made(lift(4, "90° from horizontal")), "")
    assert isinstance(found, Measured)
    assert float(found.value) == pytest.approx(30.0)


@pytest.mark.parametrize("legs", [1, 2])
def test_two_legs_need_no_reckoning_of_a_stiff_load(legs):
    found = leg_tension_on_two(made(lift(legs, "60° from horizontal")), "")
    assert isinstance(found, NotMeasured)
    assert not found.attempted


def test_the_items_own_legs_count_where_none_are_said():
    use = {"load": "60 kN", "hitch": "straight", "leg_angle": "90° from horizontal"}
    assert float(carried(use, rope_sling(legs=2)).value) == pytest.approx(30.0)


def test_a_line_is_taken_as_straight():
    assert float(carried({"load": "2 kN"}, climbing_line()).value) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("use", "asks"),
    [
        ({"leg_angle": "60° from horizontal"}, "load"),
        ({"hitch": "basket"}, "load"),
        ({"legs": 2}, "load"),
        ({"load": "0 kN", "hitch": "straight"}, "zero"),
        ({"load": "60 kN"}, "straight, choker or basket"),
        ({"load": "60 kN", "hitch": "straight", "legs": 2}, "angle"),
        ({"load": "60 kN", "hitch": "basket"}, "angle"),
        (lift(2, "3° from horizontal"), "flat"),
        (lift(2, "0° from horizontal"), "flat"),
    ],
)
def test_what_is_missing_of_a_lift_is_asked_for(use, asks):
    found = leg_tension(made(use), "")
    assert isinstance(found, NotMeasured)
    assert found.attempted
    assert asks in found.reason


def tagged(hitch, force):
    return {"rated": [{"hitch": hitch, "force": force}]}


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({"breaking_force": "19 kN"}, "it says 20 kN, above the breaking force on record, 19 kN"),
        (tagged("choker", "21 kN"), "it says 21 kN for a choker hitch, above the 20 kN it may carry straight"),
        (tagged("basket", "41 kN"), "it says 41 kN for a basket hitch, above twice the 20 kN it may carry straight"),
        (
            tagged("choker", "16 kN") | {"working_load_limit": None, "breaking_force": "15 kN"},
            "it says 16 kN for a choker hitch, above the breaking force on record, 15 kN",
        ),
    ],
)
def test_a_tag_that_contradicts_itself_or_its_certificate_is_not_relied_on(said, why):
    """Tag 20 kN straight unless said otherwise; the load would be well inside any of these forces."""
    found = leg_tension(made(lift(1, None, load="1 kN"), rope_sling(**said)), "")

    assert isinstance(found, NotMeasured)
    assert (found.attempted, found.refer) == (True, True)
    assert found.reason == f"the tag cannot be right: {why}; check tag and certificate"


@pytest.mark.parametrize(
    "said",
    [{"breaking_force": "20 kN"}, tagged("choker", "20 kN"), tagged("basket", "40 kN"), tagged("straight", "18 kN")],
)
def test_a_tag_that_may_be_right_is_reckoned_with(said):
    assert float(carried(lift(1, None, load="1 kN"), rope_sling(**said)).value) == pytest.approx(1.0)


def test_nothing_said_of_a_lift_is_nothing_to_reckon():
    found = leg_tension(made({"hottest": "20 °C"}), "")
    assert isinstance(found, NotMeasured)
    assert not found.attempted


def test_flatter_legs_make_the_angles_doubt_count_more():
    steep, flat = carried(lift(2, "80° from horizontal")), carried(lift(2, "20° from horizontal"))
    assert flat.u / float(flat.value) > 2 * steep.u / float(steep.value)


def test_the_loads_doubt_counts_on_a_single_leg():
    """Default of 2 % of the load: judgement, no source."""
    assert carried(lift(1, None, load="100 kN")).u == pytest.approx(2.0)


def test_the_whole_load_is_left_whole_for_tables_of_modes():
    found = lifted_load(made(lift(2, "60° from horizontal")), "")
    assert isinstance(found, Measured)
    assert (float(found.value), found.unit) == (60.0, "kN")
