"""Close views of a stretch of braid: lock stitching, the bury zone, the body."""

import math
from random import Random

from PIL import Image

from app.photos.drawing.camera import Camera, Colour, Layer, Point, laid_on, mixed, shade
from app.photos.drawing.curve import Curve
from app.photos.drawing.eyes import MARK_RED, eased
from app.photos.drawing.rope import Rope, braid, fibres, ring

TWINE = (44, 52, 84)


def lock_stitching(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, state: str) -> Image.Image:
    """Draw five cross stitches on a braid: `whole`, one `broken`, or all `leaning` towards the throat."""
    curve = Curve([(-160, 690), (420, 610), (1080, 585), (1760, 500)])
    rope = Rope(curve, lambda _along: 128.0, colour)
    layer = Layer(camera, colour)
    braid(layer, rope, rng, 0, curve.length)
    for number in range(5):
        along = 590 + number * 148.0
        lean = 34.0
        if state == "leaning":
            lean = 96.0 + 30 * number + rng.uniform(-8, 8)
        start, end = (along - lean, -0.72), (along + lean, 0.72)
        if state == "broken" and number == 2:
            _stub(layer, rope, rng, start, 0.26, end)
            _stub(layer, rope, rng, end, 0.24, start)
        else:
            _stitch(layer, rope, rng, start, end)
    picture = laid_on(picture, layer, height=24, softness=16)
    if state == "broken":
        picture = _loose_ends(picture, camera, rng, rope, 590 + 2 * 148.0)
    return picture


Spot = tuple[float, float]  # distance along, angle round


def _twisted(layer: Layer, points: list[Point], rng: Random, thick: float) -> None:
    """Draw a twisted twine along points."""
    for scale, light in ((1.25, 0.35), (1.0, 0.8), (0.7, 1.05)):
        layer.line(points, shade(TWINE, light), thick * scale)
    twine = Curve(points)
    at = 3.0
    while at < twine.length - 2:
        ends = [twine.beside(at - thick * 0.25, -thick * 0.4), twine.beside(at + thick * 0.25, thick * 0.4)]
        layer.line(ends, shade(TWINE, 0.55), 2.0)
        ends = [twine.beside(at, -thick * 0.36), twine.beside(at + thick * 0.3, thick * 0.1)]
        layer.line(ends, shade(TWINE, rng.uniform(1.5, 1.9)), 1.8)
        at += thick * 0.62


def _between(rope: Rope, start: Spot, end: Spot, low: float, high: float) -> list[Point]:
    places = []
    for step in range(9):
        share = low + (high - low) * step / 8
        along = start[0] + (end[0] - start[0]) * share
        angle = start[1] + (end[1] - start[1]) * share
        places.append(rope.place(along, angle, 1.04))
    return places


def _hole(layer: Layer, rope: Rope, spot: Spot) -> None:
    x, y = rope.place(*spot)
    layer.dot((x, y), 15, shade(rope.colour, 0.5))
    layer.dot((x, y), 11, shade(rope.colour, 0.22))


def _stitch(layer: Layer, rope: Rope, rng: Random, start: Spot, end: Spot) -> None:
    _hole(layer, rope, start)
    _hole(layer, rope, end)
    _twisted(layer, _between(rope, start, end, 0.0, 1.0), rng, 17)


def _stub(layer: Layer, rope: Rope, rng: Random, start: Spot, share: float, towards: Spot) -> None:
    _hole(layer, rope, start)
    points = _between(rope, start, towards, 0.0, share)
    _twisted(layer, points, rng, 17)


def _loose_ends(picture: Image.Image, camera: Camera, rng: Random, rope: Rope, along: float) -> Image.Image:
    """Lift the two ends of the broken stitch off the rope, frayed."""
    layer = Layer(camera, TWINE)
    upper = _between(rope, (along - 34, -0.72), (along + 34, 0.72), 0.18, 0.26)[-1]
    lower = _between(rope, (along - 34, -0.72), (along + 34, 0.72), 0.76, 0.84)[0]
    for (x, y), dx, dy in ((upper, 58, -34), (lower, -50, 48)):
        points = [(x, y), (x + dx * 0.45, y + dy * 0.2), (x + dx * 0.9, y + dy * 0.7), (x + dx, y + dy * 1.25)]
        loose = Curve(points)
        _twisted(layer, [loose.at(loose.length * step / 10)[0] for step in range(11)], rng, 15)
        tip, (tx, ty) = loose.at(loose.length)
        fibres(layer, rng, tip, math.atan2(ty, tx), 42, 46, mixed(TWINE, (190, 196, 214), 0.35), 0.42)
    return laid_on(picture, layer, height=14, softness=7)


