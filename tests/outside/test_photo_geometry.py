"""Lengths from photographs: against a worked pinhole camera, and the geometry of a rope beside a card.

Source of the worked figures: the project's reference geometry, computed independently with OpenCV 5.0 (K f = 3000 px,
c = (2000, 1500), rotations x 25°, y 10°, z 5°, t = (-60, -20, 350) mm).
"""

import math

import pytest

from inspection_rules.measures.photo_height import PhotoRefusedError, across_the_rope, along_the_top, apparent_width
from inspection_rules.measures.photo_length import ID1_MM, Photo, photo_length
from inspection_rules.measures.plane import PlaneError, homography, inverse, to_plane, view

CARD_PX = [(1485.714, 1328.571), (2211.744, 1438.359), (2159.793, 1842.049), (1480.811, 1728.061)]
PICTURE = Photo(4000, 3000, 3000.0)
PUBLISHED = (
    0.109136496, 0.001339424, -163.925172491, -0.01720535, 0.11377932, -125.601718349, 5.8772e-05, -1.40864e-04, 1.0,
)  # fmt: skip


def project(x: float, y: float, z: float = 0.0) -> tuple[float, float]:
    """The worked camera, written out anew."""
    a, b, c = (math.radians(angle) for angle in (25, 10, 5))
    x, y = x * math.cos(c) - y * math.sin(c), x * math.sin(c) + y * math.cos(c)
    x, z = x * math.cos(b) + z * math.sin(b), -x * math.sin(b) + z * math.cos(b)
    y, z = y * math.cos(a) - z * math.sin(a), y * math.sin(a) + z * math.cos(a)
    x, y, z = x - 60, y - 20, z + 350
    return 3000 * x / z + 2000, 3000 * y / z + 1500


def test_camera_of_the_worked_example_gives_its_card_corners() -> None:
    corners = [project(x, y) for x, y in ((0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98))]
    assert [(pytest.approx(x, abs=0.001), pytest.approx(y, abs=0.001)) for x, y in corners] == CARD_PX


def test_homography_agrees_with_the_worked_example() -> None:
    found = homography(CARD_PX, [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)])
    assert found == pytest.approx(PUBLISHED, rel=2e-5, abs=2e-8)


@pytest.mark.parametrize(
    ("path", "mm"),
    [([(2326.40, 1536.58), (2537.24, 1569.15)], 24.000), ([project(20, 70), project(20, 170)], 100.000)],
)
def test_length_on_the_cards_plane_agrees_with_the_worked_example(path: list[tuple[float, float]], mm: float) -> None:
    assert photo_length(PICTURE, CARD_PX, ID1_MM, path, rope_mm=0).length_mm == pytest.approx(mm, abs=0.002)


def test_one_pixel_of_click_noise_gives_the_worked_uncertainty() -> None:
    # 24 mm one card's width away: ± 0.257 mm by Monte Carlo, 1 px on every coordinate; lens and card add 0.05.
    path = [(2326.40, 1536.58), (2537.24, 1569.15)]
    found = photo_length(PICTURE, CARD_PX, ID1_MM, path, u_card_px=1, u_path_px=1, rope_mm=0)
    assert found.u_mm == pytest.approx(math.hypot(0.257, 24 * 0.002, 24 * 0.0008), abs=0.004)


def test_rope_beside_the_card_looks_wider_by_the_published_part() -> None:
    # d = 24 mm at 300 mm: + 4.26 %; at 200 mm + 6.6 %, at 500 mm + 2.49 %.
    wider = {z: apparent_width(24, z) / 24 - 1 for z in (200, 300, 500)}
    assert wider == {200: pytest.approx(0.066, abs=5e-4), 300: pytest.approx(0.0426, abs=5e-5),
                     500: pytest.approx(0.0249, abs=5e-5)}  # fmt: skip


