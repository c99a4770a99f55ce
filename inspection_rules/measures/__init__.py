"""What can be computed from an inspection: one module a measure; `MEASURES` is what rules may name."""

from collections.abc import Callable
from dataclasses import dataclass

from inspection_rules.case import Case
from inspection_rules.measures.bury import remaining_bury, remaining_core_bury
from inspection_rules.measures.damage import Damage
from inspection_rules.measures.design_factor import (
    design_factor,
    design_factor_persons,
    rating_factor,
    strength_for_persons,
)
from inspection_rules.measures.fibre import (
    cut_strand_damages,
    cut_strand_share,
    cut_strands,
    cut_yarn_damages,
    cut_yarn_share_of_rope,
    cut_yarn_share_of_strand,
    fibre_lost_rope,
    fibre_lost_strand,
    fibre_rope_damages,
)
from inspection_rules.measures.fitting import fitting_wear, hook_opening
from inspection_rules.measures.laid_out import laid_out, pairs_beside, passes, picks_between, strands_ended
from inspection_rules.measures.leg_tension import (
    angle_from_horizontal,
    angle_from_vertical,
    leg_tension,
    leg_tension_on_two,
    lifted_load,
)
from inspection_rules.measures.make import natural_fibres, nominal_size, short_splices
from inspection_rules.measures.routes import slip_by_eye, slip_by_tip
from inspection_rules.measures.section import effective_diameter_loss, girth_loss, out_of_round
from inspection_rules.measures.slip import slip
from inspection_rules.measures.strands import clear_length, extra_tucks, free_tail, tail, tail_shortening, tucks
from inspection_rules.measures.strength import breaking_force, residual_strength
from inspection_rules.measures.stretch import permanent_elongation
from inspection_rules.measures.temperature import coldest, hottest
from inspection_rules.measures.throat_angle import throat_angle
from inspection_rules.measures.web import (
    ABRASION,
    WARP,
    WEFT,
    abrasions,
    deep_warps,
    edge_cut,
    edge_cuts,
    shallow_warps,
    warp_deep,
    warp_edge,
    warp_shallow,
    web_abrasion,
    weft_damage,
    weft_damages,
)
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.words import SPLICED, PartKind

BODY = (PartKind.BODY,)
LIFT = ("load", "legs", "leg_angle", "hitch")


