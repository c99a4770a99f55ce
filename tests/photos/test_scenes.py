"""Lengths from photographs of scenes whose truth is known: how far off, and whether the stated doubt covers it."""

import random

import pytest

from app.photos.drawing.table import table_picture
from app.photos.edges import NoEdgeError, fit_card

from .scenes import U_FOCAL_WORST, Told, many, scene


@pytest.fixture(scope="module")
def told() -> Told:
    return many(2000, 7810, in_picture=False)


@pytest.fixture(scope="module")
def told_in_pictures() -> Told:
    return many(60, 13, in_picture=True)


@pytest.fixture(scope="module")
def told_with_wrong_focal_lengths() -> Told:
    return many(2000, 7810, in_picture=False, u_focal=U_FOCAL_WORST)


def test_95_per_cent_intervals_cover_95_per_cent_of_the_truths(told_with_wrong_focal_lengths: Told) -> None:
    """Where the focal lengths are as wrong as they are taken to be."""
    assert 0.93 <= told_with_wrong_focal_lengths.covered <= 0.97, told_with_wrong_focal_lengths


def test_with_focal_lengths_as_cameras_write_them_down_more_than_that_is_covered(told: Told) -> None:
    assert told.covered >= 0.97, told


def test_intervals_cover_the_truths_where_the_cameras_distance_is_not_known(told: Told) -> None:
    assert told.covered_blind >= 0.95, told


def test_intervals_cover_the_truths_where_the_ropes_diameter_is_not_known(told: Told) -> None:
    assert told.covered_unsized >= 0.95, told


def test_the_median_error_is_half_a_per_cent_at_most(told: Told) -> None:
    assert told.median_error <= 0.005, told


def test_hardly_any_scene_is_refused(told: Told) -> None:
    assert told.refused <= 0.03 * told.scenes, told


def test_without_the_correction_the_known_bias_appears_and_with_it_it_is_gone(told: Told) -> None:
    assert told.uncorrected > 0.04, told
    assert abs(told.bias_left) < 0.003, told
    assert abs(told.mean_error) < 0.002, told


def test_fitted_edges_in_drawn_pictures_do_as_well(told_in_pictures: Told) -> None:
    assert told_in_pictures.median_error <= 0.005, told_in_pictures
    assert told_in_pictures.covered >= 0.88, told_in_pictures  # of 60: 95 % of binomial draws are 0.90 or more


def test_a_cards_corners_are_found_to_a_third_of_a_pixel_from_rough_taps() -> None:
    rng = random.Random(3)
    made = scene(rng)
    true = made.corners()
    picture = table_picture(made.camera, made.card, [made.rope], rng)
    fitted = fit_card(picture, [(x + rng.gauss(0, 8), y + rng.gauss(0, 8)) for x, y in true])
    for (x, y), (a, b) in zip(fitted.corners, true, strict=True):
        assert abs(x - a) < 0.35
        assert abs(y - b) < 0.35


def test_where_no_edge_stands_out_none_is_made_up() -> None:
    rng = random.Random(3)
    made = scene(rng)
    picture = table_picture(made.camera, made.card, [made.rope], rng)
    elsewhere = [(x + 320, y + 40) for x, y in made.corners()]
    with pytest.raises(NoEdgeError, match="tap"):
        fit_card(picture, elsewhere)
