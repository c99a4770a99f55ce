"""A rope to scale: lengths that are on record in their proportion, and nothing where none is."""

from typing import Any

import pytest

from app.figures import Figure, Ink, Label, Line
from app.figures.to_scale import rope_to_scale, splice_to_scale
from inspection_rules.item import Item, Part

SIZE = 0.04
NAMES = {"A": "end A", "B": "end B", "J": "joint"}


def end(name: str, **more: Any) -> Part:
    bury = {"required_bury": "2 m", "required_by": "instruction of the loft"}
    return Part(id=name, kind="termination", end=name, splice="buried eye", **{**bury, **more})


def line(*parts: Part, length: str | None = "10 m") -> Item:
    return Item(
        id="1", tag="ML-01", kind="line", duty="mooring", fibre="HMPE", diameter="24 mm", length=length,
        parts=(*parts, Part(id="body", kind="body")),
    )  # fmt: skip


def spans(figure: Figure | None) -> list[tuple[float, float]]:
    assert figure is not None
    thick = SIZE * 0.55 * 1.9
    lines = [s for s in figure.shapes if isinstance(s, Line) and s.width == pytest.approx(thick)]
    return [(one.points[0][0], one.points[1][0]) for one in lines]


def words(figure: Figure | None) -> set[str]:
    assert figure is not None
    return {shape.text for shape in figure.shapes if isinstance(shape, Label)}


def test_buries_take_their_share_of_the_length() -> None:
    # From 0.056 to 0.944 for 10 m: 2 m are 0.1776.
    found = spans(rope_to_scale(line(end("A"), end("B")), SIZE, NAMES))
    assert found == [pytest.approx((0.056, 0.2336)), pytest.approx((0.7664, 0.944))]


def test_lengths_are_written_as_they_were_typed() -> None:
    assert {"end A", "bury 2 m", "10 m"} <= words(rope_to_scale(line(end("A")), SIZE, NAMES))


def test_a_joint_lies_as_far_from_end_a_as_recorded() -> None:
    joint = Part(id="J", kind="joint", splice="end-to-end splice", from_a="2.5 m")
    found = rope_to_scale(line(end("A"), joint), SIZE, NAMES)
    assert found is not None
    (mark,) = [shape for shape in found.shapes if isinstance(shape, Line) and shape.ink is Ink.MARK]
    assert mark.points[0][0] == pytest.approx(0.056 + 0.888 / 4)


def test_without_a_length_nothing_is_drawn() -> None:
    assert rope_to_scale(line(end("A"), length=None), SIZE, NAMES) is None


def test_with_nothing_along_it_nothing_is_drawn() -> None:
    assert rope_to_scale(line(end("A", required_bury=None)), SIZE, NAMES) is None


def test_splices_longer_than_the_rope_are_not_drawn() -> None:
    assert rope_to_scale(line(end("A"), end("B"), length="3 m"), SIZE, NAMES) is None


def test_a_splice_shows_the_bury_it_needs_beside_the_one_it_has() -> None:
    assert {"needs 2 m", "now 1500 mm"} <= words(splice_to_scale(end("A"), 1500, SIZE))


def test_a_bury_that_is_too_short_ends_before_the_one_it_needs() -> None:
    ((start, stop),) = spans(splice_to_scale(end("A"), 1500, SIZE))
    assert (stop - start) / (0.944 - start) == pytest.approx(0.75)


def test_marks_lie_in_the_eye_before_the_throat() -> None:
    found = splice_to_scale(end("A", marks_at="500 mm"), None, SIZE)
    assert "marks at 500 mm" in words(found)
    ((start, stop),) = spans(found)
    assert (start - 0.056) / (stop - 0.056) == pytest.approx(0.2)


def test_a_splice_without_a_length_is_not_drawn() -> None:
    assert splice_to_scale(end("A", required_bury=None), None, SIZE) is None
