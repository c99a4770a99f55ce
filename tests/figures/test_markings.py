"""What was laid over a photograph lies where it was put, whatever the picture's shape, and its words stay inside."""

import pytest

from app.figures import Circle, Label, Line, Polygon
from app.figures.markings import over_picture
from inspection_rules.pictures import Marking, spot


@pytest.mark.parametrize("size", [(2016, 1512), (1512, 2016)])
def test_a_ring_lies_round_the_pixel_it_was_put_on(size: tuple[int, int]) -> None:
    ring = Marking(kind="ring", points=(spot((400, 300), size), spot((500, 300), size)))
    figure = over_picture([ring], *size)
    found = next(shape for shape in figure.shapes if isinstance(shape, Circle))
    assert (found.x, found.radius) == (pytest.approx(400 / size[0], abs=1e-3), pytest.approx(100 / size[0], abs=1e-3))
    assert found.y == pytest.approx((size[1] - 300) / size[0], abs=1e-3)


def test_a_line_by_hand_keeps_its_points() -> None:
    line = Marking(kind="line by hand", points=((0, 0), (100, 50), (200, 0)))
    drawn = [shape for shape in over_picture([line], 2016, 1512).shapes if isinstance(shape, Line)]
    assert {len(one.points) for one in drawn} == {3}


def test_a_length_says_its_number_with_its_sign() -> None:
    measured = {
        "card": [[0, 0], [10, 0], [10, 10], [0, 10]],
        "card_sides": ["85.6 mm", "53.98 mm"],
        "card_name": "card",
        "length": "3.0 mm",
        "u": "0.5 mm",
        "minus": True,
    }
    length = Marking.model_validate({"kind": "length", "points": [[0, 0], [900, 0]], "measured": measured})
    (label,) = [shape for shape in over_picture([length], 2016, 1512).shapes if isinstance(shape, Label)]
    assert label.text == "−3.0 mm ± 0.8 mm"


@pytest.mark.parametrize("path_y", [700, 300, 1400, 60])
def test_the_words_of_a_length_lie_neither_over_the_card_nor_over_its_line(path_y: int) -> None:
    """The card in the middle of the picture, the line above, across or below it."""
    size = (2016, 1512)
    card = [(600, 500), (1400, 500), (1400, 1000), (600, 1000)]
    measured = {
        "card": [spot(one, size) for one in card],
        "card_sides": ["85.6 mm", "53.98 mm"],
        "card_name": "card",
        "length": "30.4 mm",
        "u": "1.1 mm",
    }
    ends = (spot((500, path_y), size), spot((1500, path_y), size))
    length = Marking.model_validate({"kind": "length", "points": ends, "measured": measured})
    ground = [shape for shape in over_picture([length], *size).shapes if isinstance(shape, Polygon)][-1]
    low, high = min(y for _, y in ground.points), max(y for _, y in ground.points)
    left, right = min(x for x, _ in ground.points), max(x for x, _ in ground.points)
    line = (size[1] - path_y) / size[0]
    assert 0 <= low < high <= size[1] / size[0]
    assert 0 <= left < right <= 1
    assert not low <= line <= high or left > 1500 / size[0] or right < 500 / size[0]
    over_card = low < 1012 / 2016 and high > 512 / 2016 and left < 1400 / 2016 and right > 600 / 2016
    assert not over_card


def test_words_at_the_right_edge_are_pushed_back_in() -> None:
    text = Marking(kind="text", points=((9990, 5000),), text="frayed here, all the way round")
    (label,) = [shape for shape in over_picture([text], 2016, 1512).shapes if isinstance(shape, Label)]
    assert label.x < 0.5
