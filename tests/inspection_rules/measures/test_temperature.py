"""The hottest and coldest to come, and that neither hides the other."""

import pytest

from ..uses import outcome, rope_sling, rulings, stops


def test_heat_named_as_the_coldest_is_heat_all_the_same():
    assert "heat-polyester-nylon" in stops(rope_sling(), {"coldest": "150 °C"})


def test_cold_named_as_the_hottest_is_cold_all_the_same():
    assert "cold-synthetic" in stops(rope_sling(), {"hottest": "-60 °C"})


def test_temperatures_in_fahrenheit_are_the_same_temperatures():
    warm, same = rulings(rope_sling(), {"hottest": "80 °C"}), rulings(rope_sling(), {"hottest": "176 °F"})
    assert warm["heat-polyester-nylon"].margin == same["heat-polyester-nylon"].margin


@pytest.mark.criterion("temperature")
@pytest.mark.parametrize(
    ("fibre", "rule", "field", "temperatures"),
    [
        ("polyester", "heat-polyester-nylon", "hottest", ("101 °C", "99 °C", "95 °C")),
        ("nylon", "heat-polyester-nylon", "hottest", ("101 °C", "99 °C", "95 °C")),
        ("polypropylene", "heat-polypropylene", "hottest", ("81 °C", "79 °C", "75 °C")),
        ("HMPE", "heat-hmpe", "hottest", ("61 °C", "59 °C", "55 °C")),  # from memory
        ("polyester", "cold-synthetic", "coldest", ("-41 °C", "-39 °C", "-35 °C")),
        ("polypropylene", "cold-synthetic", "coldest", ("-41 °C", "-39 °C", "-35 °C")),
    ],
)
def test_a_fibre_meets_no_more_heat_or_cold_than_it_is_known_to_stand(fibre, rule, field, temperatures):
    """Common practice, no source; for HMPE from memory. Doubt of 2 °C by default."""
    told = [rulings(rope_sling(fibre=fibre), {field: one})[rule] for one in temperatures]
    assert [outcome(one) for one in told] == ["not for it", "too near", "for it"]


def test_the_limit_of_hmpe_says_that_its_source_is_not_verified():
    told = rulings(rope_sling(fibre="HMPE"), {"hottest": "70 °C"})["heat-hmpe"]
    assert str(told.source).endswith("source not verified")
