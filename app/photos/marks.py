"""Reference marks proposed: where something sewn or inked runs across a rope, along a path that a person tapped.

A proposal is never a reading: the person accepts it or moves it, and where little stands out it says so.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from PIL import Image

from inspection_rules.measures.plane import Homography, Point, inverse, to_plane

STEP_MM = 0.5
BAND = 0.35  # of the diameter, to each side of the middle
AROUND_MM = 18.0  # what a place is compared with, to each side
LEAST_MM, MOST_MM = 0.8, 7.0  # how wide a mark may be along the rope
LEAST_STEP = 14.0  # of 255
OVER_NOISE, SURE_OVER_NOISE = 5.0, 9.0
END_MM = 2.0  # nothing is proposed so near to the end of the path
MOST_MARKS = 12

Colour = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class ProposedMark:
    """A mark that may be there: how far along the path, mm on the plane, where in the picture, and how sure."""

    along_mm: float
    pixel: Point
    sure: bool


@dataclass(frozen=True, slots=True)
class Proposal:
    """The marks proposed, in order along the path, and what to say of them; empty when they are sure.

    None is proposed where too much stands out.
    """

    marks: tuple[ProposedMark, ...]
    doubt: str


def propose_marks(picture: Image.Image, h: Homography, path: Sequence[Point], rope_mm: float) -> Proposal:
    """Return where marks may run across the rope along a path.

    Args:
        h: from pixels to mm on the plane (`plane.homography`).
        path: two or more pixels along the middle of the rope.
        rope_mm: the rope's diameter.
    """
    points = [to_plane(h, pixel) for pixel in path]
    back = inverse(h)
    profile: list[Colour] = []
    places: list[Point] = []
    for one, other in pairwise(points):
        colours, seen = _along(picture, back, one, other, rope_mm)
        profile += colours
        places += seen
    found = _standing_out(profile)
    marks = tuple(ProposedMark((at + 0.5) * STEP_MM, _between(places, at), sure) for at, sure in found)
    return Proposal(marks if len(marks) <= MOST_MARKS else (), _doubt(marks))


def _along(
    picture: Image.Image, back: Homography, one: Point, other: Point, rope_mm: float
) -> tuple[list[Colour], list[Point]]:
    """Return the mean colour of the rope's middle band at every step, and where in the picture each step lies."""
    length = math.dist(one, other)
    steps, half = max(1, round(length / STEP_MM)), max(1, round(BAND * rope_mm / STEP_MM))
    dx, dy = (other[0] - one[0]) / steps, (other[1] - one[1]) / steps
    # From the strip's pixels to mm, then to the photograph's pixels: one homography.
    to_mm = (dx, -dy, one[0] + half * dy, dy, dx, one[1] - half * dx)
    a = tuple(
        back[3 * row] * to_mm[column]
        + back[3 * row + 1] * to_mm[3 + column]
        + (back[3 * row + 2] if column == 2 else 0.0)
        for row in range(3)
        for column in range(3)
    )
    coefficients = tuple(value / a[8] for value in a[:8])
    strip = picture.convert("RGB").transform(
        (steps, 2 * half), Image.Transform.PERSPECTIVE, coefficients, Image.Resampling.BILINEAR
    )
    row = strip.resize((steps, 1), Image.Resampling.BOX).tobytes()
    colours = [(float(row[3 * k]), float(row[3 * k + 1]), float(row[3 * k + 2])) for k in range(steps)]
    middle = [to_plane(back, (one[0] + (k + 0.5) * dx, one[1] + (k + 0.5) * dy)) for k in range(steps)]
    return colours, middle


def _standing_out(profile: Sequence[Colour]) -> list[tuple[float, bool]]:
    """Return the places that differ from what is round them, in steps, and whether each is sure."""
    window = round(AROUND_MM / STEP_MM)
    away = []
    for k, colour in enumerate(profile):
        near = profile[max(0, k - window) : k + window + 1]
        usual = [median(one[c] for one in near) for c in range(3)]
        away.append(math.dist(colour, usual))
    if not away:
        return []
    noise = median(away)
    least = max(LEAST_STEP, OVER_NOISE * noise)
    found: list[tuple[float, bool]] = []
    end = round(END_MM / STEP_MM)
    for first, last in _runs(away, least):
        top = max(away[first:last])
        wide = sum(1 for value in away[max(0, first - window) : last + window] if value > top / 2)
        if not LEAST_MM <= wide * STEP_MM <= 2 * MOST_MM or (last - first) * STEP_MM > MOST_MM:
            continue
        weight = sum(away[first:last])
        at = sum(k * away[k] for k in range(first, last)) / weight
        if end <= at < len(away) - end:
            found.append((at, top > max(2 * LEAST_STEP, SURE_OVER_NOISE * noise)))
    return found


def _runs(values: Sequence[float], least: float) -> list[tuple[int, int]]:
    """Return the stretches that lie above a level; a single step below it does not part them."""
    found: list[tuple[int, int]] = []
    for k, value in enumerate(values):
        if value < least:
            continue
        if found and k - found[-1][1] <= 1:
            found[-1] = found[-1][0], k + 1
        else:
            found.append((k, k + 1))
    return found


def _between(places: Sequence[Point], at: float) -> Point:
    low = min(int(at), len(places) - 1)
    high, share = min(low + 1, len(places) - 1), at - low
    (x, y), (a, b) = places[low], places[high]
    return x + share * (a - x), y + share * (b - y)


def _doubt(marks: Sequence[ProposedMark]) -> str:
    if not marks:
        return "No mark stands out along this path: tap the marks yourself."
    if len(marks) > MOST_MARKS:
        return "Too much stands out along this path to tell marks from wear: tap the marks yourself."
    if len(marks) == 1:
        return "Only one mark stands out along this path: look for the other, and tap both yourself."
    if not all(mark.sure for mark in marks):
        return "Not all of these are surely marks: look at each before you take it."
    return ""
