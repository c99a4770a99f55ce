"""What is done to an opened photograph away from the window's thread: decoding, the card's edges, lengths, marks."""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from app.touch.screens.picture.cards import Card
from app.touch.widgets.canvas import Pixels
from inspection_rules.measures.photo_height import PhotoRefusedError
from inspection_rules.measures.photo_length import Photo, PhotoLength, photo_length, photo_offset
from inspection_rules.measures.plane import PlaneError, Point, alignment, homography, length

if TYPE_CHECKING:
    from PIL.Image import Image


U_TAPPED_PX = 3.0  # of a corner that was tapped and not found in the picture: judgement, no source


@dataclass(frozen=True, slots=True)
class Opened:
    """A decoded photograph, with what is known of the camera, and the day it was taken by the camera's clock."""

    image: "Image"
    photo: Photo
    taken: date | None = None

    @property
    def size(self) -> tuple[int, int]:
        """Width and height, pixels."""
        return self.photo.width, self.photo.height

    @property
    def pixels(self) -> Pixels:
        """Its pixels as the window wants them."""
        return self.image.size, self.image.tobytes()


@dataclass(frozen=True, slots=True)
class Corners:
    """The card's corners, pixels, how well each coordinate is known, and whether its edges were found."""

    points: tuple[Point, ...]
    u_px: float
    found: bool


def opened(jpeg: bytes) -> Opened:
    """Decode a stored photograph and read the focal length that it tells."""
    from PIL import Image

    from app.photos.day import taken_day
    from app.photos.exif import focal_35_of
    from app.photos.length import FRAME_DIAGONAL

    with Image.open(io.BytesIO(jpeg)) as picture:
        focal = focal_35_of(picture.getexif())
        plain = picture.convert("RGB")
    width, height = plain.size
    focal_px = focal * math.hypot(width, height) / FRAME_DIAGONAL if focal else None
    return Opened(plain, Photo(width, height, focal_px), taken_day(jpeg))


def edges(picture: Opened, taps: Sequence[Point]) -> Corners | str:
    """Find the card whose corners were tapped roughly, or say why it is not found."""
    from app.photos.edges import NoEdgeError, fit_card

    try:
        fitted = fit_card(picture.image, in_order(taps))
    except NoEdgeError as error:
        return str(error)
    return Corners(fitted.corners, fitted.u_px, found=True)


def as_tapped(taps: Sequence[Point]) -> Corners:
    """Take the corners as they were tapped, with the doubt that goes with it."""
    return Corners(in_order(taps), U_TAPPED_PX, found=False)


def in_order(taps: Sequence[Point]) -> tuple[Point, ...]:
    """Return the corners one way round, whatever the order in which they were tapped."""
    mx, my = sum(x for x, _ in taps) / len(taps), sum(y for _, y in taps) / len(taps)
    return tuple(sorted(taps, key=lambda one: math.atan2(one[1] - my, one[0] - mx)))


@dataclass(frozen=True, slots=True)
class Length:
    """A length with the card's sides in the order in which its corners go round."""

    found: PhotoLength
    sides: tuple[float, float]


def length_of(
    picture: Opened, corners: Corners, card: Card, path: Sequence[Point], u_path_px: float, rope_mm: float | None,
    offset: bool,
) -> Length | str:  # fmt: skip
    """Measure a path, or with `offset` how much farther the first point lies than the second along the last two.

    Returns why it cannot be measured where it cannot.
    """
    refused = ""
    for sides in _ways(corners.points, card):
        how = {"u_card_px": corners.u_px, "u_path_px": u_path_px, "rope_mm": rope_mm}
        try:
            if offset:
                found = photo_offset(picture.photo, corners.points, sides, path[:2], path[2:], **how)  # type: ignore[arg-type]
            else:
                found = photo_length(picture.photo, corners.points, sides, path, **how)  # type: ignore[arg-type]
        except PhotoRefusedError as error:
            refused = refused or str(error)
            continue
        return Length(found, sides)
    return refused[:1].upper() + refused[1:] + "."


@dataclass(frozen=True, slots=True)
class Proposed:
    """Marks that may be there: where, what is to be said of them, and where they are two the path between them."""

    places: tuple[Point, ...]
    doubt: str
    path: tuple[Point, ...]


def marks_along(
    picture: Opened, corners: Corners, sides: tuple[float, float], path: Sequence[Point], rope_mm: float
) -> Proposed | str:
    """Propose the marks along a path, or say why there are none to be proposed."""
    from app.photos.marks import propose_marks

    long, short = sides
    try:
        h = homography(corners.points, [(0.0, 0.0), (long, 0.0), (long, short), (0.0, short)])
        found = propose_marks(picture.image, h, path, rope_mm)
    except PlaneError as error:
        return f"{str(error)[:1].upper()}{str(error)[1:]}."
    between: tuple[Point, ...] = ()
    if len(found.marks) == 2:  # a bend between the two stays in the path
        first, last = found.marks
        along = [length(h, path[: number + 1]) for number in range(len(path))]
        bends = (one for one, at in zip(path, along, strict=True) if first.along_mm < at < last.along_mm)
        between = (first.pixel, *bends, last.pixel)
    return Proposed(tuple(one.pixel for one in found.marks), found.doubt, between)


def laid_over(earlier: Opened, present: Opened, points: Sequence[Point], onto: Sequence[Point]) -> Pixels | str:
    """Return the earlier picture warped so that its points lie on those of the present one, or why it cannot be."""
    from PIL import Image

    try:
        # The warp asks where each pixel of the result comes from: from the present picture back to the earlier.
        back = alignment(onto, points)
    except PlaneError as error:
        return f"{str(error)[:1].upper()}{str(error)[1:]}."
    warped = earlier.image.transform(present.size, Image.Transform.PERSPECTIVE, back[:8], Image.Resampling.BILINEAR)
    return warped.size, warped.tobytes()


def _ways(corners: Sequence[Point], card: Card) -> tuple[tuple[float, float], ...]:
    """The card's sides in the order in which they look, and the other way: seen aslant, the long one may look short."""
    first = math.dist(corners[0], corners[1]) + math.dist(corners[2], corners[3])
    second = math.dist(corners[1], corners[2]) + math.dist(corners[3], corners[0])
    looks = card.sides if first >= second else (card.short, card.long)
    return looks, (looks[1], looks[0])


def sides_of(corners: Corners, card: Card) -> tuple[float, float]:
    """Return the card's sides in the order in which they look."""
    return _ways(corners.points, card)[0]
