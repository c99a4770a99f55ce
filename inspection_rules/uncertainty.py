"""Default uncertainties of readings, by method, rope size and tension state.

All of them are common practice or judgement without a published source, and say so wherever a ruling speaks;
a site replaces them by its own measurement study. Each has a part that averaging makes smaller (repeatability)
and a part that it does not (where the throat lies, how hard the tape is pulled, who reads).
"""

import math
import statistics
from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.quantity import decimal_text
from inspection_rules.record import Reading
from inspection_rules.words import Method, Tension

PROPAGATED = "photograph, "
"""How a `u_study` begins that is no study, but the doubt of one photograph carried from its taps to the length."""
DEFAULT = "default, common practice, no study"
# Judgement without a source; that an untensioned rope cannot be measured reproducibly is CI 1500-02 as quoted.
SLACK_FACTOR = 2
SCATTER_K = 4
# Whatever a study says, an instrument shows no more than its own steps: the whole step taken as a rectangular spread
# (JCGM 100:2008, F.2.2.1, from memory), half a millimetre on a rule or tape and a tenth on a caliper.
STEP_MM, CALIPER_STEP_MM = 0.5, 0.1
# Of two girths taken on one visit by one hand with one tape, in one state, most of what repeats do not average out is
# in both and cancels in their ratio: of 2 % of the girth, half a point is left in each. Judgement, no source.
SAME_HAND_SHARE = 0.25
# Of damage on a web: a cut's end is sharp, a frayed place's border is not.
WEB_SIZES_MM = {"edge_cut": 0.5, "warp_width": 1.0, "warp_edge": 1.0, "weft_width": 1.0, "weft_length": 1.0}


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard uncertainty of one reading, split: what repeats average out, and what they do not."""

    repeat: float
    fixed: float
    source: str = DEFAULT
    from_study: bool = False

    def of_mean(self, n: int) -> float:
        """Return the standard uncertainty of the mean of `n` readings of one visit."""
        return math.hypot(self.repeat / math.sqrt(n), self.fixed)


def spread(reading: Reading, diameter: Fraction | None, unit: str) -> Spread:
    """Return how good one reading is, in `unit`.

    Args:
        reading: its own study counts, but never below what its values show, or its instrument can.
        diameter: nominal, mm; where a rope has none, a generous 48 mm is taken.
        unit: "mm", or "" for a count.
    """
    seen = _scatter(reading, unit)
    if reading.u is not None and unit == "mm" and propagated(reading):
        return _photographed(reading, diameter, seen)
    if reading.u is not None and unit == "mm":
        said = float(reading.u.to(unit)) * (SLACK_FACTOR if reading.tension is Tension.SLACK else 1)
        stated = max(said, resolution(reading.method))
        # What part of it repeats would average out the study does not say, so none of it does.
        repeat = math.sqrt(max(seen**2 - stated**2, 0.0))
        return Spread(repeat, stated, f"measurement study: {reading.u_study}", said >= max(seen, stated))
    d = float(diameter if diameter is not None else 48)
    repeat, fixed = _default(reading.observation, reading.method, d)
    if reading.tension is Tension.SLACK:
        repeat, fixed = repeat * SLACK_FACTOR, fixed * SLACK_FACTOR
    return Spread(max(repeat, seen), fixed)


def propagated(reading: Reading) -> bool:
    """Whether its `u` was carried from the taps on a photograph, and rests on no study."""
    return reading.method is Method.PHOTOGRAPH and reading.u_study.startswith(PROPAGATED)


def _photographed(reading: Reading, diameter: Fraction | None, seen: float) -> Spread:
    """A length from a photograph: what was carried to it, and never better than photographs are by default.

    The taps say nothing of where the throat lies or how taut the rope was: with their doubt alone, a photograph would
    be a better method than the rule it stands in for.
    """
    repeat, fixed = _default(reading.observation, reading.method, float(diameter if diameter is not None else 48))
    own = float(reading.u.to("mm")) if reading.u is not None else 0.0
    slack = SLACK_FACTOR if reading.tension is Tension.SLACK else 1
    return Spread(max(repeat * slack, seen), max(fixed, own) * slack, reading.u_study)


def same_hand(reading: Reading, diameter: Fraction | None) -> Spread:
    """Return how good one girth is, mm, for the ratio to another of the same visit, hand and tape.

    What a study says is taken whole, since it does not say what part of it the two share.
    """
    good = spread(reading, diameter, "mm")
    return good if reading.u is not None else replace(good, fixed=SAME_HAND_SHARE * good.fixed)


def resolution(method: Method) -> float:
    """Return the standard uncertainty, mm, that an instrument's own steps leave in one reading of a length."""
    return (CALIPER_STEP_MM if method is Method.CALIPER else STEP_MM) / math.sqrt(12)


