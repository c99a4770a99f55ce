"""What the rope parts of a lift carry: T = W / (n sin θ), θ from the horizontal.

A sling's legs share a load only where they hang alike. So no more than three legs are counted, as the tables that
rate three and four legs alike do; on a stiff load two of four may carry nearly all of it (NAVEDTRA 14081). In a basket
each sling is two parts; of several baskets two are counted.
"""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.quantity import Measured, NotMeasured, decimal_text
from inspection_rules.uncertainty import DEFAULT
from inspection_rules.words import WEB_KINDS, Hitch, ItemKind

U_ANGLE_DEG = 2.0  # an angle taken by eye or with a phone; judgement, no source
U_LOAD_SHARE = 0.02  # a weight from a plate or a load cell; judgement, no source
GUARD_K = 1.645
VERTICAL_WITHIN_DEG = 5  # 29 CFR 1910.184(b), read: so near the vertical it may be taken as vertical
MOST_LEGS, MOST_BASKETS = 3, 2
SLINGS = WEB_KINDS | {ItemKind.ROPE_SLING, ItemKind.GROMMET}


@dataclass(frozen=True, slots=True)
class Lift:
    """What was said about a lift, complete enough to reckon with.

    Attributes:
        load: kN, the whole.
        legs: slings or legs that carry it, as said.
        parts: how many rope parts are counted on.
        hitch: how each goes round the load.
        from_horizontal: degrees; None where one leg hangs straight down and nothing was said.
    """

    load: Fraction
    legs: int
    parts: int
    hitch: Hitch
    from_horizontal: Fraction | None

    @property
    def steepest_doubt(self) -> float:
        """How far from the vertical the legs may lie, in degrees, with the doubt about the angle counted."""
        return 0.0 if self.from_horizontal is None else 90 - float(self.from_horizontal) + GUARD_K * U_ANGLE_DEG


def tension(load: float, parts: int, from_horizontal: float) -> float:
    """Return what each of `parts` rope parts carries, in the unit of the load; infinite for level legs."""
    return load / (parts * math.sin(math.radians(from_horizontal))) if from_horizontal > 0 else math.inf


def lift(case: Case) -> Lift | NotMeasured:
    """Return the lift that was said, or what is missing of it."""
    use = case.use
    if use is None or all(said is None for said in (use.load, use.leg_angle, use.hitch, use.legs)):
        return NotMeasured("no lift was named for this use")
    if use.load is None:
        return NotMeasured("say what the whole load is: legs and angles alone say nothing", attempted=True)
    if use.load.value == 0:
        return NotMeasured("the load is zero; say what it is", attempted=True)
    wrong = tag_cannot_be_right(case.item)
    if wrong is not None:
        return wrong
    hitch = use.hitch or (None if case.item.kind in SLINGS else Hitch.STRAIGHT)
    if hitch is None:
        return NotMeasured("say how the sling goes round the load: straight, choker or basket", attempted=True)
    legs = use.legs or case.item.legs
    parts = 2 * min(legs, MOST_BASKETS) if hitch is Hitch.BASKET else min(legs, MOST_LEGS)
    if parts > 1 and use.leg_angle is None:
        return NotMeasured("say the angle of the legs, from the horizontal or from the vertical", attempted=True)
    angle = use.leg_angle.from_horizontal if use.leg_angle is not None else None
    return Lift(use.load.to("kN"), legs, parts, hitch, angle)


def tag_cannot_be_right(item: Item) -> NotMeasured | None:
    """Say so where the forces on record contradict each other, so that none of them can be relied on; else None.

    No sling is let to carry what it breaks at, choked more than straight, or in a basket more than its two parts do.
    """
    limits = [rated.force for rated in item.rated if rated.hitch is Hitch.STRAIGHT]
    if item.working_load_limit is not None:
        limits.append(item.working_load_limit)
    straight = min(limits, key=lambda force: force.to("kN"), default=None)
    others = [(rated.force, rated.hitch) for rated in item.rated if rated.hitch is not Hitch.STRAIGHT]
    wrong = ""
    for force, hitch in [*((one, Hitch.STRAIGHT) for one in limits), *others]:
        most, share = (2, "twice ") if hitch is Hitch.BASKET else (1, "")
        said = (
            f"it says {force.text} for a {hitch.value} hitch"
            if hitch is not Hitch.STRAIGHT
            else f"it says {force.text}"
        )
        breaks = item.breaking_force
        if straight is not None and hitch is not Hitch.STRAIGHT and force.to("kN") > most * straight.to("kN"):
            wrong = f"{said}, above {share}the {straight.text} it may carry straight"
        if breaks is not None and force.to("kN") > most * breaks.to("kN"):
            wrong = f"{said}, above {share}the breaking force on record, {breaks.text}"
    if not wrong:
        return None
    return NotMeasured(f"the tag cannot be right: {wrong}; check tag and certificate", attempted=True, refer=True)


