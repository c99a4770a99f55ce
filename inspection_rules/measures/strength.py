"""Strength as papers and break tests state it: never reckoned from wear.

The minimum breaking force stands in the item's record, from its certificate. What is left of a mooring line is known
only from a piece of it that was broken in a test, and is set against the ship's design force, never against the
certificate.
"""

import math

from inspection_rules.case import Case
from inspection_rules.quantity import Measured, NotMeasured

# ISO 2307 asks ± 1 % of the breaking force of the machine (secondary); taken as a rectangular spread.
MACHINE_ERROR_PERCENT = 1.0


def breaking_force(case: Case, part: str) -> Measured | NotMeasured:
    """Return the minimum breaking force on the item's certificate, kN; a stated figure, so without doubt of reading."""
    stated = case.item.breaking_force
    if stated is None:
        return NotMeasured("the minimum breaking force is not on record")
    return Measured(stated.to("kN"), "kN", 0.0, "as certified", how=f"certificate: {stated}")


def residual_strength(case: Case, part: str) -> Measured | NotMeasured:
    """Return the force the weakest piece broke at in the last break test, in per cent of the ship design force."""
    tested = [one for one in case.history if one.reading("", "break_test") is not None]
    reading = tested[-1].reading("", "break_test") if tested else None
    if reading is None:
        return NotMeasured("no piece was broken in a test")
    design = case.item.ship_design_force
    if design is None or design.value == 0:
        return NotMeasured(
            "the ship design minimum breaking load is not on record, and no other base will do",
            attempted=True,
            refer=True,
        )
    value = min(force.to("kN") for force in reading.values) / design.to("kN") * 100
    return Measured(
        value=value,
        unit="%",
        u=float(value) * MACHINE_ERROR_PERCENT / 100 / math.sqrt(3),
        u_source="test machine within 1 % by ISO 2307, secondary source",
        n=len(reading.values),
        how=f"weakest piece against the ship design force, {design}",
        read_on=tested[-1].on,
    )
