"""Scenes with known truth: a card beside a rope on a table, as a hand holds a phone over it, and what is then found."""

import random
from dataclasses import dataclass
from statistics import mean, median, pstdev

from app.photos.drawing.table import Card, Pinhole, Rope, table_picture
from app.photos.edges import NoEdgeError, fit_card
from inspection_rules.measures.photo_height import PhotoRefusedError
from inspection_rules.measures.photo_length import ID1_MM, Photo, photo_length

# How phones and hands are: invented. The card: ISO/IEC 7810 (secondary), 85.60 × 53.98 mm, corners of 2.88 to 3.48 mm.
WIDTH, HEIGHT = 2016, 1512
FOCAL_OVER_WIDTH = (0.68, 0.8)
ABOVE_MM = (220, 360)
MOST_TILT = 30
BEND = 0.012  # at the picture's corner, 0.8 focal lengths out, 0.8 % of the distance
U_FOCAL, U_FOCAL_WORST = 0.04, 0.10  # of what the camera writes down; with a zoom or a crop among it
U_TAP, U_ROUGH = 1.0, 8.0  # px
U_CORNER = 0.3  # px, where the edges are not fitted in a picture


@dataclass(frozen=True)
class Scene:
    camera: Pinhole
    card: Card
    rope: Rope
    length: float

    def corners(self) -> list[tuple[float, float]]:
        return [self.camera.seen(spot) for spot in self.card.corners()]

    def marks(self) -> list[tuple[float, float]]:
        return [self.camera.seen(self.rope.middle_seen(self.camera, mark)) for mark in self.rope.marks]


@dataclass(frozen=True)
class Found:
    """Error in parts of the length, with the correction and without it, and how many u it is.

    Attributes:
        blind_in_u: the same of a length for which nobody knows the camera's distance. unsized_in_u: of one for which
            nobody knows the rope's diameter. reading: whether the first of these two would be taken as a reading.
    """

    error: float
    in_u: float
    blind_in_u: float
    unsized_in_u: float
    reading: bool
    uncorrected: float
    bias: float


def scene(rng: random.Random) -> Scene:
    """Make one that a person would keep: card and marks are in the picture."""
    while True:
        camera = Pinhole(
            WIDTH, HEIGHT, rng.uniform(*FOCAL_OVER_WIDTH) * WIDTH, (rng.uniform(-20, 20), rng.uniform(-20, 20)),
            rng.uniform(*ABOVE_MM), rng.uniform(0, MOST_TILT), rng.uniform(0, 360), rng.uniform(0, 360),
            rng.gauss(0, BEND),
        )  # fmt: skip
        diameter = rng.choice([8, 12, 16, 20, 24, 32, 40])
        beside = -ID1_MM[1] / 2 - diameter / 2 - rng.uniform(4, 15)
        card = Card((0, beside), ID1_MM, rng.uniform(2.88, 3.48), rng.uniform(-4, 4))
        length = rng.uniform(60, 130)
        first = 400 + rng.uniform(-length / 2 - 20, -length / 2 + 20)
        rope = Rope((-400, rng.uniform(0, 6)), rng.uniform(-1, 1), diameter, 800, (first, first + length))
        made = Scene(camera, card, rope, length)
        if all(40 < x < WIDTH - 40 and 40 < y < HEIGHT - 40 for x, y in (*made.corners(), *made.marks())):
            return made


def measured(made: Scene, rng: random.Random, *, in_picture: bool, u_focal: float) -> Found:
    """Tap the marks, tap or fit the card, and measure."""
    path = [(x + rng.gauss(0, U_TAP), y + rng.gauss(0, U_TAP)) for x, y in made.marks()]
    if in_picture:
        rough = [(x + rng.gauss(0, U_ROUGH), y + rng.gauss(0, U_ROUGH)) for x, y in made.corners()]
        fitted = fit_card(table_picture(made.camera, made.card, [made.rope], rng), rough)
        corners, u = list(fitted.corners), fitted.u_px
    else:
        u = U_CORNER
        corners = [(x + rng.gauss(0, u), y + rng.gauss(0, u)) for x, y in made.corners()]
    camera, rope = made.camera, made.rope
    photo = Photo(camera.width, camera.height, camera.focal * (1 + rng.gauss(0, u_focal)))
    how = {"u_card_px": u, "u_path_px": U_TAP}
    true = photo_length(photo, corners, made.card.size, path, rope_mm=rope.diameter, **how)
    flat = photo_length(photo, corners, made.card.size, path, rope_mm=0, **how)
    unknown = Photo(photo.width, photo.height)
    blind = photo_length(unknown, corners, made.card.size, path, rope_mm=rope.diameter, **how)
    unsized = photo_length(photo, corners, made.card.size, path, **how)
    return Found(
        error=true.length_mm / made.length - 1,
        in_u=(true.length_mm - made.length) / true.u_mm,
        blind_in_u=(blind.length_mm - made.length) / blind.u_mm,
        unsized_in_u=(unsized.length_mm - made.length) / unsized.u_mm,
        reading=blind.reading,
        uncorrected=flat.length_mm / made.length - 1,
        bias=rope.diameter / (camera.above - rope.diameter),
    )


@dataclass(frozen=True)
class Told:
    """What many scenes say together; `refused` counts those that no length was taken from."""

    scenes: int
    refused: int
    covered: float
    covered_blind: float
    covered_unsized: float
    blind_readings: float
    median_error: float
    mean_error: float
    spread_in_u: float
    bias_left: float
    uncorrected: float

    def __str__(self) -> str:
        return (
            f"{self.scenes} scenes, {self.refused} refused: 95 % intervals cover {self.covered:.1%}, without the "
            f"camera's distance {self.covered_blind:.1%} ({self.blind_readings:.0%} of them readings), without the "
            f"rope's diameter {self.covered_unsized:.1%}, median error "
            f"{self.median_error:.2%}, mean error {self.mean_error:+.2%}, spread {self.spread_in_u:.2f} u; without the "
            f"correction {self.uncorrected:+.2%}, of which {self.bias_left:+.2%} is not the known bias"
        )


def many(count: int, seed: int, *, in_picture: bool, u_focal: float = U_FOCAL) -> Told:
    """Measure in many scenes."""
    rng = random.Random(seed)
    found, refused = [], 0
    for _ in range(count):
        try:
            found.append(measured(scene(rng), rng, in_picture=in_picture, u_focal=u_focal))
        except (PhotoRefusedError, NoEdgeError):
            refused += 1
    return Told(
        count, refused, mean(abs(one.in_u) <= 1.96 for one in found),
        mean(abs(one.blind_in_u) <= 1.96 for one in found), mean(abs(one.unsized_in_u) <= 1.96 for one in found),
        mean(one.reading for one in found), median(abs(one.error) for one in found),
        mean(one.error for one in found), pstdev([one.in_u for one in found]),
        mean(one.uncorrected - one.bias for one in found), mean(one.uncorrected for one in found),
    )  # fmt: skip
