"""A number as it is typed on the keypad: digits, a decimal point, a sign, fractions of an inch, a unit."""

from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.quantity import Quantity, QuantityError, decimal_text, parse

MOST_DIGITS = 7
FRACTIONS = ("1/2", "1/4", "1/8", "1/16")
# What − and + change a number by, in its unit; an inch is read to the sixteenth.
STEPS = {"mm": Fraction(1), "in": Fraction(1, 16), "m": Fraction(1, 10), "tf": Fraction(1, 10)}
# What the unit key goes round for readings that are no lengths of a splice.
UNITS_OF = {"force": ("kN", "tf", "lbf"), "temperature": ("°C", "°F"), "fraction": ("%",), "count": ("",)}
PLACE_UNITS = {"mm": ("m", "ft"), "in": ("ft", "m")}


@dataclass(frozen=True, slots=True)
class Typed:
    """What stands in the keypad's window.

    Attributes:
        digits: as typed, with at most one decimal point.
        fraction: fractions of an inch added to them.
        minus: whether the number is negative.
        unit: a key of `UNITS`.
    """

    unit: str
    digits: str = ""
    fraction: Fraction = Fraction(0)
    minus: bool = False

    @property
    def empty(self) -> bool:
        """Whether nothing was typed."""
        return not self.digits and not self.fraction

    @property
    def number(self) -> str:
        """The number without its unit, as it will be recorded."""
        sign = "-" if self.minus else ""
        whole = self.digits.rstrip(".")
        if not self.fraction:
            return f"{sign}{whole}"
        written = f"{self.fraction.numerator}/{self.fraction.denominator}"
        return f"{sign}{whole} {written}" if whole and int(whole) else f"{sign}{written}"

    @property
    def shown(self) -> str:
        """The number as the keypad's window shows it while it is typed; a typed point stays visible."""
        return self.number + ("." if self.digits.endswith(".") else "")

    @property
    def text(self) -> str:
        """The number with its unit, as it will be recorded."""
        return f"{self.number} {self.unit}".strip()


def digit(typed: Typed, figure: str) -> Typed:
    """Type one figure; after a fraction a figure starts a new number."""
    if typed.fraction:
        return replace(typed, digits=figure, fraction=Fraction(0))
    if len(typed.digits.replace(".", "")) >= MOST_DIGITS:
        return typed
    return replace(typed, digits=figure if typed.digits == "0" else typed.digits + figure)


def point(typed: Typed) -> Typed:
    """Type the decimal point; a count and a fraction take none."""
    if "." in typed.digits or typed.fraction or not typed.unit:
        return typed
    return replace(typed, digits=(typed.digits or "0") + ".")


def add_fraction(typed: Typed, written: str) -> Typed:
    """Add a fraction of an inch; one inch full is carried."""
    if typed.unit != "in" or "." in typed.digits:
        return typed
    total = int(typed.digits or 0) + typed.fraction + Fraction(written)
    return _exact(typed, total)


def turn_sign(typed: Typed) -> Typed:
    """Turn plus into minus and back."""
    return replace(typed, minus=not typed.minus)


def erase(typed: Typed) -> Typed:
    """Take back what was typed last."""
    if typed.fraction:
        return replace(typed, fraction=Fraction(0))
    if typed.digits:
        return replace(typed, digits=typed.digits[:-1])
    return replace(typed, minus=False)


def stepped(typed: Typed, by: int, signed: bool) -> Typed:
    """Change the number by a step of its unit; without `signed` it stays at zero or above."""
    value = _value(typed) + by * STEPS.get(typed.unit, Fraction(1))
    if value < 0 and not signed:
        value = Fraction(0)
    return _exact(replace(typed, minus=value < 0), abs(value))


def in_unit(typed: Typed, unit: str) -> Typed:
    """Change the unit. What was typed is not converted: the person reads another scale and types anew."""
    return typed if unit == typed.unit else Typed(unit)


def quantity(typed: Typed, dimension: str, signed: bool) -> Quantity:
    """Read what was typed.

    Raises:
        QuantityError: with what is wrong, for the person.
    """
    if typed.empty:
        raise QuantityError("Type the reading first.")
    return parse(typed.text, dimension, signed=signed)  # type: ignore[arg-type]


def units_of(dimension: str, first: str) -> tuple[str, ...]:
    """Return the units the keypad offers for a dimension, the usual one first."""
    if dimension != "length":
        return UNITS_OF[dimension]
    return (first, "in" if first == "mm" else "mm")


def in_words(value: Quantity, unit: str) -> str:
    """Write a length as it was read, and in the person's own unit beside it where that is another; no other changes."""
    if value.unit == unit or value.dimension != "length" or unit not in ("mm", "in"):
        return value.text
    if unit == "mm":
        return f"{value.text} ({decimal_text(value.to('mm'))} mm)"
    sixteenths = round(abs(value.to("in")) * 16)
    exact = _exact(Typed("in", minus=value.value < 0 and sixteenths > 0), Fraction(sixteenths, 16))
    return f"{value.text} ({exact.text})"


def _value(typed: Typed) -> Fraction:
    size = Fraction(typed.digits.rstrip(".") or 0) + typed.fraction
    return -size if typed.minus else size


def _exact(typed: Typed, size: Fraction) -> Typed:
    if typed.unit == "in" and "." not in typed.digits:
        whole = int(size)
        return replace(typed, digits=str(whole), fraction=size - whole)
    return replace(typed, digits=decimal_text(size, 3), fraction=Fraction(0))
