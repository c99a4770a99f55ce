"""Marks proposed along a rope in drawn photographs: found where they are, and none made up where there is none."""

import math
import random
from dataclasses import replace

import pytest

from app.photos.drawing.table import table_picture
from app.photos.marks import Proposal, propose_marks
from inspection_rules.measures.photo_length import ID1_MM
from inspection_rules.measures.plane import Homography, homography, to_plane

from .scenes import Scene, scene

CARD = [(0.0, 0.0), (ID1_MM[0], 0.0), ID1_MM, (0.0, ID1_MM[1])]


def proposed(made: Scene, rng: random.Random, grain: float = 0.1) -> tuple[Proposal, Homography]:
    """Tap the rope 15 mm outside where its marks are, or would be, and ask for proposals."""
    h = homography(made.corners(), CARD)
    first, last = (made.rope.marks or (350.0, 450.0))[:2]
    taps = [made.camera.seen(made.rope.middle_seen(made.camera, at)) for at in (first - 15, last + 15)]
    picture = table_picture(made.camera, made.card, [made.rope], rng, grain=grain)
    return propose_marks(
        picture, h, [(x + rng.gauss(0, 3), y + rng.gauss(0, 3)) for x, y in taps], made.rope.diameter
    ), h


@pytest.mark.parametrize("seed", range(8))
def test_both_marks_are_found_to_a_millimetre_along_the_rope(seed: int) -> None:
    rng = random.Random(seed)
    made = scene(rng)
    told, h = proposed(made, rng)
    assert len(told.marks) == 2, told
    assert not told.doubt
    along = [to_plane(h, mark.pixel) for mark in told.marks]
    true = [to_plane(h, pixel) for pixel in made.marks()]
    assert math.dist(*along) == pytest.approx(math.dist(*true), abs=1.0)


@pytest.mark.parametrize("seed", range(8))
def test_a_rope_without_marks_gets_none(seed: int) -> None:
    rng = random.Random(seed)
    made = scene(rng)
    told, _ = proposed(replace(made, rope=replace(made.rope, marks=())), rng)
    assert told.marks == ()
    assert "tap the marks yourself" in told.doubt


def test_a_mark_that_stands_alone_is_never_sure() -> None:
    rng = random.Random(2)
    made = scene(rng)
    alone = replace(made, rope=replace(made.rope, marks=(400.0,)))
    h = homography(made.corners(), CARD)
    path = [made.camera.seen(made.rope.middle_seen(made.camera, at)) for at in (370.0, 430.0)]
    told = propose_marks(table_picture(alone.camera, alone.card, [alone.rope], rng), h, path, made.rope.diameter)
    assert len(told.marks) == 1
    assert told.doubt.startswith("Only one mark stands out")


def test_where_too_much_stands_out_no_mark_is_proposed() -> None:
    rng = random.Random(2)
    made = scene(rng)
    striped = replace(made, rope=replace(made.rope, marks=tuple(float(at) for at in range(300, 500, 12))))
    h = homography(made.corners(), CARD)
    path = [made.camera.seen(made.rope.middle_seen(made.camera, at)) for at in (300.0, 500.0)]
    told = propose_marks(table_picture(striped.camera, striped.card, [striped.rope], rng), h, path, made.rope.diameter)
    assert told.marks == ()
    assert told.doubt.startswith("Too much stands out")


def test_in_a_grainy_picture_it_says_that_it_is_unsure_or_finds_nothing() -> None:
    rng = random.Random(5)
    made = scene(rng)
    pale = replace(made, rope=replace(made.rope, colour=(140, 26, 28)))  # a red mark on a red rope
    told, _ = proposed(pale, rng, grain=0.5)
    assert told.doubt
