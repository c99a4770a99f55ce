"""Places along a rope over time: what is cut off at end A shifts every place behind it."""

from collections.abc import Iterable
from datetime import datetime
from fractions import Fraction

from inspection_rules.events import WorkDone
from inspection_rules.quantity import Quantity


def place_now(place: Quantity, at: datetime, work: Iterable[WorkDone]) -> Fraction | None:
    """Return where a place of an earlier record lies now, exact, in mm from end A; None when it was cut off.

    The ends are whipped-in names: turning the line end for end moves no place, and cutting back at end B none.

    Args:
        place: from end A, as it was recorded.
        at: when it was recorded.
        work: what was done to the item, in any order; what was done before `at` is left out.
    """
    cuts = [one.cut_from_a.to("mm") for one in work if one.at > at and one.cut_from_a is not None]
    now = place.to("mm") - sum(cuts, Fraction(0))
    return None if now < 0 else now
