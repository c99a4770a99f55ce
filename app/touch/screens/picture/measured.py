"""What is asked for when measuring in a picture, and how what came out is written and kept."""

from collections.abc import Callable, Sequence

from app.language import mark, say
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.picture.cards import CARDS, Card, card_of
from app.touch.screens.picture.opened import Corners, Length
from app.touch.widgets.canvas import Point
from inspection_rules.item import Item
from inspection_rules.measures.photo_length import PhotoLength, recorded_u
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.pictures import Marking, Measured, spot
from inspection_rules.quantity import parse
from inspection_rules.uncertainty import PROPAGATED
from inspection_rules.walk import Step
from inspection_rules.words import MarkingKind, Method

OFFSET = "mark_offset"  # two legs lie side by side: only what lies along them counts
OFFSET_TAPS = (
    mark("the tail leg's mark"),
    mark("the standing leg's mark"),
    mark("a place between the legs, near the throat"),
    mark("a place between the legs, far from the throat"),
)
NO_CARD = mark("Type it as two sides, for instance 210 x 148 mm.")
WHICH = {
    False: mark("The tail leg's mark is the farther one from the throat, or level."),
    True: mark("The tail leg's mark is the nearer one to the throat."),
}


def asks_length(step: Step) -> bool:
    """Whether a step is a reading of a length that may be taken on a photograph."""
    observation = step.observation
    lengths = observation.kind == "reading" and observation.dimension == "length"
    return lengths and Method.PHOTOGRAPH in observation.methods


def card_page(present: Card, chosen: Callable[[Card | None], None]) -> ChoicePage:
    """Return the page that asks what lies beside the rope; `chosen` gets None where what was typed is none."""
    return ChoicePage(
        say("What lies beside the rope?"),
        [one.name for one in CARDS],
        lambda text: chosen(card_of(text)),
        present=present.name,
        typed=say("Another rectangle: its two sides, for instance 210 x 148 mm"),
    )


def height_of(item: Item) -> float | None:
    """Return how high the rope or web stands above the card's plane, mm; None where the record does not say."""
    size = nominal_diameter(item)
    if size is not None:
        return float(size)
    return float(item.thickness.to("mm")) if item.thickness is not None else None


def is_minus(found: PhotoLength) -> bool:
    """Whether it is written with a minus."""
    return round(found.length_mm, 1) < 0


def length_text(found: PhotoLength) -> str:
    """Write the length as it is recorded, without its sign."""
    return f"{abs(round(found.length_mm, 1)):.1f} mm"


def u_text(found: PhotoLength) -> str:
    """Write its standard uncertainty as it is recorded, never rounded down."""
    return f"{recorded_u(found.u_mm):.1f} mm"


def study_of(card: Card, corners: Corners) -> str:
    """Say where its uncertainty comes from."""
    tapped = "" if corners.found else ", corners as tapped"
    return f"{PROPAGATED}{card.name}, first-order propagation{tapped}"


def marking_of(
    size: tuple[int, int], corners: Corners, card: Card, path: Sequence[Point], result: Length, of: str, offset: bool
) -> Marking:
    """Return the length as it is kept with the picture, with all it takes to reckon it again.

    Args:
        of: id of the observation it is a reading of; empty for none.
    """
    found, (first, second) = result.found, result.sides
    ends = path[:2] if offset else path
    return Marking(
        kind=MarkingKind.LENGTH,
        points=tuple(spot(one, size) for one in ends),
        measured=Measured(
            card=tuple(spot(one, size) for one in corners.points),
            card_sides=(parse(f"{first:g} mm", "length"), parse(f"{second:g} mm", "length")),
            card_name=card.name,
            length=parse(length_text(found), "length"),
            u=parse(u_text(found), "length"),
            minus=is_minus(found),
            along=tuple(spot(one, size) for one in path[2:]) if offset else (),
            of=of,
            edges_found=corners.found,
        ),
    )
