"""Section: how much thinner the worst place is than a sound place of the same rope on the same visit.

Effective diameter is an estimate of damage, not of strength: 10 % of diameter is 19 % of area. Both places
are read three times in the same state by one hand, so how hard the tape is pulled largely cancels.

New braid compacts, at both places alike. So the worst place is judged against a sound one from the start, and only the
comparison with an earlier girth waits until the rope is bedded in.

A girth never passes rope that is fuzzy, hard, hollow or swollen: it can then still condemn, but no number that it gives
is good enough to pass.
"""

import math
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.track import BEDDED, is_baseline
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Reading
from inspection_rules.uncertainty import same_hand, scattered, spread
from inspection_rules.words import SpliceKind

READINGS_EACH = 3
CONFIDENT_K = 1.645
# What was seen on the body that makes its girth say nothing of its fibre.
GIRTH_MISLEADS = {
    "body_surface": {"fuzzy", "hard", "distorted"},
    "body_fibre": {"glazed", "melted", "brittle", "melted_more"},
    "cover": {"glazed", "fuzzy", "slack", "melted"},
    "core_feel": {"lump", "flat", "hard", "necked"},
}
# Points of doubt that no margin of a sensible limit outweighs: what the girth of such rope hides is not known.
MISLED_U = 25.0


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
    sound_mean = mean(sound.values, "mm")
    if sound_mean == 0:
        return NotMeasured("the girth of the sound place is zero; read it again", attempted=True)
    goods = same_hand(worst, d), same_hand(sound, d)
    value, u = loss_percent(
        mean(worst.values, "mm"),
        sound_mean,
        goods[0].of_mean(len(worst.values)),
        goods[1].of_mean(len(sound.values)),
    )
    if float(value) < -CONFIDENT_K * u:
        return NotMeasured("the worst place reads thicker than the sound one: were they swapped?", attempted=True)
    misled = _misleads(case, part)
    return Measured(
        value=value,
        unit="%",
        u=math.hypot(u, MISLED_U) if misled else u,
        u_source="girth tells nothing of fuzzy, hard, hollow or swollen rope" if misled else goods[0].source,
        n=min(len(worst.values), len(sound.values)),
        from_study=not misled and all(good.from_study for good in goods),
        how="worst place under a sound place, this visit"
        + ("; a girth does not pass rope that is fuzzy, hard, hollow or swollen" if misled else ""),
    )


def girth_loss(case: Case, part: str) -> Measured | NotMeasured:
    """Return how much thinner a sound place is than at its baseline, in per cent of the girth then.

    The baseline is the latest bedded-in or as-found one of a competent person that has a girth; without one, the first
    examination that read it in the same state once bedded in. An unexplained loss is a sign of excessive strain.
    """
    now = case.inspection.reading(part, "girth_sound")
    if now is None:
        return NotMeasured("the girth of a sound place was not read")
    past = [one for one in case.since_made(part) if one is not case.inspection and one.reading(part, "girth_sound")]
    baselines = [one for one in past if is_baseline(one, BEDDED)]
    looks = [one for one in past if _compares(one.reading(part, "girth_sound"), now) and _settled(case)]
    base = baselines[-1] if baselines else looks[0] if looks else None
    then = base.reading(part, "girth_sound") if base is not None else None
    if base is None or then is None:
        return NotMeasured("no earlier girth to compare with")
    if not _compares(then, now):
        return NotMeasured(
            f"not comparable: the girth at the baseline was read {then.tension.value} and {then.moisture.value}",
            attempted=True,
        )
    before = mean(then.values, "mm")
    if before == 0:
        return NotMeasured("the girth at the baseline is zero", attempted=True, refer=True)
    d = nominal_diameter(case.item)
    goods = spread(now, d, "mm"), spread(then, d, "mm")
    value, u = loss_percent(
        mean(now.values, "mm"), before, goods[0].of_mean(len(now.values)), goods[1].of_mean(len(then.values))
    )
    return Measured(
        value=value,
        unit="%",
        u=u,
        u_source=goods[0].source,
        n=len(now.values),
        guarded=False,  # the limit already is what two readings differ by
        from_study=all(good.from_study for good in goods),
        how=f"a sound place since {base.kind.value} {base.on.isoformat()}",
    )


def out_of_round(case: Case, part: str) -> Measured | NotMeasured:
    """Return how much narrower the worst place is across than at its widest, in per cent of the widest."""
    widest, narrowest = (case.inspection.reading(part, f"caliper_{name}") for name in ("widest", "narrowest"))
    if widest is None and narrowest is None:
        return NotMeasured("the diameters across were not read")
    if widest is None or narrowest is None:
        return NotMeasured("only one of the two diameters was read; read the widest and the narrowest", attempted=True)
    if not _compares(widest, narrowest):
        return NotMeasured("the two diameters were read in different states; read both in one", attempted=True)
    if min(len(widest.values), len(narrowest.values)) < READINGS_EACH:
        return NotMeasured("read each diameter three times", attempted=True)
    d = nominal_diameter(case.item)
    apart = scattered(widest, d, "mm") or scattered(narrowest, d, "mm")
    if apart:
        return NotMeasured(apart, attempted=True)
    across, least = mean(widest.values, "mm"), mean(narrowest.values, "mm")
    if across == 0:
        return NotMeasured("the widest diameter is zero; read it again", attempted=True)
    goods = spread(narrowest, d, "mm"), spread(widest, d, "mm")
    value, u = loss_percent(
        least, across, goods[0].of_mean(len(narrowest.values)), goods[1].of_mean(len(widest.values))
    )
    if float(value) < -CONFIDENT_K * u:
        return NotMeasured("the narrowest reads more than the widest: were they swapped?", attempted=True)
    return Measured(
        value=value,
        unit="%",
        u=u,
        u_source=goods[0].source,
        n=min(len(widest.values), len(narrowest.values)),
        from_study=all(good.from_study for good in goods),
        how="narrowest under widest, one place",
    )


def _compares(one: Reading | None, other: Reading) -> bool:
    return one is not None and one.state == other.state


def _misleads(case: Case, part: str) -> bool:
    """Whether something was seen on this visit that makes the girth of the body say nothing of its fibre."""
    findings = ((case.inspection.finding(part, name), what) for name, what in GIRTH_MISLEADS.items())
    return any(finding is not None and bool(what & set(finding.conditions)) for finding, what in findings)


def _settled(case: Case) -> bool:
    """A rope with buried eyes compacts at first; others compare from the start, as do used ropes with a new eye."""
    buried = [part.id for part in case.item.terminations if part.splice is SpliceKind.BURIED_EYE]
    return not buried or any(is_baseline(one, BEDDED) for one in case.history)
