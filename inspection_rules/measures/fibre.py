"""Fibre: how much of what bears the load is cut, broken or worn away at one place of the body.

The 10 % of the sling criteria is 10 % of different things, which stay apart here: of the fibre in one strand, and of
the fibre in the rope. Cut strands and yarns are counted within one pitch or 1 m; fibre worn away is estimated by eye.
Each value of these readings is one damage: the worst is judged, and those of the rope may add up (`combined`).
Shares of fibre compare damages; they are no claim about strength.
"""

from collections.abc import Callable
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.measures.damage import Damage, damages_read, worst_read
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Reading
from inspection_rules.words import Construction, CoverLoad

STRANDS = {
    Construction.LAID_3: 3,
    Construction.LAID_4: 4,
    Construction.PLAITED_8: 8,
    Construction.HOLLOW_BRAID_8: 8,
    Construction.HOLLOW_BRAID_12: 12,
}
COVERED = frozenset({Construction.DOUBLE_BRAID, Construction.KERNMANTLE, Construction.PARALLEL_CORE})


def load_bearing_strands(item: Item) -> int | None:
    """Return how many strands share the load: by the construction, else as recorded; None where neither says."""
    if item.construction in STRANDS:
        return STRANDS[item.construction]
    return item.strands


def cut_strands(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many load-bearing strands are cut at the worst place, a count."""
    read = case.inspection.reading(part, "cut_strands")
    if read is None:
        return NotMeasured("cut strands were not counted")
    return _without_load(case, read) or _counted(_worst(read, ""), "", read)


def cut_strand_share(case: Case, part: str) -> Measured | NotMeasured:
    """Return the cut strands of the worst place in per cent of those that bear the load."""
    read = case.inspection.reading(part, "cut_strands")
    if read is None:
        return NotMeasured("cut strands were not counted")
    missing = _without_load(case, read) or _without_strands(case, read)
    if missing is not None:
        return missing
    return _counted(max((one.size for one in cut_strand_damages(case, part)), default=Fraction(0)), "%", read)


def cut_strand_damages(case: Case, part: str) -> list[Damage]:
    """Return each place with cut strands: where it lies, mm from end A, and its share of the strands in per cent."""
    strands = load_bearing_strands(case.item)
    read = case.inspection.reading(part, "cut_strands")
    if read is None or not strands or _without_load(case, read) is not None:
        return []
    return _in_per_cent(damages_read(case, part, "cut_strands", ""), lambda count: count / strands)


def cut_yarn_share_of_strand(case: Case, part: str) -> Measured | NotMeasured:
    """Return the cut yarns of the worst strand in per cent of a whole strand's."""
    read = case.inspection.reading(part, "cut_yarns")
    if read is None:
        return NotMeasured("cut yarns were not counted")
    yarns = _yarns_of_strand(case, part)
    missing = _without_load(case, read) or _without_yarns(read, yarns)
    if missing is not None:
        return missing
    return _counted(min(_worst(read, "") / (yarns or 1), Fraction(1)) * 100, "%", read)


def cut_yarn_share_of_rope(case: Case, part: str) -> Measured | NotMeasured:
    """Return the cut yarns of the worst strand in per cent of all yarns that bear the load."""
    read = case.inspection.reading(part, "cut_yarns")
    if read is None:
        return NotMeasured("cut yarns were not counted")
    yarns = _yarns_of_strand(case, part)
    missing = _without_load(case, read) or _without_yarns(read, yarns) or _without_strands(case, read)
    if missing is not None:
        return missing
    return _counted(max((one.size for one in cut_yarn_damages(case, part)), default=Fraction(0)), "%", read)


def cut_yarn_damages(case: Case, part: str) -> list[Damage]:
    """Return each strand with cut yarns: where it lies, mm from end A, and its share of all yarns in per cent."""
    strands, yarns = load_bearing_strands(case.item), _yarns_of_strand(case, part)
    read = case.inspection.reading(part, "cut_yarns")
    if read is None or not strands or not yarns or _without_load(case, read) is not None:
        return []
    each = damages_read(case, part, "cut_yarns", "")
    return _in_per_cent(each, lambda count: min(count / yarns, Fraction(1)) / strands)


def fibre_lost_strand(case: Case, part: str) -> Measured | NotMeasured:
    """Return the fibre broken or worn away in the worst strand, in per cent of that strand's, by eye."""
    return worst_read(case, part, "fibre_strand", "%")


def fibre_lost_rope(case: Case, part: str) -> Measured | NotMeasured:
    """Return the fibre broken or worn away at the worst place, in per cent of the rope's, by eye."""
    return worst_read(case, part, "fibre_rope", "%")


def fibre_rope_damages(case: Case, part: str) -> list[Damage]:
    """Return each place where the rope lost fibre, in per cent of the rope's."""
    return damages_read(case, part, "fibre_rope", "%")


def _in_per_cent(counts: list[Damage], share: Callable[[Fraction], Fraction]) -> list[Damage]:
    """The same damages as shares in per cent, none above all of it."""
    return [Damage(one.place, min(share(one.size), Fraction(1)) * 100, 0.0) for one in counts]


def _counted(value: Fraction, unit: str, read: Reading) -> Measured:
    return Measured(value, unit, 0.0, "counted", how=_how(read))


def _how(read: Reading) -> str:
    return f"the largest of {len(read.values)}" if len(read.values) > 1 else ""


def _worst(read: Reading, unit: str) -> Fraction:
    return max(value.to(unit) for value in read.values)


def _yarns_of_strand(case: Case, part: str) -> Fraction | None:
    """Yarns in a whole strand; the fewest where they were counted more than once, which makes the share larger."""
    read = case.inspection.reading(part, "strand_yarns")
    return min(value.to("") for value in read.values) or None if read is not None else None


def _without_load(case: Case, read: Reading) -> NotMeasured | None:
    """Why cut strands of a covered rope are no loss that can be reckoned: its cover bears none, or nobody knows."""
    if case.item.construction not in COVERED or _worst(read, "") == 0:
        return None
    if case.item.cover_load is CoverLoad.NONE:
        return NotMeasured(
            "the cover carries none of the load, so its cut strands are no loss: have the core under them looked at",
            attempted=True,
            refer=True,
        )
    if case.item.cover_load is None:
        return NotMeasured("how much of the load the cover carries is not on record", attempted=True, refer=True)
    return None


def _without_strands(case: Case, read: Reading) -> NotMeasured | None:
    if load_bearing_strands(case.item) or _worst(read, "") == 0:
        return None
    return NotMeasured("how many strands bear the load is not on record", attempted=True, refer=True)


def _without_yarns(read: Reading, yarns: Fraction | None) -> NotMeasured | None:
    if yarns or _worst(read, "") == 0:
        return None
    return NotMeasured("how many yarns a whole strand has was not counted", attempted=True)
