"""Sizes: nominal diameter and circumference by the trade table, measured girth by π, the fid length.

The trade's nominal circumference is about three times the nominal diameter and never π times: 1/2 in is
1 1/2 in, 1 in is 3 in, 2 in is 6 in (CI 1308-96 table as hosted by a supplier, and a supplier's strength
table: secondary). A girth that was measured is divided by π.
"""

import math
from fractions import Fraction

from inspection_rules.item import Item

# Nominal diameter to nominal circumference, inches. Secondary: trade strength table, Cordage-Institute style.
TRADE_SIZES_IN: tuple[tuple[Fraction, Fraction], ...] = tuple(
    (Fraction(d), Fraction(c))
    for d, c in (
        ("1/4", "3/4"), ("3/8", "9/8"), ("1/2", "3/2"), ("5/8", "2"), ("3/4", "9/4"), ("7/8", "11/4"), ("1", "3"),
        ("9/8", "7/2"), ("5/4", "15/4"), ("3/2", "9/2"), ("7/4", "11/2"), ("2", "6"), ("5/2", "15/2"), ("3", "9"),
    )
)  # fmt: skip
FID_CIRCUMFERENCES = 7  # from memory, trade practice: a fid length is 7 nominal circumferences


def nominal_diameter(item: Item) -> Fraction | None:
    """Return the nominal diameter in mm: as given, or from the nominal circumference by the trade table.

    Sizes between the table's are one third of the circumference, the table's own convention.
    """
    if item.diameter is not None:
        return item.diameter.to("mm")
    if item.circumference is None:
        return None
    circumference = item.circumference.to("in")
    for diameter, nominal in TRADE_SIZES_IN:
        if nominal == circumference:
            return diameter * Fraction("25.4")
    return circumference / 3 * Fraction("25.4")


def nominal_circumference(item: Item) -> Fraction | None:
    """Return the nominal circumference in mm: as given, or from the nominal diameter by the trade table.

    Sizes between the table's have three times their diameter, the table's own convention.
    """
    if item.circumference is not None:
        return item.circumference.to("mm")
    if item.diameter is None:
        return None
    diameter = item.diameter.to("in")
    for nominal, circumference in TRADE_SIZES_IN:
        if nominal == diameter:
            return circumference * Fraction("25.4")
    return 3 * diameter * Fraction("25.4")


def diameter_from_girth(girth: Fraction) -> float:
    """Return the diameter of a measured girth, same unit: d = C / π."""
    return float(girth) / math.pi


def fid_length(nominal_circumference: Fraction) -> Fraction:
    """Return the trade's fid length, same unit: 7 × nominal circumference."""
    return FID_CIRCUMFERENCES * nominal_circumference
