"""Every observation has its figure, and every figure can be drawn by a renderer that knows the four primitives."""

from itertools import pairwise

import pytest
from PIL import ImageFont

from app.figures import (
    FIGURES,
    VARIANTS,
    Circle,
    Figure,
    Ink,
    Label,
    Line,
    Polygon,
    figure,
    figure_at,
    not_yet,
    sign,
    variant,
)
from app.resources import asset
from inspection_rules.book import shipped
from inspection_rules.item import Part
from inspection_rules.words import Answer, FittingKind

PLACES = [*(figure(name) for name in FIGURES), *(variant(*one) for one in VARIANTS)]
ALL = [*PLACES, *(sign(answer) for answer in Answer), not_yet()]
PLACE_NAMES = [one.name for one in PLACES]
FIGURE_NAMES = [one.name for one in ALL]


def extent(one: Figure) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of everything but rope that is cut off at the edge."""
    xs: list[float] = []
    ys: list[float] = []
    for shape in one.shapes:
        if isinstance(shape, Line | Polygon):
            xs += [x for x, _ in shape.points]
            ys += [y for _, y in shape.points]
        elif isinstance(shape, Circle):
            xs += [shape.x - shape.radius, shape.x + shape.radius]
            ys += [shape.y - shape.radius, shape.y + shape.radius]
    return min(xs), min(ys), max(xs), max(ys)


def label_box(label: Label) -> tuple[float, float, float, float]:
    """Where a label's ink lies, by the typeface that is shipped."""
    name = "fonts/Inter-SemiBold.ttf" if label.bold else "fonts/Inter-Regular.ttf"
    wide = ImageFont.truetype(str(asset(name)), 1000).getlength(label.text) / 1000 * label.size
    left = label.x - {"left": 0.0, "centre": wide / 2, "right": wide}[label.anchor]
    return left, label.y - label.size * 0.42, left + wide, label.y + label.size * 0.42


def test_every_shipped_observation_has_its_figure() -> None:
    missing = {o.figure for o in shipped().observations.values()} - set(FIGURES)
    assert missing == set()


def test_no_two_observations_share_a_drawing() -> None:
    drawn = {name: figure(name).shapes for name in FIGURES}
    assert len(set(drawn.values())) == len(drawn) - 1  # one fitting has no drawing of its own without its kind


@pytest.mark.parametrize("kind", FittingKind)
def test_every_kind_of_fitting_has_a_drawing_of_its_own(kind: FittingKind) -> None:
    part = Part.model_validate({"id": "F", "kind": "fitting", "fitting": kind})
    assert figure_at(shipped().observations["fitting"], part) != figure("fitting")


def test_an_observation_of_the_item_as_a_whole_is_drawn_without_a_part() -> None:
    assert figure_at(shipped().observations["tag"], None) == figure("tag")


@pytest.mark.parametrize("one", ALL, ids=FIGURE_NAMES)
def test_shapes_stay_inside_their_box(one: Figure) -> None:
    left, bottom, right, top = extent(one)
    assert left >= -0.03
    assert bottom >= -0.03
    assert right <= 1.03
    assert top <= one.height + 0.03


@pytest.mark.parametrize("one", PLACES, ids=PLACE_NAMES)
def test_labels_stay_inside_the_box_and_off_each_other(one: Figure) -> None:
    boxes = [label_box(s) for s in one.shapes if isinstance(s, Label)]
    for left, bottom, right, top in boxes:
        assert left >= 0
        assert bottom >= 0
        assert right <= 1
        assert top <= one.height
    for index, a in enumerate(boxes):
        for b in boxes[index + 1 :]:
            assert not (a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3])


@pytest.mark.parametrize("one", PLACES, ids=PLACE_NAMES)
def test_labels_are_few_and_large_enough_at_240_pixels(one: Figure) -> None:
    labels = [s for s in one.shapes if isinstance(s, Label)]
    assert len(labels) <= 8
    assert all(label.size * 240 >= 13 for label in labels)


@pytest.mark.parametrize("one", ALL, ids=FIGURE_NAMES)
def test_filled_polygons_are_convex(one: Figure) -> None:
    """A renderer may fill a polygon by a fan of triangles from its first point."""
    for shape in one.shapes:
        if isinstance(shape, Polygon) and shape.fill is not None:
            points = (*shape.points, *shape.points[:2])
            turns = [
                (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
                for (a, b), (_, c) in pairwise(pairwise(points))
            ]
            assert min(turns) >= -1e-6 or max(turns) <= 1e-6, shape


@pytest.mark.parametrize("one", ALL, ids=FIGURE_NAMES)
def test_no_stroke_is_empty(one: Figure) -> None:
    for shape in one.shapes:
        if isinstance(shape, Line):
            assert len(set(shape.points)) > 1
            assert shape.width > 0


def test_marks_are_drawn_in_the_mark_ink_where_the_tape_is_read_to_them() -> None:
    for name in ("throat_marks", "mark_offset", "mark_tail", "mark_standing"):
        marks = [s for s in figure(name).shapes if isinstance(s, Line) and s.ink is Ink.MARK]
        assert len(marks) == 2, name


def test_an_unknown_figure_is_refused() -> None:
    with pytest.raises(KeyError, match="keel"):
        figure("keel")
