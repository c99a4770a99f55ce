"""What is unlikely in what was said of an item that is being entered: asked about, and never refused here.

What cannot be so (`impossible.py`) is asked about first.

All bounds are judgement without a source, but the trade table's 3 × (see `measures/size.py`).
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from inspection_rules.entering import COVERED, Fault, Said, spoken_for
from inspection_rules.impossible import SPLICES, day_of, impossible, mm_of, size_of
from inspection_rules.quantity import decimal_text
from inspection_rules.words import Construction, Fibre, ItemKind

NATURAL = (Fibre.MANILA, Fibre.SISAL, Fibre.HEMP)
LEAST_ROPE, MOST_ROPE = 3, 160  # mm, nominal diameter
LEAST_WEB, MOST_WEB = 15, 600  # mm
MOST_THICK = 40  # mm, all plies of a web
SHORTEST, LONGEST = 150, 2_000_000  # mm
LEAST_BURY, MOST_BURY = 20, 150  # nominal diameters
MOST_OFF = Fraction(1, 10)  # a circumference from the trade table's
FURTHEST_MARKS = 30  # nominal diameters
OLD_YEARS = 30


def unlikely(said: Said, today: date) -> tuple[Fault, ...]:
    """Return what looks wrong, each under the name it was said under, with a sentence; empty when nothing does."""
    return tuple(_unlikely(said, today))


def _unlikely(said: Said, today: date) -> Iterator[Fault]:
    yield from impossible(said, today)
    yield from _make(said)
    yield from _rope(said)
    yield from _web(said)
    yield from _long(said)
    for prefix in SPLICES:
        yield from _splice(said, prefix)
    yield from _forces(said)
    yield from _dates(said, today)


def _make(said: Said) -> Iterator[Fault]:
    fibre, construction = said.get("fibre", ""), said.get("construction", "")
    woven = (*COVERED, Construction.HOLLOW_BRAID_8, Construction.HOLLOW_BRAID_12, Construction.WEBBING)
    if fibre in NATURAL and (construction in woven or said.get("kind") in (ItemKind.WEB_SLING, ItemKind.ROUNDSLING)):
        yield Fault("construction" if construction else "fibre", f"{fibre} is seldom made so: it is mostly laid.")
    for prefix in SPLICES:
        splice = said.get(f"{prefix}splice", "")
        if splice and not spoken_for(splice, said):
            made = construction or said.get("kind", "")
            yield Fault(f"{prefix}splice", f"No rule speaks for a {splice} in {made}: it would be held.")


def _rope(said: Said) -> Iterator[Fault]:
    diameter, around = size_of(said, "diameter"), size_of(said, "circumference")
    name = "diameter" if diameter is not None else "circumference"
    d = diameter_said(said)
    if d is None or not d:
        return
    if not LEAST_ROPE <= d <= MOST_ROPE:
        yield Fault(name, f"That is a rope of {decimal_text(d)} mm diameter: check the unit, and which size was given.")
    if diameter is not None and diameter.unit == "in" and diameter.value >= 4:
        yield Fault(name, f"{diameter.text} is large for a diameter: inch sizes are mostly nominal circumferences.")
    if diameter is not None and around is not None:
        table = 3 * diameter.to("mm")
        if abs(around.to("mm") - table) > MOST_OFF * table:
            yield Fault(
                "circumference",
                f"A rope of {diameter.text} has a nominal circumference of {decimal_text(table)} mm by the trade "
                f"table; {around.text} was given.",
            )


def _web(said: Said) -> Iterator[Fault]:
    width, thick = mm_of(said, "width"), mm_of(said, "thickness")
    if width and not LEAST_WEB <= width <= MOST_WEB:
        yield Fault("width", f"{said['width']} is no usual width of a web: check the unit.")
    if thick and thick > MOST_THICK and not (width and thick >= width):
        yield Fault("thickness", f"{said['thickness']} is thick for a web: check the unit.")


def _long(said: Said) -> Iterator[Fault]:
    length = mm_of(said, "length")
    if not length:
        return
    if not SHORTEST <= length <= LONGEST:
        yield Fault("length", f"{said['length']} is no usual length: check the unit.")


def _splice(said: Said, prefix: str) -> Iterator[Fault]:
    d = diameter_said(said)
    for name in (f"{prefix}required_bury", f"{prefix}required_core_bury"):
        bury = mm_of(said, name)
        if d and bury and not LEAST_BURY * d <= bury <= MOST_BURY * d:
            times = decimal_text(bury / d)
            few = "less" if bury < LEAST_BURY * d else "more"
            bound = LEAST_BURY if bury < LEAST_BURY * d else MOST_BURY
            yield Fault(
                name,
                f"{said[name]} is {times} times the nominal diameter; an instruction seldom asks for {few} "
                f"than {bound}.",
            )
    marks = mm_of(said, f"{prefix}marks_at")
    if d and marks and marks > FURTHEST_MARKS * d:
        yield Fault(f"{prefix}marks_at", f"{said[f'{prefix}marks_at']} from the throat is far for a mark on a leg.")


def _forces(said: Said) -> Iterator[Fault]:
    limit = size_of(said, "working_load_limit")
    for name, most in (("rated_choker", 1), ("rated_basket", 2)):
        rated = size_of(said, name)
        if rated is not None and limit is not None and rated.to("kN") > most * limit.to("kN"):
            yield Fault(name, f"{rated.text} is more than {most} times its limit straight, {limit.text}.")


def _dates(said: Said, today: date) -> Iterator[Fault]:
    for name in ("made", "first_used"):
        day = day_of(said.get(name, ""))
        if day is not None and today.year - day.year > OLD_YEARS:
            yield Fault(name, f"{day.isoformat()} is more than {OLD_YEARS} years ago.")


def diameter_said(said: Said) -> Fraction | None:
    """Return the nominal diameter in mm that was said, or a third of the circumference; None for neither."""
    diameter, around = mm_of(said, "diameter"), mm_of(said, "circumference")
    if diameter is not None:
        return diameter
    return around / 3 if around is not None else None
