"""Numbers as they are typed on the keypad."""

import pytest

from app.touch import typed
from app.touch.typed import Typed
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