def scattered(reading: Reading, diameter: Fraction | None, unit: str) -> str:
    """Say so when the values of one visit lie too far apart to be averaged; empty when they do not.

    A reading farther from the middle one than four times its repeatability is no reading of the same thing, and a
    mean would hide it.
    """
    values = sorted(value.to(unit) for value in reading.values)
    middle = values[len(values) // 2]
    d = float(diameter if diameter is not None else 48)
    allowed = SCATTER_K * max(_default(reading.observation, reading.method, d)[0], 1.0)
    if max(values[-1] - middle, middle - values[0]) <= allowed:
        return ""
    return f"the readings lie from {decimal_text(values[0])} to {decimal_text(values[-1])} {unit}: read again"


def direct_offset(diameter: Fraction) -> Spread:
    """Return the spread of the best field method for slip: the offset of two marks on legs laid together.

    Throat position cancels, which leaves 1.5 mm of reading and 3 % of the diameter.
    """
    return Spread(1.5, 0.03 * float(diameter))


def _scatter(reading: Reading, unit: str) -> float:
    """The sample standard deviation of the visit's own values: no reading is better than what they show."""
    values = [float(value.to(unit)) for value in reading.values]
    if len(values) < 2:
        return 0.0
    middle = statistics.fmean(values)
    return math.sqrt(sum((value - middle) ** 2 for value in values) / (len(values) - 1))


def _default(observation: str, method: Method, d: float) -> tuple[float, float]:
    """Return (repeatability, fixed part) in mm, percentage points or counts."""
    if method is Method.COUNTED:
        return 0.0, 0.0
    if method is Method.BY_EYE:
        return 0.0, 3.0
    if method is Method.LAID_OUT_TAPE:
        return 0.0, 3.0
    if observation == "tip_step":
        # A tapered tip is felt to one or two diameters: one, and another that repeats do not average out.
        return max(5.0, d), max(5.0, d)
    if method is Method.FELT:
        return 0.0, max(5.0, d)
    if observation in ("hook_throat", "fitting_thickness") and method is Method.CALIPER:
        return 0.0, 0.3
    photograph = 1.5 if method is Method.PHOTOGRAPH else 1.0
    if observation == "mark_offset":
        base = direct_offset(Fraction(d))
        return base.repeat * photograph, base.fixed * photograph
    if observation in ("mark_tail", "mark_standing"):
        return 1.5 * photograph, 0.08 * d * photograph
    if observation.startswith("girth"):
        # Between people 2-3 % of the size on soft rope: here 2.5 %, of which 1.5 % averages out.
        girth = math.pi * d
        return 0.015 * girth, 0.02 * girth
    if observation.startswith("caliper"):
        # Jaws press a soft rope: as with girths, and never better than the last third of a millimetre.
        return max(0.3, 0.015 * d), max(0.3, 0.02 * d)
    if observation in ("eye_length", "eye_perimeter"):
        return 3.0, 4.0
    if observation in WEB_SIZES_MM:
        return 0.0, WEB_SIZES_MM[observation] * photograph
    return 1.5 * photograph, 0.5
