"""What was laid over a photograph lies where it was put, whatever the picture's shape, and its words stay inside."""

import pytest

from app.figures import Circle, Label, Line
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
    assert label.text == "−3.0 mm"


def test_words_at_the_right_edge_are_pushed_back_in() -> None:
    text = Marking(kind="text", points=((9990, 5000),), text="frayed here, all the way round")
    (label,) = [shape for shape in over_picture([text], 2016, 1512).shapes if isinstance(shape, Label)]
    assert label.x < 0.5
