"""The camera that takes the demo's pictures: where a point is seen, and what a lens and a sensor add.

Scenes are laid out flat, in the pixels of the finished picture; the camera looks down on them a little
from below the picture's lower edge, so what lies higher up is farther away and smaller.
"""

import io
import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from functools import cache
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

from app.photos.exif import chosen_exif
from app.resources import asset

WIDTH, HEIGHT = 1600, 1200
FINE = 2  # layers are drawn this many times larger and then shrunk, which smooths every edge
QUALITY = 90

Point = tuple[float, float]
Colour = tuple[int, int, int]


@dataclass(frozen=True)
class Camera:
    """How it is held: `tilt` is the part by which the far edge shrinks, `roll` a turn in radians."""

    tilt: float
    roll: float

    def seen(self, point: Point) -> Point:
        """Return where in the picture a point of the flat scene is seen."""
        return self.all_seen([point])[0]

    def all_seen(self, points: Iterable[Point]) -> list[Point]:
        """Return where in the picture points of the flat scene are seen."""
        cos, sin, shrink = math.cos(self.roll), math.sin(self.roll), self.tilt / HEIGHT
        middle_x, middle_y = WIDTH / 2, HEIGHT / 2
        found = []
        for x, y in points:
            right, down = x - middle_x, y - middle_y
            turned = right * sin + down * cos
            far = 1 - shrink * turned
            found.append((middle_x + (right * cos - down * sin) / far, middle_y + turned / far))
        return found


def camera(rng: Random) -> Camera:
    """Hold the camera as steadily as a person with one hand on the rope."""
    return Camera(tilt=rng.uniform(0.10, 0.22), roll=rng.uniform(-0.07, 0.07))


@dataclass
class Layer:
    """One thing of the scene, drawn on nothing; `tint` is the colour its edges melt into."""

    camera: Camera
    tint: Colour
    image: Image.Image = field(init=False)
    draw: ImageDraw.ImageDraw = field(init=False)

    def __post_init__(self) -> None:
        self.image = Image.new("RGBA", (WIDTH * FINE, HEIGHT * FINE), (*self.tint, 0))
        self.draw = ImageDraw.Draw(self.image)

    def polygon(self, points: Iterable[Point], fill: Colour) -> None:
        """Fill an outline."""
        self.draw.polygon(self.fine(points), (*fill, 255))

    def line(self, points: Iterable[Point], fill: Colour, width: float) -> None:
        """Draw along points with a width in picture pixels."""
        self.draw.line(self.fine(points), (*fill, 255), max(1, round(width * FINE)), joint="curve")

    def dot(self, centre: Point, radius: float, fill: Colour) -> None:
        """Fill a circle."""
        ((x, y),) = self.fine([centre])
        r = radius * FINE
        self.draw.ellipse((x - r, y - r, x + r, y + r), (*fill, 255))

    def text(self, centre: Point, text: str, size: float, fill: Colour) -> None:
        """Write lines of text, turned as the camera is."""
        font = ImageFont.truetype(str(asset("fonts/Inter-Bold.ttf")), size * FINE)
        box = ImageDraw.Draw(Image.new("L", (1, 1))).multiline_textbbox((0, 0), text, font, align="center")
        stencil = Image.new("L", (int(box[2]) + 8, int(box[3]) + 8), 0)
        ImageDraw.Draw(stencil).multiline_text((4, 4), text, 255, font, align="center")
        stencil = stencil.rotate(-math.degrees(self.camera.roll), Image.Resampling.BICUBIC, expand=True)
        ((x, y),) = self.fine([centre])
        corner = (round(x - stencil.width / 2), round(y - stencil.height / 2))
        self.image.paste((*fill, 255), corner, stencil)

    def fine(self, points: Iterable[Point]) -> list[Point]:
        """Return where points of the scene lie in `image`."""
        return [(x * FINE, y * FINE) for x, y in self.camera.all_seen(points)]


