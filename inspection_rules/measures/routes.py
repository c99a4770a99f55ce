"""The other routes to the slip of a buried tail: the eye that grows, and the tail's tip that is felt.

    by the eye: its inside perimeter now - then, which grows by s; its flat length grows by s / 2
    by the tip: throat to the felt tip then - now, since the tip comes toward the throat by s

Each is compared with the bedded-in or as-found record, in the same tension and wet state only; otherwise it is not
comparable, which is no disagreement. The eye tells nothing in nylon (it stretches for good), in an eye that is not
bedded in, under chafe gear and round a captive thimble. The marks of a locked eye hardly move: the tip is its route.
Signs and exclusions: common practice, no published source.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from inspection_rules.case import Case, mean
from inspection_rules.measures.offset import offset_at
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.track import BEDDED, is_baseline
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Inspection
from inspection_rules.uncertainty import scattered, spread
from inspection_rules.words import Fibre, Thimble


@dataclass(frozen=True, slots=True)
class Route:
    """What one route shows.

    Attributes:
        slip: mm, plus when the tail has come out.
        marks: the slip that the marks show since the same record; None where they are not comparable.
    """

    slip: Measured
    marks: Measured | None


def by_eye(case: Case, part: str) -> Route | NotMeasured:
    """Return the slip that the growth of the eye shows; the perimeter counts before the flat length."""
    own = case.item.part(part)
    if case.item.fibre is Fibre.NYLON:
        return NotMeasured("not comparable: an eye of nylon grows without slip")
    if own.chafe_gear or own.thimble is Thimble.CAPTIVE:
        return NotMeasured("not comparable: the eye cannot grow freely under chafe gear or round a captive thimble")
    by_perimeter = _since_bedded(case, part, "eye_perimeter", 1, "by the eye's perimeter")
    if isinstance(by_perimeter, Route) or by_perimeter.attempted:
        return by_perimeter
    by_length = _since_bedded(case, part, "eye_length", 2, "by twice the growth of the eye's flat length")
    return by_perimeter if isinstance(by_length, NotMeasured) and not by_length.attempted else by_length


def by_tip(case: Case, part: str) -> Route | NotMeasured:
    """Return the slip that the felt tip of the tail shows."""
    return _since_bedded(case, part, "tip_step", -1, "by the felt tip of the tail")


ROUTES: dict[str, Callable[[Case, str], Route | NotMeasured]] = {"slip_by_eye": by_eye, "slip_by_tip": by_tip}


def slip_by_eye(case: Case, part: str) -> Measured | NotMeasured:
    """Return the slip that the growth of the eye shows, mm."""
    found = by_eye(case, part)
    return found.slip if isinstance(found, Route) else found


def slip_by_tip(case: Case, part: str) -> Measured | NotMeasured:
    """Return the slip that the felt tip of the tail shows, mm."""
    found = by_tip(case, part)
    return found.slip if isinstance(found, Route) else found


def _since_bedded(case: Case, part: str, observation: str, times: int, name: str) -> Route | NotMeasured:
    """Return `times` the growth of one reading since it was last read in a bedded-in or as-found record."""
    now = case.inspection.reading(part, observation)
    if now is None:
        return NotMeasured("not read")
    past = [one for one in case.since_made(part) if one is not case.inspection and is_baseline(one, BEDDED)]
    read = [(one, reading) for one in past if (reading := one.reading(part, observation)) is not None]
    if not read:
        return NotMeasured("not comparable: it was not read when the splice was recorded as bedded in or found")
    base, then = read[-1]
    if now.state != then.state:
        return NotMeasured("not comparable: it was read in another tension or wet state then")
    d = nominal_diameter(case.item)
    apart = scattered(now, d, "mm")
    if apart:
        return NotMeasured(apart, attempted=True)
    goods = spread(now, d, "mm"), spread(then, d, "mm")
    u = math.hypot(goods[0].of_mean(len(now.values)), goods[1].of_mean(len(then.values)))
    slip = Measured(
        value=times * (mean(now.values, "mm") - mean(then.values, "mm")),
        unit="mm",
        u=abs(times) * u,
        u_source=goods[0].source,
        n=len(now.values),
        from_study=all(good.from_study for good in goods),
        how=f"{name}, since {base.on.isoformat()} ({base.kind.value})",
    )
    return Route(slip, _by_marks(case, part, base))


def _by_marks(case: Case, part: str, base: Inspection) -> Measured | None:
    now, then = offset_at(case.inspection, part, case.item), offset_at(base, part, case.item)
    if now is None or then is None or now.state != then.state:
        return None
    return Measured(now.value - then.value, "mm", math.hypot(now.u, then.u), now.good.source, now.n)
