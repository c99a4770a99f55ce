"""Guard bands and conformance probabilities of JCGM 106:2012, ILAC-G8 and ISO 14253-1.

The figures of the JCGM 106 examples are from memory and recomputed; 0.6626 was read in a restatement of its
clause 7.4. scipy's normal distribution is the reference library.
"""

from fractions import Fraction

import pytest
from scipy.stats import norm

from inspection_rules.measures.section import area_loss_percent, loss_percent
from inspection_rules.rulings.numbers import REQUIRED_PROBABILITY, Z, probability


@pytest.mark.parametrize(
    ("value", "lower", "u", "p"),
    [
        (509.7, 490, 8.6, 0.9890),   # JCGM 106, burst strength at least 490 kPa (data from memory)
        (5.47, 5.40, 0.05, 0.9192),  # JCGM 106, Zener voltage at least 5.40 V (data from memory)
        (21.9, 21.6, 0.3, 0.8413),   # 24.0 mm rope, 10 %, u 0.3 mm: handbook table of Φ
        (22.1, 21.6, 0.3, 0.9522),
        (21.0, 21.6, 0.3, 0.0228),
        (22.5, 21.6, 0.3, 0.9987),
        (1.05, 1.0, 0.05, 1 - 0.158655),
        (1.08, 1.0, 0.05, 1 - 0.054799),
    ],
)  # fmt: skip
def test_one_sided_probability_of_conforming(value, lower, u, p):
    assert probability(value - lower, u) == pytest.approx(p, abs=5e-5)


def test_two_sided_probability_of_the_oil_viscosity_example():
    """JCGM 106 clause 7.4: y = 13.6, u = 1.8, limits 12.5 and 16.3."""
    both = probability(13.6 - 12.5, 1.8) - (1 - probability(16.3 - 13.6, 1.8))

    assert both == pytest.approx(0.6626, abs=5e-5)


def test_the_reference_library_agrees_over_the_whole_range():
    for z in (-4, -1.645, -0.3, 0, 0.842, 1.282, 1.96, 3.09):
        assert probability(z * 0.7, 0.7) == pytest.approx(float(norm.cdf(z)), abs=1e-12)


def test_acceptance_begins_at_1645_u_inside_the_limit():
    """ISO 14253-1: 95 % one-sided. New 24.0 mm, limit 10 %, u 0.3 mm: accept from 22.094 mm."""
    acceptance = 21.6 + Z * 0.3

    assert acceptance == pytest.approx(22.094, abs=1e-3)
    assert probability(22.093 - 21.6, 0.3) < REQUIRED_PROBABILITY < probability(22.094 - 21.6, 0.3)


def test_an_exact_number_has_no_doubt():
    assert (probability(0.0, 0), probability(1e-9, 0), probability(-1e-9, 0)) == (1, 1, 0)


@pytest.mark.parametrize(("diameter", "area"), [("5", "9.75"), ("10", "19"), ("15", "27.75"), ("25", "43.75")])
def test_diameter_loss_and_area_loss(diameter, area):
    """Arithmetic of a handbook table: 10 % of diameter is 19 % of area."""
    assert area_loss_percent(Fraction(diameter)) == Fraction(area)


def test_ratio_of_two_readings_and_its_uncertainty():
    """Worked example: d0 24.0, d 22.1, u 0.3 each: r 0.920833, u(r) 0.016992, P(r < 0.9) = 0.1101."""
    loss, u = loss_percent(Fraction("22.1"), Fraction(24), 0.3, 0.3)

    assert float(loss) == pytest.approx(100 - 92.08333, abs=1e-4)
    assert u == pytest.approx(1.69923422, abs=1e-6)
    assert 1 - probability(10 - float(loss), u) == pytest.approx(0.1100913454, abs=1e-6)
