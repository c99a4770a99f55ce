"""Quantities as people write them, kept exact: `24 mm`, `1-1/8"`, `5400 lbf`, `24,5 mm`, `60 °C`.

A `Quantity` keeps the text as it was typed beside its exact value, so a record never loses what the
person wrote and a comparison with a limit never meets a rounding error. A `Measured` is a number that
was computed from readings, with its standard uncertainty and where that comes from.
"""

import math
import re
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

LONGEST_TEXT = 40
LARGEST = 10**9

Dimension = Literal[
    "length", "force", "mass", "temperature", "fraction", "count", "ratio", "duration", "angle", "inclination"
]
Datum = Literal["horizontal", "vertical"]


class QuantityError(ValueError):
    """A text is no quantity; the message says what is wrong with it and how to write it."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: its base value is `(number + shift) * factor` in the dimension's base unit."""

    name: str
    dimension: Dimension
    factor: Fraction
    shift: Fraction = Fraction(0)


# Exact by definition: inch and pound (1959 agreement), standard gravity (CGPM 1901).
_POUND = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
UNITS: dict[str, Unit] = {
    unit.name: unit
    for unit in (
        Unit("mm", "length", Fraction(1)),
        Unit("cm", "length", Fraction(10)),
        Unit("m", "length", Fraction(1000)),
        Unit("in", "length", Fraction("25.4")),
        Unit("ft", "length", Fraction("304.8")),
        Unit("N", "force", Fraction(1)),
        Unit("kN", "force", Fraction(1000)),
        Unit("lbf", "force", _POUND * _GRAVITY),
        Unit("kgf", "force", _GRAVITY),
        Unit("tf", "force", _GRAVITY * 1000),
        Unit("kg", "mass", Fraction(1)),
        Unit("t", "mass", Fraction(1000)),
        Unit("lb", "mass", _POUND),
        Unit("°C", "temperature", Fraction(1)),
        Unit("°F", "temperature", Fraction(5, 9), Fraction(-32)),
        Unit("%", "fraction", Fraction(1)),
        Unit("", "count", Fraction(1)),
        Unit("times", "ratio", Fraction(1)),
        Unit("days", "duration", Fraction(1)),
        Unit("months", "duration", Fraction(1)),
        Unit("years", "duration", Fraction(12)),
        # The angle between two legs needs no datum; one against the horizontal or vertical is an `Angle`.
        Unit("° included", "angle", Fraction(1)),
        Unit("° from vertical", "inclination", Fraction(1)),
        Unit("° from horizontal", "inclination", Fraction(-1), Fraction(-90)),
    )
}
_SPELLINGS = {
    '"': "in", "''": "in", "inch": "in", "inches": "in", "'": "ft", "foot": "ft", "feet": "ft",
    "metre": "m", "metres": "m", "C": "°C", "F": "°F", "degC": "°C", "degF": "°F", "percent": "%",
    "per cent": "%", "day": "days", "month": "months", "year": "years", "tonne": "t", "tonnes": "t",
    "lbs": "lb", "newton": "N",
}  # fmt: skip
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_LOOKALIKES = str.maketrans({"−": "-", "–": "-", "″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "º": "°",
                             "⁄": "/", "\u00a0": " ", "\u202f": " ", "\u2009": " "})  # fmt: skip

