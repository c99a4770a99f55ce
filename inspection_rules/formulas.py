"""Limits that depend on the item: named formulas that packs may use instead of a fixed value."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import NotMeasured, Quantity
from inspection_rules.rule import Formula


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit's value for this case, exact, and where it comes from in words."""

    value: Fraction
    unit: str
    why: str = ""


def bound(limit: Quantity | Formula, case: Case, part: str) -> Bound | NotMeasured:
    """Return the limit's value for this case and part, or why it has none."""
    if isinstance(limit, Formula):
        return FORMULAS[limit.formula](limit, case, part)
    return Bound(limit.value, limit.unit)


def _diameters(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """So many nominal diameters, never less than `least`; from the size `below` on, the length `otherwise`."""
    d = nominal_diameter(case.item)
    if d is None or formula.times is None:
        return NotMeasured("the nominal diameter is not on record", attempted=True, refer=True)
    if formula.below is not None and formula.otherwise is not None and d >= formula.below.to("mm"):
        return Bound(formula.otherwise.to("mm"), "mm", f"{formula.otherwise.text} from {formula.below.text} on")
    value = Fraction(formula.times) * d
    if formula.least is not None and formula.least.to("mm") > value:
        return Bound(formula.least.to("mm"), "mm", f"{formula.least.text}, over {formula.times} × nominal diameter")
    return Bound(value, "mm", f"{formula.times} × nominal diameter")


def _required_bury(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """The splice's own specified length; never a rule of thumb in its place."""
    own = case.item.part(part)
    if own.required_bury is None:
        return NotMeasured(
            "the bury this splice must have is not on record: its own instruction gives it", attempted=True, refer=True
        )
    return Bound(own.required_bury.to("mm"), "mm", own.required_by)


def _slip_action(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """The site's own action value where it is stricter, else so many diameters, offered as common practice."""
    offered = _diameters(formula, case, part)
    own = case.site.slip_action
    if own is None or isinstance(offered, NotMeasured):
        return offered
    if own.to("mm") > offered.value:
        return Bound(offered.value, "mm", f"{offered.why}; the site's own would be looser")
    return Bound(own.to("mm"), "mm", "set by the site")


FORMULAS: dict[str, Callable[[Formula, Case, str], Bound | NotMeasured]] = {
    "diameters": _diameters,
    "required_bury": _required_bury,
    "slip_action": _slip_action,
}
