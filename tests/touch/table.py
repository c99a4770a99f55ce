"""Photographs for the screens' tests: a card beside ropes on a table, with every point's true place in the picture."""

import io
import math
import random
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from app.photos.drawing.table import Card, Pinhole, Point, Rope, table_picture
from app.photos.exif import chosen_exif
from inspection_rules.measures.photo_length import ID1_MM

WIDTH, HEIGHT, FOCAL_35 = 2016, 1512, 26
# A 35 mm frame's diagonal over the picture's.
FOCAL = FOCAL_35 * math.hypot(WIDTH, HEIGHT) / math.hypot(36, 24)
ROPE_MM = 24.0


@dataclass(frozen=True)
class Table:
    """What lies there and how it is seen; the ropes lie side by side, the tail leg above."""

    camera: Pinhole
    card: Card
    ropes: tuple[Rope, ...]

    @property
    def corners(self) -> list[Point]:
        return [self.camera.seen(spot) for spot in self.card.corners()]

    def on_rope(self, rope: int, along: float) -> Point:
        """Where a person taps a place of a rope: the middle between its outlines."""
        return self.camera.seen(self.ropes[rope].middle_seen(self.camera, along))

    def between(self, along: float) -> Point:
        """A place between the two legs."""
        (ax, ay), (bx, by) = self.on_rope(0, along), self.on_rope(1, along)
        return (ax + bx) / 2, (ay + by) / 2


def table(*marks: tuple[float, ...], tilt: float = 12.0, above: float = 300.0) -> Table:
    """One rope for each group of marks, mm along it; 400 is under the camera."""
    ropes = tuple(
        Rope((-400.0, 18.0 - number * (ROPE_MM + 1)), 0.0, ROPE_MM, 800.0, one) for number, one in enumerate(marks)
    )
    beside = ropes[-1].start[1] - ROPE_MM / 2 - 12 - ID1_MM[1] / 2
    camera = Pinhole(WIDTH, HEIGHT, FOCAL, (0.0, -10.0), above, tilt, 70.0, 3.0)
    return Table(camera, Card((0.0, beside), ID1_MM, 3.18, 1.0), ropes)


@cache
def jpeg(made: Table, dark: bool = False) -> bytes:
    """The picture as a camera writes it; `dark` leaves the card no edge that stands out."""
    ground = (96, 104, 100)
    if dark:
        made = replace(made, card=replace(made.card, colour=ground))
    picture = table_picture(made.camera, made.card, made.ropes, random.Random(1), ground=ground, grain=0.06)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92, exif=chosen_exif("2050-10-12T09:20:00", None, FOCAL_35))
    return out.getvalue()


def write(folder: Path, made: Table, name: str = "throat.jpg", dark: bool = False) -> Path:
    """Put the picture where a person chooses it from."""
    folder.mkdir(exist_ok=True)
    (folder / name).write_bytes(jpeg(made, dark))
    return folder / name
