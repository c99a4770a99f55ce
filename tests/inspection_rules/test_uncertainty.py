"""How good one reading is: its own study, never better than its values show; else common practice, no source."""

from fractions import Fraction

import pytest

from inspection_rules.record import Reading
from inspection_rules.uncertainty import Spread, same_hand, spread

D24 = Fraction(24)


def good(observation: str, *values: str, method: str = "tape", tension: str = "hand-taut", **study: str) -> Spread:
    """How good a reading on 24 mm rope is, in mm."""
    how = {"method": method, "tension": tension, "moisture": "dry"}
    raw = {"observation": observation, "part": "body", "values": list(values), **how, **study}
    return spread(Reading.model_validate(raw), D24, "mm")


def test_values_that_scatter_more_than_their_study_says_make_up_the_difference() -> None:
    """74, 75 and 76 mm scatter by 1 mm, the study says 0.6: the other 0.8 averages out, 0.6 does not."""
    found = good("girth_sound", "74 mm", "75 mm", "76 mm", u="0.6 mm", u_study="yard, May")

    assert (found.repeat, found.fixed) == (pytest.approx(0.8), pytest.approx(0.6))
    assert found.of_mean(4) == pytest.approx(0.7211, abs=1e-4)
    assert not found.from_study


def test_values_inside_their_study_add_nothing_to_it() -> None:
    found = good("girth_sound", "75 mm", "75 mm", u="0.6 mm", u_study="yard, May")

    assert (found.repeat, found.fixed, found.from_study) == (0, pytest.approx(0.6), True)


def test_slack_rope_is_read_half_as_well_by_default_and_by_study() -> None:
    """24 mm rope is 75.40 mm round by π: 1.5 % of it repeats, 2 % does not."""
    taut, slack = (good("girth_sound", "75 mm", tension=tension) for tension in ("hand-taut", "slack"))

    assert (taut.repeat, taut.fixed) == (pytest.approx(1.131, abs=1e-3), pytest.approx(1.508, abs=1e-3))
    assert (slack.repeat, slack.fixed) == (pytest.approx(2.262, abs=1e-3), pytest.approx(3.016, abs=1e-3))
    assert good("girth_sound", "75 mm", tension="slack", u="0.6 mm", u_study="yard, May").fixed == pytest.approx(1.2)


@pytest.mark.parametrize(("method", "floor"), [("tape", 0.1443), ("photograph", 0.1443), ("caliper", 0.0289)])
def test_no_study_makes_a_reading_better_than_its_instruments_steps(method: str, floor: float) -> None:
    """Half a millimetre on a rule or tape, a tenth on a caliper, each over √12."""
    found = good("tail", "97 mm", method=method, u="0.001 mm", u_study="yard, May")

    assert (found.fixed, found.from_study) == (pytest.approx(floor, abs=1e-4), False)
    assert found.of_mean(20) == pytest.approx(floor, abs=1e-4)


def test_of_two_girths_by_one_hand_half_a_point_each_is_left_of_what_repeats_do_not_average_out() -> None:
    """0.5 % of 75.40 mm; what repeats average out stays 1.5 %."""
    raw = {"observation": "girth_worst", "part": "body", "values": ["75 mm"], "method": "girth tape"}
    how = {"tension": "hand-taut", "moisture": "dry"}

    found = same_hand(Reading.model_validate(raw | how), D24)
    studied = same_hand(Reading.model_validate(raw | how | {"u": "1 mm", "u_study": "yard, May"}), D24)

    assert (found.repeat, found.fixed) == (pytest.approx(1.131, abs=1e-3), pytest.approx(0.377, abs=1e-3))
    assert studied.fixed == 1


DEFAULTS = {
    # observation, method: what repeats and what does not, mm on 24 mm rope; common practice, no source
    ("girth_sound", "girth tape"): (1.131, 1.508),
    ("caliper_widest", "caliper"): (0.36, 0.48),
    ("eye_length", "tape"): (3, 4),
    ("mark_offset", "tape"): (1.5, 0.72),
    ("mark_offset", "photograph"): (2.25, 1.08),
    ("mark_tail", "tape"): (1.5, 1.92),
    ("mark_standing", "photograph"): (2.25, 2.88),
    ("edge_cut", "tape"): (0, 0.5),
    ("warp_width", "photograph"): (0, 1.5),
    ("hook_throat", "caliper"): (0, 0.3),
    ("tip_step", "felt by hand"): (24, 24),
    ("bury_feel", "felt by hand"): (0, 24),
    ("bury", "tape on the laid-out tail"): (0, 3),
    ("fibre_rope", "by eye"): (0, 3),
    ("tail", "tape"): (1.5, 0.5),
    ("tail", "photograph"): (2.25, 0.5),
    ("tucks", "counted"): (0, 0),
}


@pytest.mark.parametrize(("read", "expected"), DEFAULTS.items(), ids=map(" by ".join, DEFAULTS))
def test_each_way_of_reading_is_as_good_as_common_practice_takes_it_to_be(
    read: tuple[str, str], expected: tuple[float, float]
) -> None:
    found = good(read[0], "75 mm", method=read[1])

    assert (found.repeat, found.fixed) == (pytest.approx(expected[0], abs=1e-3), pytest.approx(expected[1], abs=1e-3))
    assert found.source == "default, common practice, no study"


@pytest.mark.parametrize(("size", "repeat", "fixed"), [(4, 5, 5), (24, 24, 24)])
def test_a_tip_is_never_felt_better_than_to_five_millimetres(size: int, repeat: float, fixed: float) -> None:
    raw = {"observation": "tip_step", "part": "A", "values": ["75 mm"], "method": "felt by hand"}
    found = spread(Reading.model_validate({**raw, "tension": "hand-taut", "moisture": "dry"}), Fraction(size), "mm")

    assert (found.repeat, found.fixed) == (repeat, fixed)