def laid_on(
    picture: Image.Image, layer: Layer, height: float = 18.0, softness: float = 12.0, dark: float = 0.62
) -> Image.Image:
    """Return the picture with the layer lying on it and its shadow below and to the right.

    `height` is how far the shadow falls and `softness` how blurred it is, in pixels.
    """
    box = layer.image.getbbox()
    if box is None:
        return picture
    # Only the part with something on it, and room for its shadow, is worth the work.
    room = round(height + 2.5 * softness)
    left, top = max(0, box[0] // FINE - room), max(0, box[1] // FINE - room)
    right, bottom = min(WIDTH, box[2] // FINE + room), min(HEIGHT, box[3] // FINE + room)
    small = layer.image.crop((left * FINE, top * FINE, right * FINE, bottom * FINE)).reduce(FINE)
    alpha = small.getchannel("A")
    blurred = alpha.reduce(4).filter(ImageFilter.GaussianBlur(softness / 4))
    blurred = blurred.resize(alpha.size, Image.Resampling.BILINEAR)
    cast = Image.new("L", alpha.size)
    cast.paste(blurred, (0, round(height)))  # what enters at the edge throws its shadow there too
    cast.paste(blurred, (round(height * 0.7), round(height)))
    picture = picture.copy()
    picture.paste((16, 15, 18), (left, top), cast.point([round(level * dark) for level in range(256)]))
    picture.paste(small.convert("RGB"), (left, top), alpha)
    return picture


def shade(colour: Colour, light: float) -> Colour:
    """Return the colour under more or less light (1 leaves it)."""
    red, green, blue = (min(255, max(0, round(part * light))) for part in colour)
    return red, green, blue


def mixed(one: Colour, other: Colour, share: float) -> Colour:
    """Return `one` with a share (0 to 1) of `other`."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(one, other, strict=True))
    return red, green, blue


def noise(rng: Random, size: tuple[int, int], stretched_to: tuple[int, int] | None = None) -> Image.Image:
    """Return grey noise, smooth when it is stretched to more pixels than it has."""
    grain = Image.frombytes("L", size, rng.randbytes(size[0] * size[1]))
    return grain.resize(stretched_to, Image.Resampling.BICUBIC) if stretched_to else grain


def photographed(picture: Image.Image, rng: Random, taken_at: datetime) -> bytes:
    """Return the JPEG a phone would have made: soft at the rim, uneven light, grain, the date."""
    picture = _soft_rim(picture)
    picture = ImageChops.multiply(picture, _uneven_light(rng).convert("RGB"))
    picture = picture.point([min(255, round(255 * (level / 255 * 1.1) ** 0.86)) for level in range(256)] * 3)
    grain = Image.merge("RGB", [noise(rng, (WIDTH, HEIGHT)).filter(ImageFilter.BoxBlur(0.6))] * 3)
    picture = Image.blend(picture, ImageChops.overlay(picture, grain), 0.16)
    out = io.BytesIO()
    exif = chosen_exif(taken_at.replace(tzinfo=None, microsecond=0).isoformat(), None)
    picture.save(out, "JPEG", quality=QUALITY, exif=exif)
    return out.getvalue()


def _soft_rim(picture: Image.Image) -> Image.Image:
    blurred = picture.reduce(2).filter(ImageFilter.BoxBlur(1.8)).resize(picture.size, Image.Resampling.BILINEAR)
    return Image.composite(blurred, picture, _rim())


@cache
def _rim() -> Image.Image:
    """How far each place is out of focus: nothing in the middle, all in the corners."""
    share = [max(0, min(255, (level - 120) * 2)) for level in range(256)]
    return Image.radial_gradient("L").point(share).resize((WIDTH, HEIGHT), Image.Resampling.BILINEAR)


def _uneven_light(rng: Random) -> Image.Image:
    """White towards the light, a little grey away from it and in the corners."""
    falling = Image.linear_gradient("L").rotate(rng.choice([100, 120, 150, 200]), Image.Resampling.BILINEAR)
    falling = falling.crop((50, 50, 206, 206)).point([205 + level * 50 // 255 for level in range(256)])
    corners = Image.radial_gradient("L").point([max(0, level - 110) // 3 for level in range(256)])
    light = ImageChops.subtract(falling.resize((256, 256), Image.Resampling.BILINEAR), corners)
    return light.resize((WIDTH, HEIGHT), Image.Resampling.BILINEAR)
