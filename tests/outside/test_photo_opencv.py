"""The arithmetic of photographs against OpenCV: homographies, and where a camera with a bending lens sees a point."""

import math
import random

import cv2
import numpy as np
import pytest

from app.photos.drawing.table import Pinhole
from inspection_rules.measures.plane import homography, to_plane

CARD = [(0.0, 0.0), (85.6, 0.0), (85.6, 53.98), (0.0, 53.98)]


def quadrangle(rng: random.Random) -> list[tuple[float, float]]:
    return [(1000 + 4 * x + rng.uniform(-60, 60), 800 + 4 * y + rng.uniform(-60, 60)) for x, y in CARD]


@pytest.mark.parametrize("seed", range(20))
def test_homography_is_that_of_opencv(seed: int) -> None:
    rng = random.Random(seed)
    pixels = quadrangle(rng)
    theirs, _ = cv2.findHomography(np.array(pixels), np.array(CARD))
    ours = homography(pixels, CARD)
    point = rng.uniform(900, 1500), rng.uniform(700, 1100)
    x, y, w = theirs @ np.array([*point, 1.0])
    # Both solve the same eight equations in double precision; OpenCV refines by iterations that end at about 1e-6.
    assert to_plane(ours, point) == pytest.approx((x / w, y / w), rel=1e-5, abs=1e-4)


@pytest.mark.parametrize("seed", range(20))
def test_a_point_is_seen_where_opencv_sees_it(seed: int) -> None:
    rng = random.Random(seed)
    camera = Pinhole(
        4000, 3000, rng.uniform(2500, 3300), (rng.uniform(-30, 30), rng.uniform(-30, 30)), rng.uniform(250, 500),
        rng.uniform(0, 40), rng.uniform(0, 360), rng.uniform(0, 360), rng.uniform(-0.02, 0.02),
    )  # fmt: skip
    rotation = np.array(camera._axes())
    matrix = np.array([[camera.focal, 0, 2000], [0, camera.focal, 1500], [0, 0, 1]])
    spot = rng.uniform(-60, 60), rng.uniform(-60, 60), rng.uniform(0, 40)
    seen, _ = cv2.projectPoints(
        np.array([spot]), cv2.Rodrigues(rotation)[0], -rotation @ np.array(camera.place), matrix,
        np.array([camera.bend, 0.0, 0.0, 0.0]),
    )  # fmt: skip
    assert camera.seen(spot) == pytest.approx(tuple(seen[0][0]), abs=1e-3)


def test_the_cameras_axes_are_a_right_handed_turn() -> None:
    camera = Pinhole(4000, 3000, 3000, (0, 0), 300, 25, 40, 10)
    assert np.linalg.det(np.array(camera._axes())) == pytest.approx(1.0)
    assert math.isclose(float(np.linalg.norm(camera.place)), 300 / math.cos(math.radians(25)))
