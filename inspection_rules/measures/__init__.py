"""What can be computed from an inspection: one module a measure; `MEASURES` is what rules may name."""

from collections.abc import Callable
from dataclasses import dataclass

from inspection_rules.case import Case
from inspection_rules.measures.bury import remaining_bury
from inspection_rules.measures.section import effective_diameter_loss
from inspection_rules.measures.slip import slip
from inspection_rules.measures.strands import tail, tail_shortening, tucks
from inspection_rules.measures.throat_angle import throat_angle
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.words import PartKind


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure that rules may name.

    Attributes:
        compute: from a case and the id of a part.
        on: the kind of part it is computed for.
        observations: the readings it is computed from; the first names its station.
        unit: what it is given in.
        moves: whether it is a position that should stay still, which a movement rule may follow.
    """

    compute: Callable[[Case, str], Measured | NotMeasured]
    on: PartKind
    observations: tuple[str, ...]
    unit: str = "mm"
    moves: bool = False


MEASURES: dict[str, Measure] = {
    "slip": Measure(slip, PartKind.TERMINATION, ("mark_offset", "mark_tail", "mark_standing"), moves=True),
    "remaining_bury": Measure(remaining_bury, PartKind.TERMINATION, ("bury",)),
    "effective_diameter_loss": Measure(effective_diameter_loss, PartKind.BODY, ("girth_worst", "girth_sound"), "%"),
    "tucks": Measure(tucks, PartKind.TERMINATION, ("tucks",), ""),
    "tail": Measure(tail, PartKind.TERMINATION, ("tail",)),
    "tail_shortening": Measure(tail_shortening, PartKind.TERMINATION, ("tail",)),
    "throat_angle": Measure(throat_angle, PartKind.TERMINATION, ("eye_length",), "° included"),
}
