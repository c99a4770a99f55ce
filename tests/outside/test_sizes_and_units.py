"""The trade's nominal sizes, and exact conversions of units, against tables."""

import math
from fractions import Fraction

import pytest

from inspection_rules.item import Item
from inspection_rules.measures.size import (
    TRADE_SIZES_IN,
    diameter_from_girth,
    fid_length,
    nominal_circumference,
    nominal_diameter,
)
from inspection_rules.quantity import parse

from ..inspection_rules.building import buried_sling


@pytest.mark.parametrize(
    ("circumference", "diameter"),
    [
        ("3/4 in", "1/4"), ("1 1/8 in", "3/8"), ("1 1/2 in", "1/2"), ("2 in", "5/8"), ("2 1/4 in", "3/4"),
        ("2 3/4 in", "7/8"), ("3 in", "1"), ("3 1/2 in", "9/8"), ("3 3/4 in", "5/4"), ("4 1/2 in", "3/2"),
        ("6 in", "2"), ("7 1/2 in", "5/2"), ("9 in", "3"),
    ],
)  # fmt: skip
def test_nominal_circumference_converts_by_the_trade_table(circumference, diameter):
    """Trade strength table, read on a supplier's page (secondary); 3 in to 1 in also in CI 1308."""
    item = Item.model_validate({k: v for k, v in buried_sling(circumference=circumference).items() if k != "diameter"})

    assert nominal_diameter(item) == Fraction(diameter) * Fraction("25.4")


@pytest.mark.parametrize(
    ("given", "other", "of"), [("4 in", "4/3", nominal_diameter), ("4 in", "12", nominal_circumference)]
)
def test_a_size_between_those_of_the_table_converts_by_three(given, other, of):
    """The table's own convention; no table has 4 in of either, 33.87 mm and 304.8 mm."""
    size = {"circumference": given, "diameter": None} if of is nominal_diameter else {"diameter": given}
    item = Item.model_validate(buried_sling(**size))

    assert of(item) == Fraction(other) * Fraction("25.4")


def test_nominal_circumference_is_never_pi_times_the_diameter():
    """By convention about 3: the table lies between 2.9 and 3.2, and 1/2 in is 1 1/2 in, where π gives 1.571."""
    ratios = [float(c / d) for d, c in TRADE_SIZES_IN]

    assert min(ratios) > 2.9 and max(ratios) < 3.21
    assert dict(TRADE_SIZES_IN)[Fraction(1, 2)] == Fraction(3, 2)


def test_a_measured_girth_converts_by_pi():
    """3 in of measured girth is 24.255 mm (computed)."""
    assert diameter_from_girth(Fraction("76.2")) == pytest.approx(24.255, abs=5e-4)
    assert diameter_from_girth(Fraction(75)) == pytest.approx(75 / math.pi)


def test_fid_length_is_seven_nominal_circumferences():
    """Common practice, no source: 3 1/2 in of circumference gives 24 1/2 in."""
    assert fid_length(Fraction(7, 2)) == Fraction(49, 2)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("5000 lbf", "kN", 22.241),    # 29 CFR 1926.502(d)(9)
        ("5400 lbf", "kN", 24.020),    # Z133 climbing line
        ("3000 lbf", "kN", 13.345),    # 29 CFR 1926.502(d)(12)
        ("540 lbf", "kN", 2.402),
        ("-20 °F", "°C", -28.89),      # 29 CFR 1910.184(h)(2)
        ("180 °F", "°C", 82.22),
        ("194 °F", "°C", 90.0),        # EM 385-1-1
        ("140 °F", "°C", 60.0),
        ("80 °C", "°F", 176.0),
        ("6 in", "mm", 152.4),
        ("1 1/8 in", "mm", 28.575),
    ],
)  # fmt: skip
def test_units_convert_as_the_texts_print_them(text, unit, value):
    assert float(parse(text).to(unit)) == pytest.approx(value, abs=6e-3)
