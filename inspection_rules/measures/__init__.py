"""What can be computed from an inspection: one module a measure; `MEASURES` is what rules may name."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.bury import remaining_bury
from inspection_rules.measures.section import effective_diameter_loss
from inspection_rules.measures.slip import slip
from inspection_rules.measures.strands import tail, tail_shortening, tucks
from inspection_rules.measures.throat_angle import throat_angle
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.words import SPLICED, PartKind

BODY = (PartKind.BODY,)


def no_damages(case: Case, part: str) -> list[tuple[Fraction | None, Fraction]]:
    """Return no damages: the measure is none that adds up."""
    return []


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure that rules may name.

    Attributes:
        compute: from a case and the id of a part; empty for the item as a whole.
        on: the kinds of part it is computed for; empty for the item as a whole.
        observations: the readings it is computed from; the first names its station.
        unit: what it is given in.
        moves: whether it is a position that should stay still, which a movement rule may follow.
        uses: the fields of `Use` it judges.
        damages: each damage it is the worst of: where it lies, mm from end A, None when not known, and its size in
            `unit`. For `combined` rules.
    """

    compute: Callable[[Case, str], Measured | NotMeasured]
    on: tuple[PartKind, ...]
    observations: tuple[str, ...]
    unit: str = "mm"
    moves: bool = False
    uses: tuple[str, ...] = ()
    damages: Callable[[Case, str], list[tuple[Fraction | None, Fraction]]] = no_damages


MEASURES: dict[str, Measure] = {
    "slip": Measure(slip, SPLICED, ("mark_offset", "mark_tail", "mark_standing"), moves=True),
    "remaining_bury": Measure(remaining_bury, SPLICED, ("bury",)),
    "effective_diameter_loss": Measure(effective_diameter_loss, BODY, ("girth_worst", "girth_sound"), "%"),
    "tucks": Measure(tucks, SPLICED, ("tucks",), ""),
    "tail": Measure(tail, SPLICED, ("tail",)),
    "tail_shortening": Measure(tail_shortening, SPLICED, ("tail",)),
    "throat_angle": Measure(
        throat_angle, (PartKind.TERMINATION,), ("eye_length",), "° included", uses=("pin_diameter",)
    ),
}