_FRACTION = re.compile(r"(?:([0-9]+)(?:\s+|\s*-\s*))?(0|[1-9][0-9]*)\s*/\s*([0-9]+)")
_PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_SPACED = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?")
_COMMA_GROUPS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_DOT_GROUPS = re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+")
_AMBIGUOUS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_FEET_INCHES = re.compile(r"([0-9]+)\s*(?:ft|')\s*(\S.*?)\s*(?:in|\")")
_NUMBER_UNIT = re.compile(r"(-?)\s*([0-9][0-9.,/ \-]*?)\s*([^0-9.,/\-\s].*)?")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit, exact, and the text it was written as.

    Attributes:
        text: as the person typed it, without surrounding blanks.
        value: the number in `unit`.
        unit: a key of `UNITS`; empty for a count.
    """

    text: str
    value: Fraction
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What kind of thing it measures."""
        return UNITS[self.unit].dimension

    def to(self, unit: str) -> Fraction:
        """Return the exact number in another unit of the same dimension.

        Raises:
            QuantityError: the units measure different things; days and months do not convert either.
        """
        if unit == self.unit:
            return self.value
        mine, other = UNITS[self.unit], UNITS[unit]
        if mine.dimension != other.dimension or ("days" in {self.unit, unit} and self.unit != unit):
            raise QuantityError(f"{self.text} cannot be given in {unit or 'a count'}")
        return (self.value + mine.shift) * mine.factor / other.factor - other.shift

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Angle:
    """A sling leg's angle with the datum it is measured from; US texts use the horizontal, EN the vertical."""

    text: str
    degrees: Fraction
    datum: Datum

    @property
    def from_horizontal(self) -> Fraction:
        """Degrees above the horizontal."""
        return self.degrees if self.datum == "horizontal" else 90 - self.degrees

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Measured:
    """A computed number with its standard uncertainty.

    Attributes:
        value: exact, in `unit`.
        unit: a key of `UNITS`.
        u: standard uncertainty (one standard deviation) in `unit`; 0 where the number is a count.
        u_source: where `u` comes from, in words: a default and its basis, or the site's own study.
        n: how many readings were averaged.
        guarded: whether a limit is judged with `u`; False only where the rules ask for simple acceptance,
            as for a bury measured on the laid-out tail before burying.
        from_study: whether `u` rests on a measurement study; only then is a probability shown to people.
        how: one short clause on what was compared with what, for the person.
        read_on: the local date of the reading, where it is not of the inspection being judged.
    """

    value: Fraction
    unit: str
    u: float
    u_source: str
    n: int = 1
    guarded: bool = True
    from_study: bool = False
    how: str = ""
    read_on: date | None = None


@dataclass(frozen=True, slots=True)
class NotMeasured:
    """A measure could not be computed.

    Attributes:
        reason: a sentence for the person.
        attempted: True when readings exist but cannot be used (states differ, too few): that is doubt, and
            holds. False when nothing was read: whether that holds is for the rules on needed observations.
        refer: True when a competent person has to supply what is missing (no baseline on record).
        never_known: True when nobody can supply it any more (the bury of a splice found without history): that
            is never a pass, and does not hold the item for ever either: it is watched.
        since: for what is watched, the date of the reading that the watch rests on.
    """

    reason: str
    attempted: bool = False
    refer: bool = False
    never_known: bool = False
    since: date | None = None


def parse(text: str, dimension: Dimension | None = None, *, signed: bool = False) -> Quantity:
    """Read what a person wrote.

    Args:
        text: whole, decimal (point or comma), fraction or mixed number, then the unit.
        dimension: refuse units that measure something else; `count` takes a bare whole number.
        signed: allow a minus sign.

    Raises:
        QuantityError: with the reason and the way to write it.
    """
    if not isinstance(text, str):
        raise QuantityError(f"write the number and its unit as a text, for instance {_example(dimension)}")
    shown = text.strip()
    if not shown:
        raise QuantityError(f"nothing is written; write for instance {_example(dimension)}")
    if len(shown) > LONGEST_TEXT:
        raise QuantityError(f"{shown[:LONGEST_TEXT]!r}… is too long for a number with its unit")
    plain = _plain(shown)
    negative = plain.startswith("-")
    value, unit = _feet_and_inches(plain) or _number_and_unit(plain, shown, dimension)
    if dimension is not None and UNITS[unit].dimension != dimension:
        raise QuantityError(
            f"{shown!r} is {_naming(UNITS[unit].dimension)}, not {_naming(dimension)}; "
            f"write for instance {_example(dimension)}"
        )
    if negative and not signed and UNITS[unit].dimension != "temperature":
        raise QuantityError(f"{shown!r} is negative; {_naming(UNITS[unit].dimension)} here is zero or more")
    if value > LARGEST:
        raise QuantityError(f"{shown!r} is larger than anything this tool measures")
    if UNITS[unit].dimension == "count" and value.denominator != 1:
        raise QuantityError(f"{shown!r} is not a whole number; a count is, for instance 4")
    return Quantity(shown, -value if negative else value, unit)


