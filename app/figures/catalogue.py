"""Every figure by the name that observations use."""

from collections.abc import Callable
from functools import cache

from app.figures import at_the_eye, at_the_splice, on_the_body
from app.figures.shapes import Figure

_DRAWN: dict[str, Callable[[], Figure]] = {
    "tag": at_the_eye.tag,
    "eye_bearing": at_the_eye.eye_bearing,
    "eye_length": at_the_eye.eye_length,
    "thimble": at_the_eye.in_the_eye,
    "throat_marks": at_the_eye.throat_marks,
    "mark_offset": at_the_eye.mark_offset,
    "mark_tail": at_the_eye.mark_tail,
    "mark_standing": at_the_eye.mark_standing,
    "throat_entry": at_the_splice.throat_entry,
    "throat_lay": at_the_splice.throat_lay,
    "lock_stitching": at_the_splice.lock_stitching,
    "bury_feel": at_the_splice.bury_feel,
    "bury": at_the_splice.bury,
    "tip_step": at_the_splice.tip_step,
    "tucks": at_the_splice.count_tucks,
    "tail": at_the_splice.tail,
    "strand_tails": at_the_splice.tails,
    "body_surface": on_the_body.body_surface,
    "body_inside": on_the_body.body_inside,
    "girth_worst": on_the_body.girth_worst,
    "girth_sound": on_the_body.girth_sound,
    "shock": on_the_body.shock,
}

FIGURES = tuple(_DRAWN)


@cache
def figure(name: str) -> Figure:
    """Return the drawing of an observation's place: where to look, or how to hold the tape.

    Raises:
        KeyError: no figure has this name; `FIGURES` lists them.
    """
    return _DRAWN[name]()
