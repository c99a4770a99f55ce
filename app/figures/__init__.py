"""Drawings as descriptions: the signs, the rope of the walk, and where to look or how to hold the tape."""

from app.figures.catalogue import FIGURES, VARIANTS, figure, figure_at, variant
from app.figures.shapes import Anchor, Cap, Circle, Figure, Ink, Label, Line, Point, Polygon, Shape, placed
from app.figures.signs import not_yet, sign
from app.figures.spine import Spine, Station, spine
from inspection_rules.walk import by_hand

__all__ = [
    "FIGURES",
    "VARIANTS",
    "Anchor",
    "Cap",
    "Circle",
    "Figure",
    "Ink",
    "Label",
    "Line",
    "Point",
    "Polygon",
    "Shape",
    "Spine",
    "Station",
    "by_hand",
    "figure",
    "figure_at",
    "not_yet",
    "placed",
    "sign",
    "spine",
    "variant",
]
