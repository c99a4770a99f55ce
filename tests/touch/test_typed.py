"""Numbers as they are typed on the keypad."""

import pytest

from app.touch import typed
from app.touch.typed import Typed, in_words
from inspection_rules.quantity import QuantityError, parse


def press(value: Typed, keys: str) -> Typed:
    for key in keys.split():
        if key in typed.FRACTIONS:
            value = typed.add_fraction(value, key)
        elif key == ".":
            value = typed.point(value)
        elif key == "±":
            value = typed.turn_sign(value)
        elif key == "erase":
            value = typed.erase(value)
        else:
            value = typed.digit(value, key)
    return value


@pytest.mark.parametrize(
    ("unit", "keys", "text"),
    [
        ("mm", "5 6", "56 mm"),
        ("mm", "5 6 . 5", "56.5 mm"),
        ("mm", ". 5", "0.5 mm"),
        ("mm", "5 6 .", "56 mm"),
        ("mm", "0 0 7", "7 mm"),
        ("mm", "8 ±", "-8 mm"),
        ("mm", "8 ± ±", "8 mm"),
        ("mm", "5 6 erase", "5 mm"),
        ("mm", "5 . . 5", "5.5 mm"),
        ("mm", "5 1/4", "5 mm"),
        ("in", "1 1/2 1/8", "1 5/8 in"),
        ("in", "1/2 1/2", "1 in"),
        ("in", "3 1/4 erase", "3 in"),
        ("in", "1/8 ±", "-1/8 in"),
        ("in", "2 . 5 1/4", "2.5 in"),
        ("", "4", "4"),
        ("", "4 .", "4"),
    ],
)  # fmt: skip
def test_keys_write_what_a_person_would(unit: str, keys: str, text: str) -> None:
    assert press(Typed(unit), keys).text == text


@pytest.mark.parametrize("keys", ["1 1/2 1/8", "1/16", "2 1/4 ±"])
def test_what_the_keypad_writes_can_be_read(keys: str) -> None:
    value = press(Typed("in"), keys)
    assert typed.quantity(value, "length", signed=True) == parse(value.text, "length", signed=True)


def test_a_step_in_inches_is_a_sixteenth() -> None:
    assert typed.stepped(press(Typed("in"), "1 1/2"), 1, signed=False).text == "1 9/16 in"


def test_a_step_below_zero_needs_a_sign() -> None:
    assert typed.stepped(Typed("mm"), -1, signed=False).text == "0 mm"
    assert typed.stepped(Typed("mm"), -1, signed=True).text == "-1 mm"


def test_another_unit_is_another_reading() -> None:
    assert typed.in_unit(press(Typed("mm"), "5 6"), "in").empty


def test_nothing_typed_is_no_reading() -> None:
    with pytest.raises(QuantityError, match="Type the reading first"):
        typed.quantity(Typed("mm"), "length", signed=False)


@pytest.mark.parametrize(
    ("dimension", "units"),
    [
        ("force", ("kN", "tf", "lbf")),
        ("temperature", ("°C", "°F")),
        ("fraction", ("%",)),
        ("count", ("",)),
        ("length", ("mm", "in")),
    ],
)
def test_each_dimension_offers_its_own_units(dimension: str, units: tuple[str, ...]) -> None:
    assert typed.units_of(dimension, "mm") == units


@pytest.mark.parametrize(
    ("unit", "keys", "text"),
    [("kN", "4 4 0 . 5", "440.5 kN"), ("%", "1 2", "12 %"), ("°C", "6 0", "60 °C"), ("tf", "4 4", "44 tf")],
)
def test_forces_shares_and_heat_are_recorded_as_typed(unit: str, keys: str, text: str) -> None:
    typed_in = press(Typed(unit), keys)
    assert typed.quantity(typed_in, {"kN": "force", "tf": "force", "%": "fraction", "°C": "temperature"}[unit], False)
    assert typed_in.text == text


def test_a_place_is_stepped_by_a_tenth_of_a_metre() -> None:
    assert typed.stepped(press(Typed("m"), "3"), 1, False).text == "3.1 m"


@pytest.mark.parametrize(
    ("written", "unit", "beside"),
    [
        ("48 mm", "mm", "48 mm"),
        ("48 mm", "in", "48 mm (1 7/8 in)"),
        ("1 7/8 in", "mm", "1 7/8 in (47.6 mm)"),
        ("-3 mm", "in", "-3 mm (-1/8 in)"),
        ("0 mm", "in", "0 mm (0 in)"),
        ("4", "in", "4"),
        ("40 kN", "in", "40 kN"),
    ],
)
def test_what_was_read_before_stands_in_the_persons_own_unit_too(written: str, unit: str, beside: str) -> None:
    assert in_words(parse(written, signed=True), unit) == beside
