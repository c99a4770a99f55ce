"""Limits that depend on the item: named formulas that packs may use instead of a fixed value."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.measures.leg_tension import Lift, lift
from inspection_rules.measures.size import fid_length, nominal_circumference, nominal_diameter
from inspection_rules.quantity import NotMeasured, Quantity, decimal_text
from inspection_rules.rule import Factor, Formula
from inspection_rules.words import Hitch


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


def _required_core_bury(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """So many times what a double-braid eye's own instruction asks of its core's tail; that is once."""
    own = case.item.part(part)
    if own.required_core_bury is None or formula.times is None:
        return NotMeasured(
            "the bury this splice's core must have is not on record: its own instruction gives it",
            attempted=True,
            refer=True,
        )
    return Bound(Fraction(formula.times) * own.required_core_bury.to("mm"), "mm", own.required_by)


def _fids(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """So many fid lengths, each 7 × nominal circumference: for a layout in fid lengths only, never for a bury."""
    circumference = nominal_circumference(case.item)
    if circumference is None or formula.times is None:
        return NotMeasured("the nominal circumference is not on record", attempted=True, refer=True)
    value = Fraction(formula.times) * fid_length(circumference)
    return Bound(value, "mm", f"{formula.times} fid lengths of 7 × nominal circumference")


def _web_thickness(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """So many thicknesses of the web, all plies together."""
    return _of_web(formula, case.item.thickness, "thickness")


def _web_width(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """So many widths of the web."""
    return _of_web(formula, case.item.width, "width")


def _of_web(formula: Formula, size: Quantity | None, word: str) -> Bound | NotMeasured:
    if size is None or size.to("mm") == 0 or formula.times is None:
        return NotMeasured(f"the web's {word} is not on record: measure it and record it", attempted=True, refer=True)
    why = f"the web's {word}" if formula.times == 1 else f"{formula.times} × the web's {word}"
    return Bound(Fraction(formula.times) * size.to("mm"), "mm", why)


def _slip_action(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """The site's own action value where it is stricter, else so many diameters, offered as common practice."""
    offered = _diameters(formula, case, part)
    own = case.site.slip_action
    if own is None or isinstance(offered, NotMeasured):
        return offered
    if own.to("mm") > offered.value:
        return Bound(offered.value, "mm", f"{offered.why}; the site's own would be looser")
    return Bound(own.to("mm"), "mm", "set by the site")


def _leg_rating(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """What one rope part may carry in this hitch: what its tag says, else so much of the working load limit.

    Silent where it has no factor for the hitch: another rule may have one.
    """
    one = lift(case)
    if isinstance(one, NotMeasured):
        return one
    factor = _factor(formula, one, one.legs)
    tagged = _tagged(case.item, one.hitch)
    if factor is None or (tagged is None and factor.times is None):
        return NotMeasured(f"no factor for a {one.hitch} hitch")
    if tagged is None:
        return _of_working_load(case.item, factor)
    if one.hitch is Hitch.BASKET:
        return Bound(tagged / 2, "kN", "half of what its tag says for a basket hitch, in each part")
    return Bound(tagged, "kN", f"what its tag says for a {one.hitch} hitch")


def _mode_rating(formula: Formula, case: Case, part: str) -> Bound | NotMeasured:
    """What the whole sling may carry by a table of modes; a mode that the table does not have is not for this use."""
    one = lift(case)
    if isinstance(one, NotMeasured):
        return one
    factor, alone = _factor(formula, one, one.legs), _factor(formula, replace(one, from_horizontal=None), 1)
    if factor is None or alone is None or factor.times is None or alone.times is None:
        return NotMeasured(
            f"the table has no factor for a {one.hitch} hitch on {one.legs} at this angle, its doubt counted",
            attempted=True,
            refer=True,
        )
    tagged = _tagged(case.item, one.hitch)
    if tagged is None:
        return _of_working_load(case.item, factor)
    share = Fraction(factor.times) / Fraction(alone.times)
    return Bound(share * tagged, "kN", f"{decimal_text(share, 2)} × what its tag says for a {one.hitch} hitch")


def _factor(formula: Formula, one: Lift, legs: int) -> Factor | None:
    """The first factor of the table that holds for the lift even where the angle is worse by its doubt."""
    for factor in formula.factors:
        wide = factor.up_to is None or one.steepest_doubt <= factor.up_to
        if factor.hitch is one.hitch and legs in factor.legs and wide:
            return factor
    return None


def _tagged(item: Item, hitch: Hitch) -> Fraction | None:
    """What the tag says for a hitch, kN; the least where it says it twice."""
    said = [rated.force for rated in item.rated if rated.hitch is hitch]
    if hitch is Hitch.STRAIGHT and said and item.working_load_limit is not None:
        said.append(item.working_load_limit)
    return min((force.to("kN") for force in said), default=None)


def _of_working_load(item: Item, factor: Factor) -> Bound | NotMeasured:
    limit = item.working_load_limit or next((r.force for r in item.rated if r.hitch is Hitch.STRAIGHT), None)
    if limit is None:
        return NotMeasured("the working load limit is not on record: the tag gives it", attempted=True, refer=True)
    times = Fraction(factor.times or 1)
    share = "" if times == 1 else f"{factor.times} × "
    return Bound(times * limit.to("kN"), "kN", f"{share}working load limit {limit.text}")


FORCES = frozenset({"leg_rating", "mode_rating"})
"""Formulas that give a force and need `factors`; the others give a length."""
FORMULAS: dict[str, Callable[[Formula, Case, str], Bound | NotMeasured]] = {
    "diameters": _diameters,
    "required_bury": _required_bury,
    "required_core_bury": _required_core_bury,
    "fids": _fids,
    "slip_action": _slip_action,
    "web_thickness": _web_thickness,
    "web_width": _web_width,
    "leg_rating": _leg_rating,
    "mode_rating": _mode_rating,
}