def leg_tension(case: Case, part: str) -> Measured | NotMeasured:
    """Return what the rope part with the most to carry has to hold, kN, with the doubt about load and angle."""
    one = lift(case)
    return one if isinstance(one, NotMeasured) else _in_a_part(case, one)


def _in_a_part(case: Case, one: Lift) -> Measured | NotMeasured:
    said = 90.0 if one.from_horizontal is None else float(one.from_horizontal)
    low = 90.0 if one.from_horizontal is None else said - GUARD_K * U_ANGLE_DEG
    if low <= 0:
        return NotMeasured("the legs lie so flat that no tension can be reckoned", attempted=True, refer=True)
    load = float(one.load)
    value = tension(load, one.parts, 90.0 if 90 - said <= VERTICAL_WITHIN_DEG else said)
    # Tension bends upwards as the legs get flatter, so the angle's doubt is taken over the whole guard band.
    u = math.hypot(U_LOAD_SHARE * value, (max(tension(load, one.parts, low), value) - value) / GUARD_K)
    return Measured(value=Fraction(round(value * 10**6), 10**6), unit="kN", u=u, u_source=DEFAULT, how=_how(case, one))


def leg_tension_on_two(case: Case, part: str) -> Measured | NotMeasured:
    """Return what a leg holds where a stiff load on three or four legs hangs on two of them, kN."""
    one = lift(case)
    if isinstance(one, NotMeasured):
        return one
    if one.hitch is Hitch.BASKET or one.legs <= 2:
        return NotMeasured("two legs or fewer carry it")
    return _in_a_part(case, replace(one, parts=2))


def lifted_load(case: Case, part: str) -> Measured | NotMeasured:
    """Return the whole load, kN: for tables that rate the whole sling."""
    one = lift(case)
    if isinstance(one, NotMeasured):
        return one
    return Measured(one.load, "kN", U_LOAD_SHARE * float(one.load), DEFAULT, how=_how(case, one))


def angle_from_horizontal(case: Case, part: str) -> Measured | NotMeasured:
    """Return the legs' angle above the horizontal, degrees: how US texts measure it."""
    if case.use is None or case.use.leg_angle is None:
        return NotMeasured("no angle was named for this use")
    angle = case.use.leg_angle
    return Measured(angle.from_horizontal, "° from horizontal", U_ANGLE_DEG, DEFAULT, how=f"legs {angle.text}")


def angle_from_vertical(case: Case, part: str) -> Measured | NotMeasured:
    """Return the legs' angle off the vertical, degrees: how EN texts measure it."""
    if case.use is None or case.use.leg_angle is None:
        return NotMeasured("no angle was named for this use")
    angle = case.use.leg_angle
    return Measured(90 - angle.from_horizontal, "° from vertical", U_ANGLE_DEG, DEFAULT, how=f"legs {angle.text}")


def _how(case: Case, one: Lift) -> str:
    use = case.use
    angle = use.leg_angle.text if use is not None and use.leg_angle is not None else "straight down"
    load = use.load.text if use is not None and use.load is not None else decimal_text(one.load)
    what = {Hitch.BASKET: "basket", Hitch.CHOKER: "choker leg"}.get(one.hitch, "leg")
    counted = f", {one.parts} parts counted" if one.hitch is Hitch.BASKET or one.parts < one.legs else ""
    return f"{load} on {one.legs} {what}{'s' if one.legs > 1 else ''} {angle}{counted}"