def bury_zone(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, state: str) -> Image.Image:
    """Draw the end of a bury with its tip mark: `sound`, with a `hollow` place, or the `tail showing`."""
    curve = Curve([(-160, 560), (400, 600), (1000, 590), (1760, 640)])
    tip = 1230.0

    def slack(along: float) -> float:
        return eased(along, 430, 660) * (1 - eased(along, 760, 980))

    def radius(along: float) -> float:
        full = 88 * (1 + 0.30 * (1 - eased(along, tip - 420, tip + 20)))
        if state == "hollow":
            full *= 1 - 0.29 * slack(along)
        return full

    def dent(along: float, angle: float) -> float:
        return 1 - 0.64 * slack(along) * math.exp(-(((angle - 0.05) / 0.55) ** 2))

    rope = Rope(curve, radius, colour, dent if state == "hollow" else lambda _along, _angle: 1.0)
    layer = Layer(camera, colour)
    out = [(2, 9), (3, 9), (2, 10), (3, 10)] if state == "tail showing" else []
    braid(layer, rope, rng, 0, curve.length, left_out=out)
    ring(layer, rope, rng, tip, 26, MARK_RED)
    picture = laid_on(picture, layer, height=22, softness=15)
    return _tail_showing(picture, camera, rng, rope) if state == "tail showing" else picture


def _tail_showing(picture: Image.Image, camera: Camera, rng: Random, rope: Rope) -> Image.Image:
    """Let the tapered end of the tail come out between the strands."""
    pale = mixed(rope.colour, (236, 230, 214), 0.45)
    layer = Layer(camera, pale)
    along = 830.0
    root, rim = rope.place(along - 40, 0.0), rope.place(along + 40, 0.25)
    out = rope.place(along + 150, 1.3, 1.9)
    end = Curve([root, rim, ((rim[0] + out[0]) / 2 + 20, (rim[1] + out[1]) / 2 - 8), out])
    taper = Rope(end, lambda at: 30 * (1 - 0.55 * at / end.length), pale)
    layer.polygon(taper.outline(0, end.length), shade(pale, 0.45))
    for _ in range(150):
        angle, at = rng.uniform(-1.4, 1.4), rng.uniform(0, end.length * 0.8)
        places = [taper.place(at + end.length * 0.2 * t, angle + 0.1 * t) for t in (0.0, 0.5, 1.0)]
        layer.line(places, shade(pale, taper.lit(at, angle) * rng.uniform(0.7, 1.15)), 2.4)
    tip, (dx, dy) = end.at(end.length)
    fibres(layer, rng, tip, math.atan2(dy, dx), 66, 90, pale, 0.3)
    return laid_on(picture, layer, height=16, softness=8)


def body(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, state: str) -> Image.Image:
    """Draw a stretch of the body: `sound`, with one `strand cut`, or `abraded`."""
    curve = Curve([(-160, 720), (420, 640), (1050, 600), (1760, 480)])
    rope = Rope(curve, lambda _along: 118.0, colour)
    layer = Layer(camera, colour)

    def wear(along: float) -> float:
        return eased(along, 420, 760) * (1 - eased(along, 1120, 1460)) if state == "abraded" else 0.0

    out = [(2, 8), (3, 8), (3, 9)] if state == "strand cut" else []
    braid(layer, rope, rng, 0, curve.length, left_out=out, wear=wear)
    if state == "abraded":
        _fuzz(layer, rope, rng)
    picture = laid_on(picture, layer, height=24, softness=16)
    return _cut_strand(picture, camera, rng, rope) if state == "strand cut" else picture


def _fuzz(layer: Layer, rope: Rope, rng: Random) -> None:
    """Raise broken fibres all over the worn face."""
    pale = mixed(rope.colour, (240, 236, 226), 0.55)
    for _ in range(900):
        along = rng.gauss(940, 220)
        angle = rng.uniform(-1.55, 1.3)
        heading = rng.choice([-1.9, -1.2, 0.2, 2.9]) + rng.gauss(0, 0.5)
        light = rope.lit(along, angle) * rng.choice([0.62, 1.0, 1.15])
        fibres(layer, rng, rope.place(along, angle), heading, rng.uniform(18, 62), 2, shade(pale, light), 0.6)


def _cut_strand(picture: Image.Image, camera: Camera, rng: Random, rope: Rope) -> Image.Image:
    """Stand the two ends of a cut strand up out of the braid."""
    pale = mixed(rope.colour, (240, 234, 220), 0.4)
    layer = Layer(camera, pale)
    for along, angle, dx, dy in ((815.0, -0.35, -96.0, -84.0), (985.0, 0.15, 104.0, 66.0)):
        x, y = rope.place(along, angle)
        end = Curve([(x, y), (x + dx * 0.35, y + dy * 0.25), (x + dx * 0.75, y + dy * 0.6), (x + dx, y + dy)])
        strand = Rope(end, lambda at, end=end: 24 + 8 * at / end.length, pale)  # type: ignore[misc]
        layer.polygon(strand.outline(0, end.length), shade(pale, 0.42))
        for _ in range(130):
            turn, at = rng.uniform(-1.4, 1.4), rng.uniform(0, end.length * 0.72)
            places = [strand.place(at + end.length * 0.3 * t, turn) for t in (0.0, 0.5, 1.0)]
            layer.line(places, shade(pale, strand.lit(at, turn) * rng.uniform(0.7, 1.15)), 2.2)
        for side in (-1.2, -0.6, 0.0, 0.6, 1.2):
            tip, heading = strand.place(end.length, side), math.atan2(dy, dx) + side * 0.3
            fibres(layer, rng, tip, heading, 54, 22, pale, 0.25)
    return laid_on(picture, layer, height=18, softness=8)