@pytest.mark.parametrize("z", [200, 300, 500])
def test_corrected_diameter_is_the_true_one(z: float) -> None:
    assert across_the_rope(apparent_width(24, z), z) == pytest.approx(24, rel=0.002)


def test_length_along_the_top_of_a_rope_is_true_again_whatever_the_tilt() -> None:
    plane = homography([project(*xy) for xy in ((0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98))],
                       [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)])  # fmt: skip
    seen = view(plane, 3000, (2000, 1500))
    # The camera looks along +z, so what lies nearer to it has a smaller z.
    top = [project(0, 80, -24), project(100, 80, -24)]
    apparent = math.dist(*(to_plane(plane, pixel) for pixel in top))
    assert apparent > 106
    assert along_the_top(apparent, 24, seen.height) == pytest.approx(100, abs=0.01)


def test_camera_height_and_tilt_of_the_worked_example_are_found_again() -> None:
    seen = view(homography(CARD_PX, [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]), 3000, (2000, 1500))
    normal_z = math.cos(math.radians(25)) * math.cos(math.radians(10))
    assert seen.tilt == pytest.approx(math.degrees(math.acos(normal_z)), abs=0.01)
    assert abs(seen.stretch) < 1e-5


def test_a_photographed_rope_is_corrected_along_its_top_when_its_diameter_and_the_distance_are_given() -> None:
    """The camera stands 310 mm from the card's plane: 24 mm nearer a length looks 8.4 % too long, 310 over 286."""
    path = [project(0, 80, -24), project(100, 80, -24)]
    height = view(homography(CARD_PX, [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]), 3000, (2000, 1500)).height

    found = photo_length(PICTURE, CARD_PX, ID1_MM, path, camera_mm=height, rope_mm=24)

    assert found.length_mm == pytest.approx(100, abs=0.01)
    assert not found.warnings


def test_the_cameras_distance_is_reckoned_from_the_focal_length_where_nobody_says_it() -> None:
    path = [project(0, 80, -24), project(100, 80, -24)]
    found = photo_length(PICTURE, CARD_PX, ID1_MM, path, rope_mm=24)
    assert found.length_mm == pytest.approx(100, abs=0.01)


def test_a_width_photographed_from_above_is_corrected_across_the_rope() -> None:
    """25.0232 mm on the card's plane, 300 mm below the camera, is 24.0214 mm of rope: 25.0232 × 300 / 312.5116."""

    def above(x: float, y: float) -> tuple[float, float]:
        return 3000 * (x - 40) / 300 + 2000, 3000 * (y - 40) / 300 + 1500

    corners = [above(*xy) for xy in ((0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98))]
    path = [above(10, 70), above(35.0232, 70)]
    flat = photo_length(PICTURE, corners, ID1_MM, path, rope_mm=0)
    found = photo_length(PICTURE, corners, ID1_MM, path, camera_mm=300, rope_mm=24, across=True)

    assert flat.length_mm == pytest.approx(25.0232, abs=1e-4)
    assert found.length_mm == pytest.approx(24.0214, abs=1e-4)
    # The distance is known to a tenth, and a rope is widest at half its 24 mm: 0.1 × 12 / 300 is 0.4 %.
    assert found.u_mm == pytest.approx(math.hypot(flat.u_mm * 0.95997, 24.0214 * 0.004), abs=1e-4)


def test_a_card_in_a_picture_without_its_focal_length_is_measured_all_the_same() -> None:
    found = photo_length(Photo(4000, 3000, None), CARD_PX, ID1_MM, [(2326.40, 1536.58), (2537.24, 1569.15)], rope_mm=0)
    assert found.length_mm == pytest.approx(24.000, abs=0.002)


def test_a_plane_that_is_seen_edge_on_cannot_be_taken_back() -> None:
    """The third row is the first again: nothing tells the two apart."""
    with pytest.raises(PlaneError, match="edge on"):
        inverse((1, 2, 3, 4, 6, 7, 1, 2, 3))


