"""Flat things of known size that may lie in a photograph."""

import re
from dataclasses import dataclass

from app.language import mark
from inspection_rules.measures.photo_length import ID1_MM
from inspection_rules.quantity import QuantityError, parse

SMALLEST_MM, LARGEST_MM = 30.0, 2000.0


@dataclass(frozen=True, slots=True)
class Card:
    """A rectangle: what it is, as it is recorded, and its two sides, mm, the long one first."""

    name: str
    long: float
    short: float

    @property
    def sides(self) -> tuple[float, float]:
        """Both sides, mm."""
        return self.long, self.short


BLANK = Card(mark("Blank card, 85.60 × 53.98 mm"), *ID1_MM)
PRINTED = Card(mark("Printed scale card, 180 × 120 mm"), 180.0, 120.0)
SHEET = Card(mark("Sheet A4, 297 × 210 mm"), 297.0, 210.0)
CARDS = (BLANK, PRINTED, SHEET)


def card_of(text: str) -> Card | None:
    """Return the card of this name, or the rectangle that was typed, `210 x 148 mm`; None where it is no such thing."""
    for card in CARDS:
        if card.name == text:
            return card
    parts = re.split(r"[x×*]", text.strip().lower())
    if len(parts) != 2:
        return None
    unit = next((one for one in ("mm", "cm", "in", "m") if parts[1].strip().endswith(one)), "mm")
    try:
        sides = [_mm(part, unit) for part in parts]
    except QuantityError:
        return None
    long, short = max(sides), min(sides)
    if not SMALLEST_MM <= short <= long <= LARGEST_MM:
        return None
    return Card(f"rectangle, {long:g} × {short:g} mm", long, short)


def _mm(part: str, unit: str) -> float:
    written = part.strip()
    bare = re.fullmatch(r"[0-9.,/ ]+", written)
    return float(parse(f"{written} {unit}" if bare else written, "length").to("mm"))
