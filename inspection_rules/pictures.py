"""What is said of a photograph: what it is a view of, and what was laid over it, kept as data and never drawn into it.

Points are whole numbers in ten-thousandths of the picture's long side, from its upper left corner, x to the right and
y down: a record's body holds no floats, and a copy of another size shows the same.
"""

from typing import TYPE_CHECKING, Annotated, Self

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import Hash, Length, Model, Text
from inspection_rules.words import JOINTS, UNSPLICED, MarkingKind, PartKind, SpliceKind, View

if TYPE_CHECKING:  # a record holds these
    from inspection_rules.item import Item, Part

Point = tuple[float, float]
WHOLE = 10_000
MOST_POINTS = 400
Coordinate = Annotated[int, Field(ge=-WHOLE, le=2 * WHOLE)]
Spot = tuple[Coordinate, Coordinate]
LEAST_POINTS = {
    MarkingKind.ARROW: 2,
    MarkingKind.RING: 2,
    MarkingKind.FREEHAND: 2,
    MarkingKind.LENGTH: 2,
    MarkingKind.TEXT: 1,
}


class Measured(Model):
    """How a length was taken from a picture, so that it can be drawn and reckoned again.

    Attributes:
        card: the corners of the thing of known size, in order, the first two along its first side.
        card_sides: its two sides. `card_name`: what it is.
        length, u: what came out, and its standard uncertainty. `minus`: whether the length is against the way asked.
        along: of an offset between two legs, two points that say which way they run; else empty.
        of: id of the observation it is a reading of; empty for a length of no reading.
        edges_found: whether the card's edges were found in the picture, or its corners taken as they were tapped.
    """

    card: Annotated[tuple[Spot, ...], Field(min_length=4, max_length=4)]
    card_sides: tuple[Length, Length]
    card_name: Text
    length: Length
    u: Length
    minus: bool = False
    along: Annotated[tuple[Spot, ...], Field(max_length=2)] = ()
    of: Text = ""
    edges_found: bool = True


class Marking(Model):
    """One thing laid over a picture.

    Attributes:
        points: an arrow's tail and head, a ring's middle and a point of it, a line's points in order, a text's place.
        text: what stands beside it. measured: of a length.
    """

    kind: MarkingKind
    points: Annotated[tuple[Spot, ...], Field(min_length=1, max_length=MOST_POINTS)]
    text: Annotated[Text, Field(max_length=200)] = ""
    measured: Measured | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if len(self.points) < LEAST_POINTS[self.kind]:
            raise PydanticCustomError("marking", "it needs more points")
        if self.kind is MarkingKind.TEXT and not self.text:
            raise PydanticCustomError("marking", "a text needs its words")
        if (self.kind is MarkingKind.LENGTH) != (self.measured is not None):
            raise PydanticCustomError("marking", "a length, and only a length, says how it was measured")
        return self


class PictureNote(Model):
    """What is said of one picture: the part and the view it shows, and what was laid over it, oldest first.

    Attributes:
        original: SHA-256 of the file it was made from; None where that was not written down.
    """

    picture: Hash
    part: Text = ""
    view: View | None = None
    markings: Annotated[tuple[Marking, ...], Field(max_length=50)] = ()
    original: Hash | None = None

    @model_serializer(mode="wrap")
    def _as_before(self, handler: SerializerFunctionWrapHandler) -> dict[str, object]:
        """Leave out what came later where there is none: a note without it is written as it always was."""
        written: dict[str, object] = handler(self)
        if self.original is None:
            written.pop("original", None)
        return written


def spot(point: Point, size: tuple[int, int]) -> Spot:
    """Return a pixel in ten-thousandths of the long side of a picture of this size."""
    unit = WHOLE / max(size)
    return round(point[0] * unit), round(point[1] * unit)


def pixel(where: Spot, size: tuple[int, int]) -> Point:
    """Return where such a point lies in a picture of this size, pixels."""
    unit = max(size) / WHOLE
    return where[0] * unit, where[1] * unit


VIEW_AT = {
    "eye": View.EYE_BACK,
    "where it bore": View.EYE_BACK,
    "throat": View.THROAT,
    "marks": View.THROAT,
    "bury": View.TIP,
    "tucks": View.ENTRY,
    "stitch": View.LOCK,
    "tag": View.TAG,
}
"""Which view a station asks for; any other asks for the worst wear."""


def views_of(item: "Item", part: str, station: str) -> tuple[View, ...]:
    """Return the views that can be taken of a part, the one that this station asks for first."""
    if not part:
        return (View.TAG,)
    found = [*_of(item.part(part)), View.WORST, View.TAG]
    asked = VIEW_AT.get(station, View.WORST)
    if asked not in found:
        asked = View.WORST
    return (asked, *(one for one in found if one is not asked))


def _of(part: "Part") -> list[View]:
    if part.kind not in (PartKind.TERMINATION, PartKind.JOINT) or part.splice is SpliceKind.PLAIN_END:
        return []
    found = [View.EYE_BACK] if part.splice not in JOINTS else []
    if part.splice not in UNSPLICED:
        found += [View.THROAT, View.ENTRY, View.TIP]
    if part.lock_stitched or part.splice is SpliceKind.SEWN_EYE:
        found.append(View.LOCK)
    return found