def no_damages(case: Case, part: str) -> list[Damage]:
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
        damages: each damage it is the worst of, sizes in `unit`, for `combined` rules. One for every value of the
            first observation, in that order (of size 0 where the value is none of this measure's), so that the same
            damage is known again in another measure of it.
    """

    compute: Callable[[Case, str], Measured | NotMeasured]
    on: tuple[PartKind, ...]
    observations: tuple[str, ...]
    unit: str = "mm"
    moves: bool = False
    uses: tuple[str, ...] = ()
    damages: Callable[[Case, str], list[Damage]] = no_damages


MEASURES: dict[str, Measure] = {
    "slip": Measure(slip, SPLICED, ("mark_offset", "mark_tail", "mark_standing"), moves=True),
    "slip_by_eye": Measure(slip_by_eye, (PartKind.TERMINATION,), ("eye_perimeter", "eye_length")),
    "slip_by_tip": Measure(slip_by_tip, (PartKind.TERMINATION,), ("tip_step",)),
    "remaining_bury": Measure(remaining_bury, SPLICED, ("bury", "other_bury")),
    "remaining_core_bury": Measure(remaining_core_bury, SPLICED, ("core_bury",)),
    "effective_diameter_loss": Measure(effective_diameter_loss, BODY, ("girth_worst", "girth_sound"), "%"),
    "girth_loss": Measure(girth_loss, BODY, ("girth_sound",), "%"),
    "out_of_round": Measure(out_of_round, BODY, ("caliper_widest", "caliper_narrowest"), "%"),
    "cut_strands": Measure(cut_strands, BODY, ("cut_strands",), ""),
    "cut_strand_share": Measure(cut_strand_share, BODY, ("cut_strands",), "%", damages=cut_strand_damages),
    "cut_yarn_share_strand": Measure(cut_yarn_share_of_strand, BODY, ("cut_yarns", "strand_yarns"), "%"),
    "cut_yarn_share_rope": Measure(
        cut_yarn_share_of_rope, BODY, ("cut_yarns", "strand_yarns"), "%", damages=cut_yarn_damages
    ),
    "fibre_lost_strand": Measure(fibre_lost_strand, BODY, ("fibre_strand",), "%"),
    "fibre_lost_rope": Measure(fibre_lost_rope, BODY, ("fibre_rope",), "%", damages=fibre_rope_damages),
    "permanent_elongation": Measure(permanent_elongation, BODY, ("gauge_length",), "%"),
    "tucks": Measure(tucks, SPLICED, ("tucks", "tucks_one_side", "tucks_other_side"), ""),
    "extra_tucks": Measure(extra_tucks, SPLICED, ("extra_tucks",), ""),
    "tail": Measure(tail, SPLICED, ("tail",)),
    "tail_shortening": Measure(tail_shortening, SPLICED, ("tail",)),
    "free_tail": Measure(free_tail, SPLICED, ("free_tail",)),
    "clear_length": Measure(clear_length, BODY, ("clear_length",)),
    "laid_out": Measure(laid_out, SPLICED, ("laid_out",)),
    "strands_ended": Measure(strands_ended, SPLICED, ("strands_ended",), ""),
    "passes": Measure(passes, SPLICED, ("passes",), ""),
    "pairs_beside": Measure(pairs_beside, SPLICED, ("pairs_beside",), ""),
    "picks_between": Measure(picks_between, SPLICED, ("picks_between",), ""),
    "throat_angle": Measure(
        throat_angle, (PartKind.TERMINATION,), ("eye_length",), "° included", uses=("pin_diameter", "eye_length")
    ),
    "leg_tension": Measure(leg_tension, (), (), "kN", uses=LIFT),
    "leg_tension_on_two": Measure(leg_tension_on_two, (), (), "kN", uses=LIFT),
    "lifted_load": Measure(lifted_load, (), (), "kN", uses=LIFT),
    "angle_from_horizontal": Measure(angle_from_horizontal, (), (), "° from horizontal", uses=("leg_angle",)),
    "angle_from_vertical": Measure(angle_from_vertical, (), (), "° from vertical", uses=("leg_angle",)),
    # Neither knows what a choker takes from the rope: that is for a rating of the hitch.
    "design_factor": Measure(design_factor, (), (), "times", uses=("load", "legs", "leg_angle")),
    "design_factor_persons": Measure(
        design_factor_persons, (), (), "times", uses=("load", "legs", "leg_angle", "persons")
    ),
    "rating_factor": Measure(rating_factor, (), (), "times"),
    "strength_for_persons": Measure(strength_for_persons, (), (), "kN", uses=("persons",)),
    "hottest": Measure(hottest, (), (), "°C", uses=("hottest",)),
    "coldest": Measure(coldest, (), (), "°C", uses=("coldest",)),
    "hook_opening": Measure(hook_opening, (PartKind.FITTING,), ("hook_throat",), "%"),
    "fitting_wear": Measure(fitting_wear, (PartKind.FITTING,), ("fitting_thickness",), "%"),
    # What stands in the record is shown at the tag, which says the same.
    "breaking_force": Measure(breaking_force, (), ("tag",), "kN"),
    "nominal_size": Measure(nominal_size, (), ("tag",)),
    "natural_fibres": Measure(natural_fibres, (), ("tag",), ""),
    "short_splices": Measure(short_splices, (), ("tag",), ""),
    "residual_strength": Measure(residual_strength, (), ("break_test",), "%"),
    "edge_cut": Measure(edge_cut, BODY, ("edge_cut",), damages=edge_cuts),
    "web_abrasion": Measure(web_abrasion, BODY, ABRASION, "%", damages=abrasions),
    "warp_shallow": Measure(warp_shallow, BODY, WARP, damages=shallow_warps),
    "warp_deep": Measure(warp_deep, BODY, WARP, damages=deep_warps),
    "warp_edge": Measure(warp_edge, BODY, WARP),
    "weft_damage": Measure(weft_damage, BODY, WEFT, damages=weft_damages),
}
