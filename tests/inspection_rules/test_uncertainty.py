"""How good one reading is: its own study, never better than its values show; else common practice, no source."""

from fractions import Fraction

import pytest

from inspection_rules.record import Reading
from inspection_rules.uncertainty import Spread, spread

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
