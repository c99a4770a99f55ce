"""A line through points, and places along and beside it."""

import math
from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from app.photos.drawing.camera import Point

STEP = 24  # pieces between two of the given points


class Curve:
    """A smooth line through the given points (Catmull-Rom), measured along its length in pixels."""

    def __init__(self, points: Sequence[Point]) -> None:
        ends = [_beyond(points[0], points[1]), *points, _beyond(points[-1], points[-2])]
        self._points = [points[0]]
        for index in range(len(points) - 1):
            p0, p1, p2, p3 = ends[index : index + 4]
            self._points += [_between(p0, p1, p2, p3, step / STEP) for step in range(1, STEP + 1)]
        self._along = [0.0]
        for a, b in pairwise(self._points):
            self._along.append(self._along[-1] + math.dist(a, b))

    @property
    def length(self) -> float:
        """Length in pixels."""
        return self._along[-1]

    def at(self, along: float) -> tuple[Point, Point]:
        """Return the place and the direction (of length 1) at a distance from the start."""
        index = min(max(bisect_right(self._along, along) - 1, 0), len(self._points) - 2)
        (ax, ay), (bx, by) = self._points[index : index + 2]
        piece = self._along[index + 1] - self._along[index] or 1.0
        share = (along - self._along[index]) / piece
        return (ax + (bx - ax) * share, ay + (by - ay) * share), ((bx - ax) / piece, (by - ay) / piece)

    def nearest(self, point: Point, start: float = 0.0, end: float = math.inf) -> float:
        """Return the distance along at which the line passes closest to a point, between two distances."""
        inside = [
            (math.dist(point, place), along)
            for place, along in zip(self._points, self._along, strict=True)
            if start <= along <= end
        ]
        return min(inside)[1]

    def beside(self, along: float, across: float) -> Point:
        """Return the point `across` pixels to the right of the line's direction."""
        (x, y), (dx, dy) = self.at(along)
        return x - dy * across, y + dx * across


def _beyond(end: Point, inner: Point) -> Point:
    return 2 * end[0] - inner[0], 2 * end[1] - inner[1]


def _between(p0: Point, p1: Point, p2: Point, p3: Point, t: float) -> Point:
    """Catmull-Rom: through p1 (t = 0) and p2 (t = 1), with the slopes their neighbours give."""
    x, y = (
        0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
        for a, b, c, d in zip(p0, p1, p2, p3, strict=True)
    )
    return x, y
