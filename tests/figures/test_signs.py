"""The four answers are told apart by shape alone, and each keeps the shares of colour its shape asks for."""

import math
from itertools import combinations

import pytest
from PIL import ImageChops, ImageStat

from app.figures import Circle, Figure, Ink, Polygon, not_yet, sign
from inspection_rules.words import Answer

from .raster import picture


def outline(figure: Figure) -> str:
    """The kind of the first coloured shape: what is left of a sign when colour is gone."""
    ink = {Ink.SIGN_GREEN, Ink.SIGN_BLACK, Ink.SIGN_BLUE, Ink.SIGN_RED}
    shape = next(s for s in figure.shapes if {getattr(s, "fill", None), getattr(s, "ink", None)} & ink)
    return type(shape).__name__


def area(polygon: Polygon) -> float:
    points = polygon.points
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True))) / 2


def test_hold_is_a_disc_and_remove_a_ring_with_a_bar() -> None:
    assert any(isinstance(s, Circle) and s.fill is Ink.SIGN_BLUE for s in sign(Answer.HOLD).shapes)
    ring = next(s for s in sign(Answer.REMOVE).shapes if isinstance(s, Circle) and s.ink is Ink.SIGN_RED)
    assert ring.fill is None
    assert outline(sign(Answer.REMOVE)) == "Line"


def test_red_covers_at_least_35_per_cent_of_the_prohibition_sign() -> None:
    """ISO 3864-1, prohibition signs, as the UK statutory instrument repeats it (secondary source)."""
    ring = next(s for s in sign(Answer.REMOVE).shapes if isinstance(s, Circle) and s.ink is Ink.SIGN_RED)
    outer, inner = ring.radius + ring.width / 2, ring.radius - ring.width / 2
    assert (outer**2 - inner**2) / outer**2 >= 0.35


def test_yellow_covers_at_least_half_of_the_warning_sign() -> None:
    """ISO 3864-1, warning signs: yellow at least 50 per cent of the sign (secondary source)."""
    black, yellow = (
        next(s for s in sign(Answer.WATCH).shapes if isinstance(s, Polygon) and s.fill is fill)
        for fill in (Ink.SIGN_BLACK, Ink.SIGN_YELLOW)
    )
    assert area(yellow) / area(black) >= 0.5


def test_the_bar_of_remove_falls_from_the_upper_left_to_the_lower_right() -> None:
    bar = next(s for s in sign(Answer.REMOVE).shapes if not isinstance(s, Circle))
    (x0, y0), (x1, y1) = bar.points
    assert math.degrees(math.atan2(y1 - y0, x1 - x0)) == pytest.approx(-45)


def test_a_station_without_an_answer_shows_no_sign_colour() -> None:
    inks = {getattr(s, "ink", None) for s in not_yet().shapes} | {getattr(s, "fill", None) for s in not_yet().shapes}
    assert not any(ink and ink.value.startswith("sign") for ink in inks)


@pytest.mark.parametrize(("one", "other"), list(combinations(Answer, 2)))
def test_no_two_signs_look_alike_in_black_and_white_at_the_size_of_a_station(one: Answer, other: Answer) -> None:
    """48 pixels, colour gone and only dark or light left: a fifth of all pixels still differ."""
    first, second = (
        picture(sign(answer), 48).convert("L").point(lambda v: 255 if v > 128 else 0) for answer in (one, other)
    )
    differing = ImageStat.Stat(ImageChops.difference(first, second)).mean[0] / 255
    assert differing > 0.2
