"""What an item's record says of its make, as numbers that rules may limit."""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.words import Fibre, SpliceKind

NATURAL = frozenset({Fibre.MANILA, Fibre.SISAL, Fibre.HEMP})


def nominal_size(case: Case, part: str) -> Measured | NotMeasured:
    """Return the rope's nominal diameter as it was bought, mm."""
    d = nominal_diameter(case.item)
    if d is None:
        return NotMeasured("the nominal diameter is not on record", attempted=True, refer=True)
    return Measured(d, "mm", 0.0, "as recorded")


def natural_fibres(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many natural fibres it is made of: 0 or 1."""
    if case.item.fibre is Fibre.NOT_KNOWN:
        return NotMeasured("its fibre is not known", attempted=True, refer=True)
    return _count(int(case.item.fibre in NATURAL), f"made of {case.item.fibre}")


def short_splices(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many tucked short splices join its lengths."""
    found = sum(one.splice is SpliceKind.TUCKED_SHORT_SPLICE for one in case.item.parts)
    return _count(found, "short splices between its ends")


def _count(number: int, how: str) -> Measured:
    return Measured(Fraction(number), "", 0.0, "as recorded", how=how)
