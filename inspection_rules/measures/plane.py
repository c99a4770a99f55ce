"""A plane seen in a photograph: the homography that takes it out of perspective, and the camera that took it.

Plain arithmetic without a numeric library, since the phone carries none. Pixels are (x, y) from the picture's upper
left corner, x to the right; the plane's own coordinates are in mm.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

Point = tuple[float, float]
Homography = tuple[float, ...]
"""Nine numbers, row by row, the last one 1: (x, y, 1) in pixels to (X, Y, 1) in mm, up to scale."""


class PlaneError(ValueError):
    """The points span no plane that could be seen like this; the message says why."""


def homography(pixels: Sequence[Point], plane: Sequence[Point]) -> Homography:
    """Return the homography that takes four pixels to four points of the plane.

    Both sets are shifted and scaled first, so that the equations are well conditioned (Hartley's normalisation).

    Raises:
        PlaneError: three of the points lie in one line, or the four do not go round in one sense.
    """
    if len(pixels) != 4 or len(plane) != 4:
        raise PlaneError("give four corners")
    _check_round(pixels)
    (from_px, px), (from_mm, mm) = _normalised(pixels), _normalised(plane)
    rows = []
    for (x, y), (u, v) in zip(px, mm, strict=True):
        rows.append([x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, u])
        rows.append([0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y, v])
    h = [*_solve(rows), 1.0]
    scaled = _times(_times(_inverse_of(from_mm), h), from_px)
    return tuple(value / scaled[8] for value in scaled)


def alignment(points: Sequence[Point], onto: Sequence[Point]) -> Homography:
    """Return what takes points of one picture onto the same points of another.

    Two or three give a similarity (turned, moved, another size), by least squares; four a homography, which takes out
    a tilt of the camera as well.

    Raises:
        PlaneError: not two to four pairs, points that coincide, or four of which three lie in one line.
    """
    if len(points) != len(onto) or not 2 <= len(points) <= 4:
        raise PlaneError("give two, three or four points in both pictures")
    if len(points) == 4:
        return homography(_round(points), [onto[points.index(one)] for one in _round(points)])
    n = len(points)
    mx, my = sum(x for x, _ in points) / n, sum(y for _, y in points) / n
    nx, ny = sum(x for x, _ in onto) / n, sum(y for _, y in onto) / n
    spread = sum((x - mx) ** 2 + (y - my) ** 2 for x, y in points)
    pairs = [(x - mx, y - my, u - nx, v - ny) for (x, y), (u, v) in zip(points, onto, strict=True)]
    a = sum(x * u + y * v for x, y, u, v in pairs)
    b = sum(x * v - y * u for x, y, u, v in pairs)
    if spread == 0 or math.hypot(a, b) == 0:
        raise PlaneError("the points lie on one spot: tap them far apart")
    a, b = a / spread, b / spread
    return a, -b, nx - a * mx + b * my, b, a, ny - b * mx - a * my, 0.0, 0.0, 1.0


def _round(points: Sequence[Point]) -> list[Point]:
    """The points one way round their middle."""
    mx, my = sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
    return sorted(points, key=lambda one: math.atan2(one[1] - my, one[0] - mx))


def to_plane(h: Homography, pixel: Point) -> Point:
    """Return where a pixel lies on the plane, mm."""
    x, y = pixel
    w = h[6] * x + h[7] * y + h[8]
    return (h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w


def length(h: Homography, path: Sequence[Point]) -> float:
    """Return the length of a path of pixels on the plane, mm."""
    points = [to_plane(h, pixel) for pixel in path]
    return sum(math.dist(a, b) for a, b in pairwise(points))


def inverse(h: Homography) -> Homography:
    """Return the homography the other way: from the plane to pixels.

    Raises:
        PlaneError: the plane is seen edge on.
    """
    a, b, c, d, e, f, g, i, j = h
    cofactors = (
        e * j - f * i, c * i - b * j, b * f - c * e,
        f * g - d * j, a * j - c * g, c * d - a * f,
        d * i - e * g, b * g - a * i, a * e - b * d,
    )  # fmt: skip
    determinant = a * cofactors[0] + b * cofactors[3] + c * cofactors[6]
    if abs(determinant) < 1e-15 or abs(cofactors[8]) < 1e-15:
        raise PlaneError("the plane is seen edge on")
    return tuple(value / cofactors[8] for value in cofactors)


@dataclass(frozen=True, slots=True)
class View:
    """How the camera saw the plane.

    Attributes:
        height: distance of the camera from the plane, at right angles, mm.
        tilt: angle between the line of sight and the plane's normal, degrees.
        stretch: how much the plane's two axes disagree on scale, as a ratio minus one: 0 for a true picture of it.
    """

    height: float
    tilt: float
    stretch: float


def view(h: Homography, focal: float, centre: Point) -> View:
    """Return how a camera of this focal length, in pixels, with square pixels and this centre, saw the plane.

    Raises:
        PlaneError: the plane is seen edge on.
    """
    m = inverse(h)
    # Columns of K⁻¹ M are s r1, s r2, s t: the plane's axes and origin as the camera has them (Zhang 2000).
    columns = [
        ((m[k] - centre[0] * m[6 + k]) / focal, (m[3 + k] - centre[1] * m[6 + k]) / focal, m[6 + k]) for k in range(3)
    ]
    one, two, origin = columns
    size_one, size_two = math.hypot(*one), math.hypot(*two)
    if min(size_one, size_two) == 0:
        raise PlaneError("the plane is seen edge on")
    normal = _cross(one, two)
    size = math.hypot(*normal)
    if size == 0:
        raise PlaneError("the plane is seen edge on")
    scale = math.sqrt(size)
    height = abs(sum(n * o for n, o in zip(normal, origin, strict=True))) / (size * scale)
    tilt = math.degrees(math.acos(min(1.0, abs(normal[2]) / size)))
    return View(height, tilt, size_one / size_two - 1)


def _check_round(corners: Sequence[Point]) -> None:
    turns = []
    for k in range(4):
        (ax, ay), (bx, by), (cx, cy) = corners[k], corners[(k + 1) % 4], corners[(k + 2) % 4]
        turns.append((bx - ax) * (cy - by) - (by - ay) * (cx - bx))
    longest = max(math.dist(a, b) for a in corners for b in corners)
    if min(abs(turn) for turn in turns) <= 1e-6 * longest**2:
        raise PlaneError("three of the corners lie in one line")
    if len({turn > 0 for turn in turns}) != 1:
        raise PlaneError("the corners do not go round: give them in order, one way round")


def _normalised(points: Sequence[Point]) -> tuple[list[float], list[Point]]:
    """The similarity that moves points to their middle and a mean distance of √2, and the points so moved."""
    mx, my = sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
    mean = sum(math.hypot(x - mx, y - my) for x, y in points) / len(points)
    s = math.sqrt(2) / mean
    return [s, 0.0, -s * mx, 0.0, s, -s * my, 0.0, 0.0, 1.0], [(s * (x - mx), s * (y - my)) for x, y in points]


def _inverse_of(similarity: Sequence[float]) -> list[float]:
    s, _, tx, _, _, ty, *_ = similarity
    return [1 / s, 0.0, -tx / s, 0.0, 1 / s, -ty / s, 0.0, 0.0, 1.0]


def _times(a: Sequence[float], b: Sequence[float]) -> list[float]:
    return [sum(a[3 * r + k] * b[3 * k + c] for k in range(3)) for r in range(3) for c in range(3)]


def _solve(rows: list[list[float]]) -> list[float]:
    """Solve eight equations by elimination with the largest pivot; the last column is the right side."""
    n = len(rows)
    for k in range(n):
        best = max(range(k, n), key=lambda r: abs(rows[r][k]))
        if abs(rows[best][k]) < 1e-12:
            raise PlaneError("three of the corners lie in one line")
        rows[k], rows[best] = rows[best], rows[k]
        for r in range(k + 1, n):
            factor = rows[r][k] / rows[k][k]
            for c in range(k, n + 1):
                rows[r][c] -= factor * rows[k][c]
    found = [0.0] * n
    for k in reversed(range(n)):
        rest = sum(rows[k][c] * found[c] for c in range(k + 1, n))
        found[k] = (rows[k][n] - rest) / rows[k][k]
    return found


def _cross(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, float, float]:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
