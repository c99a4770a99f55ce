"""Section: how much thinner the worst place is than a sound place of the same rope on the same visit.

Effective diameter is an estimate of damage, not of strength: 10 % of diameter is 19 % of area. Both places
are read three times in the same state, so how hard the tape is pulled largely cancels.
"""

import math
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.slip import BEDDED, is_baseline
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.uncertainty import scattered, spread
from inspection_rules.words import SpliceKind

READINGS_EACH = 3
CONFIDENT_K = 1.645


def loss_percent(worst: Fraction, sound: Fraction, u_worst: float, u_sound: float) -> tuple[Fraction, float]:
    """Return how much smaller `worst` is than `sound`, in per cent, and its standard uncertainty in points.

    With r = worst / sound: u(r) = r √((u_worst / worst)² + (u_sound / sound)²).
    """
    ratio = worst / sound
    u = float(ratio) * math.hypot(u_worst / float(worst), u_sound / float(sound)) if worst else u_sound / float(sound)
    return (1 - ratio) * 100, u * 100


def area_loss_percent(diameter_loss: Fraction) -> Fraction:
    """Return the loss of area that goes with a loss of diameter, both in per cent: 1 - (1 - x)²."""
    return (1 - (1 - diameter_loss / 100) ** 2) * 100


def effective_diameter_loss(case: Case, part: str) -> Measured | NotMeasured:
    """Return the loss of effective diameter at the body's worst place, in per cent of a sound place."""
    worst = case.inspection.reading(part, "girth_worst")
    sound = case.inspection.reading(part, "girth_sound")
    if worst is None and sound is None:
        return NotMeasured("the girths were not read")
    if worst is None or sound is None:
        return NotMeasured("only one of the two girths was read; read the worst and a sound place", attempted=True)
    if worst.state != sound.state:
        return NotMeasured("the two girths were read in different states; read both in one", attempted=True)
    if min(len(worst.values), len(sound.values)) < READINGS_EACH:
        return NotMeasured("read each girth three times", attempted=True)
    d = nominal_diameter(case.item)
    apart = scattered(worst, d, "mm") or scattered(sound, d, "mm")
    if apart:
        return NotMeasured(apart, attempted=True)
    if not _settled(case):
        return NotMeasured("new rope compacts: diameter is recorded, not judged, until bedded in")
    sound_mean = mean(sound.values, "mm")
    if sound_mean == 0:
        return NotMeasured("the girth of the sound place is zero; read it again", attempted=True)
    goods = spread(worst, d, "mm"), spread(sound, d, "mm")
    value, u = loss_percent(
        mean(worst.values, "mm"),
        sound_mean,
        goods[0].of_mean(len(worst.values)),
        goods[1].of_mean(len(sound.values)),
    )
    if float(value) < -CONFIDENT_K * u:
        return NotMeasured("the worst place reads thicker than the sound one: were they swapped?", attempted=True)
    return Measured(
        value=value,
        unit="%",
        u=u,
        u_source=goods[0].source,
        n=min(len(worst.values), len(sound.values)),
        from_study=all(good.from_study for good in goods),
        how="worst place under a sound place, this visit",
    )


def _settled(case: Case) -> bool:
    """A rope with buried eyes compacts at first; the rest is judged from the start, and so is a used rope's new eye."""
    buried = [part.id for part in case.item.terminations if part.splice is SpliceKind.BURIED_EYE]
    return not buried or any(is_baseline(one, BEDDED) for one in case.history)
