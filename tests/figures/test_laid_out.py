"""The layout of a splice to proportion: lengths along the rope in their true ratio, each written out."""

from itertools import pairwise

import pytest

from app.figures.laid_out import layout_figure
from app.figures.shapes import Label, Line
from inspection_rules.entering import item_of
from inspection_rules.item import Item
from inspection_rules.layout import splice_layout

SLING = {
    "tag": "RS-14", "kind": "rope sling", "duty": "lifting", "fibre": "HMPE", "diameter": "24 mm",
    "construction": "hollow braid, twelve-strand", "end_b_splice": "plain end",
}  # fmt: skip
END = {"splice": "buried eye", "required_bury": "1200 mm", "required_by": "sheet 2", "marks_at": "48 mm"}


def drawn(size=0.03, **changed):
    item = item_of({**SLING, **{f"end_a_{name}": text for name, text in {**END, **changed}.items()}}, "new")
    assert isinstance(item, Item)
    layout = splice_layout(item, item.part("A"))
    return layout_figure(layout, size, {one.name: f"{one.value} mm ({one.value / 25} in)" for one in layout})


def spans(figure):
    """The lengths of the dimension lines, by their two bars of the same height."""
    bars = [one for one in figure.shapes if isinstance(one, Line) and one.width == pytest.approx(0.003)]
    return [b.points[0][0] - a.points[0][0] for a, b in pairwise(bars) if a.points[0][1] == b.points[0][1]]


def test_lengths_are_drawn_in_proportion():
    """1200 mm as its instruction says, 72 × 24 = 1728 mm by the rule of thumb, 300 mm (a quarter of 1200) tapered."""
    recorded, thumb, taper = spans(drawn())

    assert recorded / thumb == pytest.approx(1200 / 1728)
    assert taper / recorded == pytest.approx(300 / 1200)


@pytest.mark.parametrize("size", [0.03, 0.05, 0.075])
def test_words_stay_inside_the_figure_at_any_size_of_type(size):
    for one in drawn(size).shapes:
        if isinstance(one, Label):
            wide = len(one.text) * size * 0.5
            left = one.x - {"left": 0, "centre": wide / 2, "right": wide}[one.anchor]
            assert left > -0.01, one.text
            assert left + wide < 1.02, one.text


def test_a_splice_without_any_length_is_not_drawn():
    assert drawn(splice="adjustable eye", required_bury="", required_by="", marks_at="") is None
