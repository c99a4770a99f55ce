"""Quantities as people write them. Conversions are checked against the definitions, not against the code.

Inch: 25.4 mm exactly, pound: 0.45359237 kg exactly (international yard and pound agreement, 1959). Standard
gravity: 9.80665 m/s² (3rd CGPM, 1901). Foot: 12 inches. Celsius: (°F - 32) × 5/9.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspection_rules.quantity import (
    UNITS,
    Quantity,
    QuantityError,
    decimal_text,
    parse,
    parse_angle,
    round_half_up,
)

WRITTEN = {
    "24 mm": (Fraction(24), "mm"),
    "24mm": (Fraction(24), "mm"),
    "  24 mm  ": (Fraction(24), "mm"),
    "24.5 mm": (Fraction(49, 2), "mm"),
    "24,5 mm": (Fraction(49, 2), "mm"),
    "0,500 m": (Fraction(1, 2), "m"),
    "1 200 mm": (Fraction(1200), "mm"),
    "1 200,5 mm": (Fraction(2401, 2), "mm"),
    "1\u202f200 mm": (Fraction(1200), "mm"),
    "1\u00a0200\u00a0mm": (Fraction(1200), "mm"),
    "12,345.5 mm": (Fraction("12345.5"), "mm"),
    "1,234,567 mm": (Fraction(1234567), "mm"),
    "1.234,5 mm": (Fraction("1234.5"), "mm"),
    "1/2 in": (Fraction(1, 2), "in"),
    "1 1/8 in": (Fraction(9, 8), "in"),
    '1-1/8"': (Fraction(9, 8), "in"),
    "1 - 1/8 in": (Fraction(9, 8), "in"),
    "1⁄2 in": (Fraction(1, 2), "in"),
    "½ in": (Fraction(1, 2), "in"),
    "1½ in": (Fraction(3, 2), "in"),
    "1 ⅞″": (Fraction(15, 8), "in"),
    "⅓ ft": (Fraction(1, 3), "ft"),
    "3 inches": (Fraction(3), "in"),
    "3 ''": (Fraction(3), "in"),
    "3 “": (Fraction(3), "in"),
    "6 ft": (Fraction(6), "ft"),
    "6′": (Fraction(6), "ft"),
    "6 feet": (Fraction(6), "ft"),
    "5 ft 3 in": (Fraction(63), "in"),
    "5' 3\"": (Fraction(63), "in"),
    "5′ 3 1/2″": (Fraction(127, 2), "in"),
    "5' 3½\"": (Fraction(127, 2), "in"),
    "6 metres": (Fraction(6), "m"),
    "24 kN": (Fraction(24), "kN"),
    "5400 lbf": (Fraction(5400), "lbf"),
    "2 t": (Fraction(2), "t"),
    "2 tonnes": (Fraction(2), "t"),
    "60 °C": (Fraction(60), "°C"),
    "60 ºC": (Fraction(60), "°C"),
    "60C": (Fraction(60), "°C"),
    "140 degF": (Fraction(140), "°F"),
    "-5 °C": (Fraction(-5), "°C"),
    "−5 °C": (Fraction(-5), "°C"),
    "10 %": (Fraction(10), "%"),
    "10 per cent": (Fraction(10), "%"),
    "4": (Fraction(4), ""),
    "6 months": (Fraction(6), "months"),
    "1 year": (Fraction(1), "years"),
}


@pytest.mark.parametrize(("text", "means"), WRITTEN.items(), ids=[repr(text) for text in WRITTEN])
def test_what_people_write_is_read_exactly(text: str, means: tuple[Fraction, str]) -> None:
    found = parse(text)
    assert (found.value, found.unit) == means


@pytest.mark.parametrize("text", ["24 mm", '1-1/8"', "24,5 mm", "½ in", "5' 3\""])
def test_text_is_kept_as_it_was_written(text: str) -> None:
    assert str(parse(f" {text} ")) == text


NONSENSE = {
    "": "nothing is written",
    "   ": "nothing is written",
    "mm": "is no number",
    "24": "has no unit",
    "24 furlongs": "'furlongs' is no unit",
    "24 MM": "'MM' is no unit",
    "1,234 mm": "can mean 1234 or 1.234",
    "12,345 mm": "can mean 12345 or 12.345",
    "123,456 mm": "can mean 123456 or 123.456",
    "1/0 in": "divides by zero",
    "1 9/8 in": "must be less than one",
    "1 1/2/3 in": "no number",
    "24.5.1 mm": "no number",
    "24,5,1 mm": "no number",
    "1,23,456 mm": "no number",
    "24 5 mm": "no number",
    "1½½ in": "no number",
    ".5 mm": "is no number",
    "5. mm": "no number",
    "3-4 mm": "no number",
    "--5 mm": "is no number",
    "+5 mm": "is no number",
    "-5 mm": "is negative",
    "−5 mm": "is negative",
    "5 ft 12 in": "12 or more",
    "1e3 mm": "'e3 mm' is no unit",
    "inf mm": "is no number",
    "nan mm": "is no number",
    "٢٤ mm": "is no number",
    "２４ mm": "is no number",
    "24 ㎜": "is no unit",
    "24 mm; drop": "is no unit",
    "24\x00mm": "is no unit",
    "1000000001 m": "larger than anything",
    "9" * 41 + " mm": "too long",
    "24 kN": "is a force, not a length",
    "4 %": "is a percentage, not a length",
}


@pytest.mark.parametrize(("text", "why"), NONSENSE.items(), ids=[repr(text)[:40] for text in NONSENSE])
def test_what_is_no_length_is_refused_with_the_reason_on_one_line(text: str, why: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse(text, "length")
    said = str(refused.value)
    assert why in said
    assert said.isprintable()


@pytest.mark.parametrize("text", ["", "24", "24 furlongs", "mm", "24 kN", ".5 mm"])
def test_refusal_says_how_to_write_it(text: str) -> None:
    with pytest.raises(QuantityError, match=r"write for instance '24 mm'"):
        parse(text, "length")


@pytest.mark.parametrize("value", [24, 24.5, None, True, ["24 mm"], b"24 mm"])
def test_number_without_quotes_is_refused(value: object) -> None:
    with pytest.raises(QuantityError, match="as a text"):
        parse(value, "length")  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["4.5", "4,5", "1/2", "1 1/2"])
def test_count_is_whole(text: str) -> None:
    with pytest.raises(QuantityError, match="not a whole number"):
        parse(text, "count")


@pytest.mark.parametrize("text", ["4 mm", "4 %", "4 tucks"])
def test_count_has_no_unit(text: str) -> None:
    with pytest.raises(QuantityError):
        parse(text, "count")


@pytest.mark.parametrize("text", ["-5 mm", "−5 mm", "–5 mm", "- 5 mm"])
def test_minus_is_read_where_a_sign_makes_sense(text: str) -> None:
    assert parse(text, "length", signed=True).value == -5


def test_minus_stands_before_feet_and_inches_as_a_whole() -> None:
    assert parse("-5 ft 3 in", "length", signed=True).value == -63


def test_two_signs_before_feet_and_inches_are_refused() -> None:
    with pytest.raises(QuantityError):
        parse("--5 ft 3 in", "length", signed=True)


# --- conversions -----------------------------------------------------------------------------------------

CONVERSIONS = [
    ("1 in", "mm", Fraction("25.4")),
    ("1 ft", "mm", Fraction("304.8")),
    ("1 ft", "in", Fraction(12)),
    ("5 ft 3 in", "mm", Fraction("1600.2")),
    ("1 m", "ft", Fraction(1250, 381)),
    ("1 1/8 in", "mm", Fraction("28.575")),
    ("1 lb", "kg", Fraction("0.45359237")),
    ("1 t", "lb", Fraction(1000) / Fraction("0.45359237")),
    ("1 lbf", "N", Fraction("4.4482216152605")),  # NIST SP 811, B.8, exact
    ("1 kgf", "N", Fraction("9.80665")),
    ("1 tf", "kN", Fraction("9.80665")),
    ("5400 lbf", "kN", Fraction("24.0203967224067")),
    ("212 °F", "°C", Fraction(100)),
    ("-40 °F", "°C", Fraction(-40)),
    ("0 °C", "°F", Fraction(32)),
    ("2 years", "months", Fraction(24)),
]


@pytest.mark.parametrize(("text", "unit", "value"), CONVERSIONS, ids=[f"{t} in {u}" for t, u, _ in CONVERSIONS])
def test_conversions_are_exact(text: str, unit: str, value: Fraction) -> None:
    assert parse(text, signed=True).to(unit) == value


@pytest.mark.parametrize(
    ("text", "unit"), [("24 mm", "kN"), ("2 t", "kN"), ("30 days", "months"), ("1 months", "days")]
)
def test_what_does_not_convert_says_so(text: str, unit: str) -> None:
    with pytest.raises(QuantityError, match="cannot be given in"):
        parse(text).to(unit)


whole = st.integers(0, 10**6)
names = st.sampled_from(sorted(name for name, unit in UNITS.items() if unit.dimension in ("length", "force", "mass")))


@given(whole, st.integers(0, 999_999), names)
def test_decimals_are_read_exactly_with_point_or_comma(whole: int, millionths: int, unit: str) -> None:
    digits = f"{millionths:06d}"
    exact = whole + Fraction(millionths, 10**6)
    assert parse(f"{whole}.{digits} {unit}") == Quantity(f"{whole}.{digits} {unit}", exact, unit)
    assert parse(f"{whole},{digits} {unit}").value == exact


@given(whole, st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), names)
def test_mixed_numbers_are_read_exactly(whole: int, above: int, below: int, unit: str) -> None:
    above %= below
    assert parse(f"{whole} {above}/{below} {unit}").value == whole + Fraction(above, below)


@given(
    st.fractions(min_value=0, max_value=10**6, max_denominator=10**6), st.sampled_from(["mm", "cm", "m", "in", "ft"])
)
def test_length_comes_back_the_same_from_every_unit(value: Fraction, unit: str) -> None:
    there = Quantity("", value, "mm").to(unit)
    assert Quantity("", there, unit).to("mm") == value


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_and_never_anything_else(text: str) -> None:
    try:
        found = parse(text)
    except QuantityError as refused:
        assert str(refused)
    else:
        assert found.unit in UNITS
        assert found.value >= 0 or found.dimension == "temperature"


# --- angles ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "from_horizontal"),
    [
        ("60° from horizontal", Fraction(60)),
        ("60 deg from the horizontal", Fraction(60)),
        ("30° from vertical", Fraction(60)),
        ("30 degrees vertical", Fraction(60)),
        ("22,5° from vertical", Fraction(135, 2)),
        ("0° from vertical", Fraction(90)),
    ],
)
def test_angle_is_read_with_its_datum(text: str, from_horizontal: Fraction) -> None:
    assert parse_angle(text).from_horizontal == from_horizontal


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("60°", "what it is measured from"),
        ("60", "is no angle"),
        ("91° from vertical", "more than 90"),
        ("-5° from vertical", "is no angle"),
        ("60° from the deck", "is no angle"),
        ("", "is no angle"),
    ],
)
def test_what_is_no_angle_is_refused_with_the_reason(text: str, why: str) -> None:
    with pytest.raises(QuantityError, match=why):
        parse_angle(text)


def test_endless_angle_is_refused() -> None:
    with pytest.raises(QuantityError):
        parse_angle("9" * 5000 + "° from vertical")


# --- writing ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (Fraction(24), "24"),
        (Fraction("24.04"), "24"),
        (Fraction("24.05"), "24.1"),
        (Fraction("-24.05"), "-24.1"),
        (Fraction("0.04"), "0"),
        (Fraction("-0.04"), "0"),
        (Fraction(100), "100"),
        (Fraction(1, 3), "0.3"),
    ],
)
def test_numbers_are_shown_short_with_halves_away_from_zero(value: Fraction, shown: str) -> None:
    assert decimal_text(value) == shown


def test_halves_round_away_from_zero_where_floats_would_not() -> None:
    assert round_half_up(Fraction("2.675"), 2) == 2.68  # a float 2.675 lies below it and rounds to 2.67
