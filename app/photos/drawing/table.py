"""A table seen by a real camera: a card, ropes lying on it with marks, and where each point of them is truly seen.

Unlike the demo's other scenes this one is laid out in millimetres and seen through a pinhole with a lens that bends,
so that a length taken from the picture can be held against the truth.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from PIL import Image, ImageChops, ImageDraw

from app.photos.drawing.camera import FINE, Colour, Point, mixed, noise, shade

Spot = tuple[float, float, float]
"""A point in mm: x and y on the table, z above it."""
CORNER_STEPS = 8
FINEST = 6
PICK = 0.5
SLICES = 14
BEND = 0.25  # how strongly a lens without any is still trusted: beyond this the polynomial turns back


@dataclass(frozen=True, slots=True)
class Pinhole:
    """A camera above a table.

    Attributes:
        width, height: of the picture, pixels.
        focal: pixels.
        looks_at: the place on the table, mm, that is seen in the middle of the picture.
        above: distance from the table at right angles, mm.
        tilt: between the line of sight and the table's normal, degrees. bearing: from which side, degrees.
        roll: how the picture is turned, degrees.
        bend: first radial distortion coefficient: a point at distance r from the axis, in focal lengths, is seen at
            r (1 + bend r²).
    """

    width: int
    height: int
    focal: float
    looks_at: Point
    above: float
    tilt: float = 0.0
    bearing: float = 0.0
    roll: float = 0.0
    bend: float = 0.0

    @property
    def place(self) -> Spot:
        """Where the camera is, mm."""
        out = self.above * math.tan(math.radians(self.tilt))
        turn = math.radians(self.bearing)
        return self.looks_at[0] + out * math.cos(turn), self.looks_at[1] + out * math.sin(turn), self.above

    def seen(self, spot: Spot) -> Point:
        """Return where a point is seen, pixels from the upper left corner."""
        right, down, forward = self._axes()
        away = _minus(spot, self.place)
        depth = _dot(away, forward)
        x, y = _dot(away, right) / depth, _dot(away, down) / depth
        bent = 1 + self.bend * min(x * x + y * y, BEND / max(abs(self.bend), 1e-9))
        return self.width / 2 + self.focal * x * bent, self.height / 2 + self.focal * y * bent

    def _axes(self) -> tuple[Spot, Spot, Spot]:
        tilt, turn, roll = (math.radians(one) for one in (self.tilt, self.bearing, self.roll))
        forward = -math.sin(tilt) * math.cos(turn), -math.sin(tilt) * math.sin(turn), -math.cos(tilt)
        # Seen from above, the table's y runs up the picture: right × down = forward.
        side = -math.sin(turn), math.cos(turn), 0.0
        up = _cross(side, forward)
        right = _plus(_times(side, math.cos(roll)), _times(up, math.sin(roll)))
        return right, _cross(forward, right), forward


@dataclass(frozen=True, slots=True)
class Card:
    """A flat card with rounded corners on the table: its middle, sides and corner radius in mm, its turn in degrees."""

    middle: Point
    size: Point
    radius: float
    turn: float
    colour: Colour = (242, 240, 232)

    def corners(self) -> list[Spot]:
        """Return where its edges would meet, in order round."""
        w, h = self.size[0] / 2, self.size[1] / 2
        return [self._at(x, y) for x, y in ((-w, -h), (w, -h), (w, h), (-w, h))]

    def outline(self) -> list[Spot]:
        """Return its outline with the rounded corners."""
        w, h, r = self.size[0] / 2, self.size[1] / 2, self.radius
        found = []
        for corner, (cx, cy) in enumerate(((w - r, h - r), (r - w, h - r), (r - w, r - h), (w - r, r - h))):
            for step in range(CORNER_STEPS + 1):
                angle = math.radians(90 * (corner + step / CORNER_STEPS))
                found.append(self._at(cx + r * math.cos(angle), cy + r * math.sin(angle)))
        return found

    def _at(self, x: float, y: float) -> Spot:
        turn = math.radians(self.turn)
        return (
            self.middle[0] + x * math.cos(turn) - y * math.sin(turn),
            self.middle[1] + x * math.sin(turn) + y * math.cos(turn),
            0.0,
        )


@dataclass(frozen=True, slots=True)
class Rope:
    """A straight rope on the table through `start`, running at `turn` degrees, with ring marks at distances from there.

    `diameter`, `length` and `marks` in mm.
    """

    start: Point
    turn: float
    diameter: float
    length: float
    marks: tuple[float, ...]
    colour: Colour = (206, 186, 138)

    def at(self, along: float, angle: float) -> Spot:
        """Return a point of its skin: so far along, at an angle round it from straight up, degrees."""
        turn, round_it, r = math.radians(self.turn), math.radians(angle), self.diameter / 2
        aside = r * math.sin(round_it)
        return (
            self.start[0] + along * math.cos(turn) - aside * math.sin(turn),
            self.start[1] + along * math.sin(turn) + aside * math.cos(turn),
            r + r * math.cos(round_it),
        )

    def seen_angles(self, camera: Pinhole) -> tuple[float, float]:
        """Return the angles round the rope between which this camera sees it (the two outlines)."""
        turn, r = math.radians(self.turn), self.diameter / 2
        x, y, z = camera.place
        aside = -(x - self.start[0]) * math.sin(turn) + (y - self.start[1]) * math.cos(turn)
        up = z - r
        towards = math.degrees(math.atan2(aside, up))
        half = math.degrees(math.acos(r / math.hypot(aside, up)))
        return towards - half, towards + half

    def middle_seen(self, camera: Pinhole, along: float) -> Spot:
        """Return the point in the middle between both outlines, where a person taps a mark."""
        low, high = self.seen_angles(camera)
        return self.at(along, (low + high) / 2)


def table_picture(
    camera: Pinhole, card: Card, ropes: Sequence[Rope], rng: Random, ground: Colour = (96, 104, 100), grain: float = 0.1
) -> Image.Image:
    """Return the picture of a table with a card and ropes on it; `grain` is the share of noise, 0 to 1."""
    size = camera.width * FINE, camera.height * FINE
    picture = Image.new("RGB", size, ground)
    draw = ImageDraw.Draw(picture)
    for rope in ropes:
        _lay(draw, camera, rope)
    picture = picture.reduce(FINE)
    _put(picture, [camera.seen(spot) for spot in card.outline()], card.colour)
    rough = noise(rng, (camera.width // 3, camera.height // 3), (camera.width, camera.height))
    fine = noise(rng, (camera.width, camera.height))
    dirt = ImageChops.blend(rough, fine, 0.6).convert("RGB")
    return Image.blend(picture, ImageChops.overlay(picture, dirt), grain)


def _put(picture: Image.Image, outline: Sequence[Point], colour: Colour) -> None:
    """Lay a flat thing down with its edges true to a hundredth of a pixel: it is what lengths are measured by."""
    left, top = math.floor(min(x for x, _ in outline)) - 1, math.floor(min(y for _, y in outline)) - 1
    right, bottom = math.ceil(max(x for x, _ in outline)) + 1, math.ceil(max(y for _, y in outline)) + 1
    mask = Image.new("L", ((right - left) * FINEST, (bottom - top) * FINEST), 0)
    # Polygons are drawn with their outline, which makes them half a pixel larger all round.
    mx, my = sum(x for x, _ in outline) / len(outline), sum(y for _, y in outline) / len(outline)
    points = []
    for x, y in outline:
        out = math.hypot(x - mx, y - my)
        less = (out - 0.5 / FINEST) / out
        points.append(((mx + (x - mx) * less - left) * FINEST, (my + (y - my) * less - top) * FINEST))
    ImageDraw.Draw(mask).polygon(points, 255)
    picture.paste(colour, (left, top), mask.reduce(FINEST))


def _lay(draw: ImageDraw.ImageDraw, camera: Pinhole, rope: Rope) -> None:
    low, high = rope.seen_angles(camera)
    edges = [low + (high - low) * k / SLICES for k in range(SLICES + 1)]
    _fill(draw, camera, [rope.at(s, a) for s, a in _round(0, rope.length, low, high)], shade(rope.colour, 0.5))
    for left, right in pairwise(edges):
        light = 0.55 + 0.5 * math.cos(math.radians((left + right) / 2 - 20))
        _fill(draw, camera, [rope.at(s, a) for s, a in _round(0, rope.length, left, right)], shade(rope.colour, light))
        _braid(draw, camera, rope, left, right, light)
        for mark in rope.marks:
            ink = mixed((150, 20, 26), (40, 10, 10), 0.6 - 0.6 * light)
            _fill(draw, camera, [rope.at(s, a) for s, a in _round(mark - 1.2, mark + 1.2, left, right)], ink)


def _braid(draw: ImageDraw.ImageDraw, camera: Pinhole, rope: Rope, left: float, right: float, light: float) -> None:
    """Draw where strands dip under each other, both ways round: a pick is about half a diameter long."""
    pick, tone = PICK * rope.diameter, shade(rope.colour, light * 0.84)
    for way in (1, -1):
        lean = way * pick / 60  # along for each degree round
        for number in range(-2, round(rope.length / pick) + 3):
            start = number * pick
            a, b = start + left * lean, start + right * lean
            points = [(a, left), (b, right), (b + pick * 0.13, right), (a + pick * 0.13, left)]
            _fill(draw, camera, [rope.at(s, angle) for s, angle in points], tone)


def _round(first: float, last: float, low: float, high: float) -> list[tuple[float, float]]:
    steps = max(2, round((last - first) / 15))
    there = [(first + (last - first) * k / steps, low) for k in range(steps + 1)]
    return [*there, *((along, high) for along, _ in reversed(there))]


def _fill(draw: ImageDraw.ImageDraw, camera: Pinhole, outline: Iterable[Spot], colour: Colour) -> None:
    draw.polygon([(x * FINE, y * FINE) for x, y in map(camera.seen, outline)], colour)


def _minus(a: Spot, b: Spot) -> Spot:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _plus(a: Spot, b: Spot) -> Spot:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def _times(a: Spot, by: float) -> Spot:
    return a[0] * by, a[1] * by, a[2] * by


def _dot(a: Spot, b: Spot) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Spot, b: Spot) -> Spot:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
