"""Packs on uses that cannot be right are refused on loading."""

from pathlib import Path

import pytest

from inspection_rules.book import PackError, shipped, with_pack
from inspection_rules.quantity import QuantityError, parse

HEAD = """
[pack]
id = "harbour"
version = "1"
title = "The harbour's own"

[[rule]]
id = "own"
title = "Own limit"
action = "Another rig."
source = { document = "Harbour order 4", kind = "site", verified = "none" }
scope = "use"
"""

FAULTS = {
    "angle in the other datum": (
        'limit = { measure = "angle_from_horizontal", at_least = "60° from vertical", outcome = "hold" }',
        "give '60° from vertical' in '° from horizontal'",
    ),
    "angle without a datum": (
        'limit = { measure = "angle_from_horizontal", at_least = "30° included", outcome = "hold" }',
        "is no inclination",
    ),
    "rating without factors": (
        'limit = { measure = "leg_tension", at_most = { formula = "leg_rating" }, outcome = "hold" }',
        "needs 'factors'",
    ),
    "rating of a length": (
        'limit = { measure = "tail", at_most = { formula = "leg_rating", '
        'factors = [{ hitch = "straight", times = "1" }] }, outcome = "hold" }',
        "'leg_rating' gives a force",
    ),
    "length for a force": (
        'limit = { measure = "leg_tension", at_most = { formula = "diameters", times = "6" }, outcome = "hold" }',
        "'diameters' gives a length",
    ),
    "negative force": ('limit = { measure = "leg_tension", at_most = "-1 kN", outcome = "hold" }', "negative"),
}


def offered(body: str, folder: Path) -> None:
    path = folder / "harbour.toml"
    path.write_text(HEAD + body + "\n", encoding="utf-8")
    with_pack(shipped(), path)


@pytest.mark.parametrize(("body", "why"), FAULTS.values(), ids=FAULTS)
def test_a_use_rule_that_cannot_be_right_is_refused(body: str, why: str, tmp_path: Path) -> None:
    with pytest.raises(PackError) as refused:
        offered(body, tmp_path)
    assert "rule own: " in str(refused.value)
    assert why in str(refused.value)


def test_a_site_may_set_a_temperature_below_zero(tmp_path: Path) -> None:
    offered('limit = { measure = "coldest", at_least = "-20 °C", outcome = "hold" }', tmp_path)


@pytest.mark.parametrize(("vertical", "horizontal"), [(0, 90), (30, 60), (45, 45), (90, 0)])
def test_an_inclination_converts_between_its_two_datums(vertical: int, horizontal: int) -> None:
    assert parse(f"{vertical}° from vertical").to("° from horizontal") == horizontal
    assert parse(f"{horizontal}° from horizontal").to("° from vertical") == vertical


def test_an_inclination_is_no_angle_between_two_legs() -> None:
    with pytest.raises(QuantityError):
        parse("60° from vertical").to("° included")