def parse_angle(text: str) -> Angle:
    """Read a sling angle with its datum: `60° from horizontal`, `30 deg from vertical`.

    Raises:
        QuantityError: no datum, no number, or more than 90°.
    """
    if len(str(text)) > LONGEST_TEXT:
        raise QuantityError(f"{str(text)[:LONGEST_TEXT]!r}… is too long for an angle")
    found = re.fullmatch(
        r"([0-9]+(?:[.,][0-9]+)?)\s*(?:°|deg|degrees)\s*(?:from\s+(?:the\s+)?)?(horizontal|vertical)?",
        str(text).strip().translate(_LOOKALIKES),
    )
    if not found:
        raise QuantityError(f"{text!r} is no angle; write for instance '60° from horizontal'")
    number, datum = found.groups()
    if datum is None:
        raise QuantityError(
            f"{text!r} does not say what it is measured from; write '… from horizontal' or '… from vertical'"
        )
    degrees = Fraction(number.replace(",", "."))
    if degrees > 90:
        raise QuantityError(f"{text!r} is more than 90°")
    return Angle(str(text).strip(), degrees, "horizontal" if datum == "horizontal" else "vertical")


def decimal_text(value: Fraction, digits: int = 1) -> str:
    """Write an exact number for people: at most `digits` decimals, no trailing zeros."""
    text = f"{round_half_up(value, digits):.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def round_half_up(value: Fraction, digits: int) -> float:
    """Round for showing, halves away from zero, exactly."""
    scale = 10**digits
    whole = math.floor(abs(value) * scale + Fraction(1, 2))
    return math.copysign(whole, value) / scale if whole else 0.0


def _plain(shown: str) -> str:
    for sign, fraction in _VULGAR.items():
        shown = shown.replace(sign, f" {fraction}")
    return shown.translate(_LOOKALIKES).strip()


def _feet_and_inches(plain: str) -> tuple[Fraction, str] | None:
    found = _FEET_INCHES.fullmatch(plain.removeprefix("-").strip())
    if not found:
        return None
    feet, inches = found.groups()
    value = _number(inches.strip(), plain)
    if value >= 12:
        raise QuantityError(f"{plain!r}: the inches beside feet are 12 or more")
    return int(feet) * 12 + value, "in"


def _number_and_unit(plain: str, shown: str, dimension: Dimension | None) -> tuple[Fraction, str]:
    found = _NUMBER_UNIT.fullmatch(plain)
    if not found:
        raise QuantityError(f"{shown!r} is no number with a unit; write for instance {_example(dimension)}")
    _, number, spelled = found.groups()
    spelled = (spelled or "").strip()
    unit = spelled if spelled in UNITS else _SPELLINGS.get(spelled, _SPELLINGS.get(spelled.lower()))
    if unit is None:
        raise QuantityError(f"{shown!r}: {spelled!r} is no unit known here; write for instance {_example(dimension)}")
    value = _number(number.strip(), shown)
    if unit == "" and dimension not in (None, "count"):
        raise QuantityError(f"{shown!r} has no unit; write for instance {_example(dimension)}")
    return value, unit


def _number(number: str, shown: str) -> Fraction:
    if found := _FRACTION.fullmatch(number):
        whole, above, below = found.groups()
        if int(below) == 0:
            raise QuantityError(f"{shown!r} divides by zero")
        if whole is not None and int(above) >= int(below):
            raise QuantityError(f"{shown!r}: beside a whole number the fraction must be less than one")
        return int(whole or 0) + Fraction(int(above), int(below))
    if _AMBIGUOUS.fullmatch(number):
        raise QuantityError(
            f"{shown!r} can mean {number.replace(',', '')} or {number.replace(',', '.')}; "
            f"write it without the comma, or with a decimal point"
        )
    if _PLAIN.fullmatch(number):
        return Fraction(number.replace(",", "."))
    if _SPACED.fullmatch(number):
        return Fraction(number.replace(" ", "").replace(",", "."))
    if _COMMA_GROUPS.fullmatch(number):
        return Fraction(number.replace(",", ""))
    if _DOT_GROUPS.fullmatch(number):
        return Fraction(number.replace(".", "").replace(",", "."))
    raise QuantityError(f"{shown!r}: {number!r} is no number; write 24, 24.5, 24,5 or 1 1/8")


def _naming(dimension: Dimension) -> str:
    return {"fraction": "a percentage"}.get(dimension, f"a {dimension}")


def _example(dimension: Dimension | None) -> str:
    examples = {
        "force": "'24 kN' or '5400 lbf'",
        "mass": "'2 t'",
        "temperature": "'60 °C'",
        "fraction": "'10 %'",
        "count": "'4'",
        "ratio": "'5 times'",
        "duration": "'6 months'",
    }
    return examples.get(dimension or "length", "'24 mm' or '1 1/8 in'")
