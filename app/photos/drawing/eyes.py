"""Eyes with their throat: a buried eye in a braid, a tucked eye in a laid rope."""

import math
from collections.abc import Callable
from random import Random

from PIL import Image

from app.photos.drawing.camera import Camera, Colour, Layer, Point, laid_on, mixed, shade
from app.photos.drawing.curve import Curve
from app.photos.drawing.rope import Rope, braid, laid, ring
from app.photos.drawing.things import tape

MM = 3.2  # pixels a millimetre on the ground
THROAT = (905.0, 560.0)
MARK = 90.0  # millimetres from the throat to each leg's mark when the splice was made
MARK_RED = (176, 32, 34)


def eased(value: float, low: float, high: float) -> float:
    """Return 0 below `low`, 1 above `high`, and a smooth rise between."""
    share = max(0.0, min(1.0, (value - low) / (high - low)))
    return share * share * (3 - 2 * share)


def buried_eye(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, offset_mm: float) -> Image.Image:
    """Draw a buried eye with a red mark on each leg, the tail leg's drawn out by `offset_mm`."""
    curve = Curve(
        [
            (1010, 585), (905, 582), (760, 640), (540, 770), (330, 800), (170, 720), (110, 570),
            (170, 420), (330, 340), (540, 375), (760, 490), (905, 556), (1150, 580), (1420, 560), (1720, 590),
        ]
    )  # fmt: skip
    back = curve.nearest((110, 570))
    throat = curve.nearest(THROAT, start=back)
    tail_throat = curve.nearest(THROAT, end=back)
    rope = Rope(curve, lambda along: 37 * (1 + 0.30 * eased(along, throat - 60, throat + 70)), colour)
    legs = Layer(camera, colour)
    braid(legs, rope, rng, 0, back)
    ring(legs, rope, rng, tail_throat + (MARK + offset_mm) * MM, 5 * MM, MARK_RED)
    picture = laid_on(picture, legs)
    standing = Layer(camera, colour)
    braid(standing, rope, rng, back, curve.length)
    ring(standing, rope, rng, throat - MARK * MM, 5 * MM, MARK_RED)
    picture = laid_on(picture, standing, height=11)
    return tape(picture, camera, (150, 1010), 420, MM)


def tucked_eye(picture: Image.Image, camera: Camera, rng: Random, colour: Colour) -> Image.Image:
    """Draw an eye tucked into a laid rope: five rounds of tucks and three ends left standing out."""
    radius = 44.0
    curve = Curve(
        [
            (900, 610), (760, 650), (560, 765), (350, 790), (200, 700), (160, 560),
            (220, 420), (370, 350), (560, 395), (740, 500), (860, 570), (1000, 590), (1300, 585), (1720, 600),
        ]
    )  # fmt: skip
    throat = curve.nearest((840, 560), start=curve.length / 2)
    eye = Rope(curve, lambda _along: radius, colour)
    legs = Layer(camera, colour)
    laid(legs, eye, rng, 0, throat + 10)
    picture = laid_on(picture, legs)
    ends = Layer(camera, colour)
    last = throat + 500
    for along, side, out in ((last - 90, -1.0, 96.0), (last - 30, 1.0, 104.0), (last + 20, -1.0, 84.0)):
        _tail(ends, rng, colour, curve, along, side, out)
    picture = laid_on(picture, ends, height=26)
    standing = Layer(camera, colour)
    laid(standing, eye, rng, last, curve.length)
    tucks = Rope(curve, _tuck_radius(radius, throat, last), colour)
    _tucks(standing, tucks, rng, throat - 20, last + 20)
    return laid_on(picture, standing)


def _tuck_radius(radius: float, start: float, end: float) -> Callable[[float], float]:
    def at(along: float) -> float:
        bumps = 1 + 0.045 * math.cos((along - start) * math.tau / (radius * 2.1))
        thick = eased(along, start - 60, start + 50) * (1 - eased(along, end - 150, end + 20))
        return radius * bumps * (1 + 0.42 * thick)

    return at


def _tucks(layer: Layer, rope: Rope, rng: Random, start: float, end: float) -> None:
    """Draw tucked strands over and under by turns: three rows of thick rounded crossings."""
    layer.polygon(rope.outline(start, end), shade(rope.colour, 0.3))
    along, number = start, 0
    while along < end:
        pitch = rope.radius(along) * 0.98
        for row in (-1, 0, 1, 2):
            angle = -math.pi / 2 + (row + 0.5 + 0.5 * (number % 2)) * math.pi / 3
            _crossing(layer, rope, rng, along, angle, 1 if number % 2 else -1)
        along += pitch
        number += 1


def _crossing(layer: Layer, rope: Rope, rng: Random, along: float, angle: float, lean: int) -> None:
    half, wide = rope.radius(along) * 0.74, 0.56

    def outline(scale: float, aside: float) -> list[Point]:
        points = []
        for step in range(16):
            turn = step * math.tau / 16
            length = math.copysign(abs(math.cos(turn)) ** 0.7, math.cos(turn)) * scale
            across = math.sin(turn) * scale + aside
            points.append(rope.place(along + half * length, angle + lean * 0.5 * length + wide * across, 1.03))
        return points

    light = rope.lit(along, angle) * rng.uniform(0.95, 1.05)
    for step in range(7):
        layer.polygon(outline(1 - step * 0.11, -step * 0.022), shade(rope.colour, light * (0.58 + step * 0.082)))
    for _ in range(9):
        across, start, reach = rng.uniform(-0.7, 0.7), rng.uniform(-0.7, 0.1), rng.uniform(0.3, 0.7)
        ends = [
            rope.place(along + half * t * 0.9, angle + lean * 0.5 * t + wide * across * 0.9, 1.02)
            for t in (start, start + reach)
        ]
        layer.line(ends, shade(rope.colour, light * rng.choice([0.7, 0.8, 1.12])), 1.0)


def _tail(layer: Layer, rng: Random, colour: Colour, curve: Curve, along: float, side: float, out: float) -> None:
    """Draw one strand's end standing out of the rope, its tip sealed."""
    strand = Curve(
        [curve.beside(along - 30, 0), curve.beside(along + 8, side * 44), curve.beside(along + 52, side * out)]
    )
    body = Rope(strand, lambda _at: 21.0, colour)
    for step in range(9):
        width = 1.45 - step * 0.16
        edges = [strand.beside(at, 21 * width - 9 * (step / 9)) for at in _stations(strand.length)]
        edges += [strand.beside(at, -21 * width - 9 * (step / 9)) for at in reversed(_stations(strand.length))]
        layer.polygon(edges, shade(colour, 0.5 + step * 0.07))
    for _ in range(26):
        angle = rng.uniform(-1.1, 1.1)
        at = rng.uniform(0, strand.length * 0.7)
        ends = [body.place(at, angle), body.place(at + strand.length * 0.25, angle)]
        layer.line(ends, shade(colour, body.lit(at, angle) * rng.choice([0.66, 0.8, 1.1])), 1.0)
    tip, (dx, dy) = strand.at(strand.length)
    sealed = mixed(colour, (70, 52, 36), 0.6)
    for step in range(6):
        layer.dot((tip[0] - dx * 6 - step, tip[1] - dy * 6 - step), 21 - step * 3, shade(sealed, 0.62 + step * 0.12))


def _stations(length: float) -> list[float]:
    return [length * step / 12 for step in range(13)]