TOP = [(0, 80, -24), (100, 80, -24)]  # 100 mm along the top of 24 mm rope, which reads 108.4 mm on the card's plane


def test_a_length_whose_camera_distance_is_not_known_covers_its_truth_and_says_how_long_it_could_read() -> None:
    found = photo_length(Photo(4000, 3000), CARD_PX, ID1_MM, [project(*spot) for spot in TOP], rope_mm=24)
    assert abs(found.length_mm - 100) < 1.645 * found.u_mm
    assert any("distance is not known: taken as seen, the rope would read up to" in one for one in found.warnings)
    assert found.reading


def test_a_length_whose_rope_is_not_known_covers_its_truth_and_asks_for_the_diameter() -> None:
    found = photo_length(PICTURE, CARD_PX, ID1_MM, [project(*spot) for spot in TOP])
    assert abs(found.length_mm - 100) < 1.645 * found.u_mm
    assert any("Give the diameter." in one for one in found.warnings)


def test_what_is_possible_counts_as_a_rectangle_around_its_middle() -> None:
    """Straight above, 10 px to a mm: with 0.36 × 4000 px it stood 144 mm off at least, so 0 to 24 / 144 is too long."""
    corners = [(x * 10 + 1500, y * 10 + 1200) for x, y in ((0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98))]
    path = [(1500, 2000), (2500, 2000)]
    flat = photo_length(Photo(4000, 3000), corners, ID1_MM, path, rope_mm=0)
    found = photo_length(Photo(4000, 3000), corners, ID1_MM, path, rope_mm=24)
    half = 100 * 24 / 144 / 2
    assert found.length_mm == pytest.approx(100 - half, abs=0.01)
    assert found.u_mm == pytest.approx(math.hypot(flat.u_mm * 0.9167, half / math.sqrt(3)), abs=0.01)


def test_a_length_of_which_neither_distance_nor_diameter_is_known_is_no_reading() -> None:
    found = photo_length(Photo(4000, 3000), CARD_PX, ID1_MM, [project(*spot) for spot in TOP])
    assert not found.reading
    assert any("keep it in the picture only" in one for one in found.warnings)
    assert abs(found.length_mm - 100) < 1.645 * found.u_mm


def test_a_distance_that_contradicts_the_picture_is_said_with_both_and_counted() -> None:
    """The picture says 310 mm."""
    path = [project(*spot) for spot in TOP]
    plain = photo_length(PICTURE, CARD_PX, ID1_MM, path, camera_mm=310, rope_mm=24)
    found = photo_length(PICTURE, CARD_PX, ID1_MM, path, camera_mm=450, rope_mm=24)
    (warning,) = found.warnings
    assert "given as 450 mm" in warning
    assert "say 310 mm" in warning
    assert found.u_mm > 1.5 * plain.u_mm


@pytest.mark.parametrize("stated", [160.0, 250.0, 450.0, 610.0])
def test_a_contradicting_distance_leaves_the_truth_within_the_doubt(stated: float) -> None:
    found = photo_length(PICTURE, CARD_PX, ID1_MM, [project(*spot) for spot in TOP], camera_mm=stated, rope_mm=24)
    assert abs(found.length_mm - 100) < 1.645 * found.u_mm


def test_a_distance_nearer_than_any_camera_could_stand_leaves_the_truth_within_the_doubt() -> None:
    """Without a focal length; the card's size says 169 mm at least, and the truth is 310 mm."""
    found = photo_length(
        Photo(4000, 3000), CARD_PX, ID1_MM, [project(*spot) for spot in TOP], camera_mm=100, rope_mm=24
    )
    assert any("at least" in one for one in found.warnings)
    assert abs(found.length_mm - 100) < 1.645 * found.u_mm


