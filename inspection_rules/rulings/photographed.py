"""Photographs alone never remove: what stops being a removal once they are left out holds, to be measured by hand.

A length from a photograph rests on a card lying on the rope's own plane and on taps that nobody can make again at the
rope, and a removal cannot be taken back; a hold keeps the item out of use just as well until somebody has laid a rule
or a tape there.
"""

from inspection_rules.case import Case
from inspection_rules.record import Inspection
from inspection_rules.words import Method

BY_HAND = "Only photographs say so, which hold and never remove: measure it by hand."


def without_photographs(case: Case) -> Case | None:
    """Return the case with what was read on photographs left out, now and earlier; None where nothing was.

    Baselines stay as they are: nobody can measure them again.
    """
    now, earlier = _read(case.inspection), tuple(_read(one) for one in case.earlier)
    if now is case.inspection and all(one is other for one, other in zip(earlier, case.earlier, strict=True)):
        return None
    return case.model_copy(update={"inspection": now, "earlier": earlier})


def _read(visit: Inspection) -> Inspection:
    kept = tuple(one for one in visit.readings if one.method is not Method.PHOTOGRAPH)
    return visit if len(kept) == len(visit.readings) else visit.model_copy(update={"readings": kept})
