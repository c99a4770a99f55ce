"""Ropes as they look from one side: a braid of twelve strands, a laid rope of three, a bundle of yarns.

A place on a rope is (distance along, angle round): the angle is 0 facing the camera and ±π/2 at the
silhouette, positive to the right of the curve's direction.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from app.photos.drawing.camera import Colour, Layer, Point, mixed, shade
from app.photos.drawing.curve import Curve

RIM = math.pi / 2
CLOSE = 60.0  # from this radius in pixels on, a strand's yarns and roundness are seen
LIGHT = (-0.42, -0.52, 0.74)  # from the upper left, above the ground


@dataclass(frozen=True)
class Rope:
    """A rope along a curve: its radius in pixels at each distance, and its colour."""

    curve: Curve
    radius: Callable[[float], float]
    colour: Colour
    shadow: Callable[[float, float], float] = lambda _along, _angle: 1.0  # a dent: less than 1

    def place(self, along: float, angle: float, lifted: float = 1.0) -> Point:
        """Return where a place on the surface is, or above it when `lifted` is more than 1."""
        bounded = max(-RIM, min(RIM, angle))
        return self.curve.beside(along, self.radius(along) * lifted * math.sin(bounded))

    def lit(self, along: float, angle: float) -> float:
        """Return how much light the surface gets there, 1 where it is fullest."""
        (_, (dx, dy)) = self.curve.at(along)
        bounded = max(-RIM, min(RIM, angle))
        facing = math.sin(bounded) * (-dy * LIGHT[0] + dx * LIGHT[1]) + math.cos(bounded) * LIGHT[2]
        return (0.42 + 0.70 * max(0.0, facing)) * self.shadow(along, bounded)

    def outline(self, start: float, end: float, step: float = 8.0) -> list[Point]:
        """Return the silhouette between two distances."""
        stations = [start + index * step for index in range(int((end - start) / step) + 1)] + [end]
        right = [self.place(along, RIM) for along in stations]
        return right + [self.place(along, -RIM) for along in reversed(stations)]


def fill(layer: Layer, rope: Rope, start: float, end: float) -> None:
    """Fill the silhouette with the dark of the gaps between strands."""
    layer.polygon(rope.outline(start, end), shade(rope.colour, 0.34))


def braid(
    layer: Layer,
    rope: Rope,
    rng: Random,
    start: float,
    end: float,
    left_out: Sequence[tuple[int, int]] = (),
    wear: Callable[[float], float] = lambda _along: 0.0,
) -> None:
    """Draw a hollow braid of twelve strands: six rows of picks are seen, leaning left and right by turns.

    `left_out` names picks (row, number from `start`) that are gone, so that what lies below is seen;
    `wear` says for a distance how worn the surface is, from 0 to 1: matted, picks no longer told apart.
    """
    fill(layer, rope, start, end)
    row_width = math.pi / 6
    along, number = start, 0
    while along < end + 2:
        radius = rope.radius(along)
        pitch = radius * 0.86
        for row in range(-1, 7):
            centre = along + (pitch / 2 if row % 2 else 0.0)
            if centre > end:
                continue
            angle = -RIM + (row + 0.5) * row_width
            lean = 1 if row % 2 else -1
            if (row, number) in left_out:
                _pick(layer, rope, rng, centre + pitch * 0.3, angle, -lean, 0.0, 0.5)
            else:
                _pick(layer, rope, rng, centre, angle, lean, wear(centre), 1.0)
        along += pitch
        number += 1


def _pick(
    layer: Layer, rope: Rope, rng: Random, along: float, angle: float, lean: int, worn: float, light: float
) -> None:
    """Draw one strand where it lies on top: a leaf of yarns, dark at its rim."""
    radius = rope.radius(along)
    half, wide, slant = radius * 0.56, 0.30, 0.62 * lean
    light *= rope.lit(along, angle) * rng.uniform(0.94, 1.05)
    tone = mixed(rope.colour, (214, 208, 196), 0.45 * worn)

    corners = 14 if radius < CLOSE else 22

    def leaf(scale: float, aside: float = 0.0) -> list[Point]:
        points = []
        for step in range(corners):
            turn = step * math.tau / corners
            length, across = math.cos(turn) * scale, math.sin(turn) * scale + aside
            blunt = math.copysign(abs(length) ** 0.8, length)
            points.append(rope.place(along + half * blunt, angle + slant * length * 0.5 + wide * across, 1.015))
        return points

    contrast = 1 - 0.7 * worn
    levels = 3 if radius < CLOSE else 8
    for level in range(levels):
        height = level / (levels - 1)
        rounded = 1 - 0.38 * contrast * (1 - height) ** 1.6 + 0.11 * contrast * height
        layer.polygon(leaf(1 - 0.52 * height, -0.17 * height), shade(tone, light * rounded))
    yarns = 5 if radius < CLOSE else 19
    for number in range(yarns):
        yarn = -0.82 + 1.64 * (number + rng.uniform(0.2, 0.8)) / yarns
        reach = math.sqrt(1 - yarn * yarn) * 0.92
        start, end = sorted((rng.uniform(-1, 0), rng.uniform(0, 1))) if radius >= CLOSE else (-1.0, 1.0)
        ends = [
            rope.place(along + half * t * reach, angle + slant * t * reach * 0.5 + wide * yarn, 1.015)
            for t in (start, (start + end) / 2, end)
        ]
        dark = rng.uniform(0.74, 0.9) - 0.12 * max(0.0, yarn)
        layer.line(ends, shade(tone, light * (dark if rng.random() < 0.62 else 1.08)), min(1.5, radius / 70))


def laid(layer: Layer, rope: Rope, rng: Random, start: float, end: float) -> None:
    """Draw a right-hand laid rope of three strands with its yarns along the rope."""
    fill(layer, rope, start, end)
    radius = rope.radius((start + end) / 2)
    lay = radius * 6.4
    pitch = lay / 3

    def helix(offset: float, share: float, angle: float) -> Point:
        bounded = max(start, min(end, offset + pitch * share - lay * angle / math.tau))
        return rope.place(bounded, angle, 0.91 + 0.13 * math.sin(math.pi * share))

    angles = [-RIM + RIM * step / 9 for step in range(19)]
    bands = [(0.03 + 0.02 * step, 0.97 - 0.035 * step, 0.56 + 0.052 * step) for step in range(11)]
    offset = math.floor((start - lay) / pitch) * pitch  # two pieces of one rope keep step
    while offset < end + lay:
        for low, high, light in bands:
            for left, right in pairwise(angles):
                middle = (left + right) / 2
                lit = rope.lit(offset - lay * middle / math.tau, middle) * light
                corners = [(low, left), (low, right), (high, right), (high, left)]
                layer.polygon([helix(offset, share, angle) for share, angle in corners], shade(rope.colour, lit))
        for _ in range(70):
            angle = rng.uniform(-1.35, 1.35)
            begin, length = rng.uniform(0.06, 0.5), rng.uniform(0.25, 0.42)
            along = offset + pitch * begin - lay * angle / math.tau
            if start < along and along + pitch * length < end:
                tone = shade(rope.colour, rope.lit(along, angle) * rng.choice([0.66, 0.78, 1.12]))
                ends = [rope.place(along, angle, 1.0), rope.place(along + pitch * length, angle - 0.16, 1.0)]
                layer.line(ends, tone, radius / 55)
        offset += pitch


def fibres(
    layer: Layer, rng: Random, root: Point, heading: float, length: float, count: int, colour: Colour, spread: float
) -> None:
    """Draw a fan of loose fibres from a place, `heading` in radians, `spread` their scatter."""
    for _ in range(count):
        angle, reach = rng.gauss(heading, spread), length * rng.uniform(0.45, 1.1)
        curl = rng.gauss(0, 0.35)
        x, y = root[0] + rng.gauss(0, length / 22), root[1] + rng.gauss(0, length / 22)
        points = [(x, y)]
        for _step in range(5):
            angle += curl / 4
            x, y = x + math.cos(angle) * reach / 5, y + math.sin(angle) * reach / 5
            points.append((x, y))
        layer.line(points, shade(colour, rng.uniform(0.62, 1.22)), rng.uniform(0.7, 1.5))


def ring(layer: Layer, rope: Rope, rng: Random, along: float, width: float, colour: Colour) -> None:
    """Draw a mark sewn or whipped round the rope, `width` pixels along it."""
    turns = max(3, round(width / 4))
    for turn in range(turns):
        centre = along - width / 2 + width * (turn + 0.5) / turns
        for light, thick in ((0.5, 1.25), (1.0, 0.8)):
            for step in range(12):
                left, right = -RIM + math.pi * step / 12, -RIM + math.pi * (step + 1) / 12
                tone = shade(colour, rope.lit(centre, (left + right) / 2) * light * rng.uniform(0.9, 1.1))
                ends = [rope.place(centre, left, 1.05), rope.place(centre, right, 1.05)]
                layer.line(ends, tone, width / turns * thick)
