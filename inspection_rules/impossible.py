"""What cannot be so in what was said of an item that is being entered, each with what to do about it."""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from inspection_rules.entering import ENDS, MOST_FITTINGS, MOST_JOINTS, Fault, Said
from inspection_rules.quantity import Quantity, QuantityError, parse

SPLICES = (*(f"end_{end}_" for end in ENDS), *(f"joint_{n}_" for n in range(1, MOST_JOINTS + 1)))
SIZES = ("diameter", "circumference", "width", "thickness", "length",
         *(f"{prefix}{name}" for prefix in SPLICES for name in ("required_bury", "required_core_bury", "marks_at")),
         *(f"fitting_{n}_{name}" for n in range(1, MOST_FITTINGS + 1) for name in ("throat_opening", "thickness")),
         "working_load_limit", "rated_choker", "rated_basket", "breaking_force", "ship_design_force")  # fmt: skip


def impossible(said: Said, today: date) -> tuple[Fault, ...]:
    """Return what cannot be so, each under the name it was said under; empty when everything can."""
    return (*_nothing(said), *_longer(said), *_stronger(said), *_to_come(said, today))


def _nothing(said: Said) -> Iterator[Fault]:
    for name in SIZES:
        size = size_of(said, name)
        if size is not None and not size.value:
            yield Fault(name, f"{size.text} is nothing at all. Write what it is, or leave it out if it is not known.")


def _longer(said: Said) -> Iterator[Fault]:
    width, thick = mm_of(said, "width"), mm_of(said, "thickness")
    if width and thick and thick >= width:
        yield Fault("thickness", f"{said['thickness']} is as thick as the web is wide. Check both.")
    length = mm_of(said, "length")
    if not length:
        return
    for name in ("diameter", "width"):
        size = mm_of(said, name)
        if size and size >= length:
            yield Fault(
                name, f"{said[name]} is more than the item is long, {said['length']}. Check both and their units."
            )
    buries = {end: mm_of(said, f"end_{end}_required_bury") or Fraction(0) for end in ENDS}
    if sum(buries.values()) > length:
        name = next(f"end_{end}_required_bury" for end, bury in buries.items() if bury)
        yield Fault(
            name,
            f"The buries of both ends are together longer than the item, {said['length']}. Check the length, and the "
            "bury that the instruction asks for.",
        )
    for prefix in SPLICES:
        place, marks = mm_of(said, f"{prefix}from_a"), mm_of(said, f"{prefix}marks_at")
        if place and place > length:
            name = f"{prefix}from_a"
            yield Fault(name, f"{said[name]} from end A is beyond the item's {said['length']}. Check both.")
        if marks and marks > length:
            name = f"{prefix}marks_at"
            yield Fault(name, f"{said[name]} from the throat is beyond the item's {said['length']}. Check both.")


def _stronger(said: Said) -> Iterator[Fault]:
    limit, strength = size_of(said, "working_load_limit"), size_of(said, "breaking_force")
    if limit is not None and strength is not None and limit.value and limit.to("kN") >= strength.to("kN"):
        yield Fault("working_load_limit", f"It may carry {limit.text} and breaks at {strength.text}. Check both.")


def _to_come(said: Said, today: date) -> Iterator[Fault]:
    for name in ("made", "first_used"):
        day = day_of(said.get(name, ""))
        if day is not None and day > today:
            yield Fault(
                name,
                f"{day.isoformat()} is still to come. Write the day it was, or leave it out if it is not known.",
            )


def size_of(said: Said, name: str) -> Quantity | None:
    """Return the size that was said under a name; None where none was, or none that can be read."""
    try:
        return parse(said.get(name, ""))
    except QuantityError:
        return None


def mm_of(said: Said, name: str) -> Fraction | None:
    """Return the length in mm that was said under a name; None where none was, or none that can be read."""
    size = size_of(said, name)
    return size.to("mm") if size is not None and size.dimension == "length" else None


def day_of(text: str) -> date | None:
    """Return the date a text is; None where it is none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
