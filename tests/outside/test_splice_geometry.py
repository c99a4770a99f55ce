"""Geometry of splices against worked examples and closed forms."""

import math
from fractions import Fraction

import pytest

from inspection_rules.measures.bury import remaining
from inspection_rules.measures.throat_angle import from_bearing, from_centre, from_flat_eye
from inspection_rules.quantity import Measured
from inspection_rules.rulings.numbers import Z, probability
from inspection_rules.words import Answer, Door

from ..inspection_rules.building import baselines, buried_sling, case, inspection, judged, ruling


@pytest.mark.parametrize(("length", "angle"), [(1, 60.0), (1.5, 38.94), (2, 28.96), (3, 19.19)])
def test_throat_angle_from_the_throat_to_the_pins_centre(length, angle):
    """2 asin(D / 2L): the definition by the distance to the bearing's centre (computed table)."""
    assert from_centre(length, 1) == pytest.approx(angle, abs=5e-3)


@pytest.mark.parametrize(("length", "angle"), [(1.5, 60.0), (3, 23.0739181)])
def test_throat_angle_from_the_throat_to_the_bearing_point(length, angle):
    """2 asin((D/2) / (Le - D/2)): the definition by the distance to where the eye bears (computed table)."""
    assert from_bearing(length, 1) == pytest.approx(angle, abs=1e-6)


@pytest.mark.parametrize(("length", "angle"), [(1.91, 60), (2, 54), (3, 27)])
def test_throat_angle_from_the_inside_length_of_the_eye_laid_flat(length, angle):
    """60° at 1.91 pin diameters, 54° at 2, 27° at 3, to the whole degree: the length a person can measure."""
    assert round(from_flat_eye(length, 1)) == angle


def test_the_doubt_of_a_throat_angle_is_that_of_the_eye_and_of_the_pin_together():
    """Eye 500 ± 5 mm, pin 100 ± 1 mm: 1 % each, together 2.33 % to be sure: 13.7245°, and 14.1219° (solved anew)."""
    item = buried_sling()
    use = {"pin_diameter": "100 mm", "eye_length": "500 mm"}

    judgement = judged(case(item, inspection(item, "periodic", "2026-07-01"), use=use))

    told = next(r for r in judgement.for_this_use if r.measure == "throat_angle")
    assert float(told.value) == pytest.approx(13.7245, abs=1e-4)
    assert float(told.u) == pytest.approx(0.2416, abs=1e-4)


@pytest.mark.parametrize("length", [1.7, 1.9132, 2.4, 3.0, 6.0])
def test_the_three_definitions_describe_one_eye(length):
    """Converted: from the flat eye's angle, the other two lengths give the same angle back."""
    angle = from_flat_eye(length, 1)
    to_centre = 0.5 / math.sin(math.radians(angle / 2))

    assert from_centre(to_centre, 1) == pytest.approx(angle, abs=1e-6)
    assert from_bearing(to_centre + 0.5, 1) == pytest.approx(angle, abs=1e-6)
    perimeter = 2 * math.sqrt(to_centre**2 - 0.25) + 0.5 * (math.pi + math.radians(angle))
    assert perimeter == pytest.approx(2 * length, abs=1e-6)


def test_a_pin_that_does_not_fit_the_eye_is_no_angle_that_passes():
    assert from_flat_eye(1.5, 1) == 180


def test_remaining_bury_example():
    """Worked example: d 24, L0 1920 (u 10), s 95 (u 1.5), 72 d = 1728 asked: B 1825, u 10.112, accept from 1744.63."""
    l0 = Measured(Fraction(1920), "mm", 10.0, "example")
    left = remaining(l0, Measured(Fraction(95), "mm", 1.5, "example"))

    assert left.value == 1825
    assert left.u == pytest.approx(10.1118742, abs=1e-6)
    assert 1728 + Z * left.u == pytest.approx(1744.634, abs=5e-3)
    assert probability(1825 - 1728, left.u) > 0.95


@pytest.mark.criterion("bury-length")
def test_a_surplus_of_bury_passes_the_bury_and_never_excuses_the_movement():
    item = buried_sling()
    past = baselines(item, readings={("A", "bury"): ["1920 mm"], ("B", "bury"): ["1920 mm"]})
    look = inspection(item, "periodic", "2026-07-01", readings={("A", "mark_offset"): ["95 mm", "95 mm"]})

    judgement = judged(case(item, look, past=past))

    bury = ruling(judgement, "remaining-bury")
    assert (bury.value, bury.limit, bury.answer) == (1825, 1728, Answer.SERVICEABLE)
    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.REFER)


@pytest.mark.criterion("bury-length")
def test_a_splice_made_exactly_to_specification_and_not_moved_is_serviceable():
    item = buried_sling()
    past = baselines(item, readings={("A", "bury"): ["1728 mm"], ("B", "bury"): ["1728 mm"]})

    assert judged(case(item, inspection(item, "periodic", "2026-07-01"), past=past)).answer is Answer.SERVICEABLE


@pytest.mark.criterion("bury-length")
def test_the_same_splice_is_under_its_specification_once_slip_is_confirmed():
    item = buried_sling()
    past = baselines(item, readings={("A", "bury"): ["1728 mm"], ("B", "bury"): ["1728 mm"]})
    look = inspection(item, "periodic", "2026-07-01", readings={("A", "mark_offset"): ["5 mm"] * 4})

    assert ruling(judged(case(item, look, past=past)), "remaining-bury").answer is Answer.REMOVE


@pytest.mark.criterion("slip")
def test_slip_is_judged_as_common_practice_and_says_that_no_limit_is_published():
    """Common practice, no source: no published slip limit for a fibre-rope splice is known."""
    item = buried_sling()
    told = ruling(judged(case(item, inspection(item, "periodic", "2026-07-01"))), "slip")

    assert told.source.kind == "common practice"
    assert "no slip limit is published" in told.sentence
