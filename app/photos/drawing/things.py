"""Things that lie or hang beside a rope: a steel tape, a tag, a piece of web sling."""

import math
from random import Random

from PIL import Image, ImageChops

from app.photos.drawing.camera import Camera, Colour, Layer, Point, laid_on, mixed, noise, shade
from app.photos.drawing.curve import Curve
from app.photos.drawing.rope import Rope, braid, fibres

TAPE = (236, 204, 74)
INK = (28, 26, 24)


def tape(picture: Image.Image, camera: Camera, start: Point, length_mm: int, mm: float) -> Image.Image:
    """Lay a measuring tape down: a long tick each centimetre, a short one each half, `mm` pixels apart."""
    layer = Layer(camera, TAPE)
    (x, y), end, height = start, start[0] + length_mm * mm, 15 * mm
    for step in range(6):  # hollow across, as a spring tape is
        upper, lower = y + height * step / 6, y + height * (step + 1) / 6
        layer.polygon([(x, upper), (end, upper), (end, lower), (x, lower)], shade(TAPE, 0.86 + 0.05 * step))
    layer.polygon([(x - 9, y - 6), (x, y - 6), (x, y + height + 6), (x - 9, y + height + 6)], (150, 152, 154))
    for tick in range(0, length_mm, 5):
        place, long = x + tick * mm, tick % 10 == 0
        layer.line([(place, y), (place, y + height * (0.42 if long else 0.24))], INK, 2.2 if long else 1.6)
        if long and tick:
            layer.text((place, y + height * 0.70), str(tick // 10), 18, INK)
    return laid_on(picture, layer, height=5, softness=5)


def tag(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, text: str | None) -> Image.Image:
    """Hang a stamped metal tag on a rope; without a text it is corroded and scratched past reading."""
    curve = Curve([(-120, 250), (450, 215), (1050, 240), (1720, 200)])
    rope = Rope(curve, lambda _along: 74.0, colour)
    line = Layer(camera, colour)
    braid(line, rope, rng, 0, curve.length)
    picture = laid_on(picture, line)
    metal = (182, 184, 180) if text else (142, 136, 124)
    plate = Layer(camera, metal)
    left, top, right, bottom = 400.0, 470.0, 1200.0, 960.0
    for step in range(7):
        inset = step * 1.4
        box = (left + inset, top + inset, right - inset, bottom - inset)
        plate.polygon(_rounded(box, 46 - inset), shade(metal, 0.70 + 0.05 * step))
    _brushed(plate, rng, (left, top, right, bottom), metal)
    plate.dot((800, 520), 29, shade(metal, 0.6))
    plate.dot((801, 522), 24, (34, 34, 34))
    if text:
        _stamp(plate, text, shade(metal, 0.28), shade(metal, 1.2))
    else:
        _stamp(plate, "0  3 — 4\n— —  —\n—  0 —", shade(metal, 0.66), metal)
        _spoil(plate, rng, (left, top, right, bottom), metal)
    picture = laid_on(picture, plate, height=14)
    return _cord(picture, camera, rng)


def _rounded(box: tuple[float, float, float, float], radius: float) -> list[Point]:
    left, top, right, bottom = box
    centres = [
        (right - radius, bottom - radius), (left + radius, bottom - radius),
        (left + radius, top + radius), (right - radius, top + radius),
    ]  # fmt: skip
    return [
        (x + radius * math.cos(turn), y + radius * math.sin(turn))
        for quarter, (x, y) in enumerate(centres)
        for turn in ((quarter + step / 8) * math.pi / 2 for step in range(9))
    ]


def _brushed(layer: Layer, rng: Random, box: tuple[float, float, float, float], metal: Colour) -> None:
    left, top, right, bottom = box
    for _ in range(420):
        x, y, length = rng.uniform(left + 14, right - 60), rng.uniform(top + 14, bottom - 14), rng.uniform(40, 260)
        tone = shade(metal, rng.uniform(0.92, 1.1))
        layer.line([(x, y), (min(x + length, right - 14), y + rng.uniform(-1, 1))], tone, 1)


def _stamp(layer: Layer, text: str, ink: Colour, glint: Colour) -> None:
    lines = text.split("\n")
    size = min(92.0, 1100 / max(map(len, lines)), 290 / len(lines))
    layer.text((801.5, 752.5), text, size, glint)
    layer.text((800, 750), text, size, ink)


def _spoil(layer: Layer, rng: Random, box: tuple[float, float, float, float], metal: Colour) -> None:
    left, top, right, bottom = box
    around = layer.image.getbbox() or (0, 0, 1, 1)
    face = layer.image.getchannel("A").crop(around)
    for colour, level in (((156, 150, 138), 122), ((112, 86, 64), 156), ((92, 84, 74), 172)):
        half = (face.width // 2, face.height // 2)
        patches = ImageChops.blend(noise(rng, (18, 11), half), noise(rng, (75, 46), half), 0.35)
        mask = patches.point([max(0, min(190, (grey - level) * 10)) for grey in range(256)])
        layer.image.paste((*colour, 255), around, ImageChops.multiply(mask.resize(face.size), face))
    for _ in range(130):
        x, y = rng.uniform(left + 60, right - 60), rng.uniform(top + 60, bottom - 60)
        turn = rng.gauss(0.5, 0.5)
        end = (x + math.cos(turn) * 45, y + math.sin(turn) * 45)
        layer.line([(x, y), end], shade(metal, rng.choice([0.7, 0.84, 1.24])), rng.uniform(1, 2.4))


def _cord(picture: Image.Image, camera: Camera, rng: Random) -> Image.Image:
    """Draw the cord from the tag's hole round the rope."""
    black = (58, 58, 62)
    layer = Layer(camera, black)
    for aside in (-15.0, 15.0):
        loop = Curve([(800 + aside * 0.3, 524), (792 + aside, 400), (806 + aside, 230), (800 + aside * 1.2, 138)])
        places = [loop.at(at)[0] for at in _every(loop.length, 8)]
        for step in range(5):
            layer.line([(x - step, y - step) for x, y in places], shade(black, 0.4 + 0.25 * step), 19 - 4 * step)
        for at in _every(loop.length, 7):
            layer.line([loop.beside(at, -7), loop.beside(at + 5, 7)], shade(black, rng.uniform(0.35, 0.6)), 1.6)
    return laid_on(picture, layer, height=8, softness=6)


def web_sling(picture: Image.Image, camera: Camera, rng: Random, colour: Colour, edge_cut: bool) -> Image.Image:
    """Lay a flat woven sling across, with a cut into its near edge when asked for."""
    curve = Curve([(-120, 560), (400, 600), (800, 585), (1200, 610), (1720, 570)])
    half = 190.0
    layer = Layer(camera, colour)
    edge = [curve.beside(at, half) for at in _every(curve.length, 16)]
    layer.polygon(edge + [curve.beside(at, -half) for at in reversed(_every(curve.length, 16))], shade(colour, 0.66))
    rows = 40
    for row in range(rows):
        across = -half + 2 * half * (row + 0.5) / rows
        stripe = mixed(colour, (92, 88, 96), 0.75) if row in (9, 10, 29, 30) else colour
        selvedge = 0.86 if row in (0, 1, rows - 2, rows - 1) else 1.0
        _warp(layer, rng, curve, across, half / rows, shade(stripe, selvedge))
    if edge_cut:
        _cut(layer, rng, curve, half, colour)
    return laid_on(picture, layer, height=16, softness=14)


def _every(length: float, step: float) -> list[float]:
    return [index * step for index in range(int(length / step) + 1)]


def _warp(layer: Layer, rng: Random, curve: Curve, across: float, half: float, colour: Colour) -> None:
    """Draw one row of the weave: short floats, each over two picks, staggered from row to row."""
    float_length = 17.0
    shift = float_length / 2 * (round(across / (2 * half)) % 2)
    for at in _every(curve.length, float_length):
        wave = 1 + 0.05 * math.sin(at / 170) + 0.04 * math.sin(across / 60)
        begin, end = at + shift, at + shift + float_length * 0.86
        outline = [
            curve.beside(begin, across), curve.beside(begin + 3, across - half * 0.94),
            curve.beside(end - 3, across - half * 0.94), curve.beside(end, across),
            curve.beside(end - 3, across + half * 0.94), curve.beside(begin + 3, across + half * 0.94),
        ]  # fmt: skip
        layer.polygon(outline, shade(colour, wave * rng.uniform(0.86, 0.98)))
        bright = [curve.beside(begin + 4, across - half * 0.3), curve.beside(end - 4, across - half * 0.3)]
        layer.line(bright, shade(colour, wave * 1.12), half * 0.45)


def _cut(layer: Layer, rng: Random, curve: Curve, half: float, colour: Colour) -> None:
    """Take a notch out of the near edge and let its cut yarns stand out."""
    middle, depth, gap = 860.0, 128.0, 50.0
    ragged = [(middle - gap, half + 6), (middle + gap * 1.5, half + 6)]
    steps = 9
    right = [(middle + gap * 1.5 * (1 - t) + rng.uniform(-5, 5), half - depth * t) for t in _shares(steps)]
    left = [(middle - gap * t + rng.uniform(-5, 5), half - depth * (1 - t)) for t in _shares(steps)]
    notch = [curve.beside(at, across) for at, across in (ragged[1:] + right + left + ragged[:1])]
    layer.draw.polygon(layer.fine(notch), (*layer.tint, 0))
    pale = mixed(colour, (250, 246, 238), 0.6)
    for side, heading in ((left, 0.0), (right, math.pi)):
        for at, across in side:
            root = curve.beside(at + (4 if heading else -4), across)
            fibres(layer, rng, root, heading + rng.uniform(-0.2, 0.5), 26, 9, pale, 0.42)
    for at in (middle - gap - 6, middle + gap * 1.5 + 8):
        fibres(layer, rng, curve.beside(at, half - 6), math.pi / 2 + rng.uniform(-0.4, 0.4), 80, 9, colour, 0.3)


def _shares(steps: int) -> list[float]:
    return [step / steps for step in range(1, steps + 1)]
