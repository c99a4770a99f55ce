"""Building figures: what is placed, dashed and pointed lands where it was said to."""

import math
from itertools import pairwise

import pytest

from app.figures import Circle, Label, Line, Polygon, placed
from app.figures.shapes import arc, arrow, curve, dashed, span, ticks


def test_placing_scales_strokes_and_type_with_the_shape() -> None:
    line, circle, label = placed(
        [Line(((0, 0), (1, 0)), width=0.1), Circle(1, 1, 0.5, width=0.1), Label("x", 1, 1, size=0.1)], x=3, y=4, scale=2
    )
    assert isinstance(line, Line) and isinstance(circle, Circle) and isinstance(label, Label)
    assert (line.points, line.width) == (((3, 4), (5, 4)), 0.2)
    assert (circle.x, circle.y, circle.radius, circle.width) == (5, 6, 1, 0.2)
    assert (label.x, label.y, label.size) == (5, 6, 0.2)


def test_turning_over_mirrors_heights_and_keeps_sides() -> None:
    (turned,) = placed([Polygon(((0, 0), (1, 0), (1, 2)))], y=10, flip=True)
    assert isinstance(turned, Polygon)
    assert turned.points == ((0, 10), (1, 10), (1, 8))


def test_a_dashed_line_covers_about_half_of_its_length_and_stays_on_it() -> None:
    dashes = [s for s in dashed(((0, 0), (1, 0)), dash=0.05, gap=0.05) if isinstance(s, Line)]
    inked = sum(math.dist(s.points[0], s.points[-1]) for s in dashes)
    assert 0.4 < inked < 0.6
    assert all(y == 0 and 0 <= x <= 1 for s in dashes for x, y in s.points)


def test_an_arrow_ends_in_its_tip() -> None:
    stroke, head = arrow(((0, 0), (1, 0)), head=0.1)
    assert isinstance(stroke, Line) and isinstance(head, Polygon)
    assert head.points[0] == (1, 0)
    assert stroke.points[-1] == pytest.approx((0.9, 0))


def test_a_dimension_points_both_ways() -> None:
    tips = {s.points[0] for s in span((0, 0), (1, 0)) if isinstance(s, Polygon)}
    assert tips == {(0, 0), (1, 0)}


def test_ticks_along_a_bend_are_evenly_spaced_and_follow_it() -> None:
    found = list(ticks(arc(0, 0, 1, 0, 90), 0.1))
    gaps = [math.dist(a, b) for (a, _), (b, _) in pairwise(found)]
    assert max(gaps) - min(gaps) < 0.01
    assert all(math.hypot(x, y) == pytest.approx(1, abs=0.01) for (x, y), _ in found)
    assert all(math.hypot(dx, dy) == pytest.approx(1) for _, (dx, dy) in found)


def test_a_curve_starts_and_ends_where_it_was_asked_to() -> None:
    points = curve((0, 0), (0, 1), (1, 1), (1, 0))
    assert points[0] == (0, 0)
    assert points[-1] == (1, 0)
    assert max(y for _, y in points) == pytest.approx(0.75)