def test_a_distance_more_than_twice_the_pictures_is_refused_with_both() -> None:
    with pytest.raises(PhotoRefusedError, match=r"given as 700 mm, .* say 310 mm"):
        photo_length(PICTURE, CARD_PX, ID1_MM, [project(*spot) for spot in TOP], camera_mm=700, rope_mm=24)


def test_a_path_much_longer_than_the_card_is_said_to_be_extrapolated() -> None:
    near = photo_length(PICTURE, CARD_PX, ID1_MM, [project(0, 80), project(250, 80)], rope_mm=0)
    far = photo_length(PICTURE, CARD_PX, ID1_MM, [project(0, 80), project(270, 80)], rope_mm=0)
    assert not near.warnings
    assert any("3.2 times as long as the card" in one for one in far.warnings)


@pytest.mark.parametrize(("camera", "rope"), [(200.0, 100.0), (300.0, -1.0)])
def test_a_camera_as_near_as_two_diameters_or_a_rope_of_less_than_no_size_is_refused(
    camera: float, rope: float
) -> None:
    with pytest.raises(PhotoRefusedError, match="two rope diameters"):
        photo_length(PICTURE, CARD_PX, ID1_MM, [(2326.40, 1536.58), (2537.24, 1569.15)], camera_mm=camera, rope_mm=rope)


@pytest.mark.parametrize(("to", "percent"), [((50.0, 0.0), 2.2), ((0.0, 50.0), 3.6)])
def test_clicking_inside_rounded_corners_errs_by_the_published_part(to: tuple[float, float], percent: float) -> None:
    # r (1 - 1/√2) = 0.931 mm on each axis with r = 3.18 mm; ISO/IEC 7810, secondary.
    inset = 3.18 * (1 - 1 / math.sqrt(2))
    far, low = 85.60 - inset, 53.98 - inset
    clicked = [project(*xy) for xy in ((inset, inset), (far, inset), (far, low), (inset, low))]
    found = photo_length(PICTURE, clicked, ID1_MM, [project(10, 100), project(10 + to[0], 100 + to[1])], rope_mm=0)
    assert found.length_mm / 50 - 1 == pytest.approx(percent / 100, abs=0.001)


def test_another_size_of_card_is_refused_by_its_sides() -> None:
    with pytest.raises(PhotoRefusedError, match="sides disagree"):
        photo_length(PICTURE, CARD_PX, (85.60, 60.0), [(2326.40, 1536.58), (2537.24, 1569.15)])


def test_small_card_is_refused_with_its_size() -> None:
    small = [(x / 4, y / 4) for x, y in CARD_PX]
    with pytest.raises(PhotoRefusedError, match="pixels long"):
        photo_length(Photo(1000, 750, 750.0), small, ID1_MM, [(500, 400), (600, 400)])


def test_tilted_card_is_refused_with_its_tilt() -> None:
    def steep(x: float, y: float) -> tuple[float, float]:
        angle = math.radians(55)
        z = 300 + y * math.sin(angle)
        return 3000 * (x - 40) / z + 2000, 3000 * y * math.cos(angle) / z + 1500

    corners = [steep(*xy) for xy in ((0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98))]
    with pytest.raises(PhotoRefusedError, match="tilted by about 55°"):
        photo_length(PICTURE, corners, ID1_MM, [(1500, 1500), (2500, 1500)])


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (100, 0), (200, 0), (0, 100)],
        [(0, 0), (100, 100), (100, 0), (0, 100)],
        [(0, 0), (0, 0), (100, 100), (0, 100)],
    ],
)
def test_corners_that_do_not_go_round_are_refused(corners: list[tuple[float, float]]) -> None:
    with pytest.raises(PlaneError):
        homography(corners, [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)])


def test_there_and_back_again_is_the_same_place() -> None:
    found = homography(CARD_PX, [(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)])
    assert to_plane(inverse(found), to_plane(found, (1800.0, 1600.0))) == pytest.approx((1800.0, 1600.0), abs=1e-6)
