"""Draw the demo's photographs, so that the project needs nobody's pictures of ropes.

Each scene shows one thing an inspector would photograph, drawn flat, seen through a hand-held camera
and stored as a phone would store it. All of them are invented. The same scene, seed, ground and date
always give the same bytes with the same version of Pillow.
"""

from dataclasses import dataclass
from datetime import datetime
from random import Random
from typing import Literal

from PIL import Image

from app.photos.drawing import eyes, ground, sections, things
from app.photos.drawing.camera import Camera, Colour, camera, photographed

Ground = Literal["deck", "bench", "grass"]

GROUNDS = {"deck": ground.deck, "bench": ground.bench, "grass": ground.grass}
ROPE_COLOURS: tuple[Colour, ...] = ((208, 188, 140), (150, 172, 190), (206, 206, 198), (206, 148, 84))
WEB_COLOURS: tuple[Colour, ...] = ((206, 190, 156), (196, 196, 190))


@dataclass(frozen=True)
class BuriedEye:
    """A buried eye with its throat and a mark on each leg; the tail leg's mark has come out by `offset_mm`."""

    offset_mm: float = 0.0


@dataclass(frozen=True)
class LockStitching:
    """Lock stitching from close by."""

    state: Literal["whole", "broken", "leaning"] = "whole"


@dataclass(frozen=True)
class BuryZone:
    """The end of a bury with its tip mark."""

    state: Literal["sound", "hollow", "tail showing"] = "sound"


@dataclass(frozen=True)
class TuckedEye:
    """An eye tucked into a laid rope, its three tails standing out."""


@dataclass(frozen=True)
class Body:
    """A stretch of a braid's body."""

    state: Literal["sound", "strand cut", "abraded"] = "sound"


@dataclass(frozen=True)
class Tag:
    """A stamped tag; lines of `text`, or None for one that cannot be read any more."""

    text: str | None


@dataclass(frozen=True)
class WebSling:
    """A web sling, its edge cut or not."""

    edge_cut: bool = True


Scene = BuriedEye | LockStitching | BuryZone | TuckedEye | Body | Tag | WebSling


def render_scene(scene: Scene, seed: int, taken_at: datetime, lies_on: Ground = "deck") -> bytes:
    """Return a JPEG of 1600 × 1200 pixels with `taken_at` as its EXIF date, to the second, without a zone.

    The seed decides the rope's colour, how the camera is held, and all that is random in rope and ground.
    """
    rng = Random(seed)
    held = camera(rng)
    colour = rng.choice(WEB_COLOURS if isinstance(scene, WebSling) else ROPE_COLOURS)
    picture = GROUNDS[lies_on](held, rng)
    return photographed(_with(scene, picture, held, rng, colour), rng, taken_at)


def _with(scene: Scene, picture: Image.Image, held: Camera, rng: Random, colour: Colour) -> Image.Image:
    match scene:
        case BuriedEye(offset_mm):
            return eyes.buried_eye(picture, held, rng, colour, offset_mm)
        case LockStitching(state):
            return sections.lock_stitching(picture, held, rng, colour, state)
        case BuryZone(state):
            return sections.bury_zone(picture, held, rng, colour, state)
        case TuckedEye():
            return eyes.tucked_eye(picture, held, rng, colour)
        case Body(state):
            return sections.body(picture, held, rng, colour, state)
        case Tag(text):
            return things.tag(picture, held, rng, colour, text)
        case WebSling(edge_cut):
            return things.web_sling(picture, held, rng, colour, edge_cut)
