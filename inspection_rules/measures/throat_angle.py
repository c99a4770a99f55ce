"""Throat angle: the angle between an eye's two legs when it bears on a pin.

References define the eye's length in three ways, so each has its own function, D being the pin's diameter:

- `from_centre`: throat to the centre of the pin, L:           2 asin(D / 2L)            60° at L = D
- `from_bearing`: throat to where the eye bears, Le:           2 asin(D/2 / (Le - D/2))  60° at Le = 1.5 D
- `from_flat_eye`: inside length of the eye laid flat, F:      half its inside perimeter 60° at F = 1.91 D

The last is what a person can measure. Half of the perimeter is one straight leg and half of the arc round the
pin: 2F/D = cot β + π/2 + β, with β half of the throat angle.
"""

import math
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.uncertainty import DEFAULT
from inspection_rules.words import SpliceKind

U_EYE_LENGTH_MM = 5.0
U_PIN_MM = 1.0
GUARD_K = 1.645


def from_centre(length: float, pin: float) -> float:
    """Return the throat angle in degrees from throat to pin centre; 180 when the pin does not fit."""
    return math.degrees(2 * math.asin(min(1.0, pin / (2 * length))))


def from_bearing(length: float, pin: float) -> float:
    """Return the throat angle in degrees from throat to bearing point; 180 when the pin does not fit."""
    return from_centre(length - pin / 2, pin) if length > pin / 2 else 180.0


def from_flat_eye(length: float, pin: float) -> float:
    """Return the throat angle in degrees from the inside length of the eye laid flat; 180 when it is too short."""
    target = 2 * length / pin
    low, high = 1e-9, math.pi / 2
    if target <= _flat_over_pin(high):
        return 180.0
    for _ in range(100):
        middle = (low + high) / 2
        if _flat_over_pin(middle) > target:
            low = middle
        else:
            high = middle
    return math.degrees(low + high)


def throat_angle(case: Case, part: str) -> Measured | NotMeasured:
    """Return the throat angle of the eye at `part` on the pin of this use, degrees.

    A thimble sets the angle itself: of such an eye the thimble's own width is the pin.
    """
    if case.use is None or (case.use.pin_diameter is None and case.use.eye_length is None):
        return NotMeasured("no pin was named for this use")
    if case.item.part(part).splice is SpliceKind.PLAIN_END:
        return NotMeasured("a plain end has no eye")
    if case.use.pin_diameter is None:
        return NotMeasured("say what the eye will bear on: measure the pin's diameter", attempted=True)
    eye = float(case.use.eye_length.to("mm")) if case.use.eye_length else _recorded_eye(case, part)
    if eye is None:
        return NotMeasured("the eye's inside length is not on record; lay it flat and measure it", attempted=True)
    pin = float(case.use.pin_diameter.to("mm"))
    if pin == 0:
        return NotMeasured("the pin's diameter is zero; measure it", attempted=True)
    angle = from_flat_eye(eye, pin)
    # Only the ratio of eye to pin counts, and the angle bends upwards as it gets smaller: so u is taken over the whole
    # guard band of that ratio, not at a point.
    doubt = GUARD_K * math.hypot(U_EYE_LENGTH_MM / max(eye, 1e-6), U_PIN_MM / pin)
    u = (from_flat_eye(max(eye * (1 - doubt), 1e-6), pin) - angle) / GUARD_K
    return Measured(
        value=Fraction(round(angle * 10**6), 10**6),
        unit="° included",
        u=u,
        u_source=DEFAULT,
        how=f"eye {eye:.0f} mm laid flat, pin {case.use.pin_diameter.text}",
    )


def _flat_over_pin(beta: float) -> float:
    return 1 / math.tan(beta) + math.pi / 2 + beta


def _recorded_eye(case: Case, part: str) -> float | None:
    for one in reversed(case.since_made(part)):
        reading = one.reading(part, "eye_length")
        if reading is not None:
            return float(mean(reading.values, "mm"))
    return None
