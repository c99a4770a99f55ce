"""What the rope lies on when it is photographed: a painted deck, a wooden bench, or grass."""

import math
from itertools import pairwise
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageOps

from app.photos.drawing.camera import HEIGHT, WIDTH, Camera, Colour, mixed, noise, shade

SIZE = (WIDTH, HEIGHT)


def deck(camera: Camera, rng: Random) -> Image.Image:
    """Grey-green non-slip paint on steel, with a weld seam and a few spots of rust."""
    blotches = ImageChops.blend(noise(rng, (7, 5), SIZE), noise(rng, (32, 24), SIZE), 0.4)
    grit = noise(rng, (800, 600), SIZE)
    surface = ImageOps.colorize(ImageChops.blend(blotches, grit, 0.42), (74, 88, 86), (148, 162, 154))
    draw = ImageDraw.Draw(surface)
    y = rng.choice([0.13, 0.86]) * HEIGHT
    for step, tone in ((-5, (60, 68, 66)), (0, (128, 136, 130)), (5, (72, 80, 78))):
        seam = [camera.seen((x, y + step + 3 * math.sin(x / 23))) for x in range(-200, WIDTH + 200, 12)]
        draw.line(seam, tone, 7)
    for _ in range(14):
        _spot(draw, rng, (104, 66, 40))
    return surface.filter(ImageFilter.BoxBlur(0.8))


def _spot(draw: ImageDraw.ImageDraw, rng: Random, colour: Colour) -> None:
    x, y, r = rng.uniform(0, WIDTH), rng.uniform(0, HEIGHT), rng.uniform(2, 7)
    for _ in range(5):
        a, b = x + rng.uniform(-r, r), y + rng.uniform(-r, r)
        draw.ellipse((a - r, b - r / 2, a + r, b + r / 2), shade(colour, rng.uniform(0.8, 1.3)))


def bench(camera: Camera, rng: Random) -> Image.Image:
    """Four worn planks with their grain along the picture."""
    surface = Image.new("RGB", SIZE)
    edges = [-220, 210, 520, 850, HEIGHT + 220]
    for upper, lower in pairwise(edges):
        top = upper - 140  # room for the tilt and the turn of the camera
        board = (WIDTH, lower - upper + 280)
        grain = ImageChops.blend(noise(rng, (9, 60), board), noise(rng, (60, 320), board), 0.35)
        tone = rng.uniform(0.88, 1.08)
        wood = ImageOps.colorize(grain, shade((118, 88, 60), tone), shade((212, 178, 136), tone))
        mask = Image.new("L", board, 0)
        corners = [(-300, upper), (WIDTH + 300, upper), (WIDTH + 300, lower), (-300, lower)]
        seen = [camera.seen(corner) for corner in corners]
        ImageDraw.Draw(mask).polygon([(x, y - top) for x, y in seen], 255)
        surface.paste(wood, (0, top), mask)
    draw = ImageDraw.Draw(surface)
    for y in edges[1:-1]:
        draw.line([camera.seen((-300, y)), camera.seen((WIDTH + 300, y))], (38, 27, 19), 7)
        draw.line([camera.seen((-300, y + 6)), camera.seen((WIDTH + 300, y + 6))], (176, 142, 106), 2)
    return surface.filter(ImageFilter.BoxBlur(0.7))


def grass(camera: Camera, rng: Random) -> Image.Image:
    """Short grass, darker at its roots than at its tips, a little out of focus."""
    size = (WIDTH // 2, HEIGHT // 2)
    surface = ImageOps.colorize(noise(rng, (40, 30), size), (44, 56, 26), (84, 102, 48))
    draw = ImageDraw.Draw(surface)
    roots, tips, dry = (56, 74, 32), (150, 178, 88), (190, 180, 116)
    blades = 4600
    for index in range(blades):
        lift = index / blades
        x, y = rng.uniform(-20, size[0] + 20), rng.uniform(-10, size[1] + 40)
        length, lean = rng.uniform(16, 40), rng.gauss(0, 15)
        colour = mixed(roots, dry if rng.random() < 0.06 else tips, lift * rng.uniform(0.5, 1))
        bend = (x + lean * 0.3, y - length * 0.6)
        draw.line([(x, y), bend], colour, 3)
        draw.line([bend, (x + lean, y - length)], colour, 2)
    return surface.filter(ImageFilter.BoxBlur(0.7)).resize(SIZE, Image.Resampling.BICUBIC)
