"""Every figure by the name that observations use, and those that look otherwise on another kind of part."""

from collections.abc import Callable
from functools import cache

from app.figures import (
    at_the_end,
    at_the_eye,
    at_the_fitting,
    at_the_gear,
    at_the_joint,
    at_the_splice,
    at_the_web,
    covered,
    on_the_body,
    openings,
    readings,
    tuck_and_bury,
    web_readings,
)
from app.figures.shapes import Figure
from inspection_rules.item import Part
from inspection_rules.observation import Observation
from inspection_rules.words import Construction, FittingKind, SpliceKind

_DRAWN: dict[str, Callable[[], Figure]] = {
    "tag": at_the_eye.tag,
    "tag_content": at_the_eye.tag_content,
    "eye_bearing": at_the_eye.eye_bearing,
    "eye_under_gear": at_the_gear.eye_under_gear,
    "chafe_gear": at_the_gear.chafe_gear,
    "eye_length": at_the_eye.eye_length,
    "eye_perimeter": at_the_eye.eye_perimeter,
    "thimble": at_the_eye.in_the_eye,
    "throat_marks": at_the_eye.throat_marks,
    "mark_offset": at_the_eye.mark_offset,
    "mark_tail": at_the_eye.mark_tail,
    "mark_standing": at_the_eye.mark_standing,
    "throat_entry": at_the_splice.throat_entry,
    "lock_seated": at_the_gear.lock_seated,
    "crossing": at_the_joint.crossing,
    "throat_lay": at_the_splice.throat_lay,
    "splice_middle": at_the_joint.splice_middle,
    "lock_stitching": at_the_splice.lock_stitching,
    "lock_thread": at_the_gear.lock_thread,
    "bury_feel": at_the_splice.bury_feel,
    "tip_mark": at_the_gear.tip_mark,
    "bury": at_the_splice.bury,
    "core_bury": tuck_and_bury.core_bury,
    "other_bury": at_the_joint.other_bury,
    "laid_out": tuck_and_bury.laid_out,
    "strands_ended": tuck_and_bury.strands_ended,
    "passes": tuck_and_bury.passes,
    "pairs_beside": tuck_and_bury.pairs_beside,
    "picks_between": tuck_and_bury.picks_between,
    "tip_step": at_the_splice.tip_step,
    "tucks": at_the_splice.count_tucks,
    "tucks_one_side": at_the_joint.tucks_one_side,
    "tucks_other_side": at_the_joint.tucks_other_side,
    "extra_tucks": at_the_end.extra_tucks,
    "tails_covered": at_the_end.tails_covered,
    "tail": at_the_splice.tail,
    "strand_tails": at_the_splice.tails,
    "sliding_part": at_the_end.sliding_part,
    "tail_left": at_the_end.tail_left,
    "free_tail": at_the_end.free_tail,
    "end_sound": at_the_end.end_sound,
    "other_end": at_the_end.other_end,
    "clear_rope": at_the_end.clear_rope,
    "clear_length": at_the_end.clear_length,
    "body_surface": on_the_body.body_surface,
    "body_inside": on_the_body.body_inside,
    "body_fibre": covered.body_fibre,
    "cover": covered.cover,
    "core_feel": covered.core_feel,
    "shackle_eye": covered.shackle_eye,
    "shackle_knot": covered.shackle_knot,
    "girth_worst": on_the_body.girth_worst,
    "girth_sound": on_the_body.girth_sound,
    "caliper_widest": readings.caliper_widest,
    "caliper_narrowest": readings.caliper_narrowest,
    "cut_strands": readings.cut_strands,
    "strand_yarns": readings.strand_yarns,
    "cut_yarns": readings.cut_yarns,
    "fibre_strand": readings.fibre_strand,
    "fibre_rope": readings.fibre_rope,
    "gauge_length": readings.gauge_length,
    "break_test": readings.break_test,
    "drum_layers": readings.drum_layers,
    "contamination": readings.contamination,
    "tail_joint": readings.tail_joint,
    "sewn_eye": at_the_web.sewn_eye,
    "stitching": at_the_web.stitching,
    "stitching_feel": at_the_web.stitching_feel,
    "webbing": at_the_web.webbing,
    "web_face_a": at_the_web.web_face_a,
    "web_face_b": at_the_web.web_face_b,
    "web_edges": at_the_web.web_edges,
    "web_hurt": at_the_web.web_hurt,
    "web_abrasion_a": web_readings.web_abrasion_a,
    "web_abrasion_b": web_readings.web_abrasion_b,
    "warp_width": web_readings.warp_width,
    "warp_edge": web_readings.warp_edge,
    "warp_depth": web_readings.warp_depth,
    "weft_width": web_readings.weft_width,
    "weft_length": web_readings.weft_length,
    "edge_cut": web_readings.edge_cut,
    "round_cover": at_the_web.round_cover,
    "round_core": at_the_web.round_core,
    "round_hurt": at_the_web.round_hurt,
    "fittings": at_the_fitting.fittings,
    "fitting": at_the_fitting.fittings,
    "hook_throat": at_the_fitting.hook_throat,
    "fitting_thickness": at_the_fitting.fitting_thickness,
    "bore_on": at_the_fitting.bore_on,
    "shock": on_the_body.shock,
}
LOCK_STITCHED = "lock-stitched"
# The same question on another kind of part, or of rope, is another place to look at or another way of the hands.
_VARIED: dict[tuple[str, str], Callable[[], Figure]] = {
    ("fitting", FittingKind.HOOK): at_the_fitting.hook_whole,
    ("fitting", FittingKind.SHACKLE): at_the_fitting.shackle_whole,
    ("fitting", FittingKind.MASTER_LINK): at_the_fitting.master_link,
    ("fitting", FittingKind.SWIVEL): at_the_fitting.swivel,
    ("fitting", FittingKind.CONNECTOR): at_the_fitting.connector_whole,
    ("fitting", FittingKind.PULLEY): at_the_fitting.pulley,
    ("fitting", FittingKind.THIMBLE): at_the_fitting.thimble_alone,
    ("fitting", FittingKind.FRICTION_SAVER): at_the_fitting.friction_saver,
    ("fitting", FittingKind.ADJUSTER): at_the_fitting.adjuster,
    ("fitting", FittingKind.ABSORBER): at_the_fitting.absorber,
    ("throat_marks", SpliceKind.DOUBLE_BRAID_EYE): at_the_gear.double_braid_throat,
    ("bury_feel", LOCK_STITCHED): at_the_splice.bury_stitched,
    ("body_inside", Construction.LAID_3): openings.lay_opened,
    ("body_inside", Construction.LAID_4): openings.lay_opened,
    ("body_inside", Construction.DOUBLE_BRAID): openings.cover_parted,
    ("body_inside", Construction.KERNMANTLE): openings.end_looked_into,
    ("body_inside", Construction.PARALLEL_CORE): openings.end_looked_into,
}

FIGURES = tuple(_DRAWN)
VARIANTS = tuple(_VARIED)


@cache
def figure(name: str) -> Figure:
    """Return the drawing of an observation's place: where to look, or how to hold the tape.

    Raises:
        KeyError: no figure has this name; `FIGURES` lists them.
    """
    return _DRAWN[name]()


@cache
def variant(name: str, kind: str) -> Figure:
    """Return the drawing of a place as it looks on one kind of fitting, splice or rope, where it looks otherwise.

    Raises:
        KeyError: no figure has this name.
    """
    drawing = _VARIED.get((name, kind))
    return drawing() if drawing else figure(name)


def figure_at(observation: Observation, part: Part | None, construction: Construction | None = None) -> Figure | None:
    """Return the drawing for an observation on a part, None for the item as a whole; None when it names no figure.

    Args:
        construction: of the item's rope, which opens in its own way.
    """
    name = observation.figure
    if not name:
        return None
    kinds: list[str | None] = [construction]
    if part is not None:
        kinds = [LOCK_STITCHED if part.lock_stitched else None, part.fitting or part.splice, construction]
    return variant(name, next((kind for kind in kinds if kind and (name, kind) in _VARIED), ""))
