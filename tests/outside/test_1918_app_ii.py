"""29 CFR 1918 appendix II, the table of manila rope slings, read in the regulator's pages: lbf, from the vertical.

Mandatory where there is no certificate and no maker's recommendation. Its heading was cut off; its vertical ratings are
a fifth of manila's breaking strength in FM 5-125 for every common size.
"""

import pytest

from inspection_rules.measures.leg_tension import tension

from ..inspection_rules.uses import outcome, rope_sling, rulings

# diameter in, vertical, choker, basket at 0, 30, 45 and 60 degrees from the vertical
TABLE = [
    ("1/2", 550, 250, 1100, 900, 750, 550),
    ("9/16", 700, 350, 1400, 1200, 1000, 700),
    ("5/8", 900, 450, 1800, 1500, 1200, 900),
    ("3/4", 1100, 550, 2200, 1900, 1500, 1100),
    ("13/16", 1300, 650, 2600, 2300, 1800, 1300),
    ("7/8", 1500, 750, 3100, 2700, 2200, 1500),
    ("1", 1800, 900, 3600, 3100, 2600, 1800),
    ("1 1/16", 2100, 1100, 4200, 3600, 3000, 2100),
    ("1 1/8", 2400, 1200, 4800, 4200, 3400, 2400),
    ("1 1/4", 2700, 1400, 5400, 4700, 3800, 2700),
    ("1 5/16", 3000, 1500, 6000, 5200, 4300, 3000),
    ("1 1/2", 3700, 1850, 7400, 6400, 5200, 3700),
    ("1 5/8", 4500, 2300, 9000, 7800, 6400, 4500),
    ("1 3/4", 5300, 2700, 10500, 9200, 7500, 5300),
    ("2", 6200, 3100, 12500, 10500, 8800, 6200),
    ("2 1/8", 7200, 3600, 14500, 12500, 10000, 7200),
    ("2 1/4", 8200, 4100, 16500, 14000, 11500, 8200),
]
ROWS = pytest.mark.parametrize("row", TABLE, ids=[row[0] for row in TABLE])


@ROWS
def test_a_basket_at_its_printed_rating_carries_the_vertical_rating_in_each_part(row):
    """2 V cos a reproduces the columns to within 5.8 %."""
    _, vertical, _, *baskets = row
    for printed, angle in zip(baskets, (0, 30, 45, 60), strict=True):
        assert tension(printed, 2, 90 - angle) == pytest.approx(vertical, rel=0.058)


def _manila(vertical, diameter):
    return rope_sling(fibre="manila", diameter=f"{diameter} in", working_load_limit=f"{vertical} lbf")


@pytest.mark.criterion("working-load")
@ROWS
def test_a_choker_carries_half_of_the_vertical_rating(row):
    """As printed but for rounding to 50 and 100 lbf, which is at most 50."""
    diameter, vertical, choker, *_ = row
    told = rulings(_manila(vertical, diameter), {"load": "10 lbf", "hitch": "choker"}, "US lifting")["us-choker"]
    assert float(told.limit) / 0.0044482216152605 == pytest.approx(vertical / 2, abs=1e-3)
    assert abs(vertical / 2 - choker) <= 50


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize(("load", "told"), [("910 lbf", "not for it"), ("895 lbf", "too near"), ("860 lbf", "for it")])
def test_one_inch_manila_in_a_choker_carries_900_lbf(load, told):
    """Row of 1 in: vertical 1,800, choker 900. The load is good to 3.3 % by default."""
    assert outcome(rulings(_manila(1800, "1"), {"load": load, "hitch": "choker"}, "US lifting")["us-choker"]) == told
